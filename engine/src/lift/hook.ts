import type { Arrangement } from '../model/index.ts'
import { type Answer, given, knownOr, stated, sumOf, type Term } from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import { ropeMass } from './chart.formulas.ts'
import { itemsMass, loadWithDynamics } from './hook.formulas.ts'
import type { Hooked, Pick } from './pick.ts'

/** The chain of masses on a hook, each line once. */
export interface HookLoad {
  /** Below the hook: piece, allowance, retained matter, rigging and gear. */
  load: Answer<'kg'>
  lines: readonly Term<'kg'>[]
  /** What the rating is held against: with the block where the rating counts it, and dynamics where it does not. */
  demand: Answer<'kg'>
  /** Rigging and gear alone. */
  rigging: Answer<'kg'>
}

/** Load of the hook that carries the whole piece. */
export function hookLoad(pick: Pick): HookLoad {
  return chainOf(pick.main, pieceLines(pick), riggingLines(pick, pick.main))
}

/** Load of a hook that carries this much of the piece, and its own rigging; gear bolted to the piece is in the share. */
export const sharedLoad = (pick: Pick, hooked: Hooked, share: Term<'kg'>): HookLoad =>
  chainOf(
    hooked,
    [share],
    riggingLines(pick, hooked).filter((line) => !boltedNames(pick).has(line.label)),
  )

/** Gear bolted to the piece turns with it; spreaders and slings hang from their hooks. */
export const boltedGear = ({ main, tail, gear }: Pick): string[] =>
  [...new Set([main, tail].flatMap((h) => (h?.rigging === undefined ? [] : gearOf(h.rigging))))].filter(
    (id) => gear[id]?.cog !== undefined,
  )

const boltedNames = (pick: Pick): Set<string> => new Set(boltedGear(pick).map((id) => pick.gear[id]?.name ?? id))

/** The piece as it hangs: net mass, contingency and what is left in it. */
export const pieceLines = ({ set, piece }: Pick): Term<'kg'>[] => [
  { label: `${piece.name}, net`, answer: set.net },
  { label: 'allowance', answer: set.allowance },
  { label: 'retained: muck, grease, oil, water', answer: set.retained },
]

function chainOf(hooked: Hooked, carried: readonly Term<'kg'>[], rigging: readonly Term<'kg'>[]): HookLoad {
  const lines = [...carried, ...rigging]
  const load = sumOf('Load below the hook', 'kg', lines)
  return {
    load,
    lines,
    demand: withDynamics(hooked, ratedLoad(hooked, load)),
    rigging: sumOf('Rigging', 'kg', rigging),
  }
}

/** With the block, where the rating is that of the head above it, and with what the chart counts beside it. */
function ratedLoad(hooked: Hooked, load: Answer<'kg'>): Answer<'kg'> {
  const beyond = [...blockLines(hooked), ...chartLines(hooked)]
  if (beyond.length === 0) return load
  return sumOf('Load that the rating counts', 'kg', [{ label: 'below the hook', answer: load }, ...beyond])
}

/** Block and rope, where the rating counts them; open where it does not say. */
export function blockLines({ hook, hookAt }: Hooked): Term<'kg'>[] {
  if (hook.basis.point === 'below the block') return []
  if (hook.basis.point === undefined)
    return [{ label: 'block: whether the rating counts it is not stated', answer: unstated(`${hookAt}/basis/point`) }]
  const block = { label: 'block and links', answer: knownOr(hook.block, 'kg', `${hookAt}/block`) }
  if (hook.rope === undefined) return [block]
  const rope = ropeMass.show({
    n: stated('1', hook.rope.parts, 'parts of rope'),
    z_head: knownOr(hook.head, 'm', `${hookAt}/head`),
    z_hook: knownOr(hook.lowest, 'm', `${hookAt}/lowest`),
    w: hook.rope.perLength,
  })
  return [block, { label: 'rope between head and block, hook at its lowest', answer: rope }]
}

/** What the chart counts as load beside block and rigging: each once, on the side of the load. */
export const chartLines = ({ hook }: Hooked): Term<'kg'>[] =>
  Object.values(hook.deductions).map(({ what, mass }) => ({ label: `${what}, as the chart counts it`, answer: mass }))

/** With the hoist factor, where the rating does not hold it. */
export function withDynamics({ hook, hookAt, system, systemAt }: Hooked, load: Answer<'kg'>): Answer<'kg'> {
  if (hook.basis.dynamics === 'included in the rating') return load
  if (hook.basis.dynamics === 'not included')
    return loadWithDynamics.show({ m: load, phi: knownOr(system.dynamicFactor, '1', `${systemAt}/dynamicFactor`) })
  return sumOf('Load with dynamics', 'kg', [
    { label: 'static', answer: load },
    { label: 'dynamics: whether the rating holds them is not stated', answer: unstated(`${hookAt}/basis/dynamics`) },
  ])
}

const unstated = (pointer: string): Answer<'kg'> => given('kg', pointer, undefined)

/** Every item between hook and piece, counted once, and the gear. Open where the lift has no rigging yet. */
export function riggingLines(pick: Pick, { rigging, riggingAt }: Hooked): Term<'kg'>[] {
  if (rigging === undefined) return [{ label: 'rigging', answer: unstated(riggingAt) }]
  const items = [...countsOf(rigging)].map(([id, count]) => itemLine(pick, id, count))
  const gear = gearOf(rigging).map((id) => ({
    label: pick.gear[id]?.name ?? id,
    answer: knownOr(pick.gear[id]?.mass, 'kg', pointerOf('gear', id, 'mass')),
  }))
  return [...items, ...gear]
}

function itemLine({ stock }: Pick, id: string, count: number): Term<'kg'> {
  const item = stock[id]
  const mass = knownOr(item?.mass, 'kg', pointerOf('stock', id, 'mass'))
  return {
    label: `${count} × ${item?.name ?? item?.kind ?? id} ${id}`,
    answer: itemsMass.show({ n: stated('1', count, 'counted in the arrangement'), m: mass }),
  }
}

/** How many of each item of stock an arrangement takes: legs, their links and fittings, and what is counted beside. */
export function countsOf({ legs, others }: Arrangement): ReadonlyMap<string, number> {
  const counts = new Map<string, number>()
  const count = (id: string, n: number): unknown => counts.set(id, (counts.get(id) ?? 0) + n)
  for (const { item, link, fittings } of legs) {
    count(item, 1)
    if (link !== undefined) count(link, 1)
    for (const fitting of fittings) count(fitting, 1)
  }
  for (const other of others) count(other.item, other.count)
  return counts
}

/** Gear of an arrangement, each once: what it lists, and what its nodes stand on. */
export const gearOf = ({ gear, nodes }: Arrangement): string[] => [
  ...new Set([...gear, ...Object.values(nodes).map((node) => node.gear)]),
]
