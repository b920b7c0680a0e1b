import { coordinates } from '../model/index.ts'
import { goldenSection } from '../numeric/golden.ts'
import { apply, dot, subtract, type Vec3 } from '../numeric/vector.ts'
import { type Answer, found, GRAVITY, given, knownOr, sumOf } from '../working/answer.ts'
import { weightOf } from './hook.formulas.ts'
import { type Hull, reachOf } from './hull.ts'
import { bodyTurn } from './path.ts'
import type { Pick } from './pick.ts'
import { edgeLoad } from './pivot.formulas.ts'
import {
  forcesAt,
  holdBackAt,
  type PivotAngles,
  type PivotCorner,
  type PivotGeometry,
  type PivotHolding,
  type PivotTurn,
  pivotAngles,
  pivotCorners,
  pivotTurn,
} from './pivot.ts'
import { cogWithGear } from './rig.ts'
import { type Planar, turned } from './turning.ts'
import { lowerOf, pointInputs, pointsOf, sharedLines } from './turningOf.ts'

/** A turn about a pivot on the ground, worked through; open where an input is missing. */
export interface Pivoting {
  inputs: Readonly<Record<string, Answer>>
  worked?: {
    geometry: PivotGeometry
    angles: PivotAngles
    planned: PivotTurn
    corners: readonly PivotCorner[]
  }
  /** Absent where the piece has no solids. */
  deepest?: Deepest
}

/** Where the outside of the piece comes farthest below the pivot, m, and the part that does. */
export interface Deepest {
  depth: number
  angle: number
  part: string
}

/** What the pivot puts on the ground, at its worst over the turn and over the box of the centre of gravity. */
export interface PivotOnGround {
  up: Answer<'N'>
  across: Answer<'N'>
  /** Even load of the edge. */
  line: Answer<'N/m'>
  /** Length of the edge, along site y. */
  edge: Answer<'m'>
  /** Hook and pivot on a plumb line, stage by stage of the turn. */
  stages: readonly PivotStage[]
}

/** One stage of a turn about a pivot. */
export interface PivotStage {
  angle: number
  hook: Answer<'N'>
  up: Answer<'N'>
  holding: PivotHolding
  /** From the pivot, along site x and up, m: centre of gravity, and where the line of the hook takes hold. */
  cog: Planar
  lug: Planar
  /** Over centre: the least force on the lifting points that holds the piece. */
  holdBack?: Answer<'N'>
}

const METHOD =
  'hook, pivot and weight in the plane of the turn: ΣF = 0, ΣM = 0; greatest at a critical angle or an end, the line out of plumb either way as far as the project allows'

/** Hook and pivot over the whole turn. */
export function pivotingOf(pick: Pick, hull: Hull | undefined): Pivoting {
  const points = pointsOf(pick, pick.main)
  const { lift, settings } = pick
  const inputs: Record<string, Answer> = {
    'load on hook and pivot': weightOf.show({
      m: sumOf('Piece with what is bolted to it', 'kg', sharedLines(pick)),
      g: GRAVITY,
    }),
    'start of the turn': knownOr(lift.turn?.from, 'rad', `${pick.at}/turn/from`),
    'end of the turn': knownOr(lift.turn?.to, 'rad', `${pick.at}/turn/to`),
    'line out of plumb': knownOr(settings.outOfPlumb, 'rad', '/settings/outOfPlumb'),
    'shift of the centre of gravity': knownOr(settings.cogShift, 'm', '/settings/cogShift'),
    'lower mass of the piece': pick.set.lower,
    ...pivotPoint(pick),
    ...pointInputs(points, 'main', `${pick.main.riggingAt}/legs`),
  }
  const depth = depthOf(pick, hull)
  if (Object.values(inputs).some((i) => i.value === undefined)) return { inputs, ...depth }
  const geometry = geometryOf(
    pick,
    points.map((p) => p.at),
    inputs,
  )
  const [from, to, lean, shift] = [
    'start of the turn',
    'end of the turn',
    'line out of plumb',
    'shift of the centre of gravity',
  ].map((name) => inputs[name]?.value as number) as [number, number, number, number]
  return {
    inputs,
    ...depth,
    worked: {
      geometry,
      angles: pivotAngles(geometry, from, to),
      planned: pivotTurn(geometry, from, to, lean),
      corners: pivotCorners(geometry, { from, to, lean }, { shift, lower: lowerOf(pick) }),
    },
  }
}

const LOOK_EVERY = Math.PI / 180
const SECTIONS = 30

function depthOf(pick: Pick, hull: Hull | undefined): { deepest?: Deepest } {
  const [from, to] = [pick.lift.turn?.from.value, pick.lift.turn?.to.value]
  return hull === undefined || from === undefined || to === undefined
    ? {}
    : { deepest: deepestOf(pick, hull, from, to) }
}

