import type { Body } from '../numeric/body.ts'
import { AT_REST, add, applyBack, norm, rotationBy, subtract, type Vec3 } from '../numeric/vector.ts'
import { type Answer, knownOr } from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import { type Hull, hullOf, turnOnto } from './hull.ts'
import { legEnds } from './legResult.ts'
import type { Pick } from './pick.ts'
import type { Suspension } from './suspension.ts'

/** Lower and upper end of every leg as the piece hangs by plan, machine frame, m; none where the hang is not known. */
export function endsInMachine(suspension: Suspension): (readonly [lower: Vec3, upper: Vec3])[] {
  const { hang, hookMachine, legs, rig } = suspension
  if (hang === undefined || hookMachine === undefined) return []
  const level = rotationBy(turnOnto(hang.up, [0, 0, 1]))
  const inMachine = (fromHook: Vec3): Vec3 => add(hookMachine, applyBack(rig.turn, applyBack(level, fromHook)))
  return legs.flatMap((_, i) => {
    const ends = legEnds(i, suspension)
    return ends === undefined ? [] : [[inMachine(ends[0]), inMachine(ends[1])] as const]
  })
}

/** Between the nodes that legs hang from, machine frame, m. */
export function spreaderBars(suspension: Suspension): (readonly [from: Vec3, to: Vec3])[] {
  const upperEnds = endsInMachine(suspension).flatMap(([, upper], i): [string, Vec3][] => {
    const leg = suspension.legs[i]?.leg
    return leg === undefined || leg.above || leg.node === undefined ? [] : [[leg.node, upper]]
  })
  const nodes = [...new Map(upperEnds).values()]
  return nodes.flatMap((a, i) => nodes.slice(i + 1).map((b) => [a, b] as const))
}

/** Legs as lines, spreaders as round bars between their ends, as the piece hangs by plan. Machine frame. */
export function riggingHull(pick: Pick, suspension: Suspension): Hull {
  const half = halfOfSpreader(pick)
  const legs = endsInMachine(suspension).map(([lower, upper], i) => ({
    part: suspension.legs[i]?.leg.id ?? `leg ${i + 1}`,
    body: bar(lower, upper, 0),
  }))
  const bars = spreaderBars(suspension).map(([a, b]) => ({ part: 'the spreader', body: bar(a, b, half) }))
  return hullOf(
    [...legs, ...bars]
      .filter(({ body }) => norm(subtract(body.to, body.from)) > 0)
      .map((one) => ({ ...one, pose: AT_REST })),
  )
}

const bar = (from: Vec3, to: Vec3, radius: number): Extract<Body, { kind: 'frustum' }> => ({
  kind: 'frustum',
  from,
  to,
  radii: [radius, radius],
})

/** Half of the largest side of the spreaders between hooks and piece, m; 0 where there are none. */
export function halfOfSpreader(pick: Pick): number {
  const sides = spreadersOf(pick).flatMap((id) => {
    const section = pick.gear[id]?.beam?.section
    return section === undefined ? [] : [section.depth.value as number, section.width.value as number]
  })
  return Math.max(0, ...sides) / 2
}

/** What that is taken from; open where a spreader has no section. */
export const spreaderSections = (pick: Pick): Record<string, Answer> =>
  Object.fromEntries(
    spreadersOf(pick).map((id): [string, Answer] => [
      `depth of ${pick.gear[id]?.name ?? id}`,
      knownOr(pick.gear[id]?.beam?.section.depth, 'm', pointerOf('gear', id, 'beam')),
    ]),
  )

const spreadersOf = ({ main, tail }: Pick): string[] => [
  ...new Set([main, tail].flatMap((hooked) => Object.values(hooked?.rigging?.nodes ?? {}).map(({ gear }) => gear))),
]
