import { epochOf, type Instrument, type Model } from '../model/index.ts'
import { type Answer, found, given, knownOr } from '../working/answer.ts'
import { type Check, check, type Resting, type Subject } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { showQuantity } from '../working/quantity.ts'
import { SOIL } from './caution.ts'
import { restingOn } from './decision.ts'
import * as kinds from './kinds.ts'
import { aheadOf, type Reading, reachedOn, readingsOf, type Trend, trendOf } from './trend.ts'

const LEVELS = ['alert', 'action', 'alarm'] as const
export type LevelName = (typeof LEVELS)[number]

/** An instrument as it stands: its last reading, where it is going, and what the plan demands now. */
export interface InstrumentState {
  id: string
  pointer: string
  is: Instrument
  readings: readonly Reading[]
  trend?: Trend
  /** Highest level that the last reading has come to. */
  at?: LevelName
  /** What the plan says must be done at that level. */
  demands?: string
  /** Day on which the trend comes to each level. */
  reached: Readonly<Partial<Record<LevelName, string>>>
  /** Longest time from one reading to the next that holds now, and the step that asks for it. */
  every: Answer<'s'>
  step?: string
}

/** Every instrument of the ground as it stands. */
export function instrumentsOf({ project }: Model): InstrumentState[] {
  const zone = project.programme?.timeZone ?? 'UTC'
  const step = stepUnderWay(project)
  return Object.entries(project.ground?.instruments ?? {}).map(([id, is]) => {
    const readings = readingsOf(is, zone)
    const trend = trendOf(readings)
    const at = levelOf(is, readings.at(-1)?.answer.value)
    const pointer = pointerOf('ground', 'instruments', id)
    const asked = step !== undefined && is.inSteps?.steps.includes(step)
    return {
      id,
      pointer,
      is,
      readings,
      trend,
      at,
      demands: at && is.plan[at],
      reached: trend === undefined ? {} : reachedDays(is, trend, zone),
      every: asked && is.inSteps ? is.inSteps.every : knownOr(is.every, 's', `${pointer}/every`),
      ...(asked ? { step } : {}),
    }
  })
}

/**
 * The step of the order that is under way at the data date: of those with work begun and not ended the one begun last, else the
 * one whose work ended last; undefined before the first.
 */
export function stepUnderWay({ programme, order }: Model['project']): string | undefined {
  if (programme === undefined) return undefined
  const at = (text: string): number => epochOf(text, programme.timeZone, 'first')
  const entries = Object.entries(programme.progress).flatMap(([activity, { start, finish }]) => {
    const step = order.find((id) => activity.startsWith(`${id}.`))
    const latest = finish ?? start
    return step === undefined || latest === undefined ? [] : [{ step, isOpen: finish === undefined, at: at(latest) }]
  })
  const open = entries.filter(({ isOpen }) => isOpen)
  return (open.length > 0 ? open : entries).sort((a, b) => b.at - a.at)[0]?.step
}

const value = (answer: Answer): number => answer.value as number

/** Whether a fall is what the levels watch for, such as the head under a neighbour's piles. */
const isFalling = ({ alert, alarm }: Instrument): boolean => value(alarm) < value(alert)

function levelOf(is: Instrument, reading: number | undefined): LevelName | undefined {
  if (reading === undefined) return undefined
  return LEVELS.findLast((l) => (isFalling(is) ? reading < value(is[l]) : reading > value(is[l])))
}

function reachedDays(is: Instrument, trend: Trend, zone: string): InstrumentState['reached'] {
  return Object.fromEntries(
    LEVELS.flatMap((l) => {
      const day = reachedOn(trend, value(is[l]), zone)
      return day === undefined ? [] : [[l, day]]
    }),
  )
}

/** Reading, trend and age of every instrument. */
export function instrumentChecks(model: Model): Check[] {
  return instrumentsOf(model).flatMap((state) => [
    readingCheck(model, state),
    ...trendCheck(model, state),
    ...dueCheck(model, state),
  ])
}

