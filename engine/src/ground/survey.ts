import { outwardsAtHead, type Shaft, standingOut, surveyedElements, surveyedSoFar } from '../model/index.ts'
import { pointerOf } from '../working/pointer.ts'
import { leanOf, type Plan, parted, placedAt, shared } from './asBuilt.ts'

/** A pile or panel as surveyed. Frame: site, m. */
export interface SurveyedElement {
  id: string
  pointer: string
  /** Where its middle lies at the level asked for. */
  at: Plan
  /** The direction from the axis in which its head stands. */
  outwards: Plan
  /** How far its middle is outside the circle of middles; below zero inside it. */
  outward: number
  /** Distance in plan over depth, the largest of its points. */
  lean: number
  /** The joint with the next round the shaft; undefined until all are surveyed. */
  joint: { next: string; step: number; left: number | undefined; opening: number | undefined } | undefined
}

/**
 * Every pile or panel that has been surveyed, in their order round the shaft.
 *
 * @param z level at which they stand, and at which the joints are measured, site m
 * @param middle radius of the circle of middles as designed, m
 * @returns joints with the step square to the wall, of piles the thickness that two share, of panels how far they have parted along it
 */
export function surveyedAt(shaft: Shaft, z: number, middle: number): SurveyedElement[] {
  const { wall, collar } = shaft
  const all = surveyedSoFar(shaft)
  const D = wall.kind === 'secant piles' ? wall.pileDiameter?.value : undefined
  const placed = all.map(({ is }) => placedAt(is, shaft, z))
  const places = placed.map(({ at }) => at)
  const off = (i: number, j: number): number => (placed[i]?.off ?? 0) + (placed[j]?.off ?? 0)
  const out = all.map(({ is }, i) => standingOut(shaft, is, places[i] as Plan, middle))
  const ring = surveyedElements(shaft) !== undefined
  return all.map(({ id, is }, i) => {
    const next = (i + 1) % all.length
    return {
      id,
      pointer: pointerOf('shaft', 'wall', 'asBuilt', id),
      at: places[i] as Plan,
      outwards: outwardsAtHead(is),
      outward: out[i] as number,
      lean: leanOf(is, collar.value as number),
      joint: !ring
        ? undefined
        : {
            next: all[next]?.id as string,
            step: Math.abs((out[i] as number) - (out[next] as number)) + off(i, next),
            left: D === undefined ? undefined : shared([places[i] as Plan, places[next] as Plan], D, off(i, next)),
            opening:
              wall.kind === 'slurry panels'
                ? parted({ is, at: places[i] as Plan }, { is: all[next]?.is as typeof is, at: places[next] as Plan }) +
                  off(i, next)
                : undefined,
          },
    }
  })
}
