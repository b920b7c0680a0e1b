import { placedSupport } from '../numeric/body.ts'
import { dot, norm, subtract, unit, type Vec3 } from '../numeric/vector.ts'
import { type Answer, found, given } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { faultsFound, NONE } from '../working/fault.ts'
import { APART } from './apart.ts'
import { RIGGING_CAUTIONS } from './caution.ts'
import type { Hull } from './hull.ts'
import { pointOnPiece } from './kinds.ts'
import type { Pick } from './pick.ts'
import { type HangingPoint, legOf } from './rig.ts'

/** Brackets and plates under a lug are seldom drawn: so far from the solids it is taken to stand on one, m. Common practice, no source. */
const BRACKET = 0.5

/** Every lifting point of the piece in this lift lies where the piece has something to hold it: a part that is left out holds no lug. */
export function pointsOnCheck(pick: Pick, hull: Hull | undefined): Check[] {
  const points = ownPoints(pick)
  if (points.length === 0) return []
  const measured = points.map((point) => ({ point, off: hull === undefined ? undefined : offHull(hull, point.at) }))
  const beyond = measured.filter(({ off }) => off !== undefined && off > BRACKET)
  const far = beyond.filter(
    ({ point, off }) => (off as number) > (reachOf(point) ?? Number.POSITIVE_INFINITY) + BRACKET,
  )
  const unsaid = beyond.filter(({ point }) => reachOf(point) === undefined)
  return [
    check({
      kind: pointOnPiece,
      subject: pick.subject,
      demand: faultsFound(far.length, 'lifting points farther from every solid of the piece than their lugs reach', {
        ...Object.fromEntries(measured.map(({ point, off }) => [`${point.id}, off the piece`, offAnswer(off)])),
        ...Object.fromEntries(
          unsaid.map(({ point }) => [
            `${point.id}, reach of its lug`,
            given('m', `${point.pointer}/lug/reach`, undefined),
          ]),
        ),
      }),
      capacity: NONE,
      near: 1,
      cautions: RIGGING_CAUTIONS,
      found: far.map(
        ({ point, off }) =>
          `${point.id} lies ${(off as number).toFixed(2)}\u00a0m off the parts of this piece: is its part in the piece, and its place right?`,
      ),
    }),
  ]
}

const reachOf = ({ point }: HangingPoint): number | undefined => point.lug?.reach?.value

const offAnswer = (off: number | undefined): Answer<'m'> =>
  found({
    unit: 'm',
    value: off,
    method: 'largest gap over directions to the nearest solid',
    inputs: {},
    residuals: [],
  })

/** Points of the piece itself, each once; those of gear lie on the gear. */
function ownPoints(pick: Pick): HangingPoint[] {
  const hooks = pick.tail === undefined ? [pick.main] : [pick.main, pick.tail]
  const lower = hooks.flatMap((hooked) =>
    (hooked.rigging?.legs ?? []).flatMap((_, i) => legOf(pick, hooked, i).lower ?? []),
  )
  const own = lower.filter(({ pointer }) => pointer.startsWith(`${pick.pieceAt}/points/`))
  return [...new Map(own.map((point) => [point.pointer, point])).values()]
}

/** Distance of a point from the nearest solid of a hull, machine frame, never more than it is; 0 inside, m. */
function offHull(hull: Hull, p: Vec3): number {
  const boxed = hull.solids.map((solid) => ({ solid, off: offBox(solid, p) })).sort((a, b) => a.off - b.off)
  let nearest = Number.POSITIVE_INFINITY
  for (const { solid, off } of boxed) {
    if (off >= nearest) break
    nearest = Math.min(nearest, Math.max(off, offSolid(solid, p)))
  }
  return nearest
}

type Solid = Hull['solids'][number]

const offBox = ({ low, high }: Solid, p: Vec3): number =>
  norm(
    [0, 1, 2].map((i) =>
      Math.max(0, (low[i] as number) - (p[i] as number), (p[i] as number) - (high[i] as number)),
    ) as unknown as Vec3,
  )

/** Largest gap between a point and a convex solid over directions, m. */
function offSolid(solid: Solid, p: Vec3): number {
  const out = subtract(p, solid.centre)
  const directions = norm(out) < 1e-9 ? APART : [...APART, unit(out)]
  return Math.max(0, ...directions.map((d) => dot(p, d) - placedSupport(solid, d)))
}
