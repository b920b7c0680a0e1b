import type { Utility } from '../model/index.ts'
import { type Answer, found, type Given, knownOr, stated } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { lineDistance } from './crane.formulas.ts'
import { type CraneCase, standingOf } from './crane.ts'
import * as kinds from './kinds.ts'

type Corner = readonly [Given<'m'>, Given<'m'>]

/** Plan distance of a point from a line of straight pieces, m. */
export function distanceToLine(
  [px, py]: readonly [number, number],
  corners: readonly (readonly [number, number])[],
): number {
  const [first] = corners
  if (first === undefined) return Number.POSITIVE_INFINITY
  if (corners.length === 1) return Math.hypot(px - first[0], py - first[1])
  return Math.min(
    ...corners.slice(1).map(([bx, by], i) => {
      const [ax, ay] = corners[i] as readonly [number, number]
      const length = (bx - ax) ** 2 + (by - ay) ** 2
      const t = length === 0 ? 0 : Math.min(1, Math.max(0, ((px - ax) * (bx - ax) + (py - ay) * (by - ay)) / length))
      return Math.hypot(px - ax - t * (bx - ax), py - ay - t * (by - ay))
    }),
  )
}

/** A crane at work beside every live line: the distance kept, or the line dead. Practice 55. */
export function lineChecks(c: CraneCase, utilities: Readonly<Record<string, Utility>>, near: number): Check[] {
  return Object.entries(utilities)
    .filter(([, u]) => u.clearance !== undefined)
    .map(([id, u]) => lineCheck(c, id, u, near))
}

function lineCheck(c: CraneCase, id: string, u: Utility, near: number): Check {
  const corners = (u.line ?? []) as readonly Corner[]
  const standing = standingOf(c)
  const pointer = pointerOf('utilities', id)
  const dead = u.deadOnLifts !== undefined
  return check({
    kind: kinds.lineClearance,
    subject: { pointer, id, name: u.what },
    of: c.isSecond ? `${c.lift}/${c.id}` : c.lift,
    title: `${kinds.lineClearance.title}: ${u.what}, lift ${c.lift}`,
    demand: dead
      ? stated('m', 0, `none while dead: ${u.deadOnLifts}`)
      : (u.clearance as NonNullable<Utility['clearance']>),
    capacity: dead
      ? stated('m', 0, 'line de-energised and visibly earthed')
      : lineDistance.show({
          d:
            corners.length === 0 ? knownOr<'m'>(undefined, 'm', `${pointer}/line`) : planDistance(c, corners, standing),
          r: c.radius,
        }),
    near,
    assumptions: [
      dead
        ? `Dead on lift days: ${u.deadOnLifts}`
        : 'The boom may point anywhere: no slew limit is counted, and no height.',
    ],
    cautions: [
      'A line is live until it is proved dead and earthed. Keep the distance that the owner and local law set.',
    ],
  })
}

function planDistance(
  c: CraneCase,
  corners: readonly Corner[],
  standing: readonly [number, number] | undefined,
): Answer<'m'> {
  const at = pointerOf('systems', c.id, 'standings')
  if (standing === undefined) return knownOr<'m'>(undefined, 'm', at)
  const [x, y] = c.system.standings[c.standing as number] as Corner
  const points = corners.map(([a, b]): [number, number] => [a.value as number, b.value as number])
  return found({
    unit: 'm',
    value: distanceToLine(standing, points),
    method: 'plan distance from the slewing centre to the nearest piece of the line',
    inputs: Object.fromEntries([x, y, ...corners.flat()].map((g) => [g.pointer, g])),
    residuals: [],
  })
}