/** Looked for every degree and then between the two beside the deepest. */
function deepestOf(pick: Pick, hull: Hull, from: number, to: number): Deepest {
  const turn = bodyTurn(pick)
  const pivot = apply(turn, coordinates(pick.lift.turn?.pivot?.at as Parameters<typeof coordinates>[0]))
  const at = (angle: number): Deepest => {
    const down: Vec3 = [Math.sin(angle), 0, -Math.cos(angle)]
    const { reach, part } = reachOf(hull, { turn, shift: [0, 0, 0] }, down)
    return { depth: reach - dot(pivot, down), angle, part }
  }
  const steps = Math.max(1, Math.ceil(Math.abs(to - from) / LOOK_EVERY))
  const angles = Array.from({ length: steps + 1 }, (_, k) => from + ((to - from) * k) / steps)
  const depths = angles.map((angle) => at(angle).depth)
  const k = depths.indexOf(Math.max(...depths))
  const [before, after] = [angles[Math.max(0, k - 1)] as number, angles[Math.min(steps, k + 1)] as number]
  return goldenSection(at, ({ depth }) => depth, { from: before, to: after, sections: SECTIONS }).value
}

/** Where it turns, as an input. */
export function pivotPoint({ lift, at }: Pick): Record<string, Answer> {
  const point = lift.turn?.pivot?.at
  if (point === undefined) return { pivot: given('m', `${at}/turn/pivot/at`, undefined) }
  return { 'pivot, x': point[0], 'pivot, z': point[2] }
}

function geometryOf(pick: Pick, points: readonly Vec3[], inputs: Record<string, Answer>): PivotGeometry {
  const [turn, pivot] = [bodyTurn(pick), coordinates(pick.lift.turn?.pivot?.at as Parameters<typeof coordinates>[0])]
  const planar = (p: Vec3): Planar => {
    const [x, , z] = apply(turn, subtract(p, pivot))
    return [x, z]
  }
  const lugs = points.map(planar)
  const mean = (axis: 0 | 1): number => lugs.reduce((sum, p) => sum + p[axis], 0) / lugs.length
  return {
    cog: planar(cogWithGear(pick)),
    lug: [mean(0), mean(1)],
    weight: inputs['load on hook and pivot']?.value as number,
  }
}

/** A force of the turn about a pivot, with its method and inputs. */
export const pivotAnswer = <U extends 'N' | '1'>(
  unit: U,
  value: number | undefined,
  { inputs }: Pivoting,
  method = METHOD,
): Answer<U> => found({ unit, value, method, inputs, residuals: [] })

/** Plan and every corner. */
export const pivotPlaces = ({ worked }: Pivoting): PivotTurn[] =>
  worked === undefined ? [] : [worked.planned, ...worked.corners.map((c) => c.worked)]

/** What the ground under the pivot takes. */
export function pivotOnGround({ lift, at }: Pick, pivoting: Pivoting): PivotOnGround {
  const places = pivotPlaces(pivoting)
  const most = (of: (turn: PivotTurn) => number): number | undefined =>
    places.length === 0 ? undefined : Math.max(...places.map(of))
  const edge = knownOr(lift.turn?.pivot?.edge, 'm', `${at}/turn/pivot/edge`)
  const up = pivotAnswer(
    'N',
    most((t) => t.up.up),
    pivoting,
  )
  return {
    up,
    across: pivotAnswer(
      'N',
      most((t) => Math.max(Math.abs(t.sliding.across), Math.abs(t.hook.across))),
      pivoting,
    ),
    line: edgeLoad.show({ R: up, b: edge }),
    edge,
    stages: stagesOf(pivoting, lift.turn?.step?.value),
  }
}

const HOLD_BACK = 'W x / L about the pivot, square to the line from it to the lifting points'

/** Between stages where the lift says nothing, rad. */
const STAGE = Math.PI / 12

function stagesOf(pivoting: Pivoting, step = STAGE): PivotStage[] {
  const { inputs, worked } = pivoting
  const [from, to] = [inputs['start of the turn']?.value, inputs['end of the turn']?.value]
  if (worked === undefined || from === undefined || to === undefined) return []
  const count = Math.max(1, Math.round(Math.abs(to - from) / step))
  const ranges = worked.planned.stretches
  return Array.from({ length: count + 1 }, (_, k) => {
    const angle = from + ((to - from) * k) / count
    const forces = forcesAt(worked.geometry, angle)
    const within = ranges.find((r) => angle >= Math.min(r.from, r.to) - 1e-9 && angle <= Math.max(r.from, r.to) + 1e-9)
    const holding = within?.holding ?? 'held'
    return {
      angle,
      hook: pivotAnswer('N', forces.hook, pivoting),
      up: pivotAnswer('N', forces.up, pivoting),
      holding,
      cog: turned(worked.geometry.cog, angle),
      lug: turned(worked.geometry.lug, angle),
      ...(holding === 'over centre'
        ? { holdBack: pivotAnswer('N', holdBackAt(worked.geometry, angle), pivoting, HOLD_BACK) }
        : {}),
    }
  })
}
