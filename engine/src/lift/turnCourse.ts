import type { MassResult } from '../mass/index.ts'
import type { Model } from '../model/index.ts'
import type { StripResult } from '../strip/index.ts'
import { freshMemory } from '../working/memory.ts'
import { pieceHull } from './bodies.ts'
import { pickOf } from './pick.ts'
import { turningOf } from './turningOf.ts'

/** Both hooks at one angle of a turn: pulls in N, lines from plumb in rad; undefined where no pair of pulls holds the piece. */
export interface TurnPoint {
  angle: number
  main: number | undefined
  tail: number | undefined
  mainLean: number
  tailLean: number
  /** Plan distance of the hooks, m. */
  apart: number
}

/** A turn degree by degree, and at every angle where something changes; empty where it is open or there is none. */
export function turnCourse(model: Model, mass: MassResult, strip: StripResult, id: string): TurnPoint[] {
  if (model.project.lifts[id]?.kind !== 'turn') return []
  const pick = pickOf(model, mass, strip, id)
  const turning = turningOf(pick, pieceHull(model, mass, pick.lift.piece, freshMemory()))
  if ('open' in turning) return []
  return turning.course.map(({ angle, held }) => ({
    angle,
    main: held?.main,
    tail: held?.tail,
    mainLean: held?.mainLean ?? 0,
    tailLean: held?.tailLean ?? 0,
    apart: held?.apart ?? 0,
  }))
}
