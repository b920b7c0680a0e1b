import { coordinates } from '../model/index.ts'
import { add, IDENTITY, type Pose, scale, subtract, type Vec3, ZERO } from '../numeric/vector.ts'
import { GRAVITY } from '../working/answer.ts'
import type { Hooked, Pick } from './pick.ts'
import { inBody, type Rig, type RigLeg } from './rig.ts'
import type { LineEnd, Suspended, SuspendedBody, SuspendedLine } from './suspended.ts'

/** What hangs from one hook: its legs, and the ends of its spreaders. */
export interface Chain {
  hooked: Hooked
  legs: readonly RigLeg[]
}

/** An arrangement as bodies and lines: the piece is the first body; lines stand in the order of the legs of all chains. */
export interface Levels {
  suspended: Suspended
  /** Where each chain's hook stands, site axes, from the body frame's place as the piece lies level. */
  hooks: readonly Vec3[]
  /** Which chain each line belongs to. */
  chainOf: readonly number[]
}

/** Whether one hook's arrangement has spreaders in series or side by side, which a single spreader's pose does not describe. */
export function inSeries({ rigging }: Hooked): boolean {
  const nodes = rigging?.nodes ?? {}
  const gear = new Set(Object.values(nodes).map((node) => node.gear))
  return gear.size > 1
}

/** Whether anything hangs between the hook and the legs of the piece. */
export const hasSpreader = ({ rigging }: Hooked): boolean => Object.keys(rigging?.nodes ?? {}).length > 0

/** The arrangement in numbers; undefined where one is missing. A spreader that no leg holds is pinned to its hook. */
export function levelsOf(pick: Pick, rig: Rig, chains: readonly Chain[], weight: number): Levels | undefined {
  if (chains.some((c) => c.legs.some((leg) => leg.length.value === undefined || leg.stiffness.value === undefined)))
    return undefined
  if (chains.some((c) => c.legs.some((leg) => !leg.above && leg.lower === undefined))) return undefined
  const piece: SuspendedBody = { weight, cog: inBody(rig, rig.cogMachine), start: { turn: IDENTITY, shift: ZERO } }
  const bodies = [piece]
  const lines: SuspendedLine[] = []
  const hooks: Vec3[] = []
  for (const chain of chains) {
    const plan = chains.length === 1 ? piece.cog : middleOf(chain.legs.map((leg) => lowerPoint(rig, leg)))
    const hung = chainOnHook(pick, rig, chain, [plan[0], plan[1], 0], bodies.length)
    if (hung === undefined) return undefined
    hooks.push(hung.hook)
    bodies.push(...hung.bodies)
    lines.push(...hung.lines)
  }
  return {
    suspended: { bodies, lines },
    hooks,
    chainOf: chains.flatMap((chain, c) => chain.legs.map(() => c)),
  }
}

const lowerPoint = (rig: Rig, leg: RigLeg): Vec3 | undefined =>
  leg.lower === undefined ? undefined : inBody(rig, leg.lower.at)

function middleOf(points: readonly (Vec3 | undefined)[]): Vec3 {
  const known = points.flatMap((p) => (p === undefined ? [] : [p]))
  return scale(
    known.reduce<Vec3>((sum, p) => add(sum, p), ZERO),
    1 / Math.max(1, known.length),
  )
}

interface Frame {
  gear: string
  body: number
  weight: number
  /** Ends by name, its own frame. */
  ends: ReadonlyMap<string, Vec3>
  isPinned: boolean
}

/** One hook's spreaders and lines, with the hook as high as the shortest way down to the level piece lets it. */
function chainOnHook(pick: Pick, rig: Rig, chain: Chain, plan: Vec3, firstBody: number) {
  const frames = framesOf(pick, chain, firstBody)
  if (frames.some((f) => Number.isNaN(f.weight))) return undefined
  const place = new Map(frames.flatMap((f) => [...f.ends].map(([end, at]) => [end, { frame: f, at }] as const)))
  const drops = dropsOf(chain, frames, place)
  const rises = chain.legs.flatMap((leg) => {
    const to = lowerPoint(rig, leg)
    if (to === undefined) return []
    const end = leg.node === undefined ? ZERO : (place.get(leg.node)?.at ?? ZERO)
    const across = Math.hypot(to[0] - plan[0] - end[0], to[1] - plan[1] - end[1])
    return [to[2] + reach(leg, across) + (leg.node === undefined ? 0 : (drops.get(leg.node) ?? 0))]
  })
  const hook: Vec3 = [plan[0], plan[1], Math.min(...rises)]
  const endOf = (name: string | undefined): LineEnd => {
    const at = name === undefined ? undefined : place.get(name)
    return at === undefined ? { at: hook } : { body: at.frame.body, at: at.at }
  }
  return {
    hook,
    bodies: frames.map((f) => bodyOf(f, hook, drops)),
    lines: chain.legs.map(
      (leg): SuspendedLine => ({
        lower: leg.above ? endOf(leg.node) : { body: 0, at: lowerPoint(rig, leg) as Vec3 },
        upper: endOf(leg.above ? leg.over : leg.node),
        length: leg.length.value as number,
        stiffness: leg.stiffness.value as number,
      }),
    ),
  }
}

