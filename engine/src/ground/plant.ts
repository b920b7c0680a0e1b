import type { Bay, Ground, Model } from '../model/index.ts'
import { type Answer, knownOr } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { SOIL } from './caution.ts'
import { allowableAt } from './crane.ts'
import { restingOn } from './decision.ts'
import * as kinds from './kinds.ts'
import { meanPressure, rectangleArea } from './pad.formulas.ts'
import { weight } from './weight.ts'

type Stored = Bay['stored'][string]
type Plant = Ground['plant'][string]

/** A stockpile, plant or packing on a bay or on the open ground. Frame: site. */
export interface PlantLoad {
  id: string
  pointer: string
  is: Stored | Plant
  /** Bay, or the ground. */
  on: string
  /** Level at which it stands, site z, m. */
  level: number
  force: Answer<'N'>
  allowable: Answer<'Pa'>
  /** Whether it stands there at a step with this lift. */
  standsAt: (step: string, lift: string | undefined) => boolean
}

/** Everything stored on bays or on the open ground. */
export function plantOf({ project }: Model, memory: Memory): PlantLoad[] {
  const { bays, ground } = project
  return memory.once('ground-plant-whole', [bays, ground], () => {
    const stored = Object.entries(bays).map(([id, bay]) =>
      memory.once(`ground-stored/${id}`, [bay], () => storedOn(id, bay, memory)),
    )
    const plant = memory.once('ground-plant', [ground], () => plantOn(ground))
    return memory.once('ground-plant-all', [...stored, plant], () => [...stored.flat(), ...plant])
  })
}

function storedOn(bay: string, { stored, level, allowable }: Bay, memory: Memory): PlantLoad[] {
  return Object.entries(stored).map(([id, is]) => {
    const pointer = pointerOf('bays', bay, 'stored', id)
    return {
      id: `${bay}/${id}`,
      pointer,
      is,
      on: bay,
      level: level.value as number,
      force: memory.once(`ground-stored-weight/${bay}/${id}`, [is], () =>
        weight(knownOr(is.mass, 'kg', `${pointer}/mass`)),
      ),
      allowable,
      standsAt: (_, lift) => lift === undefined || !is.clearedFor.includes(lift),
    }
  })
}

function plantOn(ground: Ground | undefined): PlantLoad[] {
  return Object.entries(ground?.plant ?? {}).map(([id, is]) => ({
    id: `plant/${id}`,
    pointer: pointerOf('ground', 'plant', id),
    is,
    on: 'ground',
    level: ground?.surface.value as number,
    force: weight(is.mass),
    allowable: allowableAt(ground, [is.centre[0].value as number, is.centre[1].value as number]),
    standsAt: (step) => is.during === undefined || is.during.includes(step),
  }))
}

/** The pressure of each on what it stands on. Practice 52. */
export function plantChecks({ project, near }: Model, plant: readonly PlantLoad[]): Check[] {
  return plant.map(({ id, pointer, is, force, allowable }) =>
    check({
      kind: kinds.plantPressure,
      subject: { pointer, id: id.replace('/', '-'), name: is.what },
      title: `${kinds.plantPressure.title}: ${is.what}`,
      demand: meanPressure.show({ P: force, A: rectangleArea.show({ B: is.size[0], L: is.size[1] }) }),
      capacity: allowable,
      near,
      assumptions: ['Its weight is spread evenly over its plan.', restingOn(project.ground, 'G6')],
      cautions: [SOIL],
    }),
  )
}
