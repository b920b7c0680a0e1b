import type { Machine } from '../model/index.ts'
import {
  add,
  addMatrix,
  IDENTITY,
  type Mat3,
  scale,
  scaleMatrix,
  subtract,
  type Vec3,
  ZERO,
} from '../numeric/vector.ts'
import { type Answer, found, knownOr } from '../working/answer.ts'
import type { SiUnit } from '../working/unit.ts'
import { type Lump, NO_SPREAD } from './lump.ts'
import { outer } from './part.ts'
import { placedX, placedY, placedZ } from './set.formulas.ts'

/** Three answers, along x, y and z. */
export type Along<U extends SiUnit> = readonly [Answer<U>, Answer<U>, Answer<U>]

export type Axis = 0 | 1 | 2

/** Number of a term; what is unknown stands in as nothing, and the answers above it are open. */
export const massOf = (lump: Lump): number => lump.mass.value ?? 0

/** Σ m c / Σ m; the middle of the places where nothing weighs anything. */
export function centreOf(lumps: readonly Lump[]): Vec3 {
  const total = lumps.reduce((sum, l) => sum + massOf(l), 0)
  const weigh = total > 0 ? massOf : () => 1
  const weight = total > 0 ? total : Math.max(1, lumps.length)
  const [x, y, z] = lumps.reduce<Vec3>((sum, l) => add(sum, scale(l.cog, weigh(l))), ZERO)
  return [x / weight, y / weight, z / weight]
}

/** Σ [S_i + m_i d dᵀ] about a point: parallel axes. */
export function spreadAbout(lumps: readonly Lump[], centre: Vec3): Mat3 {
  return lumps.reduce<Mat3>((sum, l) => {
    const shifted = scaleMatrix(outer(subtract(l.cog, centre)), massOf(l))
    return addMatrix(sum, addMatrix(l.spread, shifted))
  }, NO_SPREAD)
}

/** Inertia tensor from second moments: tr(S) E − S. */
export function inertiaOf(spread: Mat3): Mat3 {
  const trace = spread[0][0] + spread[1][1] + spread[2][2]
  return addMatrix(scaleMatrix(IDENTITY, trace), scaleMatrix(spread, -1))
}

/** The centre along one machine axis, with the moments about it as the residual. */
export function centreAnswer(lumps: readonly Lump[], axis: Axis, centre: Vec3): Answer<'m'> {
  const inputs: Record<string, Answer> = {}
  for (const lump of lumps) {
    inputs[`mass of ${lump.label}`] = lump.mass
    Object.assign(inputs, lump.place)
  }
  const arms = lumps.map((l) => l.cog[axis] - centre[axis])
  const value = lumps.reduce((sum, l, i) => sum + massOf(l) * (arms[i] as number), 0)
  const size = lumps.reduce(
    (sum, l, i) => sum + Math.abs(massOf(l)) * (Math.abs(l.cog[axis]) + Math.abs(arms[i] as number)),
    0,
  )
  return found({
    unit: 'm',
    value: centre[axis],
    method: `centre of gravity along machine ${'xyz'[axis]}: Σ m c / Σ m`,
    inputs,
    residuals: [{ title: 'Σ m (c − centre)', value, unit: 'kg m', tolerance: 1e-9 * size }],
  })
}

/** A point of the machine in the site frame, with what it rests on; open without a pose. */
export function siteAnswers([x, y, z]: Along<'m'>, pose: Machine['pose'] | undefined): Along<'m'> {
  const at = (field: string) => `/machine/pose/${field}`
  const [X0, Y0, Z0] = ([0, 1, 2] as const).map((i) =>
    knownOr(pose?.origin[i], 'm', at(`origin/${i}`)),
  ) as unknown as Along<'m'>
  const roll = knownOr(pose?.roll, 'rad', at('roll'))
  const pitch = knownOr(pose?.pitch, 'rad', at('pitch'))
  const yaw = knownOr(pose?.yaw, 'rad', at('yaw'))
  return [
    placedX.show({ X0, x, y, z, roll, pitch, yaw }),
    placedY.show({ Y0, x, y, z, roll, pitch, yaw }),
    placedZ.show({ Z0, x, y, z, roll, pitch }),
  ]
}