const reach = (leg: RigLeg, across: number): number =>
  Math.sqrt(Math.max(0, (leg.length.value as number) ** 2 - across ** 2))

function framesOf(pick: Pick, { hooked, legs }: Chain, firstBody: number): Frame[] {
  const nodes = Object.entries(hooked.rigging?.nodes ?? {})
  const gear = [...new Set(nodes.map(([, node]) => node.gear))]
  return gear.map((id, k): Frame => {
    const ends = new Map(nodes.filter(([, n]) => n.gear === id).map(([name, n]) => [name, coordinates(n.offset)]))
    return {
      gear: id,
      body: firstBody + k,
      weight: (pick.gear[id]?.mass.value ?? Number.NaN) * (GRAVITY.value as number),
      ends,
      isPinned: !legs.some((leg) => leg.above && ends.has(leg.node as string)),
    }
  })
}

/** Each end's depth below the hook as everything hangs level: along the shortest way up. */
function dropsOf(
  { legs }: Chain,
  frames: readonly Frame[],
  place: ReadonlyMap<string, { frame: Frame; at: Vec3 }>,
): ReadonlyMap<string, number> {
  const drops = new Map<string, number>()
  for (const f of frames.filter(({ isPinned }) => isPinned)) for (const [end, at] of f.ends) drops.set(end, -at[2])
  // one level after the other: as many rounds as there are spreaders are enough
  for (const _ of frames)
    for (const f of frames.filter(({ ends, isPinned }) => !isPinned && ![...ends.keys()].every((e) => drops.has(e)))) {
      const held = legs.filter((leg) => leg.above && f.ends.has(leg.node as string))
      if (held.some((leg) => leg.over !== undefined && !drops.has(leg.over))) continue
      const tops = held.map((leg) => {
        const to = f.ends.get(leg.node as string) as Vec3
        const from = leg.over === undefined ? ZERO : (place.get(leg.over)?.at ?? ZERO)
        const across = Math.hypot(to[0] - from[0], to[1] - from[1])
        return (leg.over === undefined ? 0 : (drops.get(leg.over) as number)) + reach(leg, across) + to[2]
      })
      const down = Math.min(...tops)
      for (const [end, at] of f.ends) drops.set(end, down - at[2])
    }
  return drops
}

function bodyOf({ weight, ends, isPinned }: Frame, hook: Vec3, drops: ReadonlyMap<string, number>): SuspendedBody {
  const cog = middleOf([...ends.values()])
  const [name, at] = [...ends][0] as [string, Vec3]
  const start: Pose = {
    turn: IDENTITY,
    shift: isPinned ? hook : add(hook, [0, 0, -(drops.get(name) ?? 0) - at[2]]),
  }
  return { weight, cog, start, ...(isPinned ? { pin: { at: ZERO, anchor: hook } } : {}) }
}

/** The same with one chain's hook somewhere else. */
export function withHookMoved(levels: Levels, chain: number, by: Vec3): Levels {
  const { suspended, hooks, chainOf } = levels
  const hook = hooks[chain] as Vec3
  const moved = add(hook, by)
  const end = (e: LineEnd, line: number): LineEnd =>
    e.body === undefined && chainOf[line] === chain ? { at: moved } : e
  return {
    ...levels,
    hooks: hooks.map((h, c) => (c === chain ? moved : h)),
    suspended: {
      bodies: suspended.bodies.map((body) =>
        body.pin !== undefined && body.pin.anchor === hook ? { ...body, pin: { ...body.pin, anchor: moved } } : body,
      ),
      lines: suspended.lines.map((line, i) => ({ ...line, upper: end(line.upper, i) })),
    },
  }
}

/** From the main hook, for drawings. */
export const fromHook = (hook: Vec3, p: Vec3): Vec3 => subtract(p, hook)

/** With the centre of gravity of the piece moved, body frame, m. */
export function withCogMoved(levels: Levels, by: Vec3): Levels {
  const [piece, ...others] = levels.suspended.bodies as readonly [SuspendedBody, ...SuspendedBody[]]
  const bodies = [{ ...piece, cog: add(piece.cog, by) }, ...others]
  return { ...levels, suspended: { ...levels.suspended, bodies } }
}
