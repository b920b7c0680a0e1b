import type { Lift, Model } from '../model/index.ts'
import type { StripResult, StripStep } from './strip.ts'

/** Parts that stand together on a bay, as the step that brought them left them. */
export interface Standing {
  /** Step and piece that brought them. */
  step: string
  piece: string
  parts: readonly string[]
  /** All of the piece is still there. */
  whole: boolean
}

/** Where everything is while one step is done. */
export interface StepPlaces {
  step: StripStep
  /** Bay a piece is set down on; undefined when it stays below, hangs on for the next step, or none is named. */
  bay: string | undefined
  /** Bay it is taken from; undefined when it comes out of the shaft. */
  from: string | undefined
  /** In the shaft before the step. */
  below: readonly string[]
  /** On the bays once it is done. */
  after: Readonly<Record<string, readonly Standing[]>>
}

/** Where every part is at every step of the order: in the shaft, or on a bay with what came with it. */
export function placesByStep(model: Model, { steps }: StripResult): StepPlaces[] {
  let standings: readonly (Standing & { bay: string })[] = []
  let below: readonly string[] | undefined
  return steps.map((step, index) => {
    const from = standings.find((s) => step.parts.some((p) => s.parts.includes(p)))?.bay
    const bay = steps[index + 1]?.piece === step.piece ? undefined : setDown(model, step)
    standings = moved(standings, step, bay)
    const inShaft = below ?? [...step.remaining, ...step.parts.filter((p) => !step.remaining.includes(p))]
    below = step.remaining
    return { step, bay, from, below: inShaft, after: byBay(standings) }
  })
}

/** Where a step sets its piece down: the lift's bay, else the piece's. */
function setDown(model: Model, step: StripStep): string | undefined {
  const remaining = new Set(step.remaining)
  if (step.parts.every((p) => remaining.has(p))) return undefined
  return liftOf(model, step)?.bay ?? model.project.pieces[step.piece]?.bay
}

/** The piece that a step moves. */
export const movedGroup = ({ step }: StepPlaces): Pick<Standing, 'piece' | 'parts' | 'whole'> => ({
  piece: step.piece,
  parts: step.parts,
  whole: true,
})

export const liftOf = (model: Model, step: StripStep): Lift | undefined =>
  step.lift === undefined ? undefined : model.project.lifts[step.lift]

function moved<T extends Standing & { bay: string }>(
  standings: readonly T[],
  step: StripStep,
  bay: string | undefined,
) {
  const taken = new Set(step.parts)
  const left = standings
    .map((s) => {
      const parts = s.parts.filter((p) => !taken.has(p))
      return parts.length === s.parts.length ? s : { ...s, parts, whole: false }
    })
    .filter((s) => s.parts.length > 0)
  return bay === undefined
    ? left
    : [...left, { step: step.step, piece: step.piece, parts: step.parts, whole: true, bay }]
}

function byBay(standings: readonly (Standing & { bay: string })[]): StepPlaces['after'] {
  const bays = [...new Set(standings.map((s) => s.bay))]
  return Object.fromEntries(bays.map((bay) => [bay, standings.filter((s) => s.bay === bay)]))
}
