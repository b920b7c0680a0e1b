import { isCrane } from '../lift/index.ts'
import type { Model, System } from '../model/index.ts'
import { given } from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import type { GroundLoad } from './step.ts'

/** Ends the id of a load that nobody has said the place of. */
export const UNPLACED = '/unplaced'

/** Whether it is known where a load stands. */
export const isPlaced = ({ id }: GroundLoad): boolean => !id.endsWith(UNPLACED)

/** Something that stands nobody has said where: what it does to wall, bays and services is open, not nothing. */
export const unplaced = ({ project }: Model, id: string, system: System, missing: string): GroundLoad => ({
  id: `${id}${UNPLACED}`,
  what: system.name,
  kind: isCrane(system) ? 'crane' : 'leg',
  at: [0, 0, project.ground?.surface.value ?? 0],
  size: [0, 0],
  force: given('N', missing, undefined),
  on: 'ground',
  pointer: pointerOf('systems', id),
  when: ['lifting', 'set down'],
})
