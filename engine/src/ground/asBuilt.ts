import { elementAt, outwardsAtHead, type Shaft, standingOut, surveyedElements } from '../model/index.ts'
import { type Answer, found, knownOr } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { SOIL } from './caution.ts'
import * as kinds from './kinds.ts'
import { lens } from './overlap.formulas.ts'

type Surveyed = Shaft['wall']['asBuilt'][string]
export type Plan = readonly [number, number]

/** Piles as they were surveyed, in their order round the shaft. */
export interface AsBuilt {
  /** Least thickness that two neighbours share: across their lens, or radially where one stands farther in. */
  thicknessAt: (z: Answer<'m'>) => Answer<'m'>
  /** Largest distance of two neighbours' centres. */
  spacingAt: (z: Answer<'m'>) => Answer<'m'>
  /** How far the pile that stands farthest in stands inside the circle of centres; below zero where all stand outside it. */
  inwardAt: (z: Answer<'m'>) => Answer<'m'>
}

/** Panels as they were surveyed. */
export interface PanelsAsBuilt {
  /** Largest step of the wall from one panel to the next, square to it. */
  stepAt: (z: Answer<'m'>) => Answer<'m'>
  /** How far the panel that stands farthest in stands inside its place. */
  inwardAt: (z: Answer<'m'>) => Answer<'m'>
  /** How far two neighbours have parted along the wall since they met at the top, at most. */
  openingAt: (z: Answer<'m'>) => Answer<'m'>
}

/** A pile or panel where it stands at a level. */
interface Placed {
  is: Surveyed
  at: Plan
}

type Worked = (
  method: string,
  z: Answer<'m'>,
  more: Record<string, Answer>,
  value: (places: readonly Placed[]) => number,
) => Answer<'m'>

/**
 * What the survey of a wall comes to at a level, once every pile or panel has one; undefined before, for the gap is where nobody
 * has measured. Between its two surveyed points, and below, each is straight. Frame: site, m.
 */
function surveyOf(shaft: Shaft): Worked | undefined {
  const elements = surveyedElements(shaft)
  if (elements === undefined) return undefined
  const inputs = Object.fromEntries(
    elements.flatMap(({ id, is }) =>
      [...is.head, ...is.low, is.lowAt].map((input, i) => [`${id} ${COORDINATES[i]}`, input] as const),
    ),
  )
  return (method, z, more, value) =>
    found({
      unit: 'm',
      value: [z, ...Object.values(more)].some((a) => a.value === undefined)
        ? undefined
        : value(
            elements.map(({ is }) => ({
              is,
              at: elementAt(is, shaft.collar.value as number, z.value as number),
            })),
          ),
      method,
      inputs: { z, ...more, ...inputs },
      residuals: [],
    })
}

/** Secant piles by their survey. */
export function asBuiltOf(shaft: Shaft): AsBuilt | undefined {
  const { wall } = shaft
  const of = surveyOf(shaft)
  if (of === undefined) return undefined
  const D = knownOr(wall.pileDiameter, 'm', '/shaft/wall/pileDiameter')
  const D_r = knownOr(wall.ringDiameter, 'm', '/shaft/wall/ringDiameter')
  return {
    thicknessAt: (z) =>
      of('least thickness that two neighbours as surveyed share, over all joints', z, { D }, (places) =>
        Math.min(...joints(places).map(([a, b]) => shared([a.at, b.at], D.value as number))),
      ),
    spacingAt: (z) =>
      of('largest distance of two neighbours as surveyed', z, {}, (places) =>
        Math.max(...joints(places).map(([{ at: a }, { at: b }]) => Math.hypot(a[0] - b[0], a[1] - b[1]))),
      ),
    inwardAt: (z) =>
      of('how far the pile nearest the axis stands inside the circle of centres', z, { D_r }, (places) =>
        Math.max(...places.map(({ is, at }) => -standingOut(shaft, is, at, (D_r.value as number) / 2))),
      ),
  }
}

/**
 * Panels by their survey, each by the middle of its thickness and of its width.
 *
 * @param middle distance of that point from the axis as designed
 */
