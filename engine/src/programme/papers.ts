import type { LiftResult } from '../lift/index.ts'
import type { Model, StockItem, TemporaryWork } from '../model/index.ts'
import { given } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { faultsFound, NONE } from '../working/fault.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { unknownDurations } from './checks.ts'
import { isLifting, type Lifting } from './inShaft.ts'
import { papersInDate } from './kinds.ts'
import type { ProgrammeResult } from './programme.ts'
import { localAt, type Zone } from './zone.ts'

const CAUTION =
  'A certificate or permit that runs past the day does not say that the item is fit on it: it is looked at before use by a competent person.'

/** First and last day of a lift in the plan, or as it went; local dates. */
export interface Days {
  first: string
  last: string
}

/**
 * For every lift of the plan: certificates of what it hangs from and permits of what it rests on, held against the days on which
 * the plan has it. The lift itself knows no more than its own day, or how far the campaign has come; a date that moves is
 * judged here.
 */
export function paperChecks(
  { project, near }: Model,
  { lifts }: LiftResult,
  { activities, plan, solved }: Pick<ProgrammeResult, 'activities' | 'plan' | 'solved'>,
  memory: Memory,
): readonly Check[] {
  if (solved === undefined) return []
  const { stock, temporaryWorks } = project
  const rests = memory.settled(
    'programme/papers-of',
    Object.fromEntries(Object.values(lifts).map(({ id, items, works }) => [id, { items, works }])),
  )
  return memory.once('programme/papers', [stock, temporaryWorks, project.lifts, rests, activities, plan, near], () =>
    Object.entries(byLift(activities)).flatMap(([id, lifting]) => {
      const { items, works } = rests[id] ?? { items: [], works: [] }
      const papers = [
        ...items.flatMap((item) => itemPaper(item, stock[item])),
        ...works.flatMap((work) => workPapers(work, temporaryWorks[work])),
      ]
      return papers.length === 0 ? [] : [paperCheck(project, near, id, lifting, papers, plan, solved.zone)]
    }),
  )
}

function byLift(activities: ProgrammeResult['activities']): Record<string, Lifting[]> {
  const found: Record<string, Lifting[]> = {}
  for (const activity of Object.values(activities))
    if (isLifting(activity)) found[activity.lift] = [...(found[activity.lift] ?? []), activity]
  return found
}

/** A paper: what it is of, where it stands in the file, and between which days it holds; without an end, for good. */
interface Paper {
  of: string
  what: string
  pointer: string
  from?: string | undefined
  until?: string | undefined
  isMissing: boolean
}

function itemPaper(id: string, item: StockItem | undefined): Paper[] {
  const until = item?.certificateUntil
  return [
    {
      of: `${item?.name ?? id} (${id})`,
      what: 'certificate',
      pointer: pointerOf('stock', id, 'certificateUntil'),
      until,
      isMissing: until === undefined,
    },
  ]
}

function workPapers(id: string, work: TemporaryWork | undefined): Paper[] {
  const load = work?.permitToLoad
  const unload = work?.permitToUnload
  const ends = [load?.until, unload?.on].filter((day) => day !== undefined)
  return [
    {
      of: `${work?.name ?? id} (${id})`,
      what: 'permit to load',
      pointer: pointerOf('temporaryWorks', id, 'permitToLoad'),
      from: load?.on,
      until: ends.sort()[0],
      isMissing: load === undefined,
    },
  ]
}

function faultsOf({ of, what, from, until }: Paper, { first, last }: Days): string[] {
  return [
    ...(from !== undefined && from > first
      ? [`${of}: its ${what} holds from ${from}, the plan begins the lift on ${first}`]
      : []),
    ...(until !== undefined && until < last
      ? [`${of}: its ${what} ends on ${until}, the plan has the lift until ${last}`]
      : []),
  ]
}

function paperCheck(
  { lifts, pieces }: Model['project'],
  near: number,
  id: string,
  lifting: readonly Lifting[],
  papers: readonly Paper[],
  plan: ProgrammeResult['plan'],
  zone: Zone,
): Check {
  const days = daysOf(lifting, plan, zone)
  const faults = papers.flatMap((paper) => faultsOf(paper, days))
  const missing = papers.filter(({ isMissing }) => isMissing)
  return check({
    kind: papersInDate,
    subject: {
      pointer: pointerOf('lifts', id),
      id,
      name: `${pieces[lifts[id]?.piece ?? '']?.name ?? id}: ${lifting[0]?.name ?? id}`,
    },
    demand: faultsFound(faults.length, 'papers that do not hold on every day on which the plan has the lift', {
      ...Object.fromEntries(
        missing.map(({ of, what, pointer }) => [`${what} of ${of}`, given('1', pointer, undefined)]),
      ),
      ...unknownDurations(lifting),
    }),
    capacity: NONE,
    near,
    found: faults,
    assumptions: [
      `${papers.length} papers held against ${days.first === days.last ? days.first : `${days.first} to ${days.last}`}, as planned or as it went`,
      ...otherDay(lifts[id]?.on, days),
    ],
    cautions: [CAUTION],
  })
}

/** Said where the lift states a day of its own on which the plan does not have it. */
const otherDay = (on: string | undefined, { first, last }: Days): string[] =>
  on === undefined || (on >= first && on <= last) ? [] : [`The lift itself states ${on}, which is none of these days.`]

function daysOf(lifting: readonly Lifting[], plan: ProgrammeResult['plan'], zone: Zone): Days {
  const starts = lifting.map(({ id }) => plan[id]?.start ?? 0)
  const ends = lifting.map(({ id }) => plan[id]?.finish ?? 0)
  return { first: localAt(zone, Math.min(...starts)).date, last: localAt(zone, Math.max(...ends)).date }
}
