import type { DiaryEntry } from '../../model/index.ts'
import { localAt, type ProgrammeResult, peopleKinds, type ShiftWork, shiftsAt } from '../../programme/index.ts'
import { type Check, countVerdicts, type Verdict } from '../../working/check.ts'
import type { UnitSystem } from '../../working/quantity.ts'
import { DEFERRAL, INVENTED } from '../sheet/cautions.ts'
import type { SheetOptions } from '../sheet/liftSheet.ts'
import type { SheetStages } from '../sheet/subject.ts'
import { lookFrom } from '../tables/programmeTables.ts'
import { type Recorded, recordedOn } from './recordedOn.ts'

export interface DailyStages extends SheetStages {
  programme: ProgrammeResult
}

export interface DailyOptions extends SheetOptions {
  /** The day that is told, ISO 8601; the last of the diary where none is named. */
  day?: string | undefined
}

/** An action that is not done on the day. */
export interface OpenAction {
  entry: string
  what: string
  owner: string
  due: string
  /** Its day has passed. */
  late: boolean
}

/** What stands between the shift and its work, and who lets it go. */
export interface Permit {
  activity: string
  name: string
  what: string
  from: string
}

/** A shift with work in it, local time. */
export interface ComingShift {
  calendar: string
  isUnderWay: boolean
  from: string
  until: string
  work: readonly {
    id: string
    name: string
    from: string
    until: string
    ends: boolean
    critical: boolean
    needs: string
  }[]
}

/** One of the checks 98 to 104 in all its subjects: the worst verdict, and what is behind it. */
export interface BelowLine {
  title: string
  verdict: Verdict
  counts: Readonly<Record<Verdict, number>>
  words: string
}

/** What is known of the people below ground. */
export interface Below {
  lines: readonly BelowLine[]
  /** Counts taken on the day, in their order. */
  counts: readonly { at: string; below: number; by: string; before: string }[]
  cautions: readonly string[]
}

/** Everything a daily report says, as plain data. */
export interface DailySheet {
  project: string
  units: UnitSystem
  day: string
  entries: readonly { id: string; entry: DiaryEntry }[]
  /** What the day put on record of opened parts, welds and bolts. */
  recorded: readonly Recorded[]
  /** Time lost on the day over all its entries, s. */
  lost: number
  /** Heads of all its entries. */
  people: number
  actions: readonly OpenAction[]
  /** Local time from which the shifts ahead are looked for. */
  from: string
  shifts: readonly ComingShift[]
  permits: readonly Permit[]
  /** Instruments whose reading is due, or whose interval is not given. */
  instruments: readonly { id: string; name: string; overdue: boolean; words: string }[]
  below: Below
  deferral: string
  notice: string
}

/** The day as the diary tells it, with what is left to do and the shifts ahead; undefined where the diary has no such day. */
export function dailySheet(stages: DailyStages, options: DailyOptions = {}): DailySheet | undefined {
  const { about, diary, settings } = stages.model.project
  const all = Object.entries(diary).map(([id, entry]) => ({ id, entry }))
  const day = options.day ?? lastOf(all.map(({ entry }) => entry.on))
  const entries = all.filter(({ entry }) => entry.on === day).sort(byShift)
  if (day === undefined || entries.length === 0) return undefined
  const shifts = workAhead(stages)
  return {
    project: about.title,
    units: options.units ?? settings.units,
    day,
    entries,
    recorded: recordedOn(stages.model.project, day),
    lost: sum(entries.flatMap(({ entry }) => entry.lost.map(({ time }) => time.value ?? 0))),
    people: sum(entries.flatMap(({ entry }) => Object.values(entry.people))),
    actions: actionsOpen(all, day),
    from: localTime(stages, lookFrom(stages)),
    shifts: shifts.map((shift) => comingShift(stages, shift)),
    permits: shifts.flatMap((shift) => permitsOf(stages, shift)),
    instruments: instrumentsDue(stages),
    below: belowOn(stages, day),
    deferral: DEFERRAL,
    notice: about.invented ? INVENTED : '',
  }
}

type Told = { id: string; entry: DiaryEntry }

const lastOf = (days: readonly string[]): string | undefined => [...days].sort().at(-1)
const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0)
const byShift = (a: Told, b: Told): number => (a.entry.shift[0] < b.entry.shift[0] ? -1 : 1)

