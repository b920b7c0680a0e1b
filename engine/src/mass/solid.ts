import { coordinates, type Solid } from '../model/index.ts'
import type { Body, Box, Frustum, RingSector } from '../numeric/body.ts'
import {
  add,
  apply,
  IDENTITY,
  type Mat3,
  multiply,
  rotationAbout,
  scale,
  scaleMatrix,
  subtract,
  transpose,
  unit,
  type Vec3,
} from '../numeric/vector.ts'
import { type Answer, type Given, stated } from '../working/answer.ts'
import { capProperties, extrusionProperties, revolutionProperties } from './drawnSolid.ts'
import { type Meshes, meshProperties } from './meshSolid.ts'
import {
  axisLength,
  boxVolume,
  cylinderVolume,
  frustumCentroid,
  frustumSpreadAcross,
  frustumSpreadAlong,
  frustumVolume,
  ringCentroid,
  ringSpreadAcrossRay,
  ringSpreadAlongRay,
  ringSweep,
  ringVolume,
  spanLength,
  sphereSpread,
  sphereVolume,
  straightSpread,
} from './solid.formulas.ts'
import { spreadOfRevolution } from './spread.ts'

/** One solid of a part: what it adds or cuts, where it lies, how it is spread. Frame: machine, entry's own place. */
export interface SolidShape {
  body: Body
  op: 'add' | 'cut'
  volume: Answer<'m3'>
  fill: Answer<'1'>
  centroid: Vec3
  /** Mean of (p − centroid)(p − centroid)ᵀ over the volume, m². */
  spread: Mat3
  /** Its dimensions as they stand in the file. */
  leaves: readonly Given[]
}

type Of<S extends Solid['shape']> = Extract<Solid, { shape: S }>
type Properties = Pick<SolidShape, 'body' | 'volume' | 'centroid' | 'spread'>

/**
 * Volume, centroid and second moments of a solid in closed form; of a mesh by signed tetrahedra.
 *
 * @param meshes closed meshes by content hash; the model has made sure that each one named is there
 */
export function solidShape(solid: Solid, meshes: Meshes): SolidShape {
  return {
    ...propertiesOf(solid, meshes),
    op: solid.op,
    fill: solid.fill ?? stated('1', 1, 'solid throughout: no fraction is given'),
    leaves: leavesIn(solid),
  }
}

function propertiesOf(solid: Solid, meshes: Meshes): Properties {
  switch (solid.shape) {
    case 'ring sector':
      return ringProperties(solid)
    case 'cylinder':
      return frustumProperties(
        { kind: 'frustum', ...endsOf(solid), radii: [numberOf(solid.radius), numberOf(solid.radius)] },
        cylinderVolume.show({ R: solid.radius, h: axisOf(solid) }),
      )
    case 'cone':
      return frustumProperties(
        { kind: 'frustum', ...endsOf(solid), radii: [numberOf(solid.radii[0]), numberOf(solid.radii[1])] },
        frustumVolume.show({ R1: solid.radii[0], R2: solid.radii[1], h: axisOf(solid) }),
      )
    case 'sphere':
      return sphereProperties(solid)
    case 'box':
      return boxProperties(
        { kind: 'box', centre: coordinates(solid.centre), half: scale(coordinates(solid.size), 0.5), turn: IDENTITY },
        boxVolume.show({ a: solid.size[0], b: solid.size[1], c: solid.size[2] }),
      )
    case 'radial box':
      return radialBoxProperties(solid)
    case 'revolution':
      return revolutionProperties(solid)
    case 'extrusion':
      return extrusionProperties(solid)
    case 'spherical cap':
      return capProperties(solid)
    case 'mesh':
      return meshProperties(solid, meshes)
    default:
      return solid satisfies never
  }
}

const numberOf = (input: Given): number => input.value as number