const subjectOf = ({ id, pointer, is }: InstrumentState): Subject => ({ pointer, id, name: is.what })

const last = ({ readings, pointer, is }: InstrumentState): Answer =>
  readings.at(-1)?.answer ?? given(is.alert.unit, `${pointer}/readings`, undefined)

/** A share of a level means nothing where the level is counted from a datum. */
const nearOf = ({ is }: InstrumentState, near: number): number => (is.measures === 'head' || isFalling(is) ? 1 : near)

/** What must stay below a level against it; where a fall is watched for, the level against what must stay above it. */
const sides = ({ is }: InstrumentState, reading: Answer, level: Answer) =>
  isFalling(is) ? { demand: level, capacity: reading } : { demand: reading, capacity: level }

function readingCheck({ project, near }: Model, state: InstrumentState): Check {
  const { is, readings, at, demands } = state
  const on = readings.at(-1)?.on
  return check({
    kind: kinds.instrumentReading,
    subject: subjectOf(state),
    title: `${kinds.instrumentReading.title}: ${is.what}`,
    ...sides(state, last(state), is.alert),
    near: nearOf(state, near),
    found:
      at === undefined
        ? []
        : [
            `past the ${at} level, ${showQuantity(is[at].value, is[at].unit)}`,
            `the plan demands: ${demands ?? `nothing is written for the ${at} level`}`,
          ],
    assumptions: [...(on === undefined ? [] : [`Read on ${on}.`]), resting(project)],
    cautions: [SOIL, 'Above the alarm level work stops until the ground engineer releases it.'],
  })
}

const resting = ({ ground }: Model['project']): Resting => restingOn(ground, 'G9')

/** Where the trend stands once the notice has passed, against the alarm level; nothing before three readings say where it goes. */
function trendCheck({ project, near }: Model, state: InstrumentState): Check[] {
  const { is, trend, pointer, reached } = state
  if (trend === undefined) return []
  const ahead = aheadOf(trend, knownOr(is.notice, 's', `${pointer}/notice`))
  const days = LEVELS.flatMap((l) => (reached[l] === undefined ? [] : [`${l} level on ${reached[l]}`]))
  return [
    check({
      kind: kinds.instrumentTrend,
      subject: subjectOf(state),
      title: `${kinds.instrumentTrend.title}: ${is.what}`,
      ...sides(state, ahead, is.alarm),
      near: nearOf(state, near),
      found: ['the trend comes to the alarm level before what the plan demands can be done'],
      assumptions: [
        days.length === 0
          ? 'The trend comes to no further level within ten years.'
          : `By the trend: ${days.join(', ')}.`,
        resting(project),
      ],
      cautions: [SOIL, 'A straight line: what moves by leaps, or faster and faster, comes sooner.'],
    }),
  ]
}

/** Time since the last reading at the data date, against the longest that the plan allows in the step under way. */
function dueCheck({ project }: Model, state: InstrumentState): Check[] {
  const { programme } = project
  if (programme?.dataDate === undefined) return []
  const { is, every, step, readings } = state
  const now = epochOf(programme.dataDate, programme.timeZone, 'last')
  const at = readings.at(-1)?.at
  return [
    check<'s'>({
      kind: kinds.instrumentDue,
      subject: subjectOf(state),
      title: `${kinds.instrumentDue.title}: ${is.what}`,
      demand: found({
        unit: 's',
        value: at === undefined ? undefined : Math.max(0, (now - at) / 1000),
        method: `from the last reading to the data date, ${programme.dataDate}`,
        inputs: { reading: last(state) },
        residuals: [],
      }),
      capacity: every,
      near: 1,
      found: [`the last reading is of ${readings.at(-1)?.on}, the data date ${programme.dataDate}`],
      assumptions: [
        step === undefined
          ? 'As between the steps that ask for more readings.'
          : `The step "${step}" is under way, and asks for these readings.`,
        resting(project),
      ],
      cautions: [SOIL],
    }),
  ]
}
