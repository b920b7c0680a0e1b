import type { Mat3, Vec3 } from '../numeric/vector.ts'

/** Spread of a body of revolution: `along` its axis, `across` in both other directions. */
export function spreadOfRevolution(axis: Vec3, along: number, across: number): Mat3 {
  const row = (i: number): Vec3 =>
    [0, 1, 2].map(
      (j) => (along - across) * (axis[i] as number) * (axis[j] as number) + (i === j ? across : 0),
    ) as unknown as Vec3
  return [row(0), row(1), row(2)]
}
