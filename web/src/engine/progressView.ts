import type { Stages } from '@shieldwright/engine'
import { type AheadEntry, activeBetween, shiftsAt } from '@shieldwright/engine/programme/index.ts'
import type { AheadView, ProgressView } from './protocol.ts'

const DAY = 86_400
const WEEKS_AHEAD = 3

type At = (seconds: number | undefined) => number | undefined

/** Where the work stands: data date, slip against the baseline with its causes, what comes next. */
export function progressView(stages: Stages, at: At): ProgressView | undefined {
  const { programme } = stages
  const typed = stages.model.project.programme
  if (programme.solved === undefined || typed === undefined) return undefined
  const { progress, slippage } = programme
  const from = progress?.dataDate ?? secondsOf(typed.today, programme.origin) ?? 0
  const actual = Object.values(progress?.actual ?? {})
  return {
    dataDate: at(progress?.dataDate),
    done: actual.filter((a) => a.finish !== undefined).length,
    underWay: actual.filter((a) => a.finish === undefined).length,
    of: Object.keys(programme.activities).length,
    outOfSequence: (progress?.outOfSequence ?? []).map(({ activity, text }) => ({ activity, text })),
    lost: progress?.lost ?? [],
    slip:
      slippage === undefined
        ? undefined
        : {
            baseline: slippage.name,
            made: slippage.made,
            restartWas: at(slippage.restart?.baseline),
            seconds: slippage.restart?.slip,
            causes: slippage.causes.map(({ activity, kind, seconds, delays }) => ({
              activity,
              kind,
              seconds,
              delays: delays.map((id) => typed.delays[id]?.what ?? id),
            })),
          },
    delays: Object.entries(typed.delays).map(([id, { what, cause, from: begun, to }]) => ({
      id,
      what,
      cause,
      from: begun,
      to,
    })),
    aheadFrom: at(from) as number,
    shifts: shiftsAt(programme, typed, from).map(({ calendar, start, end, isUnderWay, work }) => ({
      calendar,
      start: at(start) as number,
      end: at(end) as number,
      isUnderWay,
      work: work.map((entry) => ({
        ...aheadView(entry, at, from),
        from: at(entry.from) as number,
        until: at(entry.until) as number,
      })),
    })),
    ahead: activeBetween(programme, from, from + WEEKS_AHEAD * 7 * DAY).map((entry) => aheadView(entry, at, from)),
  }
}

const secondsOf = (day: string | undefined, origin: string | undefined): number | undefined =>
  day === undefined || origin === undefined ? undefined : Math.max(0, (Date.parse(day) - Date.parse(origin)) / 1000)

const aheadView = (entry: AheadEntry, at: At, from: number): AheadView => ({
  id: entry.id,
  name: entry.name,
  state: entry.state,
  start: at(entry.start) as number,
  finish: at(entry.finish) as number,
  drives: entry.critical,
  float: entry.float,
  holdPoint: entry.holdPoint,
  today: entry.start < from + DAY,
})
