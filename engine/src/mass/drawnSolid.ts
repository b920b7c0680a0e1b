import { coordinates, type Solid } from '../model/index.ts'
import type { Cap, Prism, Revolution } from '../numeric/body.ts'
import { leftwards, type Point2, polygonIntegrals } from '../numeric/polygon.ts'
import {
  add,
  apply,
  type Mat3,
  multiply,
  norm,
  rotationAbout,
  scale,
  subtract,
  transpose,
  unit,
  type Vec3,
} from '../numeric/vector.ts'
import { type Answer, type Given, sumOf } from '../working/answer.ts'
import {
  axisLength,
  capCentroid,
  capSphere,
  capSpreadAcross,
  capSpreadAlong,
  capVolume,
  extrusionEdge,
  frustumCentroid,
  frustumSpreadAcross,
  frustumSpreadAlong,
  frustumVolume,
  revolutionEdge,
  spanLength,
  straightSpread,
} from './solid.formulas.ts'
import type { SolidShape } from './solid.ts'
import { spreadOfRevolution } from './spread.ts'

type Of<S extends Solid['shape']> = Extract<Solid, { shape: S }>
type Properties = Pick<SolidShape, 'body' | 'volume' | 'centroid' | 'spread'>

const numberOf = (input: Given): number => input.value as number
const edgesOf = <T>(corners: readonly T[]): (readonly [T, T])[] =>
  corners.map((c, i) => [c, corners[(i + 1) % corners.length] as T] as const)

/** A profile turned about an axis, by the frusta of its edges. */
export function revolutionProperties(solid: Of<'revolution'>): Properties {
  const from = coordinates(solid.from)
  const axis = unit(subtract(coordinates(solid.to), from))
  const corners = solid.profile.map(([x, r]): Point2 => [numberOf(x), numberOf(r)])
  const profile = leftwards(corners)
  const { c, along, across } = turnedSpread(profile)
  const body: Revolution = { kind: 'revolution', origin: from, axis, profile }
  return {
    body,
    volume: sumOf('edges of the profile', 'm3', edgeTerms(solid.profile, profile !== corners)),
    centroid: add(from, scale(axis, c)),
    spread: spreadOfRevolution(axis, along, across),
  }
}

/** Edges in the order in which their volumes add up to one above zero: from the inner side outwards the axis runs on. */
function edgeTerms(profile: Of<'revolution'>['profile'], asWritten: boolean) {
  return edgesOf(profile).map(([[x1, r1], [x2, r2]], i) => ({
    label: `edge ${i + 1}`,
    answer: asWritten
      ? revolutionEdge.show({ x1, r1, x2, r2 })
      : revolutionEdge.show({ x1: x2, r1: r2, x2: x1, r2: r1 }),
  }))
}

/** Centroid along the axis, and mean squares along and across it, from signed frusta. */
function turnedSpread(profile: readonly Point2[]): { c: number; along: number; across: number } {
  let [volume, first, second, side] = [0, 0, 0, 0]
  for (const [[x1, R1], [x2, R2]] of edgesOf(profile)) {
    const h = Math.abs(x2 - x1)
    if (h === 0 || R1 + R2 === 0) continue
    const V = Math.sign(x1 - x2) * frustumVolume.value({ R1, R2, h })
    const own = frustumCentroid.value({ R1, R2, h })
    const at = x1 + Math.sign(x2 - x1) * own
    volume += V
    first += V * at
    second += V * (frustumSpreadAlong.value({ R1, R2, h, c: own }) + at * at)
    side += V * frustumSpreadAcross.value({ R1, R2 })
  }
  const c = first / volume
  return { c, along: second / volume - c * c, across: side / volume }
}

/** The frame of an extrusion: two coordinates of the outline, then the direction it is drawn out. */
const FRAMES: Readonly<Record<'x' | 'y' | 'z', Mat3>> = {
  x: transpose([
    [0, 1, 0],
    [0, 0, 1],
    [1, 0, 0],
  ]),
  y: transpose([
    [0, 0, 1],
    [1, 0, 0],
    [0, 1, 0],
  ]),
  z: transpose([
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ]),
}

/** A polygon drawn out along an axis. */
export function extrusionProperties(solid: Of<'extrusion'>): Properties {
  const corners = solid.outline.map(([a, b]): Point2 => [numberOf(a), numberOf(b)])
  const outline = leftwards(corners)
  const [from, to] = solid.between.map(numberOf) as [number, number]
  const [least, depth] = [Math.min(from, to), Math.abs(to - from)]
  const turn = multiply(rotationAbout('x', solid.turn?.value ?? 0), FRAMES[solid.axis])
  const body: Prism = { kind: 'prism', origin: apply(turn, [0, 0, least]), turn, outline, depth }
  const { centroid, spread } = polygonIntegrals(outline)
  const [aa, bb, ab] = spread
  const cc = straightSpread.value({ L: depth })
  const own: Mat3 = [
    [aa, ab, 0],
    [ab, bb, 0],
    [0, 0, cc],
  ]
  return {
    body,
    volume: sumOf('edges of the outline', 'm3', triangleTerms(solid, outline === corners)),
    centroid: apply(turn, [centroid[0], centroid[1], least + depth / 2]),
    spread: multiply(multiply(turn, own), transpose(turn)),
  }
}

function triangleTerms(solid: Of<'extrusion'>, asWritten: boolean) {
  const L = spanLength.show({ x1: solid.between[0], x2: solid.between[1] })
  return edgesOf(solid.outline).map(([[a1, b1], [a2, b2]], i) => ({
    label: `edge ${i + 1}`,
    answer: asWritten
      ? extrusionEdge.show({ a1, b1, a2, b2, L })
      : extrusionEdge.show({ a1: a2, b1: b2, a2: a1, b2: b1, L }),
  }))
}

/** What a plane cuts off a ball. */
export function capProperties(solid: Of<'spherical cap'>): Properties {
  const [from, to] = [coordinates(solid.from), coordinates(solid.to)]
  const line = subtract(to, from)
  const [h, axis, a] = [norm(line), unit(line), numberOf(solid.radius)]
  const R = capSphere.value({ a, h })
  const centre: Vec3 = subtract(to, scale(axis, R))
  const c = capCentroid.value({ R, h })
  const body: Cap = { kind: 'cap', centre, axis, radius: R, height: h }
  return {
    body,
    volume: capVolume.show({ a: solid.radius, h: heightOf(solid) }),
    centroid: add(centre, scale(axis, c)),
    spread: spreadOfRevolution(axis, capSpreadAlong.value({ R, h, c }), capSpreadAcross.value({ R, h })),
  }
}

const heightOf = ({ from, to }: Of<'spherical cap'>): Answer<'m'> =>
  axisLength.show({ x1: from[0], y1: from[1], z1: from[2], x2: to[0], y2: to[1], z2: to[2] })
