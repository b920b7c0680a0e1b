import type { Activity } from '../../programme/index.ts'
import { instantOf } from '../../programme/index.ts'
import type { TableStages } from './tables.ts'

/** Something of the plan that stands in a calendar. */
export interface Appointment {
  /** Stays the same when the plan moves, so that a calendar moves it too. */
  id: string
  kind: 'lift' | 'hold point' | 'delivery' | 'restart'
  title: string
  words: string
  /** Instants of UTC, ISO 8601; the same where it is an instant. */
  start: string
  finish: string
}

const LIFTS: ReadonlySet<Activity['kind']> = new Set(['lift', 'turn', 'lift back', 'turn back'])
const NAMES: Readonly<Partial<Record<Activity['kind'], string>>> = {
  lift: 'Lift',
  turn: 'Turn',
  'lift back': 'Lift back',
  'turn back': 'Turn back',
}
const PLANNED = 'A planned date, not a permit to begin: lifts, entries and isolations go by their own.'

/** Lifts, hold points, deliveries and the restart of the plan, by date. What is done stands in it as it happened. */
export function appointmentsOf(stages: TableStages): Appointment[] {
  const all = Object.values(stages.programme.activities)
  return [
    ...all.filter(({ kind }) => LIFTS.has(kind)).flatMap((a) => liftDate(stages, a)),
    ...all.filter(({ holdPoint }) => holdPoint !== undefined).flatMap((a) => holdDate(stages, a)),
    ...deliveryDates(stages),
    ...restartDate(stages),
  ].sort((a, b) => (a.start < b.start ? -1 : a.start > b.start ? 1 : a.id < b.id ? -1 : 1))
}

function spanOf({ programme: { plan, solved } }: TableStages, id: string | undefined) {
  const dates = id === undefined ? undefined : plan[id]
  if (dates === undefined || solved === undefined) return undefined
  return { start: instantOf(solved.zone, dates.start), finish: instantOf(solved.zone, dates.finish) }
}

function liftDate(stages: TableStages, a: Activity): Appointment[] {
  const span = spanOf(stages, a.id)
  if (span === undefined) return []
  const { project } = stages.model
  const outcome = a.lift === undefined ? undefined : stages.lift.lifts[a.lift]
  const piece = a.piece ?? outcome?.piece
  const name = piece === undefined ? a.name : (project.pieces[piece]?.name ?? piece)
  const wind = outcome?.allowableWind.value
  const load = outcome?.hookLoad.value
  const words = [
    `Activity ${a.id}${a.lift === undefined ? '' : `, lift ${a.lift}`}${outcome === undefined ? '' : ` on ${outcome.system}`}.`,
    load === undefined ? 'Hook load: open.' : `Hook load ${(load / 1000).toFixed(1)} t.`,
    wind === undefined ? 'Allowable wind: open.' : `Allowable wind ${wind.toFixed(1)} m/s.`,
    a.state === undefined ? PLANNED : `At the data date: ${a.state}.`,
  ]
  return [{ id: `lift ${a.id}`, kind: 'lift', title: `${NAMES[a.kind]}: ${name}`, words: words.join('\n'), ...span }]
}

/** A hold point is met when its activity ends: nobody goes on before it is signed. */
function holdDate(stages: TableStages, a: Activity): Appointment[] {
  const span = spanOf(stages, a.id)
  if (span === undefined) return []
  const words = `${a.holdPoint}\nActivity ${a.id}, ${a.name}, ends. Nothing goes on until it is signed.`
  return [{ id: `hold ${a.id}`, kind: 'hold point', title: `Hold point: ${a.name}`, words, ...at(span.finish) }]
}

function deliveryDates(stages: TableStages): Appointment[] {
  return Object.entries(stages.model.project.programme?.deliveries ?? {}).flatMap(([id, d]): Appointment[] => {
    const span = spanOf(stages, d.activity)
    if (span === undefined) return []
    const state = stages.programme.activities[d.activity]?.state
    const words = `Activity ${d.activity}, from order to delivery.\n${state === 'done' ? 'Delivered.' : 'Expected, most likely.'}`
    return [{ id: `delivery ${id}`, kind: 'delivery', title: `Delivery: ${d.what}`, words, ...at(span.finish) }]
  })
}

function restartDate(stages: TableStages): Appointment[] {
  const restart = stages.model.project.programme?.restart
  const span = spanOf(stages, restart)
  if (span === undefined) return []
  const words = `Activity ${restart} ends in the plan. A plan, no promise.`
  return [{ id: 'restart', kind: 'restart', title: 'Restart of the drive', words, ...at(span.finish) }]
}

const at = (instant: string) => ({ start: instant, finish: instant })
