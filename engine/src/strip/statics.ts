import { leastCost } from '../numeric/linear-programme.ts'
import { add, cross, dot, norm, scale, subtract, unit, type Vec3 } from '../numeric/vector.ts'

/** A rigid group of parts under its own weight. */
export interface HeldBody {
  id: string
  /** N. */
  weight: number
  cog: Vec3
  /** Where props may bear: the corners of a box about it. The centre of gravity lies between them. */
  corners: readonly Vec3[]
}

/** A point where something presses on a body, only ever pressing. */
export interface PressPoint {
  at: Vec3
  /** Unit normal into `body`. */
  into: Vec3
  body: string
  /** The body that presses; undefined: something that stands still. */
  against?: string
}

/** Bodies and what presses on them, in one frame. */
export interface Pressed {
  bodies: readonly HeldBody[]
  points: readonly PressPoint[]
  /** Unit vector of gravity. */
  down: Vec3
}

/** What a body would do first. */
export type Falls = 'drops' | 'slides' | 'tips'

export interface Holding {
  held: boolean
  /** Least upward force that props would have to give each body, N: together no less would do. */
  props: readonly { body: string; force: number }[]
  /** Bodies that a motion which nothing hinders would lower, and how each begins. */
  moves: readonly { body: string; how: Falls }[]
}

const PYRAMID = 8
/** Share of the whole weight below which a force is noise. */
const NOISE = 1e-6

/**
 * Whether contact alone holds bodies under their own weight. First without friction, exact to first order. Where that is
 * not enough, with friction, on the side of caution: it counts only at faces that carry from below and are not steep
 * enough to lock a wedge, and what presses from above does not count, so that no clamping force can be made up and every
 * force is bounded by the weight above it. Friction then is taken by eight edges inside its cone, one of them straight
 * down the slope.
 *
 * Equilibrium with unilateral contact as a linear programme; its prices are the motion that nothing hinders.
 * Derived from equilibrium and duality.
 *
 * @param friction coefficient that may be counted on, 0: none
 */
export function holding(pressed: Pressed, friction: number): Holding {
  const bare = holdingBy(pressed, pressColumns(pressed, 0))
  if (bare.held || friction <= 0) return bare
  return holdingBy(pressed, pressColumns(pressed, friction))
}

function holdingBy(pressed: Pressed, presses: readonly number[][]): Holding {
  const { bodies, down } = pressed
  const scales = scalesOf(pressed)
  const props = bodies.flatMap((body, i) =>
    body.corners.map((corner) => ({ body: body.id, column: loadColumn(pressed, i, corner, scale(down, -1)) })),
  )
  const answer = leastCost({
    columns: [...presses, ...props.map((p) => p.column)],
    cost: [...presses.map(() => 0), ...props.map(() => 1)],
    sum: weightRows(pressed, down).map((w) => -w),
  })
  if (answer.kind !== 'least') throw new Error('props at the corners about every body always hold it')
  const forces = new Map<string, number>()
  props.forEach(({ body }, k) => {
    const force = answer.x[presses.length + k] as number
    if (force > NOISE) forces.set(body, (forces.get(body) ?? 0) + force * scales.weight)
  })
  if (answer.value <= NOISE) return { held: true, props: [], moves: [] }
  const begun = bodies.flatMap((body, i): [string, Falls][] => {
    const how = fallOf(answer.prices.slice(6 * i, 6 * i + 6), down, sizeOf(body) / scales.size)
    return how === undefined ? [] : [[body.id, how]]
  })
  return {
    held: false,
    props: [...forces].map(([body, force]) => ({ body, force })),
    moves: [...withCarriers(pressed, new Map(begun))].map(([body, how]) => ({ body, how })),
  }
}

/** What carries from below is less steep than this, as the cosine of its normal from plumb. */
const CARRIES = 1e-6

/**
 * A body that something carries does not drop: it goes the way of what carries it, and over what stands it slides. The motion
 * that the prices say is one of several that lower as much, so of a body on another that tips they may say but its fall.
 */
