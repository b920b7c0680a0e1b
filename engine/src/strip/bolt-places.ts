import type { Joint } from '../model/index.ts'
import type { Vec3 } from '../numeric/vector.ts'
import type { Bolts } from './bolting.ts'
import { headsOf } from './tool-check.ts'

/** Where the bolts of a joint stand: m, about their middle, seen along the joint, the first at the top and on clockwise. */
export interface BoltPlaces {
  kind: 'circle' | 'arc' | 'rows' | 'heads' | 'none'
  at: readonly (readonly [x: number, y: number])[]
}

/** Places of the bolts, from what the file says of heads, circle or rows; none where it says nothing. */
export function placesOfBolts(joint: Joint): BoltPlaces {
  const { bolts, fasteners } = joint
  if (bolts === undefined) return NOWHERE
  const circle = bolts.circle?.value
  if (circle !== undefined && bolts.arc?.value === undefined)
    return { kind: 'circle', at: onCircle(bolts.count, circle / 2, 2 * Math.PI, 0) }
  if (circle !== undefined && bolts.arc?.value !== undefined) {
    const pitch = bolts.arc.value / bolts.count
    return {
      kind: 'arc',
      at: centred(onCircle(bolts.count, circle / 2, bolts.arc.value, (pitch - bolts.arc.value) / 2)),
    }
  }
  if (bolts.rows !== undefined) return { kind: 'rows', at: centred(inRows(bolts)) }
  const heads = headsOf(joint)
  if (fasteners !== undefined && heads.length === bolts.count)
    return { kind: 'heads', at: centred(heads.map((h) => seenAlong(h, fasteners.off))) }
  return NOWHERE
}

const NOWHERE: BoltPlaces = { kind: 'none', at: [] }

const onCircle = (n: number, radius: number, over: number, first: number) =>
  Array.from({ length: n }, (_, i): readonly [number, number] => {
    const angle = first + (i * over) / n
    return [radius * Math.sin(angle), radius * Math.cos(angle)]
  })

function inRows({ count, rows }: Bolts): (readonly [number, number])[] {
  const { number = 1, pitch, gauge } = rows ?? {}
  const each = Math.ceil(count / number)
  return Array.from({ length: count }, (_, i): readonly [number, number] => [
    (i % each) * (pitch?.value ?? 0),
    -Math.floor(i / each) * (gauge?.value ?? 0),
  ])
}

function centred(places: readonly (readonly [number, number])[]): (readonly [number, number])[] {
  const [x, y] = [0, 1].map((k) => places.reduce((sum, p) => sum + (p[k] as number), 0) / places.length) as [
    number,
    number,
  ]
  return places.map((p) => [p[0] - x, p[1] - y])
}

/** A point seen against the way in which the tool comes off. */
function seenAlong([x, y, z]: Vec3, off: string): readonly [number, number] {
  const sign = off[0] === '+' ? 1 : -1
  switch (off[1]) {
    case 'x':
      return [sign * y, z]
    case 'y':
      return [-sign * x, z]
    default:
      return [sign * x, y]
  }
}

/** Measures of an arrangement of bolts for outside loads: m and m². */
export interface Arrangement {
  /** Farthest bolt from the middle. */
  farthest: number
  /** Mean distance from the middle. */
  mean: number
  /** Least Σ y² about any axis through the middle. */
  second: number
}

/** Arms of an arrangement; Σ y² about its weakest axis is the smaller eigenvalue of Σ p pᵀ. */
export function arrangementOf({ at }: BoltPlaces): Arrangement {
  const arms = at.map(([x, y]) => Math.hypot(x, y))
  const sum = (of: (p: readonly [number, number]) => number): number => at.reduce((s, p) => s + of(p), 0)
  const [xx, yy, xy] = [sum(([x]) => x * x), sum(([, y]) => y * y), sum(([x, y]) => x * y)]
  return {
    farthest: Math.max(0, ...arms),
    mean: at.length === 0 ? 0 : arms.reduce((s, r) => s + r, 0) / at.length,
    second: Math.max(0, (xx + yy) / 2 - Math.hypot((xx - yy) / 2, xy)),
  }
}

/**
 * Order of tightening: for each stroke the bolts that are taken at once, as places from 0.
 *
 * On a whole circle opposite bolts follow one another, and each new pair lies as far as can be from those already tight; with
 * several tools they stand evenly round it. Elsewhere from the middle outwards, each bolt followed by the one opposite.
 * Source: common practice, no source.
 */
export function tighteningOrder({ kind, at }: BoltPlaces, tools = 1): readonly (readonly number[])[] {
  const n = at.length
  if (kind === 'circle') {
    const together = largestDivisor(n, tools)
    if (together > 1) return around(n / together).map((i) => ringOf(i, together, n))
    const isEven = n % 2 === 0
    return isEven ? around(n / 2).flatMap((i) => [[i], [i + n / 2]]) : around(n).map((i) => [i])
  }
  return grouped(fromTheMiddle(at), tools)
}

/** Tools stand evenly only where their number divides that of the bolts. */
function largestDivisor(n: number, most: number): number {
  for (let k = Math.min(n, most); k > 1; k--) if (n % k === 0) return k
  return 1
}

const ringOf = (first: number, together: number, n: number): number[] =>
  Array.from({ length: together }, (_, k) => first + (k * n) / together)

const grouped = (order: readonly number[], size: number): number[][] =>
  Array.from({ length: Math.ceil(order.length / size) }, (_, i) => order.slice(i * size, (i + 1) * size))

/** Places of a ring, each next one as far as can be from those before; the first of equals. */
function around(n: number): number[] {
  const near = new Array<number>(n).fill(Number.POSITIVE_INFINITY)
  const order: number[] = []
  for (let next = 0; order.length < n; next = near.indexOf(Math.max(...near))) {
    order.push(next)
    for (let i = 0; i < n; i++) {
      const apart = Math.abs(i - next)
      near[i] = Math.min(near[i] as number, apart, n - apart)
    }
    near[next] = Number.NEGATIVE_INFINITY
  }
  return order
}

function fromTheMiddle(at: BoltPlaces['at']): number[] {
  const left = new Set(at.map((_, i) => i))
  const nearest = (x: number, y: number): number | undefined => {
    let best: number | undefined
    let least = Number.POSITIVE_INFINITY
    for (const i of left) {
      const [px, py] = at[i] as readonly [number, number]
      const apart = Math.hypot(px - x, py - y)
      if (apart < least - 1e-9) [best, least] = [i, apart]
    }
    return best
  }
  const order: number[] = []
  for (let next = nearest(0, 0); next !== undefined; next = nearest(0, 0)) {
    order.push(next)
    left.delete(next)
    const [x, y] = at[next] as readonly [number, number]
    const opposite = nearest(-x, -y)
    if (opposite === undefined) break
    order.push(opposite)
    left.delete(opposite)
  }
  return order
}
