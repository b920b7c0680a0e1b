import type { Activity, Link } from './activity.ts'
import { lagged } from './network.ts'
import type { Actual, Actuals, ProgressInput } from './progress.ts'

/** An activity that went ahead of a predecessor. */
export interface OutOfSequence {
  activity: string
  predecessor: string
  text: string
  /** What is left waits for the predecessor all the same, or goes on. */
  logic: 'retained' | 'released'
}

const MINUTE = 60
const DAY = 86_400

/** Progress ahead of a link: begun, or ended, before its predecessor allowed it. */
export function outOfSequence(input: ProgressInput, actual: Actuals): OutOfSequence[] {
  const { activities, programme } = input
  return Object.entries(actual).flatMap(([id, own]) =>
    (activities[id] as Activity).after
      .filter((link) => activities[link.to] !== undefined && isAhead(input, own, link, actual[link.to]))
      .map((link): OutOfSequence => {
        const logic = programme.progress[id]?.logic ?? 'retained'
        return { activity: id, predecessor: link.to, text: textOf(id, link, logic), logic }
      }),
  )
}

function isAhead(input: ProgressInput, own: Actual, { type, lag, calendar }: Link, other: Actual | undefined): boolean {
  const reached = type === 'FS' || type === 'SS' ? own.start : own.finish
  if (reached === undefined) return false
  const from = type === 'FS' || type === 'FF' ? other?.finish : other?.start
  if (from === undefined) return true
  const due = lagged(from, lag, calendar === undefined ? undefined : input.calendars.get(calendar))
  // known to the day only, the same day is in order
  return due - reached > (own.isCoarse || other?.isCoarse ? DAY : MINUTE)
}

const BROKEN: Readonly<Record<Link['type'], string>> = {
  FS: 'began before the end of',
  SS: 'began before the start of',
  FF: 'ended before the end of',
  SF: 'ended before the start of',
}

const textOf = (id: string, { type, to, lag }: Link, logic: OutOfSequence['logic']): string =>
  `${id} ${BROKEN[type]} ${to}${lag === 0 ? '' : ' and its lag'}: ${logic === 'retained' ? `what is left still waits for ${to}` : 'released, what is left goes on'}`
