import { idsMeant, type Model, type Service } from '../model/index.ts'
import type { Memory } from '../working/memory.ts'
import type { Work } from './joint.ts'

/** A service with the instances at its ends; an empty end lies outside the machine. */
export interface ServiceEnds {
  id: string
  service: Service
  from: readonly string[]
  to: readonly string[]
}

/** Every service with its ends, in the order of the file. */
export function serviceEnds(model: Model, memory: Memory): readonly ServiceEnds[] {
  const { services } = model.project
  const ids = memory.settled('strip/ids', [...model.instances.byId.keys()])
  return memory.once('strip/serviceEnds', [services, ids], () =>
    Object.entries(services).map(([id, service]) => ({
      id,
      service,
      from: idsMeant(model.instances, service.from),
      to: idsMeant(model.instances, service.to),
    })),
  )
}

/** Working time on every service, by id. */
export function serviceWork(model: Model, memory: Memory): Readonly<Record<string, Work>> {
  const { services } = model.project
  return memory.once('strip/serviceWork', [services], () =>
    Object.fromEntries(Object.entries(services).map(([id, { timeOff, timeOn }]) => [id, { off: timeOff, on: timeOn }])),
  )
}

/**
 * Services with one end on what moves and the other on what stays; an end outside the machine stays. Services parted
 * earlier are left out.
 */
export function crossingServices(
  services: readonly ServiceEnds[],
  moving: ReadonlySet<string>,
  parted: ReadonlySet<string>,
): readonly ServiceEnds[] {
  return services.filter(({ id, from, to }) => !parted.has(id) && endMoves(from, moving) !== endMoves(to, moving))
}

/** An end given as an entry with a pattern moves when any of its instances does. */
const endMoves = (end: readonly string[], moving: ReadonlySet<string>): boolean => end.some((id) => moving.has(id))
