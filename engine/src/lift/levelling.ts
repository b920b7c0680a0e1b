import { coordinates, type StockItem } from '../model/index.ts'
import { subtract, type Vec3 } from '../numeric/vector.ts'
import { type Answer, found, type Given, GRAVITY } from '../working/answer.ts'
import type { Patch } from '../working/patch.ts'
import { pointerOf } from '../working/pointer.ts'
import { type ElasticLeg, type Hang, type HungLoad, hang } from './hang.ts'
import { inSeries } from './levels.ts'
import type { Pick } from './pick.ts'
import type { Suspension } from './suspension.ts'

/** A change of the rigging that brings the piece level. */
export interface LevelProposal {
  kind: 'lengths of the legs' | 'slings from stock' | 'offset of the hook'
  text: string
  /** Tilt by plan after the change. */
  tilt: Answer<'rad'>
  /** Lengths between pins, in the order of the legs; for a hook's offset none. */
  lengths: readonly { leg: string; now: number; needed: number }[]
  /** Puts it into the project file; empty where no item of stock is as long as needed. */
  patch: Patch
}

/** A tilt of less than this share of the one allowed is not worth another sling. */
const WORTH = 0.5

/** What would level a piece that hangs out of level by more than half of the tilt that the project allows. */
export function levelProposals(pick: Pick, suspension: Suspension): LevelProposal[] {
  const { hang: now, load } = suspension
  const allowed = pick.settings.tilt?.value
  const isTurn = pick.lift.kind === 'turn' || pick.tail !== undefined
  if (now === undefined || load === undefined || allowed === undefined || isTurn) return []
  if (now.tilt <= WORTH * allowed || inSeries(pick.main)) return []
  const proposals = load.spreader === undefined ? byLegs(pick, suspension, load, now) : byOffset(pick, suspension, load)
  return proposals.filter((p) => (p.tilt.value ?? Number.POSITIVE_INFINITY) < now.tilt)
}

function tiltAfter(suspension: Suspension, value: number): Answer<'rad'> {
  return found({
    unit: 'rad',
    value,
    method: 'equilibrium with the change made, by the lowest energy',
    inputs: { 'tilt now': suspension.tilt },
    residuals: [],
  })
}

/** Legs as long as it takes with the hook plumb over the centre of gravity, and the nearest that stock allows. */
function byLegs(pick: Pick, suspension: Suspension, load: HungLoad, now: Hang): LevelProposal[] {
  const over: Vec3 = [load.cog[0], load.cog[1], now.pose.hook[2]]
  const needed = relaxed(load, over, now)
  const hung = hang(withLengths(load, needed))
  const lengths = load.legs.map((leg, i) => ({
    leg: suspension.legs[i]?.leg.id ?? '',
    now: leg.length,
    needed: needed[i] as number,
  }))
  return [
    {
      kind: 'lengths of the legs',
      text: lengths.map((l) => `${l.leg} ${metres(l.needed)} (now ${metres(l.now)})`).join(', '),
      tilt: tiltAfter(suspension, hung.tilt),
      lengths,
      patch: [],
    },
    ...fromStock(pick, suspension, load),
  ]
}

/** Unstressed lengths at which the legs just reach a hook there under their pulls. */
function relaxed(load: HungLoad, hook: Vec3, now: Hang): number[] {
  let tensions = now.tensions
  let lengths: number[] = []
  for (let round = 0; round < 2; round++) {
    lengths = load.legs.map((leg, i) => {
      const span = subtract(hook, leg.to)
      return Math.hypot(...span) / (1 + (tensions[i] as number) / leg.stiffness)
    })
    tensions = hang(withLengths(load, lengths)).tensions
  }
  return lengths
}

const withLengths = (load: HungLoad, lengths: readonly number[]): HungLoad => ({
  ...load,
  legs: load.legs.map((leg, i) => ({ ...leg, length: lengths[i] as number })),
})

interface Candidate {
  id: string
  item: StockItem
  length: number
}

const SLINGS: readonly StockItem['kind'][] = [
  'wire rope sling',
  'wire rope grommet',
  'chain sling',
  'round sling',
  'web sling',
]

