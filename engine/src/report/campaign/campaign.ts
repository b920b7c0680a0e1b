import type { LiftResult } from '../../lift/index.ts'
import type { MassResult } from '../../mass/index.ts'
import type { Model } from '../../model/index.ts'
import { offsetAt, type ProgrammeResult } from '../../programme/index.ts'
import type { RiskResult } from '../../risk/index.ts'
import type { StripResult } from '../../strip/index.ts'
import { DAY } from '../civil.ts'
import { type BayWork, bayWorks } from './bayWork.ts'
import { laneOrder } from './lanes.ts'
import { type LiftDay, type LiftHours, liftDaysOf, liftHours } from './liftDays.ts'
import { type ResourceUse, resourceUses } from './resourceUse.ts'
import { type Sinking, sinkingOf } from './sinking.ts'
import type { Baseline } from './slips.ts'
import { type Stop, stopsOf } from './stops.ts'
import { type Supply, suppliesOf } from './supply.ts'
import { type Comb, servicesComb, testsComb } from './teeth.ts'
import { type Track, trackOf, tracksOf } from './trackOf.ts'
import { type WindAhead, windMonths } from './windMonths.ts'

/** What the diagram of the campaign reads; risk may be left out, and then no wind is drawn. */
export interface CampaignStages {
  model: Model
  mass: MassResult
  strip: StripResult
  lift: LiftResult
  programme: ProgrammeResult
  risk?: RiskResult
}

export interface Lane {
  bay: string
  name: string
  /** From the middle of the shaft, m. */
  distance: number
  /** Pa */
  allowable: number | undefined
}

/** A phase of the plan, from its first start to its last finish. */
export interface Phase {
  name: string
  start: number
  finish: number
}

/**
 * The campaign as data: tracks, lanes from the top down, work, and the days that matter. Every time is in seconds of the
 * plan's own clock from the first local midnight, so that whole days are whole days of the calendar.
 */
export interface Campaign {
  model: Model
  title: string
  /** First local midnight as a UTC instant of the same reading, ISO 8601: days are counted from it. */
  origin: string
  tracks: readonly Track[]
  lanes: readonly Lane[]
  crossings: number
  works: readonly BayWork[]
  supplies: readonly Supply[]
  /** Lifting systems, and what is waited for. */
  uses: readonly ResourceUse[]
  sinking: Sinking
  servicesOff: Comb
  servicesOn: Comb
  tests: Comb
  wind: WindAhead | undefined
  lifts: readonly LiftDay[]
  /** Hours of a day in which lifts may go on. */
  hours: LiftHours
  phases: readonly Phase[]
  begin: number
  end: number
  /** When the strip begins. */
  stripBegins: number
  /** When each stop along the order is reached, there and back. */
  stops: readonly Stop[]
  restart: number | undefined
  restartUnlimited: number | undefined
  /** The data date, where there is one: everything before it is as it was. Else today as the project says it. */
  today: number | undefined
  /** What is known before `today` is what happened, not what was planned. */
  isActual: boolean
  /** The plan that was agreed. */
  agreed: Agreed | undefined
}

/** A baseline of the project on the plan's clock. */
export interface Agreed {
  name: string
  /** Year-month-day. */
  made: string
  activities: Baseline
  restart?: number
}

/** Elapsed seconds of the programme to seconds of its own clock. */
export type Clock = (seconds: number) => number

/** What every part of the campaign is made from. */
export interface Reading extends CampaignStages {
  clock: Clock
  /** Start and finish of an activity on the plan's clock. */
  when: (id: string) => { start: number; finish: number } | undefined
}

