import { CORNERS, type CraneFeet, craneWeight, type Hanging, hangings, largestFloat } from '../lift/index.ts'
import type { System } from '../model/index.ts'
import { type Point2, turned } from '../numeric/plan.ts'
import { type Answer, stated } from '../working/answer.ts'
import { otherFeet } from './crane.formulas.ts'

/** Where the hook of a crane may be: its bearing from the slewing centre, from site x to the left, and how far out. */
export interface HookWay {
  bearing: number
  radius: Answer<'m'>
}

/** A crane that stands somewhere, with its hook loaded or empty. */
export interface StandingCrane {
  id: string
  system: System
  centre: Point2
  /** Of the carrier; undefined where the file does not say: then the worst of all is taken. */
  heading: Answer<'rad'> | undefined
  /** Under the head; undefined with the hook empty. */
  load: Answer<'kg'> | undefined
  /** All that the hook may point to; the one that presses most on the wall is taken. */
  ways: readonly HookWay[]
  /** Outer radius of the wall of the shaft, m; undefined where there is none. */
  wall: number | undefined
}

/** Heading and place of the hook at which the feet are asked for, with what hangs there. */
export interface Posture {
  way: HookWay
  hung: Hanging
  heading: Answer<'rad'>
}

/** The floats of a carrier, by name. */
export const FLOATS = CORNERS.map(({ corner, s_x, s_y }) => ({ name: `float ${corner}`, s_x, s_y }))

const EMPTY = stated('kg', 0, 'hook empty')
const onItsFeet = ({ id, system, load = EMPTY }: StandingCrane, { radius }: HookWay): CraneFeet => ({
  id,
  system,
  load,
  radius,
})

/** Weight of the crane with what hangs from it, and how far it stands off the slewing centre. */
export function hungAt(c: StandingCrane, way: HookWay): Hanging {
  const [loaded, empty] = hangings(onItsFeet(c, way))
  return (c.load === undefined ? empty : loaded) as Hanging
}

/** By the first guess: the float that takes the most, and each of the others. */
export function guessedForces(c: StandingCrane, way: HookWay): { F: Answer<'N'>; rest: Answer<'N'> } {
  const crane = onItsFeet(c, way)
  const F = largestFloat(crane, c.system.outriggers as NonNullable<System['outriggers']>)
  return { F, rest: otherFeet.show({ W: craneWeight(crane), F, n: stated('1', 3, 'the other floats') }) }
}

/** A place on a carrier of a heading, ahead and to the left of its slewing centre, on the site. */
export function onSite(centre: Point2, heading: number, own: Point2): Point2 {
  const [x, y] = turned(own, heading)
  return [centre[0] + x, centre[1] + y]
}

/** Which of some places is nearest to the axis of the shaft. */
export function nearestToShaft(places: readonly Point2[]): number {
  const away = places.map(([x, y]) => Math.hypot(x, y))
  return away.indexOf(Math.min(...away))
}
