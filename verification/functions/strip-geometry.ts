import { type Cell, cellOf } from '../../engine/src/numeric/cell.ts'
import { encounter } from '../../engine/src/numeric/encounter.ts'
import { type Freedom, freedomOf, withoutRepeats } from '../../engine/src/numeric/freedom.ts'
import { straightMotion } from '../../engine/src/numeric/motion.ts'
import { AT_REST, IDENTITY, scale, type Vec3 } from '../../engine/src/numeric/vector.ts'
import { contactNormals } from '../../engine/src/strip/contact.ts'
import { blockBetween } from '../../engine/src/strip/pair-block.ts'
import { cellsOf } from '../../engine/src/strip/shape.ts'
import { numberOf, rowsOf } from '../inputs.ts'
import type { Inputs, Value, VerifiedFunction } from '../types.ts'

/** What cases of shapes and sweeps call by name. */
export const geometry: Record<string, VerifiedFunction> = {
  /** Cells into which contact planes cut all directions: regions, arcs and points, each found as a freedom of its own. */
  'strip.direction-cells': directionCells,
  /** How far from straight out a journal leaves the bore that wraps it: by its contacts, and by sweeps of the two shapes. */
  'strip.journal-leaves': journalLeaves,
  /** A drive pushed forward out of the shield that it is seated in, then lifted: the room behind it. */
  'strip.forward-then-up': forwardThenUp,
}

/** Every choice of a side of each plane. */
const sidesOf = (normals: readonly Vec3[]): Vec3[][] =>
  normals.reduce<Vec3[][]>(
    (sides, n) =>
      sides.flatMap((s) => [
        [...s, n],
        [...s, scale(n, -1)],
      ]),
    [[]],
  )

/** Directions on both sides of a plane at once: those in it. */
const within = (n: Vec3): Vec3[] => [n, scale(n, -1)]

/** Normals of planes in general position; `flat` when all directions lie in one plane, and the planes are lines in it. */
function directionCells(inputs: Inputs): Record<string, Value> {
  const normals = rowsOf(inputs, 'normals') as unknown as Vec3[]
  const plane: Vec3[] = inputs.flat === true ? within([0, 0, 1]) : []
  const found = (chosen: readonly Vec3[]): Freedom => freedomOf([...plane, ...chosen])
  const rest = (...left: number[]): Vec3[] => normals.filter((_, i) => !left.includes(i))
  const count = (freedoms: readonly Freedom[], dimension: number): number =>
    freedoms.filter((f) => f.dimension === dimension).length
  const open = sidesOf(normals).map(found)
  const onOne = normals.flatMap((n, i) => sidesOf(rest(i)).map((s) => found([...within(n), ...s])))
  const onTwo = normals.flatMap((n, i) =>
    normals
      .slice(i + 1)
      .flatMap((m, k) => sidesOf(rest(i, i + 1 + k)).map((s) => found([...within(n), ...within(m), ...s]))),
  )
  const pointsOf = (freedoms: readonly Freedom[]): number =>
    withoutRepeats(freedoms.filter((f) => f.dimension === 1).flatMap((f) => f.rays)).length
  if (plane.length > 0) return { arcs: count(open, 2), points: pointsOf(onOne) }
  return { regions: count(open, 3), arcs: count(onOne, 2), points: pointsOf(onTwo) }
}

const HALVINGS = 30

/** A journal along x in a bore of no clearance, wrapped from below; the lean is looked for across the axis. */
function journalLeaves(inputs: Inputs): Record<string, Value> {
  const wrap = numberOf(inputs, 'wrap')
  const tolerance = numberOf(inputs, 'tolerance')
  const journal = cellsOf(
    'journal',
    [{ op: 'add', body: { kind: 'frustum', from: [0, 0, 0], to: [1, 0, 0], radii: [1, 1] } }],
    AT_REST,
  )
  const start = (3 * Math.PI) / 2 - wrap / 2
  const bore = cellsOf(
    'bore',
    [{ op: 'add', body: { kind: 'ring sector', inner: 1, outer: 1.5, rear: 0, front: 1, start, sweep: wrap } }],
    AT_REST,
  )
  const block = blockBetween(journal, bore, tolerance)
  const leaves = (lean: number): boolean => block([0, Math.sin(lean), Math.cos(lean)]) === 'free'
  let [free, held] = [0, Math.PI / 2]
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (free + held) / 2
    if (leaves(middle)) free = middle
    else held = middle
  }
  const freedom = freedomOf(contactNormals(journal, bore, tolerance))
  const out = freedom.rays.filter((r) => Math.abs(r[0]) < 1e-6 && r[2] > 1e-9)
  return {
    dimension: freedom.dimension,
    byContacts: out.length === 0 ? null : Math.max(...out.map((r) => Math.atan2(Math.abs(r[1]), r[2]))),
    bySweeps: leaves(0) ? free : null,
    alongTheAxis: block([1, 0, 0]) === 'free',
  }
}

function forwardThenUp(inputs: Inputs): Record<string, Value> {
  const [seat, ahead] = [numberOf(inputs, 'seat'), numberOf(inputs, 'ahead')]
  const drive = cellOf({ kind: 'frustum', from: [-seat, 0, 0], to: [0, 0, 0], radii: [2, 2] }, AT_REST) as Cell
  const shield = cellOf(
    { kind: 'ring sector', inner: 2, outer: 3, rear: -5, front: 0, start: 0, sweep: 2 * Math.PI },
    AT_REST,
  ) as Cell
  const limits = { tolerance: 1e-3, reach: 5, resolution: 1e-4, deepest: true }
  const forward = encounter([drive], [shield], straightMotion(AT_REST, [ahead, 0, 0]), limits)
  const up = encounter([drive], [shield], straightMotion({ turn: IDENTITY, shift: [ahead, 0, 0] }, [0, 0, 20]), limits)
  return { feasible: forward.verdict === 'clear' && up.verdict === 'clear', room: up.gap - up.depth }
}
