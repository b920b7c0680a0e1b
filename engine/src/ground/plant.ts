import type { Model } from '../model/index.ts'
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

type Stored = Model['project']['bays'][string]['stored'][string]
type Plant = NonNullable<Model['project']['ground']>['plant'][string]

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
  return memory.once('ground-plant', [bays, ground], () => [
    ...Object.entries(bays).flatMap(([bay, { stored, level, allowable }]) =>
      Object.entries(stored).map(([id, is]): PlantLoad => {
        const pointer = pointerOf('bays', bay, 'stored', id)
        return {
          id: `${bay}/${id}`,
          pointer,
          is,
          on: bay,
          level: level.value as number,
          force: weight(knownOr(is.mass, 'kg', `${pointer}/mass`)),
          allowable,
          standsAt: (_, lift) => lift === undefined || !is.clearedFor.includes(lift),
        }
      }),
    ),
    ...Object.entries(ground?.plant ?? {}).map(
      ([id, is]): PlantLoad => ({
        id: `plant/${id}`,
        pointer: pointerOf('ground', 'plant', id),
        is,
        on: 'ground',
        level: ground?.surface.value as number,
        force: weight(is.mass),
        allowable: allowableAt(ground, [is.centre[0].value as number, is.centre[1].value as number]),
        standsAt: (step) => is.during === undefined || is.during.includes(step),
      }),
    ),
  ])
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