/** Actions written down by the end of a day and not done by then, the one due first at the head. */
export function actionsOpen(all: readonly Told[], day: string): OpenAction[] {
  return all
    .filter(({ entry }) => entry.on <= day)
    .flatMap(({ id, entry }) =>
      entry.actions
        .filter(({ done }) => done === undefined || done.on > day)
        .map(({ what, owner, due }) => ({ entry: id, what, owner, due, late: due < day })),
    )
    .sort((a, b) => (a.due < b.due ? -1 : a.due > b.due ? 1 : 0))
}

function workAhead(stages: DailyStages): ShiftWork[] {
  const typed = stages.model.project.programme
  return typed === undefined ? [] : shiftsAt(stages.programme, typed, lookFrom(stages))
}

function localTime({ programme: { solved } }: DailyStages, seconds: number): string {
  if (solved === undefined) return ''
  const { date, time } = localAt(solved.zone, seconds)
  return `${date} ${time}`
}

const comingShift = (stages: DailyStages, { calendar, isUnderWay, start, end, work }: ShiftWork): ComingShift => ({
  calendar,
  isUnderWay,
  from: localTime(stages, start),
  until: localTime(stages, end),
  work: work.map(({ id, name, from, until, finish, critical, needs }) => ({
    id,
    name,
    from: localTime(stages, from),
    until: localTime(stages, until),
    ends: finish <= end,
    critical,
    needs: Object.entries(needs)
      .map(([resource, n]) => `${n} ${resource}`)
      .join(', '),
  })),
})

/** Hold points, lift sheets and isolations of the work in a shift. What is signed stands in the store, not in the project. */
function permitsOf(stages: DailyStages, { work }: ShiftWork): Permit[] {
  return work.flatMap(({ id, name, from, holdPoint }) => {
    const activity = stages.programme.activities[id]
    const lift = activity?.lift
    const asked = [
      ...(holdPoint === undefined ? [] : [`hold point: ${holdPoint}`]),
      ...(stages.programme.held?.[id] ?? []).map((item) => `held by punch item ${item}`),
      ...(lift === undefined ? [] : [`lift sheet ${lift}, ${standOf(stages, lift)}`]),
      ...(activity?.kind === 'isolate' ? ['isolation: off, discharged, proved, locked, tagged, tried'] : []),
    ]
    return asked.map((what) => ({ activity: id, name, what, from: localTime(stages, from) }))
  })
}

function standOf({ lift }: DailyStages, id: string): string {
  const checks = lift.lifts[id]?.checks ?? []
  const counted = (verdict: string): number => checks.filter((c) => c.verdict === verdict).length
  const [failing, open] = [counted('fail'), counted('open')]
  if (failing > 0) return `${failing} of its checks fail`
  return open > 0 ? `${open} of its checks open` : 'no check fails or is open'
}

const instrumentsDue = ({ ground }: DailyStages): DailySheet['instruments'] =>
  ground.checks
    .filter(({ kind, verdict }) => kind === 'ground.instrument.due' && (verdict === 'fail' || verdict === 'open'))
    .map(({ subject, verdict, reasons }) => ({
      id: subject.id,
      name: subject.name,
      overdue: verdict === 'fail',
      words: reasons.join('; '),
    }))

const WORST: readonly Verdict[] = ['fail', 'open', 'near', 'pass']

/** Checks 98 to 104 by kind, and the counts of the day. Where nobody is planned below ground there is nothing. */
function belowOn({ model, programme }: DailyStages, day: string): Below {
  const checks = programme.checks.filter(({ kind }) => peopleKinds.some(({ id }) => id === kind))
  const counts = Object.values(model.project.belowGround?.counts ?? {})
    .filter(({ at }) => at.startsWith(day))
    .sort((a, b) => (a.at < b.at ? -1 : 1))
  return {
    lines: peopleKinds.flatMap((kind) =>
      belowLine(
        kind.title,
        checks.filter((c) => c.kind === kind.id),
      ),
    ),
    counts: counts.map(({ at, below, by, before = '' }) => ({
      at: at.slice(11, 16),
      below,
      by,
      before: programme.activities[before]?.name ?? before,
    })),
    cautions: [...new Set(checks.flatMap((c) => c.cautions))],
  }
}

function belowLine(title: string, checks: readonly Check[]): BelowLine[] {
  const verdict = WORST.find((v) => checks.some((c) => c.verdict === v))
  if (verdict === undefined) return []
  const behind = checks.filter((c) => c.verdict === verdict && c.reasons.length > 0)
  return [
    {
      title,
      verdict,
      counts: countVerdicts(checks),
      words: behind.map(({ subject, reasons }) => `${subject.name}: ${reasons.join('; ')}`).join('. '),
    },
  ]
}
