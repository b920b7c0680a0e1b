import type { Vec3 } from '../numeric/vector.ts'
import type { Problem } from '../working/problem.ts'

/** Three corners of a triangle as they stand in a file. */
export type Corners = readonly [Vec3, Vec3, Vec3]
export type Triangles = { triangles: readonly Corners[] } | { problems: readonly Problem[] }

/** More is refused: such a shape is a scan, and to be thinned before it is a part. */
export const MOST_TRIANGLES = 2_000_000

/** One problem of a file. */
export const fileProblem = (name: string, found: string, expected: string): { problems: Problem[] } => ({
  problems: [{ pointer: name, found, expected }],
})

/** Too many triangles for a part. */
export const tooMany = (name: string, count: number): { problems: Problem[] } =>
  fileProblem(name, `${count} triangles`, `at most ${MOST_TRIANGLES}: thin the mesh first`)
