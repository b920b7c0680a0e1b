import { showQuantity, writeQuantity } from '../../working/quantity.ts'
import type { ReadProject } from '../schema/project.ts'

/** What a tick may be about: the project as it was read, and every activity, typed or derived. */
export interface TickGround {
  project: ReadProject
  activities: Readonly<Record<string, { name: string }>>
}

/** What is recorded by a tick. */
export type TickPlace =
  | { of: 'service'; id: string; record: 'parted' | 'joined'; field?: 'tag' | 'port' | 'checkedBy' }
  | { of: 'isolation'; id: string; act: IsolationAct }
  | { of: 'activity'; id: string; end: 'start' | 'finish' }
  /** A line of a sheet that the project keeps nothing of. */
  | { of: 'sheet' }

export type IsolationAct = 'isolated' | 'locked' | 'discharged' | 'proved'

const ID = '([A-Za-z0-9][A-Za-z0-9._-]{0,127})'
const SERVICE = new RegExp(`^/services/${ID}/(?:(parted)(?:/(tag))?|(joined)(?:/(tag|port|checkedBy))?)$`)
const ISOLATION = new RegExp(`^/isolations/${ID}/signed/(isolated|locked|discharged|proved)$`)
const ACTIVITY = new RegExp(`^/programme/progress/${ID}/(start|finish)$`)
const SHEET = /^sheet(\/[A-Za-z0-9._-]{1,128}){2,3}$/

/** What the address of a tick means; undefined for one that no on-site file has. */
export function tickPlace(at: string): TickPlace | undefined {
  const service = SERVICE.exec(at)
  if (service !== null) {
    const [, id = '', parted, tag, , field] = service
    const of = { of: 'service', id, record: parted === undefined ? 'joined' : 'parted' } as const
    const read = tag ?? field
    return read === undefined ? of : { ...of, field: read as 'tag' | 'port' | 'checkedBy' }
  }
  const isolation = ISOLATION.exec(at)
  if (isolation !== null) return { of: 'isolation', id: isolation[1] as string, act: isolation[2] as IsolationAct }
  const activity = ACTIVITY.exec(at)
  if (activity !== null) return { of: 'activity', id: activity[1] as string, end: activity[2] as 'start' | 'finish' }
  return SHEET.test(at) ? { of: 'sheet' } : undefined
}

/**
 * What a line says of the thing that is ticked, in one text: printed with the line, and held against the project when the tick
 * comes back. Always in SI, so that a choice of units is no change.
 *
 * @returns undefined where there is no such thing (any more)
 */
export function tickSays({ project, activities }: TickGround, place: TickPlace): string | undefined {
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

const parts = (all: readonly (string | undefined)[]): string => all.filter((p) => p !== undefined).join(' · ')