export function panelsAsBuilt(shaft: Shaft, middle: Answer<'m'>): PanelsAsBuilt | undefined {
  const of = surveyOf(shaft)
  if (of === undefined) return undefined
  const out = ({ is, at }: Placed): number => standingOut(shaft, is, at, middle.value as number)
  return {
    stepAt: (z) =>
      of('largest step of two neighbours’ faces, square to them, as surveyed', z, { middle }, (places) =>
        Math.max(...joints(places).map(([a, b]) => Math.abs(out(a) - out(b)))),
      ),
    inwardAt: (z) =>
      of('how far the panel nearest the axis stands inside its place', z, { middle }, (places) =>
        Math.max(...places.map((place) => -out(place))),
      ),
    openingAt: (z) =>
      of('how far two neighbours as surveyed have parted along the wall since the top, at most', z, {}, (places) =>
        Math.max(0, ...joints(places).map(([a, b]) => parted(a, b))),
      ),
  }
}

/** How far two neighbours that meet at the top have parted along the wall, m; below zero where they press together. */
export function parted(a: Placed, b: Placed): number {
  const moved = (i: 0 | 1): number =>
    b.at[i] - (b.is.head[i].value as number) - (a.at[i] - (a.is.head[i].value as number))
  const [p, q] = [outwardsAtHead(a.is), outwardsAtHead(b.is)]
  // along the wall at their joint, from the one to the next round the shaft: square to the middle of their bearings
  const [x, y] = [p[0] + q[0], p[1] + q[1]]
  return (moved(1) * x - moved(0) * y) / Math.hypot(x, y)
}

const COORDINATES = ['head x', 'head y', 'low x', 'low y', 'low z']

const joints = (places: readonly Placed[]): (readonly [Placed, Placed])[] =>
  places.map((place, i) => [place, places[(i + 1) % places.length] as Placed])

/** Thickness that two piles share: across their lens, or radially where one stands farther in, m. */
export function shared([a, b]: readonly [Plan, Plan], D: number): number {
  const across = lens.value({ D, s: Math.hypot(a[0] - b[0], a[1] - b[1]) })
  const radial = D - Math.abs(Math.hypot(a[0], a[1]) - Math.hypot(b[0], b[1]))
  return Math.min(across, Math.max(radial, 0))
}

/** Distance in plan between the two points surveyed, over the depth between them. */
export function leanOf({ head, low, lowAt }: Surveyed, collar: number): number {
  const across = (i: 0 | 1): number => (low[i].value as number) - (head[i].value as number)
  return Math.hypot(across(0), across(1)) / (collar - (lowAt.value as number))
}

/** Lean of each pile or panel as surveyed against the tolerance; the worst is shown. Practice 58. */
export function verticalityCheck({ wall, collar }: Shaft, near: number): Check[] {
  const leans = Object.entries(wall.asBuilt).map(([id, is]) => ({ id, is, lean: leanOf(is, collar.value as number) }))
  const [first] = leans
  if (first === undefined) return []
  const worst = leans.reduce((a, b) => (b.lean > a.lean ? b : a), first)
  const { head, low, lowAt } = worst.is
  return [
    check({
      kind: kinds.wallVerticality,
      subject: {
        pointer: pointerOf('shaft', 'wall', 'asBuilt', worst.id),
        id: worst.id,
        name: `${wall.kind === 'slurry panels' ? 'Panel' : 'Pile'} ${worst.id}`,
      },
      title: `${kinds.wallVerticality.title}: worst of ${leans.length}, ${worst.id}`,
      demand: found({
        unit: '1',
        value: worst.lean,
        method: 'distance in plan from the head to the lower point surveyed, over the depth between them',
        inputs: Object.fromEntries([...head, ...low, lowAt].map((input, i) => [COORDINATES[i] as string, input])),
        residuals: [],
      }),
      capacity: knownOr(wall.verticality, '1', '/shaft/wall/verticality'),
      near,
      assumptions: [surveyText(wall)],
      cautions: [SOIL],
    }),
  ]
}

/** What the thickness of the wall rests on. */
export function surveyText(wall: Shaft['wall']): string {
  const surveyed = Object.keys(wall.asBuilt).length
  const name = ELEMENTS[wall.kind]
  if (surveyed === 0) return 'Tolerances of setting out and verticality add, both neighbours at their limit.'
  if (name === undefined)
    return `What is surveyed is held against the tolerance alone: ${wall.kind} keep their thickness.`
  return surveyed === wall.piles
    ? `All ${surveyed} ${name} as surveyed, each straight between its points and below.`
    : `${surveyed} of ${wall.piles ?? 'an unknown number of'} ${name} are surveyed: tolerances stand until all are.`
}

/** What a wall that is surveyed piece by piece consists of. */
const ELEMENTS: Partial<Record<Shaft['wall']['kind'], string>> = { 'secant piles': 'piles', 'slurry panels': 'panels' }
