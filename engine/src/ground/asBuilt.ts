import {
  elementAt,
  outwardsAtHead,
  type Shaft,
  standingOut,
  surveyedElements,
  surveyedPoints,
  turnsBetween,
} from '../model/index.ts'
import { type Answer, found, type Given, knownOr, stated } from '../working/answer.ts'
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

/** A pile or panel where it stands at a level, and how far it may stand off that, below its last surveyed point, m. */
interface Placed {
  is: Surveyed
  at: Plan
  off: number
}

type Worked = (
  method: string,
  z: Answer<'m'>,
  more: Record<string, Answer>,
  value: (places: readonly Placed[]) => number,
) => Answer<'m'>

/**
 * What the survey of a wall comes to at a level, once every pile or panel has one; undefined before, for the gap is where nobody
 * has measured. Each is straight from point to point; below its last it runs on as it ran, and may leave that by the tolerance of
 * verticality: where nobody has measured, the survey has not replaced it. Frame: site, m.
 */
function surveyOf(shaft: Shaft): Worked | undefined {
  const elements = surveyedElements(shaft)
  if (elements === undefined) return undefined
  // one answer for all of its points: many levels hang from it
  const survey = found({
    unit: '1',
    value: elements.length,
    method: 'piles or panels surveyed, each by its points',
    inputs: Object.fromEntries(elements.flatMap(({ id, is }) => namedPoints(is, `${id} `))),
    residuals: [],
  })
  const shallowest = Math.max(...elements.map(({ is }) => is.lowAt.value as number))
  const verticality = knownOr(shaft.wall.verticality, '1', '/shaft/wall/verticality')
  return (method, z, more, value) => {
    const isBeyond = z.value !== undefined && z.value < shallowest
    const needed: Record<string, Answer> = { z, ...more }
    if (isBeyond) needed['verticality below the survey'] = verticality
    return found({
      unit: 'm',
      value: Object.values(needed).some((a) => a.value === undefined)
        ? undefined
        : value(elements.map(({ is }) => placedAt(is, shaft, z.value as number))),
      method,
      inputs: { ...needed, survey },
      residuals: [],
    })
  }
}

/** Where one stands at a level, as far as its survey and, below that, the tolerance say. */
export const placedAt = (is: Surveyed, { collar, wall }: Shaft, z: number): Placed => ({
  is,
  at: elementAt(is, collar.value as number, z),
  off: (wall.verticality?.value ?? 0) * Math.max(0, (is.lowAt.value as number) - z),
})

/** Levels at which some pile or panel turns, between two others, from the top down. */
export function surveyedTurns(shaft: Shaft, high: Answer<'m'>, low: Answer<'m'>): Answer<'m'>[] {
  const levels = (surveyedElements(shaft) ?? []).flatMap(({ is }) =>
    turnsBetween(is, high.value as number, low.value as number),
  )
  return [...new Set(levels)].sort((a, b) => b - a).map((z) => stated('m', z, 'a level that was surveyed'))
}

/** Every coordinate of a survey by what it is. */
const namedPoints = ({ head, between, low, lowAt }: Surveyed, before = ''): [string, Given][] => [
  ...[...head, ...low, lowAt].map((input, i): [string, Given] => [`${before}${COORDINATES[i]}`, input]),
  ...between.flatMap(({ at: [x, y], z }, i): [string, Given][] => [
    [`${before}point ${i + 1} x`, x],
    [`${before}point ${i + 1} y`, y],
    [`${before}point ${i + 1} z`, z],
  ]),
]

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
        Math.min(...joints(places).map(([a, b]) => shared([a.at, b.at], D.value as number, a.off + b.off))),
      ),
    spacingAt: (z) =>
      of('largest distance of two neighbours as surveyed', z, {}, (places) =>
        Math.max(...joints(places).map(([a, b]) => Math.hypot(a.at[0] - b.at[0], a.at[1] - b.at[1]) + a.off + b.off)),
      ),
    inwardAt: (z) =>
      of('how far the pile nearest the axis stands inside the circle of centres', z, { D_r }, (places) =>
        Math.max(...places.map(({ is, at, off }) => off - standingOut(shaft, is, at, (D_r.value as number) / 2))),
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
        Math.max(...joints(places).map(([a, b]) => Math.abs(out(a) - out(b)) + a.off + b.off)),
      ),
    inwardAt: (z) =>
      of('how far the panel nearest the axis stands inside its place', z, { middle }, (places) =>
        Math.max(...places.map((place) => place.off - out(place))),
      ),
    openingAt: (z) =>
      of('how far two neighbours as surveyed have parted along the wall since the top, at most', z, {}, (places) =>
        Math.max(0, ...joints(places).map(([a, b]) => parted(a, b) + a.off + b.off)),
      ),
  }
}

/** How far two neighbours that meet at the top have parted along the wall, m; below zero where they press together. */
export function parted(a: Omit<Placed, 'off'>, b: Omit<Placed, 'off'>): number {
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

/** Thickness that two piles share, together so far off their places at most: across their lens, or radially where one stands farther in, m. */
export function shared([a, b]: readonly [Plan, Plan], D: number, off = 0): number {
  const across = lens.value({ D, s: Math.hypot(a[0] - b[0], a[1] - b[1]) + off })
  const radial = D - Math.abs(Math.hypot(a[0], a[1]) - Math.hypot(b[0], b[1])) - off
  return Math.min(across, Math.max(radial, 0))
}

/** Distance in plan from the head to a lower point surveyed, over the depth between them: of all such points the largest. */
export function leanOf(is: Surveyed, collar: number): number {
  const [head, ...lower] = surveyedPoints(is, collar).map(({ at: [x, y], z }) => ({ x, y, z }))
  if (head === undefined) return 0
  return Math.max(...lower.map(({ x, y, z }) => Math.hypot(x - head.x, y - head.y) / (head.z - z)))
}

/** Lean of each pile or panel as surveyed against the tolerance; the worst is shown. Practice 58. */
export function verticalityCheck({ wall, collar }: Shaft, near: number): Check[] {
  const leans = Object.entries(wall.asBuilt).map(([id, is]) => ({ id, is, lean: leanOf(is, collar.value as number) }))
  const [first] = leans
  if (first === undefined) return []
  const worst = leans.reduce((a, b) => (b.lean > a.lean ? b : a), first)
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
        method:
          'distance in plan from the head to a lower point surveyed, over the depth between them; the largest of all points',
        inputs: Object.fromEntries(namedPoints(worst.is)),
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
    ? `All ${surveyed} ${name} as surveyed, each straight between its points; below the last as it ran to it, with the tolerance of verticality from there.`
    : `${surveyed} of ${wall.piles ?? 'an unknown number of'} ${name} are surveyed: tolerances stand until all are.`
}

/** What a wall that is surveyed piece by piece consists of. */
const ELEMENTS: Partial<Record<Shaft['wall']['kind'], string>> = { 'secant piles': 'piles', 'slurry panels': 'panels' }