function withCarriers(pressed: Pressed, begun: ReadonlyMap<string, Falls>): ReadonlyMap<string, Falls> {
  const carriers = carriersOf(pressed)
  const moves = new Map(begun)
  // what is told of a carrier passes on upwards, one body at a time
  for (const _ of pressed.bodies)
    for (const [id, how] of moves) {
      const ways = (carriers.get(id) ?? []).map((carrier) => moves.get(carrier ?? '') ?? 'slides')
      if (how !== 'tips') moves.set(id, (['tips', 'slides'] as const).find((way) => ways.includes(way)) ?? how)
    }
  return moves
}

/** What carries each body from below: the id of another body, or undefined for something that stands still. */
function carriersOf({ bodies, points, down }: Pressed): ReadonlyMap<string, readonly (string | undefined)[]> {
  const carriers = new Map<string, (string | undefined)[]>()
  for (const point of points) {
    if (-dot(point.into, down) * upperSign(bodies, point, down) <= CARRIES) continue
    const isUpper = upperSign(bodies, point, down) > 0
    const [upper, lower] = isUpper ? [point.body, point.against] : [point.against as string, point.body]
    carriers.set(upper, [...(carriers.get(upper) ?? []), lower])
  }
  return carriers
}

/**
 * The prices of a body's rows are the motion that would lower it, turned about: velocity, then turning × the size of the
 * largest body. It tips where it turns about a place within its own size.
 *
 * @param share its own size, of that of the largest
 */
function fallOf(prices: readonly number[], down: Vec3, share: number): Falls | undefined {
  const [a, b, c, d, e, f] = prices.map((p) => -p) as [number, number, number, number, number, number]
  const [velocity, turning]: [Vec3, Vec3] = [
    [a, b, c],
    [d, e, f],
  ]
  const [speed, fall] = [norm(velocity), dot(velocity, down)]
  if (Math.max(speed, norm(turning)) < NOISE) return undefined
  if (norm(turning) * share > speed * (1 - NOISE)) return 'tips'
  return fall > Math.SQRT1_2 * speed ? 'drops' : 'slides'
}

/**
 * Least share of its weight, pushing sideways on every body at once, at which contact no longer holds them: the least over
 * eight directions, no more than 1. Zero where they are not held at all, or only just.
 */
export function steadiness(pressed: Pressed, friction: number): number {
  const { down } = pressed
  const [across, other] = acrossOf(down)
  const [bare, rough] = [pressColumns(pressed, 0), pressColumns(pressed, friction)]
  const shares = Array.from({ length: PYRAMID }, (_, k) => {
    const angle = (2 * Math.PI * k) / PYRAMID
    const push = add(scale(across, Math.cos(angle)), scale(other, Math.sin(angle)))
    const borne = shareBorne(pressed, bare, push)
    return friction <= 0 || borne === 1 ? borne : Math.max(borne, shareBorne(pressed, rough, push))
  })
  return Math.min(...shares)
}

const HALVINGS = 20

/** Least coefficient of friction, up to 1, with which contact holds the bodies; undefined: friction does not help. */
export function leastFriction(pressed: Pressed): number | undefined {
  if (!holding(pressed, 1).held) return undefined
  let [less, enough] = [0, 1]
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (less + enough) / 2
    if (holding(pressed, middle).held) enough = middle
    else less = middle
  }
  return enough
}

/** Most share of the weight along `push`, up to 1; 0 where even none is not held. */
function shareBorne(pressed: Pressed, presses: readonly number[][], push: Vec3): number {
  const rows = weightRows(pressed, push)
  const answer = leastCost({
    columns: [...presses.map((c) => [...c, 0]), [...rows, 1], [...rows.map(() => 0), 1]],
    cost: [...presses.map(() => 0), -1, 0],
    sum: [...weightRows(pressed, pressed.down).map((w) => -w), 1],
  })
  return answer.kind === 'least' ? -answer.value : 0
}

