import { energyOf, fullest, fullnessOf, type Span } from './energy.ts'
import { addShares, type Engine } from './engine.ts'
import type { Shares } from './model.ts'
import type { SharesSource } from './shares.ts'

interface LookOptions {
  source: SharesSource
  /** Conflicts before the first are asked for. */
  after: number
  /** Told of those that are kept to. */
  note: (shares: Shares) => void
}

/** How far the search for better shares has come. */
export interface Looking extends LookOptions {
  asked: number
  /** Level at which the next look is due; −1: not in this round. */
  level: number
}

export const lookingIn = (options: LookOptions): Looking => ({ ...options, asked: 0, level: -1 })

/** Conflicts before shares are asked for at all: most proofs end sooner. */
export const CONFLICTS_FIRST = 300
const [EVERY, LEAST_LEVEL, LEVELS] = [3, 3, 5]
const [MOST_ASKED, MOST_SHARES] = [60, 12]
/** Shares that fill a span no more than this above those in hand are not worth their time. */
const GAIN = 1.02

/** A proof that is still far after so many conflicts goes on without shares. */
const MOST_WHILE_FAR = 6000

/** Where a search stands at a restart. */
interface Standing {
  rounds: number
  near: boolean
  proof: { conflicts: number }
}

/** At the root, before a round: the first shares, or the level at which this round looks for better ones. */
export function beforeRound(looking: Looking, engine: Engine, { rounds, near, proof }: Standing): void {
  const { conflicts } = proof
  looking.level = -1
  engine.heedsShares = near || conflicts < MOST_WHILE_FAR
  if (conflicts < looking.after) return
  if (looking.asked === 0) {
    for (const shares of looking.source.first()) keepTo(looking, engine, shares)
    looking.asked = 1
  } else if (near && rounds % EVERY === 0 && looking.asked < MOST_ASKED && engine.energies.length < MOST_SHARES)
    looking.level = LEAST_LEVEL + ((rounds / EVERY) % LEVELS)
}

/** After some decisions: shares that make most of the span that is fullest now; they are valid anywhere. */
export function lookNow(looking: Looking, engine: Engine): void {
  const { trail, energies } = engine
  looking.level = -1
  looking.asked++
  const span = energies.map((e) => fullest(trail, e)).reduce((a, b) => (b.fullness > a.fullness ? b : a), NO_SPAN)
  if (span.fullness === 0) return
  const shares = looking.source.filling(span.begin, span.to, trail.bound)
  if (shares === undefined || fullnessOf(trail, energyOf(shares), span) < GAIN * span.fullness) return
  keepTo(looking, engine, shares)
}

function keepTo({ note }: Looking, engine: Engine, shares: Shares): void {
  addShares(engine, shares)
  note(shares)
}

const NO_SPAN: Span = { begin: 0, to: 0, fullness: 0 }
