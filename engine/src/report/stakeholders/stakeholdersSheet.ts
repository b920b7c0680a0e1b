import type { Activity, Slippage } from '../../programme/index.ts'
import type { RiskResult, SimulationResult } from '../../risk/index.ts'
import { priceOfEvent } from '../../risk/index.ts'
import type { Check } from '../../working/check.ts'
import { DAY, dayText } from '../civil.ts'
import type { DailyStages } from '../daily/dailySheet.ts'
import { DEFERRAL, INVENTED } from '../sheet/cautions.ts'
import { lookFrom } from '../tables/programmeTables.ts'

export interface StakeholderStages extends DailyStages {
  risk: RiskResult
  checks: readonly Check[]
}

/** The issue before: its name, its simulation, and what moved the plan since, with that plan taken as the baseline. */
export interface IssueBefore {
  name: string
  origin: string
  simulation: SimulationResult
  slippage: Slippage | undefined
}

export interface StakeholdersAsked {
  simulation: SimulationResult
  before?: IssueBefore | undefined
}

/** A date of the restart beside what it was before; days, positive when later. */
export interface RestartLine {
  name: string
  day: string
  /** Against the baseline, and against the issue before. */
  overBaseline?: number
  overBefore?: number
}

/** Something that moved the restart: days, positive when it came later by it. */
export interface Mover {
  words: string
  days: number
  /** Delays on record that name it. */
  recorded: string
}

export interface PricedRisk {
  name: string
  /** Share, 0 to 1. */
  chance: number
  /** Most likely, when it happens. */
  days: number
  /** When it happens: its own cost, and the days at what a day costs. */
  price: number
  against: string
  owner: string
}

/** What one person or party has to say about: checks that are open, and checks that fail. */
export interface Waiting {
  who: string
  open: number
  failing: number
  /** What comes first of it, and the day that the plan reaches it. */
  first: string
  by: string
}

/** Everything the page says, as plain data. */
export interface StakeholdersSheet {
  project: string
  currency: string
  asOf: string
  restart: readonly RestartLine[]
  baseline?: { name: string; day: string }
  before?: { name: string }
  /** Days within which the 80 % date is known from so many runs. */
  error: number
  movers: readonly Mover[]
  moversSince: string
  risks: readonly PricedRisk[]
  cost: { p50: number; p80: number; day: number }
  holds: readonly { what: string; name: string; day: string }[]
  waiting: readonly Waiting[]
  /** Instruments at or above a level that asks for a response, and all that are read. */
  watched: { above: number; all: number }
  cautions: readonly string[]
  notice: string
}

const HOLDS = 3
const ON_DATES =
  'These dates are a forecast from stated assumptions, not a promise; no date is a reason to shorten a hold point.'

/** What people who pay for the work, or live beside it, ask: when, how sure, how much, what moved, what waits for whom; undefined without a plan. */
export function stakeholdersSheet(
  stages: StakeholderStages,
  { simulation, before }: StakeholdersAsked,
): StakeholdersSheet | undefined {
  const { model, programme, checks } = stages
  const { origin, slippage } = programme
  if (origin === undefined) return undefined
  const { about } = model.project
  const held = before === undefined ? slippage : before.slippage
  const baseline = slippage?.restart
  return {
    project: about.title,
    currency: about.currency ?? '',
    asOf: dayText(origin, lookFrom(stages), true),
    restart: restartLines(simulation, origin, slippage?.restart?.baseline, before),
    ...(slippage === undefined || baseline === undefined
      ? {}
      : { baseline: { name: slippage.name, day: dayText(origin, baseline.baseline, true) } }),
    ...(before === undefined ? {} : { before: { name: before.name } }),
    error: simulation.error.p80 / DAY,
    movers: moversOf(stages, held),
    moversSince: before !== undefined ? before.name : slippage === undefined ? '' : `the baseline, ${slippage.name}`,
    risks: risksOf(stages, simulation),
    cost: { p50: simulation.cost.p50, p80: simulation.cost.p80, day: simulation.day.p50 },
    holds: holdsOf(stages, origin),
    waiting: waitingOf(stages, origin),
    watched: watchedOf(checks),
    cautions: [ON_DATES, DEFERRAL],
    notice: about.invented ? INVENTED : '',
  }
}

function restartLines(
  simulation: SimulationResult,
  origin: string,
  baseline: number | undefined,
  before: IssueBefore | undefined,
): RestartLine[] {
  const was = before?.simulation
  // both count from their own first day
  const shift = before === undefined ? 0 : (Date.parse(before.origin) - Date.parse(origin)) / 1000
  const line = (name: string, now: number, then: number | undefined): RestartLine => ({
    name,
    day: dayText(origin, now, true),
    ...(baseline === undefined ? {} : { overBaseline: wholeDays(now - baseline) }),
    ...(then === undefined ? {} : { overBefore: wholeDays(now - then - shift) }),
  })
  return [
    line('Planned: if nothing goes wrong', simulation.planned, was?.planned),
    line('Even chance (P50): one in two', simulation.restart.p50, was?.restart.p50),
    line('Fairly sure (P80): four in five', simulation.restart.p80, was?.restart.p80),
  ]
}

const wholeDays = (seconds: number): number => Math.round(seconds / DAY) || 0

