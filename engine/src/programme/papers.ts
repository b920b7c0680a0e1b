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

type Project = Model['project']
type Gear = Project['gear'][string]
type Lift = Project['lifts'][string]
type System = Project['systems'][string]

/** First and last day of a lift in the plan, or as it went; local dates. */
interface Days {
  first: string
  last: string
}

/**
 * For every lift: certificates of what it hangs from, tests of its machines and permits of what it rests on, held against the
 * days on which the plan has it. The lift itself knows no more than the day that it states; a date that moves is judged here.
 */
export function paperChecks(
  { project, near }: Model,
  { lifts }: LiftResult,
  { activities, plan, solved }: Pick<ProgrammeResult, 'activities' | 'plan' | 'solved'>,
  memory: Memory,
): readonly Check[] {
  const { stock, gear, temporaryWorks, systems } = project
  const rests = memory.settled(
    'programme/papers-of',
    Object.fromEntries(Object.values(lifts).map(({ id, items, works, gear }) => [id, { items, works, gear }])),
  )
  const inputs = [
    stock,
    gear,
    temporaryWorks,
    systems,
    project.lifts,
    project.pieces,
    rests,
    activities,
    plan,
    solved,
    near,
  ]
  return memory.once('programme/papers', inputs, () => {
    const lifting = byLift(activities)
    return Object.entries(rests).flatMap(([id, { items, works, gear: hung }]) => {
      const papers = [
        ...items.flatMap((item) => itemPaper(item, stock[item])),
        ...hung.flatMap((item) => gearPapers(item, gear[item])),
        ...systemsOf(project.lifts[id]).flatMap((system) => testPaper(system, systems[system])),
        ...works.flatMap((work) => workPaper(work, temporaryWorks[work])),
      ]
      const planned = solved === undefined ? [] : (lifting[id] ?? [])
      return papers.length === 0
        ? []
        : [paperCheck(project, near, id, papers, planned, daysOf(planned, plan, solved?.zone))]
    })
  })
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
  /** What was done to it since: from that day on the paper says nothing of it. */
  overtaken?: { on: string; what: string }
  isMissing: boolean
}

function itemPaper(id: string, item: StockItem | undefined): Paper[] {
  const until = item?.certificateUntil
  const pointer = pointerOf('stock', id, 'certificateUntil')
  return [{ of: `${item?.name ?? id} (${id})`, what: 'certificate', pointer, until, isMissing: until === undefined }]
}

/** Gear: its certificate, and its proof test, which comes before its first use. */
function gearPapers(id: string, gear: Gear | undefined): Paper[] {
  const of = `${gear?.name ?? id} (${id})`
  const at = (field: string): string => pointerOf('gear', id, field)
  const until = gear?.certificateUntil
  return [
    { of, what: 'certificate', pointer: at('certificateUntil'), until, isMissing: until === undefined },
    { of, what: 'proof test', pointer: at('proof'), from: gear?.proof?.on, isMissing: gear?.proof === undefined },
  ]
}

/** Machines of a lift: that of its hook, and that of its tail hook where it is another. */
const systemsOf = (lift: Lift | undefined): string[] =>
  lift === undefined ? [] : [...new Set([lift.system, lift.tail?.system ?? lift.system])]

/** A load test whose end is not stated has none that the project knows of: whether it needs one is a matter of local law. */
function testPaper(id: string, system: System | undefined): Paper[] {
  const { on, until } = system?.tested ?? {}
  if (on === undefined && until === undefined) return []
  const pointer = pointerOf('systems', id, 'tested')
  const changed = system?.changed
  return [
    {
      of: `${system?.name ?? id} (${id})`,
      what: 'load test',
      pointer,
      from: on,
      until,
      isMissing: false,
      ...(changed !== undefined && on !== undefined && on < changed.on ? { overtaken: changed } : {}),
    },
  ]
}

function workPaper(id: string, work: TemporaryWork | undefined): Paper[] {
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

function faultsOf({ of, what, from, until, overtaken }: Paper, { first, last }: Days): string[] {
  return [
    ...(from !== undefined && from > first
      ? [`${of}: its ${what} holds from ${from}, the plan begins the lift on ${first}`]
      : []),
    ...(until !== undefined && until < last
      ? [`${of}: its ${what} ends on ${until}, the plan has the lift until ${last}`]
      : []),
    ...(overtaken !== undefined && overtaken.on <= last
      ? [`${of}: its ${what} of ${from} is older than what was done on ${overtaken.on}: ${overtaken.what}`]
      : []),
  ]
}

function paperCheck(
  { lifts, pieces }: Project,
  near: number,
  id: string,
  papers: readonly Paper[],
  lifting: readonly Lifting[],
  planned: Days | undefined,
): Check {
  const on = lifts[id]?.on
  const days = planned ?? (on === undefined ? undefined : { first: on, last: on })
  const faults = days === undefined ? [] : papers.flatMap((paper) => faultsOf(paper, days))
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
      ...(days === undefined ? { 'its days in the plan': given('1', pointerOf('lifts', id, 'on'), undefined) } : {}),
      ...unknownDurations(lifting),
    }),
    capacity: NONE,
    near,
    found: faults,
    assumptions: [...(days === undefined ? [] : [againstWords(papers.length, days)]), ...otherDay(on, days)],
    cautions: [CAUTION],
  })
}

const againstWords = (count: number, { first, last }: Days): string =>
  `${count} papers, held against ${first === last ? first : `${first} to ${last}`}, as planned or as it went.`

/** Said where the lift states a day of its own on which the plan does not have it. */
const otherDay = (on: string | undefined, days: Days | undefined): string[] =>
  on === undefined || days === undefined || (on >= days.first && on <= days.last)
    ? []
    : [`The lift itself states ${on}, which is none of these days.`]

function daysOf(lifting: readonly Lifting[], plan: ProgrammeResult['plan'], zone: Zone | undefined): Days | undefined {
  const dates = lifting.flatMap(({ id }) => plan[id] ?? [])
  if (zone === undefined || dates.length === 0) return undefined
  const [first, last] = [Math.min(...dates.map((d) => d.start)), Math.max(...dates.map((d) => d.finish))]
  // what ends at midnight ends on the day before
  return { first: localAt(zone, first).date, last: localAt(zone, Math.max(first, last - 1)).date }
}
