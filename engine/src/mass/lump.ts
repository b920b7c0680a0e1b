import { type Instance, poseOfInstance } from '../model/index.ts'
import {
  add,
  addMatrix,
  type Mat3,
  multiply,
  type Pose,
  place,
  scale,
  scaleMatrix,
  subtract,
  transpose,
  type Vec3,
  ZERO,
} from '../numeric/vector.ts'
import { type Answer, given, stated } from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import { type MassBasis, outer, type PartMass } from './part.ts'
import { likeParts } from './set.formulas.ts'

/**
 * What enters a roll-up as one term: the like parts of one entry, or what a change adds. Its mass and uncertainty come from
 * one figure, so within it errors add straight. Frame: machine. Where a mass or place is unknown its number is a stand-in
 * (0 kg, the part's centroid) and the answers above it are open.
 */
export interface Lump {
  label: string
  mass: Answer<'kg'>
  /** Standard uncertainty. */
  uncertainty: Answer<'kg'>
  basis: MassBasis
  cog: Vec3
  /** Σ m (p − cog)(p − cog)ᵀ, kg m². */
  spread: Mat3
  /** What its place rests on, by name. */
  place: Readonly<Record<string, Answer>>
}

/** Instances of one entry in a set; at least one. */
export interface Member {
  part: PartMass
  instances: readonly Instance[]
}

/** The same, with nothing but the shape and where it stands: from the entry's own place to each instance's, machine frame. */
export interface Standing {
  part: PartMass
  places: readonly { id: string; pose: Pose }[]
}

/** Where the instances of a member stand. */
export const standingOf = ({ part, instances }: Member): Standing => ({
  part,
  places: instances.map((i) => ({ id: i.id, pose: poseOfInstance(i) })),
})

export const NO_SPREAD: Mat3 = [ZERO, ZERO, ZERO]

/** The like parts of an entry, in their places. */
export function lumpOf({ part, instances }: Member): Lump {
  const count = countOf(part.entry, instances)
  const poses = instances.map(poseOfInstance)
  const centroids = poses.map((pose) => place(pose, part.shape.centroid))
  const cog = scale(centroids.reduce(add, ZERO), 1 / instances.length)
  const spread = poses.reduce<Mat3>((sum, { turn }, i) => {
    const own = multiply(multiply(turn, part.shape.spread), transpose(turn))
    return addMatrix(sum, addMatrix(own, outer(subtract(centroids[i] as Vec3, cog))))
  }, NO_SPREAD)
  return {
    label: instances.length === 1 ? (instances[0] as Instance).id : `${part.entry} × ${instances.length}`,
    mass: count === undefined ? part.mass : likeParts.show({ n: count, m: part.mass }),
    uncertainty: count === undefined ? part.uncertainty : likeParts.show({ n: count, m: part.uncertainty }),
    basis: part.basis,
    cog,
    spread: scaleMatrix(spread, part.mass.value ?? 0),
    place: placeInputs(part, instances[0] as Instance),
  }
}

/** How many; the pattern's own count where the whole entry is meant, nothing where there is but one. */
function countOf(entry: string, instances: readonly Instance[]): Answer<'1'> | undefined {
  if (instances.length === 1) return undefined
  const all = instances[0]?.part.pattern?.count
  return all === instances.length
    ? given('1', pointerOf('parts', entry, 'pattern', 'count'), all)
    : stated('1', instances.length, `of ${entry} in the set: ${instances.map((i) => i.id).join(', ')}`)
}

function placeInputs({ entry, centroid }: PartMass, { part: { pattern } }: Instance): Lump['place'] {
  const inputs: Record<string, Answer> = {}
  for (const [i, answer] of centroid.entries()) inputs[`${entry}: ${'xyz'[i]}`] = answer
  const steps = pattern === undefined ? [] : pattern.kind === 'along a line' ? pattern.step : [pattern.step]
  for (const step of steps) inputs[`${entry}: ${step.pointer}`] = step
  return inputs
}
