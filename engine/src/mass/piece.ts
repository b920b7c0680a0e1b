import type { Lift, Piece, Weighing } from '../model/index.ts'
import { knownOr } from '../working/answer.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import type { Changed } from './change.ts'
import { lumpOf, type Member, type Standing, standingOf } from './lump.ts'
import { type Rules, type SetMass, setOf } from './set.ts'
import { asReturned, asWeighed, type Comparison, compared } from './weighed.ts'

/** A piece as found, as weighed once there is a record, and as it goes back. */
export interface PieceMass {
  /** What it is made of, entry by entry, with the shapes. */
  standing: readonly Standing[]
  found: SetMass
  weighed?: SetMass
  returned: SetMass
  /** Each weighing against what was expected to hang there. */
  comparisons: readonly Comparison[]
}

/** Records of a piece, told apart by what was hanging: the piece as it came out, or as it goes back. */
export interface Weighings {
  out?: Weighing
  back?: Weighing
}

/** The latest record of each; a record of a lift that carries the returned piece is one of the returned piece. */
export function weighingsOf(
  piece: string,
  weighings: Readonly<Record<string, Weighing>>,
  lifts: Readonly<Record<string, Lift>>,
): Weighings {
  const own = Object.values(weighings)
    .filter((w) => w.piece === piece)
    .sort((a, b) => compareText(a.date ?? '', b.date ?? ''))
  const isBack = (w: Weighing): boolean => w.lift !== undefined && lifts[w.lift]?.as === 'returned'
  const [out, back] = [own.filter((w) => !isBack(w)).at(-1), own.filter(isBack).at(-1)]
  return { ...(out === undefined ? {} : { out }), ...(back === undefined ? {} : { back }) }
}

/** Dates as year-month-day sort as text; no locale, so that every machine agrees. */
const compareText = (a: string, b: string): number => (a < b ? -1 : Number(a > b))

export interface PieceInput {
  id: string
  retained: Piece['retained']
  retainedBack: Piece['retainedBack']
  members: readonly Member[]
  changed: Changed
  weighings: Weighings
  rules: Rules
  memory: Memory
}

/**
 * The three states of a piece.
 *
 * The return lift carries the weighed mass, less what was removed, plus the changes each at its own basis; a difference
 * nobody has explained stays in. Once it is weighed again as it goes back, that weighing stands.
 */
export function pieceMass({ id, members, changed, weighings, rules, memory, ...input }: PieceInput): PieceMass {
  const retained = knownOr(input.retained, 'kg', pointerOf('pieces', id, 'retained'))
  const back = input.retainedBack ?? retained
  const found = setOf({ members, lumps: members.map(lumpOf), retained, rules, memory })
  const planned = setOf({ members, lumps: changed.lumps, retained: back, rules, memory })
  const weighed = weighings.out && asWeighed(found, weighings.out, rules)
  const expected =
    weighings.out === undefined || isNothing(changed)
      ? planned
      : asReturned({ found, planned, weighing: weighings.out, changed, back, rules })
  const returned = weighings.back === undefined ? expected : asWeighed(planned, weighings.back, rules)
  return {
    standing: members.map(standingOf),
    found,
    ...(weighed === undefined ? {} : { weighed }),
    returned,
    comparisons: [
      ...(weighings.out === undefined ? [] : [compared('out', weighings.out, found)]),
      ...(weighings.back === undefined ? [] : [compared('back', weighings.back, expected)]),
    ],
  }
}

/** Everything in it is scrapped and nothing new takes its place: what was weighed says nothing of a return. */
const isNothing = ({ lumps }: Changed): boolean => lumps.length === 0
