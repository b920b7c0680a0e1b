import { elementAt, type Shaft, surveyedElements, surveyedSoFar } from '../model/index.ts'
import { pointerOf } from '../working/pointer.ts'
import { leanOf, type Plan, shared } from './asBuilt.ts'

/** A pile or panel as surveyed. Frame: site, m. */
export interface SurveyedElement {
  id: string
  pointer: string
  /** Where its middle lies at the level asked for. */
  at: Plan
  /** How far that is outside the circle of middles; below zero inside it. */
  outward: number
  /** Distance in plan over depth. */
  lean: number
  /** The joint with the next round the shaft; undefined until all are surveyed. */
  joint: { next: string; step: number; left: number | undefined } | undefined
}

/**
 * Every pile or panel that has been surveyed, in their order round the shaft.
 *
 * @param z level at which they stand, and at which the joints are measured, site m
 * @param middle radius of the circle of middles as designed, m
 * @returns joints with the step square to the wall, and of piles the thickness that two share
 */
export function surveyedAt(shaft: Shaft, z: number, middle: number): SurveyedElement[] {
  const { wall, collar } = shaft
  const all = surveyedSoFar(shaft)
  const D = wall.pileDiameter?.value
  const places = all.map(({ is }) => elementAt(is, collar.value as number, z))
  const far = places.map(([x, y]) => Math.hypot(x, y))
  const ring = surveyedElements(shaft) !== undefined
  return all.map(({ id, is }, i) => {
    const next = (i + 1) % all.length
    return {
      id,
      pointer: pointerOf('shaft', 'wall', 'asBuilt', id),
      at: places[i] as Plan,
      outward: (far[i] as number) - middle,
      lean: leanOf(is, collar.value as number),
      joint: !ring
        ? undefined
        : {
            next: all[next]?.id as string,
            step: Math.abs((far[i] as number) - (far[next] as number)),
            left: D === undefined ? undefined : shared([places[i] as Plan, places[next] as Plan], D),
          },
    }
  })
}
