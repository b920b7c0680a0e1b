import { isCrane, legReactions } from '../lift/index.ts'
import type { Model, System } from '../model/index.ts'
import { type Answer, stated } from '../working/answer.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { parkedCrane } from './craneLoads.ts'
import { hookPlaces } from './hookPlaces.ts'
import type { GroundLoad, StepCase } from './step.ts'
import { unplaced } from './unplaced.ts'

/** A tower or gantry at work in the lift of a step. */
interface AtWork {
  id: string
  system: System
  hook: string
  /** Under its head. */
  load: Answer<'kg'>
}

const BOTH = ['lifting', 'set down'] as const

/** Legs with the load over where it was taken up, then over where it is set down. */
export function legLoads(c: StepCase, { id, system, hook, load }: AtWork): GroundLoad[] {
  if (Object.keys(system.legs).length === 0) return [withoutLegs(c.model, id, system)]
  const places = hookPlaces(c)
  return BOTH.flatMap((when) => {
    const [x, y] = places[when]
    const travel = system.hooks[hook]?.travel?.map((t) => t.value as number)
    const held = travel === undefined ? x : Math.min(Math.max(x, Math.min(...travel)), Math.max(...travel))
    const reactions = c.memory.once(`ground-legs/${c.place.step.step}/${id}/${when}`, [system, load, held], () =>
      legReactions(id, system, load, stated('m', held, `hook where the piece is ${when}`)),
    )
    return reactions.map(
      ({ leg, x: legX, offset, vertical }): GroundLoad => ({
        id: `${id}/${leg}/${when.replace(' ', '-')}`,
        what: `leg ${leg} of ${system.name}`,
        kind: 'leg',
        at: [legX, y + offset, footLevel(c.model, id)],
        size: [0, 0],
        force: vertical,
        on: 'runway',
        pointer: pointerOf('systems', id, 'legs', leg),
        when: [when],
      }),
    )
  })
}

/** Piles bring a leg's load into the ground at about two thirds of their depth; a beam at the collar. */
function footLevel({ project }: Model, id: string): number {
  const top = project.shaft?.collar.value ?? 0
  const toe = project.systems[id]?.foundation?.toe?.value
  return toe === undefined ? top : top - (2 / 3) * (top - toe)
}

const withoutLegs = (model: Model, id: string, system: System): GroundLoad =>
  unplaced(model, id, system, pointerOf('systems', id, 'legs'))

const EMPTY = stated('kg', 0, 'hook empty')

/** A tower or gantry that is not at work, where it is parked: its own weight, by its legs. */
function parkedLegs(model: Model, id: string, system: System, memory: Memory): GroundLoad[] {
  if (Object.keys(system.legs).length === 0) return [withoutLegs(model, id, system)]
  const along = system.parked?.along?.value
  if (along === undefined) return [unplaced(model, id, system, pointerOf('systems', id, 'parked', 'along'))]
  const reactions = memory.once(`ground-parked/${id}`, [system], () =>
    legReactions(id, system, EMPTY, stated('m', 0, 'nothing hangs from it')),
  )
  return reactions.map(
    ({ leg, x, offset, vertical }): GroundLoad => ({
      id: `${id}/${leg}/parked`,
      what: `leg ${leg} of ${system.name}`,
      kind: 'leg',
      at: [x, along + offset, footLevel(model, id)],
      size: [0, 0],
      force: vertical,
      on: 'runway',
      pointer: pointerOf('systems', id, 'legs', leg),
      stays: true,
      when: BOTH,
    }),
  )
}

/**
 * Machines that are not at work, where each is parked, unless it is away; a hoist hangs from something else and has no feet.
 *
 * @param wall outer radius of the wall of the shaft, m
 */
export function parkedMachines(
  model: Model,
  wall: number | undefined,
  memory: Memory,
  isParked: (id: string) => boolean = () => true,
): GroundLoad[] {
  return Object.entries(model.project.systems).flatMap(([id, system]) => {
    if (system.kind === 'hoist' || system.parked?.away === true || !isParked(id)) return []
    return isCrane(system) ? parkedCrane(model, id, system, wall, memory) : parkedLegs(model, id, system, memory)
  })
}