/** Forces in the whole weight, arms in the size of the largest body: rows and columns of order one. */
function scalesOf({ bodies }: Pressed): { weight: number; size: number } {
  return { weight: bodies.reduce((sum, b) => sum + b.weight, 0), size: Math.max(...bodies.map(sizeOf)) }
}

const sizeOf = ({ corners, cog }: HeldBody): number => Math.max(...corners.map((c) => norm(subtract(c, cog))))

/** Rows of a force of each body's weight along a direction, at its centre of gravity. */
function weightRows(pressed: Pressed, along: Vec3): number[] {
  const { weight } = scalesOf(pressed)
  return pressed.bodies.flatMap((b) => [...scale(along, b.weight / weight), 0, 0, 0])
}

/** One force on body number `i`, at a point. */
function loadColumn({ bodies, ...rest }: Pressed, i: number, at: Vec3, force: Vec3): number[] {
  const column = bodies.flatMap(() => [0, 0, 0, 0, 0, 0])
  putLoad(column, i, (bodies[i] as HeldBody).cog, at, force, scalesOf({ bodies, ...rest }).size)
  return column
}

function putLoad(column: number[], i: number, cog: Vec3, at: Vec3, force: Vec3, size: number): void {
  const moment = scale(cross(subtract(at, cog), force), 1 / size)
  ;[...force, ...moment].forEach((x, k) => {
    column[6 * i + k] = x
  })
}

/** Columns of the forces that may act at each point. */
function pressColumns(pressed: Pressed, friction: number): number[][] {
  const { bodies, points } = pressed
  const place = new Map(bodies.map((b, i) => [b.id, i]))
  const { size } = scalesOf(pressed)
  return points.flatMap((point) => {
    const i = place.get(point.body) as number
    const j = point.against === undefined ? undefined : (place.get(point.against) as number)
    return edgesAt(pressed, point, friction).map((force) => {
      const column = bodies.flatMap(() => [0, 0, 0, 0, 0, 0])
      putLoad(column, i, (bodies[i] as HeldBody).cog, point.at, force, size)
      if (j !== undefined) putLoad(column, j, (bodies[j] as HeldBody).cog, point.at, scale(force, -1), size)
      return column
    })
  })
}

/** Forces whose sums, weighted by what is not negative, are those that a point may exert on its body. */
function edgesAt({ bodies, down }: Pressed, point: PressPoint, friction: number): Vec3[] {
  const { into } = point
  if (friction <= 0) return [into]
  const carries = -dot(into, down) * upperSign(bodies, point, down)
  if (carries < -1e-9) return []
  const steep = Math.sqrt(Math.max(0, 1 - carries * carries))
  if (carries <= friction * steep) return [into]
  const [along, other] = acrossOf(into, down)
  return Array.from({ length: PYRAMID }, (_, k) => {
    const angle = (2 * Math.PI * k) / PYRAMID
    return add(into, scale(add(scale(along, Math.cos(angle)), scale(other, Math.sin(angle))), friction))
  })
}

/** 1 where the body of the point is the upper one of the two, −1 where it is the lower. */
function upperSign(bodies: readonly HeldBody[], { body, against }: PressPoint, down: Vec3): 1 | -1 {
  if (against === undefined) return 1
  const height = (id: string): number => -dot((bodies.find((b) => b.id === id) as HeldBody).cog, down)
  return height(body) >= height(against) ? 1 : -1
}

/** Two unit vectors across a unit vector; the first as near to `wished` as can be. */
function acrossOf(normal: Vec3, wished: Vec3 = [1, 0, 0]): [Vec3, Vec3] {
  const candidates: readonly Vec3[] = [wished, [1, 0, 0], [0, 1, 0]]
  const flat = (v: Vec3): Vec3 => subtract(v, scale(normal, dot(v, normal)))
  const first = unit(candidates.map(flat).find((v) => norm(v) > 1e-6) as Vec3)
  return [first, cross(normal, first)]
}
