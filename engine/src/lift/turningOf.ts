import { apply, place, subtract, type Vec3 } from '../numeric/vector.ts'
import { type Answer, found, type Given, GRAVITY, given, knownOr, sumOf, type Term } from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import { weightOf } from './hook.formulas.ts'
import { boltedGear, pieceLines } from './hook.ts'
import { type Hull, reachOf } from './hull.ts'
import { bodyTurn, posesAlong } from './path.ts'
import type { Hooked, Pick } from './pick.ts'
import { cogWithGear, type HangingPoint, pointNamed } from './rig.ts'
import { type CornerTurn, cornerTurn, type TurnCorner, turnCorners } from './turnBox.ts'
import { anglesOf, heldAt, type Planar, type TurnAngles, type TurnGeometry, type TwoHooks, turned } from './turning.ts'

/** The plane of a turn between two hooks. */
export interface TurnPlane {
  geometry: TurnGeometry
}

/** A turn between two hooks, worked through. */
export interface Turning extends TurnPlane {
  /** Every degree and at every angle where something changes; undefined where no pair of pulls holds the piece. */
  course: readonly { angle: number; held: TwoHooks | undefined }[]
  stages: readonly { angle: number; held: TwoHooks | undefined }[]
  /** The same no more than 15° apart, however few stages the sheet shows: directions in which lugs are pulled. */
  attitudes: readonly { angle: number; held: TwoHooks | undefined }[]
  angles: TurnAngles
  /** How it is held from one end to the other, by plan: exact. */
  planned: CornerTurn
  /** Eight corners of the box of the centre of gravity and of the mass. */
  corners: readonly TurnCorner[]
  inputs: Readonly<Record<string, Answer>>
  /** Piece with what is bolted to it: what both lines share. */
  shared: Answer<'kg'>
  points: { main: readonly HangingPoint[]; tail: readonly HangingPoint[] }
}

/** What the turn is worked from, open where something is missing. */
export interface OpenTurn {
  inputs: Readonly<Record<string, Answer>>
  open: true
}

/** Both hooks over the whole turn; open where an input is missing. */
export function turningOf(pick: Pick, hull: Hull | undefined): Turning | OpenTurn {
  const points = { main: pointsOf(pick, pick.main), tail: pick.tail === undefined ? [] : pointsOf(pick, pick.tail) }
  const shared = sumOf('Piece with what is bolted to it', 'kg', sharedLines(pick))
  const inputs = inputsOf(pick, points, shared)
  const geometry = geometryOf(pick, hull, points, shared.value)
  const { turn } = pick.lift
  if (geometry === undefined || turn === undefined || Object.values(inputs).some((i) => i.value === undefined))
    return { inputs, open: true }
  const [from, to] = [turn.from.value as number, turn.to.value as number]
  const angles = actualAngles(geometry, from, to)
  const planned = cornerTurn(geometry, { from, to, step: DEGREE })
  const ends = planned.course.stretches.flatMap((s) => [s.from, s.to])
  const at = (angle: number) => ({ angle, held: heldAt(geometry, angle) })
  const every = [...new Set([...gridOf(from, to, DEGREE), ...Object.values(angles).flat(), ...ends])]
  return {
    course: every.sort((a, b) => (to > from ? a - b : b - a)).map(at),
    stages: gridOf(from, to, turn.step?.value ?? COARSEST).map(at),
    attitudes: gridOf(from, to, Math.min(turn.step?.value ?? COARSEST, COARSEST)).map(at),
    angles,
    planned,
    corners: turnCorners(geometry, { from, to, step: COARSE }, pick.settings.cogShift?.value ?? 0, lowerOf(pick)),
    geometry,
    inputs,
    shared,
    points,
  }
}

const DEGREE = Math.PI / 180
/** Greatest distance of the stages at which lugs are looked at, rad. */
const COARSEST = 15 * DEGREE
const SLACK = 1e-6

/** Where lines lean, the piece may pass a slack angle with both of them taut, closed another way: that is none then. */
function actualAngles(geometry: TurnGeometry, from: number, to: number): TurnAngles {
  const { tailSlack, mainSlack, coincide } = anglesOf(geometry, from, to)
  const slack = (side: 'main' | 'tail', angle: number): boolean =>
    (heldAt(geometry, angle)?.[side] ?? 0) < SLACK * geometry.weight
  return {
    tailSlack: tailSlack.filter((a) => slack('tail', a)),
    mainSlack: mainSlack.filter((a) => slack('main', a)),
    coincide,
  }
}

function gridOf(from: number, to: number, step: number): number[] {
  const n = Math.max(1, Math.round(Math.abs(to - from) / Math.abs(step)))
  return Array.from({ length: n + 1 }, (_, k) => from + ((to - from) * k) / n)
}