/** Slings on hand, strong enough for any leg, that together bring the hook nearest to plumb over the centre of gravity. */
function fromStock(pick: Pick, suspension: Suspension, load: HungLoad): LevelProposal[] {
  const legs = suspension.legs.map(({ leg }) => leg)
  if (legs.length > 6 || legs.some((leg) => leg.linkId !== undefined || leg.laid.fittings.length > 0 || leg.parts > 1))
    return []
  const most =
    Math.max(...suspension.legs.map(({ worst }) => worst.value ?? Number.POSITIVE_INFINITY)) / (GRAVITY.value as number)
  const candidates = Object.entries(pick.stock).flatMap(([id, item]): Candidate[] => {
    const isEnough = (item.rated?.value ?? 0) >= most && item.stiffness?.value !== undefined
    const length = item.length?.value
    return SLINGS.includes(item.kind) && isEnough && length !== undefined ? [{ id, item, length }] : []
  })
  const best = nearestLevel(load, candidates)
  if (best === undefined) return []
  const changed: HungLoad = {
    ...load,
    legs: load.legs.map(
      (leg, i): ElasticLeg => ({
        ...leg,
        length: (best[i] as Candidate).length,
        stiffness: (best[i] as Candidate).item.stiffness?.value as number,
      }),
    ),
  }
  return [
    {
      kind: 'slings from stock',
      text: best.map((c, i) => `${legs[i]?.id} ${c.id} of ${metres(c.length)}`).join(', '),
      tilt: tiltAfter(suspension, hang(changed).tilt),
      lengths: [],
      patch: best.flatMap((c, i) =>
        c.id === legs[i]?.itemId
          ? []
          : [{ op: 'replace' as const, path: `${pick.main.riggingAt}/legs/${i}/item`, value: c.id }],
      ),
    },
  ]
}

/** Each leg alone says how high it lets a hook that is plumb over the centre of gravity: the choice that agrees best. */
function nearestLevel(load: HungLoad, candidates: readonly Candidate[]): Candidate[] | undefined {
  let best: { spread: number; chosen: Candidate[] } | undefined
  const across = load.legs.map(({ to }) => Math.hypot(to[0] - load.cog[0], to[1] - load.cog[1]))
  const rise = (c: Candidate, i: number): number =>
    (load.legs[i] as ElasticLeg).to[2] + Math.sqrt(c.length ** 2 - (across[i] as number) ** 2)
  const choose = (chosen: Candidate[], low: number, high: number): void => {
    if (best !== undefined && high - low >= best.spread) return
    const i = chosen.length
    if (i === load.legs.length) {
      best = { spread: high - low, chosen }
      return
    }
    for (const c of candidates) {
      if (c.length <= (across[i] as number) || chosen.filter((x) => x.id === c.id).length >= c.item.quantity) continue
      const z = rise(c, i)
      choose([...chosen, c], Math.min(low, z), Math.max(high, z))
    }
  }
  choose([], Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY)
  return best?.chosen
}

/** A spreader hung off its middle, so that the hook stands over the centre of gravity. */
function byOffset(pick: Pick, suspension: Suspension, load: HungLoad): LevelProposal[] {
  const { spreader } = load
  if (spreader === undefined || spreader.top.length > 0) return []
  const ends = load.legs.flatMap((leg) => (leg.from === undefined ? [] : [subtract(leg.to, leg.from)]))
  if (ends.length === 0) return []
  const mean = (axis: 0 | 1): number => ends.reduce((sum, e) => sum + e[axis], 0) / ends.length
  const by: Vec3 = [mean(0) - load.cog[0], mean(1) - load.cog[1], 0]
  const moved: HungLoad = {
    ...load,
    legs: load.legs.map((leg) => (leg.from === undefined ? leg : { ...leg, from: plus(leg.from, by) })),
    spreader: { ...spreader, cog: plus(spreader.cog, by) },
  }
  const nodes = Object.entries(pick.main.rigging?.nodes ?? {})
  return [
    {
      kind: 'offset of the hook',
      text: `hook ${metres(-by[0])} along site x and ${metres(-by[1])} along site y from where it is on the spreader`,
      tilt: tiltAfter(suspension, hang(moved).tilt),
      lengths: [],
      patch: nodes.map(([id, node]) => ({
        op: 'replace' as const,
        path: `${pick.main.riggingAt}/nodes${pointerOf(id)}/offset`,
        value: plus(coordinates(node.offset as readonly [Given<'m'>, Given<'m'>, Given<'m'>]), by).map(
          (x) => `${Number(x.toFixed(3))} m`,
        ),
      })),
    },
  ]
}

const plus = (a: Vec3, b: Vec3): Vec3 => [a[0] + b[0], a[1] + b[1], a[2] + b[2]]

const metres = (x: number): string => `${x.toFixed(3)} m`
