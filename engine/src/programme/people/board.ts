import type { BelowGround } from '../../model/index.ts'
import { given } from '../../working/answer.ts'
import { type Check, check } from '../../working/check.ts'
import { faultsFound, NONE } from '../../working/fault.ts'
import { pointerOf } from '../../working/pointer.ts'
import { isLifting } from '../inShaft.ts'
import { type Below, CAUTION, missingAt, msOf, nothingEntered, subjectAt } from './below.ts'
import { headCounted } from './kinds.ts'
import { uncounted } from './people.formulas.ts'

type Board = BelowGround['board']
type Count = BelowGround['counts'][string]

/** A line of the board as instants, ms since 1970. */
interface Stay {
  who: string
  from: number
  until: number
}

export const staysOf = (below: Below, board: Board): Stay[] =>
  Object.values(board).map(({ who, in: from, out }) => ({
    who,
    from: msOf(below, from),
    until: out === undefined ? Number.POSITIVE_INFINITY : msOf(below, out),
  }))

/** The most on the board at one time. */
export function mostAtOnce(stays: readonly Stay[]): number {
  return Math.max(0, ...stays.map(({ from }) => stays.filter((s) => s.from <= from && from < s.until).length))
}

/** Check 98: each count that something waits for by itself, the others and the board's own lines together. */
export function boardChecks(below: Below): Check[] {
  const { board = {}, counts = {} } = below.people ?? {}
  if (Object.keys(board).length + Object.keys(counts).length === 0)
    return [nothingEntered(headCounted, below, 'board', 'Board of those below ground')]
  const all = Object.entries(counts)
  return [
    boardCheck(
      below,
      board,
      all.filter(([, { before }]) => before === undefined),
    ),
    ...all.filter(([, { before }]) => before !== undefined).map(([id, count]) => countCheck(below, board, id, count)),
  ]
}

/** What the board says at the moment of a count. */
function atCount(below: Below, board: Board, id: string, { at, below: counted }: Count) {
  const then = msOf(below, at)
  const stays = staysOf(below, board)
  const lines = (n: number) => given('1', '/belowGround/board', n)
  const difference = uncounted.show({
    I: lines(stays.filter(({ from }) => from <= then).length),
    O: lines(stays.filter(({ until }) => until <= then).length),
    C: given('1', pointerOf('belowGround', 'counts', id, 'below'), counted),
  })
  const names = stays.filter(({ from, until }) => from <= then && then < until).map(({ who }) => who)
  const words = `${at}: ${counted} counted, ${names.length} on the board${names.length === 0 ? '' : ` (${names.join(', ')})`}`
  return { then, difference, words }
}

function countCheck(below: Below, board: Board, id: string, count: Count): Check {
  const { difference, words } = atCount(below, board, id, count)
  const before = below.activities.find((a) => a.id === count.before)
  const what = before?.name ?? count.before ?? ''
  return check({
    kind: headCounted,
    subject: subjectAt(`Head count before ${what}`, 'counts', id),
    title: `${headCounted.title}, before ${what}`,
    demand: difference,
    capacity: NONE,
    near: 1,
    found: [words],
    assumptions: [`counted by ${count.by}`, words],
    cautions: [CAUTION],
  })
}

function boardCheck(below: Below, board: Board, others: readonly (readonly [string, Count])[]): Check {
  const counted = others.map(([id, count]) => atCount(below, board, id, count))
  const faults = [
    ...counted.filter(({ difference }) => difference.value !== 0).map(({ words }) => words),
    ...lineFaults(below, board),
    ...lateCounts(below),
  ]
  return check({
    kind: headCounted,
    subject: subjectAt('Board of those below ground', 'board'),
    of: 'lines',
    demand: faultsFound(
      faults.length,
      'counts that differ from the board, and lines of the board that cannot be',
      Object.fromEntries(begunUncounted(below).map((name) => [`count before ${name}`, missingAt('counts')])),
    ),
    capacity: NONE,
    near: 1,
    found: faults,
    assumptions: [`lines of the board: ${Object.keys(board).length}; counts that nothing waited for: ${others.length}`],
    cautions: [CAUTION],
  })
}

/** Somebody who came up before they went down, or went down twice without coming up. */
function lineFaults(below: Below, board: Board): string[] {
  const stays = staysOf(below, board)
  return stays.flatMap((s, i) => [
    ...(s.until < s.from ? [`${s.who} came up before going down`] : []),
    ...(stays.some((o, k) => k < i && o.who === s.who && o.from < s.until && s.from < o.until)
      ? [`${s.who} is below ground twice at the same time`]
      : []),
  ])
}

/** Lifts that have begun, and before which nobody was counted. */
function begunUncounted(below: Below): string[] {
  const counted = new Set(Object.values(below.people?.counts ?? {}).map(({ before }) => before))
  return below.activities
    .filter((a) => isLifting(a) && below.actual[a.id] !== undefined && !counted.has(a.id))
    .map(({ id }) => id)
}

/** Counts taken after what waited for them had begun. A start that is known to the day only is not held against one. */
function lateCounts(below: Below): string[] {
  const { origin } = below
  if (origin === undefined) return []
  return Object.values(below.people?.counts ?? {}).flatMap(({ before, at }) => {
    const actual = before === undefined ? undefined : below.actual[before]
    if (actual === undefined || actual.isCoarse || msOf(below, at) <= origin + 1000 * actual.start) return []
    return [`${before} had begun when it was counted at ${at}`]
  })
}