/** Lifting points that the legs of a hook hold the piece or its gear by. */
export function pointsOf(pick: Pick, hooked: Hooked): HangingPoint[] {
  return (hooked.rigging?.legs ?? []).flatMap((leg) => {
    if (hooked.rigging?.nodes[leg.to] !== undefined) return []
    const point = pointNamed(pick, leg.to)
    return point === undefined ? [] : [point]
  })
}

/** What both lines share: the piece with what is bolted to it. */
export const sharedLines = (pick: Pick): Term<'kg'>[] => [...pieceLines(pick), ...boltedLines(pick)]

const boltedLines = (pick: Pick): Term<'kg'>[] =>
  boltedGear(pick).map((id) => ({
    label: pick.gear[id]?.name ?? id,
    answer: knownOr(pick.gear[id]?.mass, 'kg', pointerOf('gear', id, 'mass')),
  }))

/** Plan distance below which two hooks of one machine cannot come; hooks of two machines are free to stand plumb. */
function leastApart({ main, tail }: Pick): Answer<'m'> | undefined {
  if (tail === undefined || tail.systemId !== main.systemId) return undefined
  return knownOr(main.system.bothHooks?.leastDistance, 'm', `${main.systemAt}/bothHooks/leastDistance`)
}

function inputsOf(pick: Pick, points: Turning['points'], shared: Answer<'kg'>): Record<string, Answer> {
  const { lift, at, main, tail, settings } = pick
  const least = leastApart(pick)
  return {
    'load that both hooks share': weightOf.show({ m: shared, g: GRAVITY }),
    'start of the turn': knownOr(lift.turn?.from, 'rad', `${at}/turn/from`),
    'end of the turn': knownOr(lift.turn?.to, 'rad', `${at}/turn/to`),
    'head of the main line': headOf(main),
    ...(tail === undefined
      ? { 'tail hook': given('1', `${at}/tail`, undefined) }
      : { 'head of the tail line': headOf(tail) }),
    ...(least === undefined ? {} : { 'least distance of the hooks': least }),
    ...(lift.turn?.hooksApart === undefined ? {} : { 'distance of the hooks': lift.turn.hooksApart }),
    'shift of the centre of gravity': knownOr(settings.cogShift, 'm', '/settings/cogShift'),
    'lower mass of the piece': pick.set.lower,
    ...levelInputs(pick),
    ...pointInputs(points.main, 'main', `${main.riggingAt}/legs`),
    ...(tail === undefined ? {} : pointInputs(points.tail, 'tail', `${tail.riggingAt}/legs`)),
  }
}

/** The plane of a turn by two hooks, from the moves of its step alone; undefined where those do not say it. */
export function turnPlaneOf(pick: Pick): TurnPlane | undefined {
  const { tail, main, lift } = pick
  if (tail === undefined || lift.turn === undefined) return undefined
  const points = { main: pointsOf(pick, main), tail: pointsOf(pick, tail) }
  const mass = sumOf('Piece with what is bolted to it', 'kg', sharedLines(pick)).value
  const geometry = geometryOf(pick, undefined, points, mass)
  return geometry && { geometry }
}

const headOf = ({ hook, hookAt }: Hooked): Answer<'m'> => hook.head ?? knownOr(hook.highest, 'm', `${hookAt}/highest`)

/** Coordinates of lifting points; open where there is none. */
export function pointInputs(points: readonly HangingPoint[], side: string, legs: string): Record<string, Answer> {
  if (points.length === 0) return { [`${side} points`]: given('1', legs, undefined) }
  return Object.fromEntries(
    points.flatMap(({ id, point }) =>
      point.at.map((coordinate: Given, k: number): [string, Answer] => [`${side} ${id}, ${'xyz'[k]}`, coordinate]),
    ),
  )
}

function levelInputs(pick: Pick): Record<string, Answer> {
  if (posesAlong(pick).length > 1) return {}
  return {
    'top of the bay': knownOr(pick.bay?.level, 'm', `${pick.bayAt}/level`),
    'height over the bay': overBay(pick),
  }
}

const overBay = ({ lift, settings }: Pick): Answer<'m'> =>
  lift.turn?.overBay ?? knownOr(settings.clearanceOverBarrier, 'm', '/settings/clearanceOverBarrier')

function geometryOf(
  pick: Pick,
  hull: Hull | undefined,
  points: Turning['points'],
  mass: number | undefined,
): TurnGeometry | undefined {
  const { tail, lift } = pick
  const heads = { main: headOf(pick.main).value, tail: tail === undefined ? undefined : headOf(tail).value }
  const least = leastApart(pick)
  const level = levelOf(pick, hull)
  if (mass === undefined || lift.turn === undefined || level === undefined) return undefined
  if (heads.main === undefined || heads.tail === undefined || points.main.length * points.tail.length === 0)
    return undefined
  const [main, tailPoint] = [planarOf(pick, points.main), planarOf(pick, points.tail)]
  return {
    main,
    tail: tailPoint,
    weight: mass * (GRAVITY.value as number),
    level,
    heads: { main: heads.main, tail: heads.tail },
    hooks: {
      least: least?.value ?? 0,
      ...(lift.turn.hooksApart === undefined ? {} : { fixed: lift.turn.hooksApart.value as number }),
    },
    side: sideOf(main, tailPoint, lift.turn.from.value as number, lift.turn.to.value as number),
  }
}

