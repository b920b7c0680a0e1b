import { compose, multiply, type Pose, rotationAbout, type Vec3 } from '../numeric/vector.ts'
import type { Given } from '../working/answer.ts'
import type { Instance } from './instance.ts'
import type { Machine } from './schema/project.ts'

/** Values of a read point; unknown coordinates do not occur in a project that has been read. */
export const coordinates = (point: readonly [Given<'m'>, Given<'m'>, Given<'m'>]): Vec3 => [
  point[0].value as number,
  point[1].value as number,
  point[2].value as number,
]

/**
 * Machine frame to site frame: R = Rz(yaw to the left) · Ry(−nose up) · Rx(roll), p_site = origin + R p_machine.
 */
export function poseOfMachine({ pose }: Pick<Machine, 'pose'>): Pose {
  const turn = multiply(
    rotationAbout('z', pose.yaw.value as number),
    multiply(rotationAbout('y', -(pose.pitch.value as number)), rotationAbout('x', pose.roll.value as number)),
  )
  return { turn, shift: coordinates(pose.origin) }
}

/** An entry's own shape to its place in the machine frame. */
export const poseOfInstance = ({ turn, shift }: Instance): Pose => ({ turn: rotationAbout('x', turn), shift })

/** An entry's own shape to its place in the site frame, as found. */
export const poseInSite = (machine: Machine, instance: Instance): Pose =>
  compose(poseOfMachine(machine), poseOfInstance(instance))