function ringProperties(solid: Of<'ring sector'>): Properties {
  const [Ri, Ro] = [numberOf(solid.inner), numberOf(solid.outer)]
  const [x1, x2] = solid.along.map(numberOf) as [number, number]
  const sweep = ringSweep.show({ from: solid.angles[0], to: solid.angles[1] })
  const theta = known(sweep)
  const start = numberOf(solid.angles[0])
  const c = ringCentroid.value({ Ro, Ri, theta })
  const turn = rotationAbout('x', start + theta / 2)
  const body: RingSector = {
    kind: 'ring sector',
    inner: Ri,
    outer: Ro,
    rear: Math.min(x1, x2),
    front: Math.max(x1, x2),
    start,
    sweep: theta,
  }
  return {
    body,
    volume: ringVolume.show({ Ro: solid.outer, Ri: solid.inner, x1: solid.along[0], x2: solid.along[1], theta: sweep }),
    centroid: apply(turn, [(x1 + x2) / 2, c, 0]),
    spread: turned(turn, [
      straightSpread.value({ L: x2 - x1 }),
      ringSpreadAlongRay.value({ Ro, Ri, theta, c }),
      ringSpreadAcrossRay.value({ Ro, Ri, theta }),
    ]),
  }
}

const endsOf = (solid: Of<'cylinder'> | Of<'cone'>): { from: Vec3; to: Vec3 } => ({
  from: coordinates(solid.from),
  to: coordinates(solid.to),
})

function axisOf({ from, to }: Of<'cylinder'> | Of<'cone'>): Answer<'m'> {
  return axisLength.show({ x1: from[0], y1: from[1], z1: from[2], x2: to[0], y2: to[1], z2: to[2] })
}

function frustumProperties(body: Frustum, volume: Answer<'m3'>): Properties {
  const line = subtract(body.to, body.from)
  const [R1, R2] = body.radii
  const h = Math.hypot(...line)
  const c = frustumCentroid.value({ R1, R2, h })
  const axis = unit(line)
  const across = frustumSpreadAcross.value({ R1, R2 })
  const along = frustumSpreadAlong.value({ R1, R2, h, c })
  return {
    body,
    volume,
    centroid: add(body.from, scale(axis, c)),
    spread: spreadOfRevolution(axis, along, across),
  }
}

function sphereProperties(solid: Of<'sphere'>): Properties {
  const R = numberOf(solid.radius)
  const centre = coordinates(solid.centre)
  return {
    body: { kind: 'ball', centre, radius: R },
    volume: sphereVolume.show({ R: solid.radius }),
    centroid: centre,
    spread: scaleMatrix(IDENTITY, sphereSpread.value({ R })),
  }
}

function boxProperties(body: Box, volume: Answer<'m3'>): Properties {
  const squares = body.half.map((h) => straightSpread.value({ L: 2 * h })) as unknown as Vec3
  return { body, volume, centroid: body.centre, spread: turned(body.turn, squares) }
}

function radialBoxProperties(solid: Of<'radial box'>): Properties {
  const [x1, x2] = solid.along.map(numberOf) as [number, number]
  const turn = rotationAbout('x', numberOf(solid.angle))
  return boxProperties(
    {
      kind: 'box',
      centre: apply(turn, [(x1 + x2) / 2, numberOf(solid.radius), 0]),
      half: [Math.abs(x2 - x1) / 2, numberOf(solid.radial) / 2, numberOf(solid.across) / 2],
      turn,
    },
    boxVolume.show({
      a: spanLength.show({ x1: solid.along[0], x2: solid.along[1] }),
      b: solid.radial,
      c: solid.across,
    }),
  )
}

/** A diagonal matrix of the turned frame, seen in the frame it was turned from: R D Rᵀ. */
export const turned = (turn: Mat3, [a, b, c]: Vec3): Mat3 =>
  multiply(
    multiply(turn, [
      [a, 0, 0],
      [0, b, 0],
      [0, 0, c],
    ]),
    transpose(turn),
  )

function known(answer: Answer): number {
  if (answer.value === undefined) throw new Error(`a solid that the model let through has no ${answer.kind} value`)
  return answer.value
}

const isGiven = (value: unknown): value is Given =>
  typeof value === 'object' && value !== null && (value as Given).kind === 'given'

/** Every input under a read entity, in the order of the file. */
function leavesIn(value: unknown): Given[] {
  if (isGiven(value)) return [value]
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(leavesIn) : []
}
