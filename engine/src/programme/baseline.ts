import type { Operation } from '../working/patch.ts'
import { pointerOf } from '../working/pointer.ts'
import type { ProgrammeResult } from './programme.ts'
import { localAt, offsetAt, type Zone } from './zone.ts'

/** How a plan is kept as a baseline. */
export interface BaselineName {
  id: string
  name: string
  /** Day it is made, ISO 8601. */
  made: string
  /** Hash of the content it is made from. */
  content?: string
}

/** The plan as it stands, kept as a baseline: a patch for the project file; undefined where there is no plan. */
export function keepBaseline(result: ProgrammeResult, { id, ...about }: BaselineName): Operation[] | undefined {
  const { plan, restart, solved } = result
  if (solved === undefined || restart === undefined) return undefined
  const { zone } = solved
  const activities = Object.fromEntries(
    Object.entries(plan).map(([activity, { start, finish }]) => [
      activity,
      [momentText(zone, start), momentText(zone, finish)],
    ]),
  )
  return [
    {
      op: 'add',
      path: pointerOf('programme', 'baselines', id),
      value: { ...about, restart: momentText(zone, restart), activities },
    },
  ]
}

/** Local time with its offset, so that an hour that comes twice is told apart; to the second where the plan is. */
export function momentText(zone: Zone, elapsed: number): string {
  const whole = Math.round(elapsed)
  const { date, time } = localAt(zone, whole)
  const seconds = ((((whole + offsetAt(zone, whole)) % 60) + 60) % 60).toString().padStart(2, '0')
  return `${date}T${time}${seconds === '00' ? '' : `:${seconds}`}${offsetText(zone, whole)}`
}

function offsetText(zone: Zone, elapsed: number): string {
  const { date, time } = localAt(zone, elapsed)
  const local = Date.UTC(
    Number(date.slice(0, 4)),
    Number(date.slice(5, 7)) - 1,
    Number(date.slice(8)),
    Number(time.slice(0, 2)),
    Number(time.slice(3)),
  )
  const minutes = Math.round((local - zone.origin - elapsed * 1000) / 60_000)
  if (minutes === 0) return 'Z'
  const pad = (n: number): string => String(n).padStart(2, '0')
  const size = Math.abs(minutes)
  return `${minutes < 0 ? '-' : '+'}${pad(Math.floor(size / 60))}:${pad(size % 60)}`
}
