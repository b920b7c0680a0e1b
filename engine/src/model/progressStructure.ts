import { pointerOf } from '../working/pointer.ts'
import type { Problem } from '../working/problem.ts'
import { type EndOfDay, epochOf, isDayOnly } from './moment.ts'
import type { Programme } from './schema/project.ts'

type Entry = Programme['progress'][string]

/** Progress that contradicts itself, the data date or the start of the programme; windows of delay that end before they begin. */
export function progressProblems(programme: Programme): Problem[] {
  const at = (text: string, end: EndOfDay): number => epochOf(text, programme.timeZone, end)
  return [
    ...dataDateProblems(programme, at),
    ...Object.entries(programme.progress).flatMap(([id, entry]) => entryProblems(programme, id, entry, at)),
    ...Object.entries(programme.baselines).flatMap(([id, b]) =>
      Object.entries(b.activities).flatMap(([activity, [start, finish]]) =>
        isBefore(finish, start, at)
          ? [turned(pointerOf('programme', 'baselines', id, 'activities', activity, '1'), finish, start)]
          : [],
      ),
    ),
    ...Object.entries(programme.delays).flatMap(([id, { from, to }]) =>
      to !== undefined && isBefore(to, from, at) ? [turned(pointerOf('programme', 'delays', id, 'to'), to, from)] : [],
    ),
  ]
}

type At = (text: string, end: EndOfDay) => number

const turned = (pointer: string, found: string, after: string): Problem => ({
  pointer,
  found: `"${found}"`,
  expected: `a date not before its start, ${after}`,
  example: after,
})

function dataDateProblems({ dataDate, start, progress }: Programme, at: At): Problem[] {
  const pointer = '/programme/dataDate'
  if (dataDate === undefined)
    return Object.keys(progress).length === 0
      ? []
      : [
          {
            pointer,
            found: 'nothing',
            expected: 'the date up to which progress is known: without it no progress can be read',
            example: start,
          },
        ]
  if (!isBefore(dataDate, start, at)) return []
  return [
    { pointer, found: `"${dataDate}"`, expected: `a date not before the programme starts, ${start}`, example: start },
  ]
}

function entryProblems({ dataDate, start: begin }: Programme, id: string, entry: Entry, at: At) {
  const pointer = pointerOf('programme', 'progress', id)
  const { start, finish, remainingDays } = entry
  const problems: Problem[] = []
  const say = (field: string, found: string, expected: string, example?: string): void => {
    problems.push({ pointer: `${pointer}/${field}`, found, expected, ...(example === undefined ? {} : { example }) })
  }
  for (const [field, date] of [['start', start] as const, ['finish', finish] as const]) {
    if (date === undefined) continue
    if (dataDate !== undefined && isAfter(date, dataDate, at))
      say(
        field,
        `"${date}"`,
        `a date not after the data date, ${dataDate}: what has not happened is no progress`,
        dataDate,
      )
    if (isBefore(date, begin, at)) say(field, `"${date}"`, `a date not before the programme starts, ${begin}`, begin)
  }
  if (start !== undefined && finish !== undefined && isBefore(finish, start, at))
    say('finish', `"${finish}"`, `a date not before its start, ${start}`, start)
  if (finish !== undefined && remainingDays !== undefined && !isNothing(remainingDays))
    say('remainingDays', spoken(remainingDays), 'none, for it is finished; or no finish', '0')
  if (finish === undefined && start === undefined && remainingDays !== undefined)
    say('start', 'nothing', 'the date it began: what has not begun has all of its duration to go', dataDate)
  if (finish === undefined && start === undefined && remainingDays === undefined)
    say('start', 'nothing', 'a start, or a finish', dataDate)
  return problems
}

/** A day alone is still to come when it has not begun at the data date; later on that day is in time. */
function isAfter(date: string, dataDate: string, at: At): boolean {
  const limit = at(dataDate, 'last')
  return isDayOnly(date) ? at(date, 'first') >= limit : at(date, 'first') > limit
}

/** A day alone is over when the next begins. */
function isBefore(date: string, other: string, at: At): boolean {
  const [end, begin] = [at(date, 'last'), at(other, 'first')]
  return isDayOnly(date) ? end <= begin : end < begin
}

const isNothing = (remaining: NonNullable<Entry['remainingDays']>): boolean =>
  typeof remaining === 'number' ? remaining === 0 : remaining[2] === 0

const spoken = (remaining: NonNullable<Entry['remainingDays']>): string =>
  typeof remaining === 'number' ? String(remaining) : `[${remaining.join(', ')}]`