/** The campaign that follows from order, lifts and plan; undefined without a programme or without lifts in it. */
export function campaignOf(stages: CampaignStages): Campaign | undefined {
  const { model, programme } = stages
  const typed = model.project.programme
  if (typed === undefined || programme.origin === undefined) return undefined
  const reading = readingOf(stages)
  const tracks = tracksOf(reading)
  if (tracks.length === 0) return undefined
  const { order, crossings } = orderOf(tracks)
  const sinking = sinkingOf(reading)
  const restart = programme.restart === undefined ? undefined : reading.clock(programme.restart)
  const first = Math.min(...tracks.map((t) => t.lifting))
  const stripBegins = Math.min(first, reading.when('order.begin')?.finish ?? first)
  return {
    model,
    title: model.project.about.title,
    origin: `${typed.start}T00:00:00Z`,
    tracks,
    lanes: order.map((bay) => laneOf(bay, model)),
    crossings,
    works: bayWorks(reading, tracks),
    supplies: suppliesOf(reading),
    uses: resourceUses(reading),
    sinking,
    servicesOff: servicesComb(reading, 'part'),
    servicesOn: servicesComb(reading, 'reconnect'),
    tests: testsComb(reading),
    wind: windMonths(reading),
    lifts: liftDaysOf(reading),
    hours: liftHours(reading),
    phases: phasesOf(reading),
    begin: 0,
    end: Math.max(restart ?? 0, ...tracks.map((t) => t.home ?? t.out)) + MARGIN,
    stripBegins,
    stops: stopsOf(reading, stripBegins),
    restart,
    restartUnlimited: programme.restartUnlimited === undefined ? undefined : reading.clock(programme.restartUnlimited),
    today: todayOf(reading),
    isActual: programme.progress !== undefined,
    agreed: agreedOf(reading),
  }
}

const MARGIN = 21 * DAY

function todayOf({ model, programme, clock }: Reading): number | undefined {
  const { start = '', today } = model.project.programme ?? {}
  if (programme.progress !== undefined) return clock(programme.progress.dataDate)
  return today === undefined ? undefined : daysBetween(start, today) * DAY
}

function agreedOf({ programme: { slippage }, clock }: Reading): Agreed | undefined {
  if (slippage === undefined) return undefined
  const activities = Object.fromEntries(
    Object.entries(slippage.slips).map(([id, { baseline }]) => [
      id,
      { start: clock(baseline.start), finish: clock(baseline.finish) },
    ]),
  )
  const { name, made, restart } = slippage
  return { name, made, activities, ...(restart === undefined ? {} : { restart: clock(restart.baseline) }) }
}

const daysBetween = (from: string, to: string): number => Math.round((Date.parse(to) - Date.parse(from)) / 86_400_000)

function readingOf(stages: CampaignStages): Reading {
  const { plan, solved } = stages.programme
  const clock: Clock = (seconds) => (solved === undefined ? seconds : seconds + offsetAt(solved.zone, seconds))
  const when = (id: string) => {
    const planned = plan[id]
    return planned === undefined ? undefined : { start: clock(planned.start), finish: clock(planned.finish) }
  }
  return { ...stages, clock, when }
}

function orderOf(tracks: readonly Track[]): { order: string[]; crossings: number } {
  const bays = [...new Set(tracks.map((t) => t.bay))]
  return laneOrder(
    bays,
    tracks.map((t) => {
      const from = trackOf(tracks, t.off)?.bay
      return {
        lane: t.bay,
        ...(from === undefined ? {} : { from }),
        out: t.out,
        back: t.back ?? Number.MAX_SAFE_INTEGER,
      }
    }),
  )
}

function laneOf(bay: string, { project }: Model): Lane {
  const own = project.bays[bay]
  const [x, y] = [own?.centre[0].value ?? 0, own?.centre[1].value ?? 0]
  return { bay, name: own?.name ?? bay, distance: Math.hypot(x, y), allowable: own?.allowable.value }
}

/** First start and last finish of each phase, in the order of their starts. */
function phasesOf({ programme, when }: Reading): Phase[] {
  const ends = new Map<string, Phase>()
  for (const { id, phase } of Object.values(programme.activities)) {
    const planned = when(id)
    if (planned === undefined) continue
    const known = ends.get(phase) ?? { name: phase, ...planned }
    ends.set(phase, {
      name: phase,
      start: Math.min(known.start, planned.start),
      finish: Math.max(known.finish, planned.finish),
    })
  }
  return [...ends.values()].sort((a, b) => a.start - b.start)
}