/** Activities that moved the restart, the one that moved it most at the head; what each took and waited longer is one. */
export function moversOf({ model, programme }: Pick<StakeholderStages, 'model' | 'programme'>, slippage?: Slippage) {
  const delays = model.project.programme?.delays ?? {}
  const found = new Map<string, Mover & { kinds: Set<string> }>()
  for (const { activity, kind, seconds, delays: named } of slippage?.causes ?? []) {
    const known = found.get(activity)
    const kinds = (known?.kinds ?? new Set()).add(kind)
    found.set(activity, {
      kinds,
      words: programme.activities[activity]?.name ?? activity,
      days: (known?.days ?? 0) + seconds / DAY,
      recorded: named.map((d) => delays[d]?.what ?? d).join('; '),
    })
  }
  return [...found.values()]
    .filter(({ days }) => Math.abs(days) >= 0.05)
    .sort((a, b) => Math.abs(b.days) - Math.abs(a.days))
    .map(({ kinds, words, days, recorded }): Mover => ({ words: `${words}: ${[...kinds].join(', ')}`, days, recorded }))
}

/** Risks that can still happen, the dearest on average at the head. */
function risksOf({ model, programme, risk }: StakeholderStages, { day }: SimulationResult): PricedRisk[] {
  const isOver = (activity: string): boolean => programme.activities[activity]?.state === 'done'
  return risk.events
    .flatMap(({ id, name, chance }) => {
      const typed = model.project.risks[id]
      if (typed === undefined || chance.value === undefined || typed.activities.every(isOver)) return []
      const { delayDays, cost, mitigation, owner = '' } = typed
      const price = priceOfEvent.value({ c: cost, n: delayDays[1], k: day.p50 })
      return [{ name, chance: chance.value, days: delayDays[1], price, against: mitigation?.what ?? '', owner }]
    })
    .sort((a, b) => b.chance * b.price - a.chance * a.price)
}

/** Hold points not yet reached, the next at the head. */
function holdsOf(stages: StakeholderStages, origin: string): StakeholdersSheet['holds'] {
  const { activities, plan } = stages.programme
  return Object.values(activities)
    .flatMap(({ id, name, holdPoint, state }) => {
      const finish = plan[id]?.finish
      return holdPoint === undefined || state === 'done' || finish === undefined ? [] : [{ name, holdPoint, finish }]
    })
    .filter(({ finish }) => finish >= lookFrom(stages))
    .sort((a, b) => a.finish - b.finish)
    .slice(0, HOLDS)
    .map(({ name, holdPoint, finish }) => ({ name, what: holdPoint, day: dayText(origin, finish, true) }))
}

/** Open and failing checks by who decides on them, the one whose first is due first at the head. */
function waitingOf(stages: StakeholderStages, origin: string): Waiting[] {
  const due = reachedOf(stages)
  const by = new Map<string, { check: Check; at: number }[]>()
  for (const check of stages.checks) {
    if (check.verdict !== 'open' && check.verdict !== 'fail') continue
    const all = by.get(check.decidedBy) ?? []
    all.push({ check, at: due(check.subject.pointer) })
    by.set(check.decidedBy, all)
  }
  return [...by]
    .map(([who, all]) => {
      const first = all.reduce((a, b) => (b.at < a.at ? b : a))
      const counted = (verdict: Check['verdict']) => all.filter(({ check }) => check.verdict === verdict).length
      return { who, first, open: counted('open'), failing: counted('fail') }
    })
    .sort((a, b) => a.first.at - b.first.at || b.failing + b.open - a.failing - a.open)
    .map(({ who, first: { check, at }, open, failing }) => ({
      who,
      open,
      failing,
      first: `${check.title}: ${check.subject.name}`,
      by: Number.isFinite(at) ? dayText(origin, at, true) : '',
    }))
}

/** When the plan first reaches what stands at an address: start of the first activity not done that comes from it. */
function reachedOf({ programme: { activities, plan } }: StakeholderStages): (pointer: string) => number {
  const starts = new Map<string, number>()
  const isAhead = ({ id, state }: Activity): boolean => state !== 'done' && plan[id] !== undefined
  for (const activity of Object.values(activities).filter(isAhead)) {
    const start = plan[activity.id]?.start as number
    const lift = activity.lift === undefined ? [] : [`/lifts/${activity.lift}`]
    for (const from of [...activity.from, ...lift].map(entityOf))
      starts.set(from, Math.min(start, starts.get(from) ?? Number.POSITIVE_INFINITY))
  }
  return (pointer) => starts.get(entityOf(pointer)) ?? Number.POSITIVE_INFINITY
}

/** Collection and key of an address; of the programme's collections one deeper. */
const entityOf = (pointer: string): string =>
  pointer
    .split('/')
    .slice(0, pointer.startsWith('/programme/') ? 4 : 3)
    .join('/')

const WATCHED = /^ground\.instrument\.(?!due)/

function watchedOf(checks: readonly Check[]): StakeholdersSheet['watched'] {
  const watched = checks.filter(({ kind, verdict }) => WATCHED.test(kind) && verdict !== 'open')
  const of = (all: readonly Check[]): number => new Set(all.map(({ subject }) => subject.pointer)).size
  return { above: of(watched.filter(({ verdict }) => verdict === 'fail')), all: of(watched) }
}