/** The side on which the main point lies where the piece is turned the most. */
function sideOf(main: Planar, tail: Planar, from: number, to: number): 1 | -1 {
  const most = Math.abs(from) > Math.abs(to) ? from : to
  return turned(main, most)[0] >= turned(tail, most)[0] ? 1 : -1
}

function planarOf(pick: Pick, points: readonly HangingPoint[]): Planar {
  const turn = bodyTurn(pick)
  const cog = cogWithGear(pick)
  const sum = points.reduce<Vec3>(
    (s, p) => {
      const r = apply(turn, subtract(p.at, cog))
      return [s[0] + r[0], s[1] + r[1], s[2] + r[2]]
    },
    [0, 0, 0],
  )
  return [sum[0] / points.length, sum[2] / points.length]
}

/** Level of the centre of gravity: as the moves of the order have it; else as low as the clearance over the bay lets it. */
function levelOf(pick: Pick, hull: Hull | undefined): TurnGeometry['level'] | undefined {
  const poses = posesAlong(pick)
  if (poses.length > 1) {
    const cog = cogWithGear(pick)
    const turning = poses.map((pose) => ({ steep: Math.abs(pose.turn[2][0]), z: place(pose, cog)[2] }))
    return levelAlong(turning, pick)
  }
  const [bay, over] = [pick.bay?.level.value, overBay(pick).value]
  if (hull === undefined || bay === undefined || over === undefined) return undefined
  const turn = bodyTurn(pick)
  const cog = cogWithGear(pick)
  return (angle) => {
    const down: Vec3 = [Math.sin(angle), 0, -Math.cos(angle)]
    const below = reachOf(hull, { turn, shift: [0, 0, 0] }, down).reach - dotWith(apply(turn, cog), down)
    return bay + over + below
  }
}

const dotWith = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2]

/** Between the poses on both sides of the turn, evenly with the angle; lifting before and lowering after do not count. */
function levelAlong(poses: readonly { steep: number; z: number }[], { lift }: Pick): TurnGeometry['level'] {
  let [first, last] = [0, poses.length - 1]
  for (let i = 1; i < poses.length; i++) {
    const [a, b] = [poses[i - 1], poses[i]] as [{ steep: number }, { steep: number }]
    if (Math.abs(a.steep - b.steep) > 0.1) [first, last] = [i - 1, i]
  }
  const [a, b] = [poses[first], poses[last]] as [{ steep: number; z: number }, { steep: number; z: number }]
  const upright = a.steep < b.steep ? a.z : b.z
  const flat = a.steep < b.steep ? b.z : a.z
  const most = Math.max(Math.abs(lift.turn?.from.value as number), Math.abs(lift.turn?.to.value as number))
  return (angle) => upright + ((flat - upright) * Math.abs(angle)) / most
}

const COARSE = 5 * DEGREE

/** Least weight that both lines share, N; the upper one where no lower mass is known. */
export function lowerOf(pick: Pick): number {
  const mass = sumOf('Lower mass of the piece with what is bolted to it', 'kg', [
    { label: 'lower mass of the piece', answer: pick.set.lower },
    ...boltedLines(pick),
  ])
  return (mass.value ?? 0) * (GRAVITY.value as number)
}

const HELD_NOWHERE =
  'no pair of pulls holds the piece at any angle of the turn: points on the other side of its centre of gravity, or other hooks'

/** An answer of the turn, with its method, inputs and the largest residual on the way. */
export function turnAnswer<U extends 'N' | 'rad' | 'kg'>(
  unit: U,
  value: number | undefined,
  turning: Turning | OpenTurn,
  held?: TwoHooks,
): Answer<U> {
  const weight = 'open' in turning ? 1 : turning.geometry.weight
  return found({
    unit,
    value,
    method:
      'two hoist lines and the weight in the plane of the turn: the piece shifts until ΣF = 0 and ΣM = 0; lines lean where the hooks cannot stand over the points',
    inputs: turning.inputs,
    ...(value === undefined && !('open' in turning) ? { note: HELD_NOWHERE } : {}),
    residuals:
      held === undefined
        ? []
        : [
            { title: 'ΣF across', value: held.residual.across, unit: 'N', tolerance: 1e-6 * weight },
            { title: 'ΣF up, less the weight', value: held.residual.up, unit: 'N', tolerance: 1e-6 * weight },
            {
              title: 'ΣM about the centre of gravity',
              value: held.residual.moment,
              unit: 'N m',
              tolerance: 1e-5 * weight,
            },
          ],
  })
}
