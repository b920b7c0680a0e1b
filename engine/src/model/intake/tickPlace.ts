import { showQuantity, writeQuantity } from '../../working/quantity.ts'
import type { ReadProject } from '../schema/project.ts'

/** What a tick may be about: the project as it was read, every activity, typed or derived, and the steps of every lift's sheet. */
export interface TickGround {
  project: ReadProject
  activities: Readonly<Record<string, { name: string }>>
  /** Steps on the sheet of a lift, in words and in SI; none where there is no such lift. */
  liftSteps: (lift: string) => readonly string[]
}

/** What is recorded by a tick. */
export type TickPlace =
  | { of: 'service'; id: string; record: 'parted' | 'joined'; field?: 'tag' | 'port' | 'checkedBy' }
  | { of: 'isolation'; id: string; act: IsolationAct }
  | { of: 'activity'; id: string; end: 'start' | 'finish' }
  /** All bolts of a joint, through the last pass. */
  | { of: 'bolts'; joint: string; field?: 'checkedBy' | 'rechecked' }
  | { of: 'lift step'; lift: string; step: number }
  /** A line of a sheet that the project keeps nothing of. */
  | { of: 'sheet' }

export type IsolationAct = 'isolated' | 'locked' | 'discharged' | 'proved'

const ID = '([A-Za-z0-9][A-Za-z0-9._-]{0,127})'
const SERVICE = new RegExp(`^/services/${ID}/(?:(parted)(?:/(tag))?|(joined)(?:/(tag|port|checkedBy))?)$`)
const ISOLATION = new RegExp(`^/isolations/${ID}/signed/(isolated|locked|discharged|proved)$`)
const ACTIVITY = new RegExp(`^/programme/progress/${ID}/(start|finish)$`)
const BOLTS = new RegExp(`^/joints/${ID}/tightened(?:/(checkedBy|rechecked))?$`)
const LIFT_STEP = new RegExp(`^/lifts/${ID}/steps/([1-9][0-9]{0,3})$`)
const SHEET = /^sheet(\/[A-Za-z0-9._-]{1,128}){2,3}$/

/** What the address of a tick means; undefined for one that no on-site file has. */
export function tickPlace(at: string): TickPlace | undefined {
  return servicePlace(at) ?? planPlace(at) ?? sheetPlace(at)
}

function servicePlace(at: string): TickPlace | undefined {
  const service = SERVICE.exec(at)
  if (service === null) return undefined
  const [, id = '', parted, tag, , field] = service
  const of = { of: 'service', id, record: parted === undefined ? 'joined' : 'parted' } as const
  const read = tag ?? field
  return read === undefined ? of : { ...of, field: read as 'tag' | 'port' | 'checkedBy' }
}

function planPlace(at: string): TickPlace | undefined {
  const isolation = ISOLATION.exec(at)
  if (isolation !== null) return { of: 'isolation', id: isolation[1] as string, act: isolation[2] as IsolationAct }
  const activity = ACTIVITY.exec(at)
  return activity === null
    ? undefined
    : { of: 'activity', id: activity[1] as string, end: activity[2] as 'start' | 'finish' }
}

function sheetPlace(at: string): TickPlace | undefined {
  const bolts = BOLTS.exec(at)
  if (bolts !== null) {
    const [, joint = '', field] = bolts
    return field === undefined
      ? { of: 'bolts', joint }
      : { of: 'bolts', joint, field: field as 'checkedBy' | 'rechecked' }
  }
  const step = LIFT_STEP.exec(at)
  if (step !== null) return { of: 'lift step', lift: step[1] as string, step: Number(step[2]) }
  return SHEET.test(at) ? { of: 'sheet' } : undefined
}

/**
 * What a line says of the thing that is ticked, in one text: printed with the line, and held against the project when the tick
 * comes back. Always in SI, so that a choice of units is no change.
 *
 * @returns undefined where there is no such thing (any more)
 */
export function tickSays(ground: TickGround, place: TickPlace): string | undefined {
  const { project, activities } = ground
  switch (place.of) {
    case 'service':
      return Object.hasOwn(project.services, place.id) ? serviceSays(project, place.id) : undefined
    case 'isolation': {
      if (!Object.hasOwn(project.isolations, place.id)) return undefined
      const { what, kind, where, storedEnergy } = project.isolations[place.id] as ReadProject['isolations'][string]
      return parts([what, kind, where, storedEnergy && `stored energy: ${storedEnergy}`])
    }
    case 'activity':
      return Object.hasOwn(activities, place.id) ? activities[place.id]?.name : undefined
    case 'bolts':
      return Object.hasOwn(project.joints, place.joint) ? boltsSay(project, place.joint) : undefined
    case 'lift step': {
      const says = ground.liftSteps(place.lift)[place.step - 1]
      return says === undefined ? undefined : oneLine(says).slice(0, LONGEST)
    }
    case 'sheet':
      return ''
    default:
      return place satisfies never
  }
}

function serviceSays({ services }: ReadProject, id: string): string {
  const service = services[id] as ReadProject['services'][string]
  const { tag = id, kind, medium, from, to, size, isolation, pressure, voltage, drained } = service
  return parts([
    `tag ${tag}`,
    `${kind}, ${medium}`,
    size,
    `${from} to ${to}`,
    pressure && showQuantity(pressure.value, 'Pa'),
    voltage?.value === undefined ? undefined : writeQuantity(voltage.value, 'V'),
    drained && (drained.value ?? 0) > 0 ? `drains ${showQuantity(drained.value, 'm3')}` : undefined,
    isolation && `isolation ${isolation}`,
  ])
}

/** What was put in and how far it was to be tightened: bolts that were tightened to another preload are another thing. */
function boltsSay({ joints }: ReadProject, id: string): string | undefined {
  const { between, bolts } = joints[id] as ReadProject['joints'][string]
  if (bolts === undefined) return undefined
  const { count, thread, grade, preload, method, lubrication, friction, nutFactor } = bolts
  const known = (words: string, quantity: { value: number | undefined } | undefined): string | undefined =>
    quantity?.value === undefined ? undefined : `${words} ${writeQuantity(quantity.value, '1')}`
  return parts([
    `${count} bolts ${thread} ${grade}`,
    between.join(' to '),
    preload && `preload ${showQuantity(preload.value, 'N')}`,
    method && `by ${method}`,
    lubrication && `lubrication: ${lubrication}`,
    known('friction', friction),
    known('nut factor', nutFactor),
  ])
}

/** Bolts that a line of a joint spoke of. */
export const boltsSaid = (says: string): number | undefined => {
  const count = /^(\d+) bolts /.exec(says)?.[1]
  return count === undefined ? undefined : Number(count)
}

const LONGEST = 2000

const parts = (all: readonly (string | undefined)[]): string =>
  oneLine(all.filter((p) => p !== undefined).join(' · ')).slice(0, LONGEST)

/** Without what a line of a file of ticks may not hold: a note of two lines would make the whole file refused. */
const oneLine = (text: string): string =>
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is taken out
  text.replace(/[\u0000-\u001f\u007f\u202a-\u202e\u2066-\u2069]+/g, ' ')
