import { readQuantity, type UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import { lengthText } from './corners.ts'

type Texts = readonly string[]
type Typed = Readonly<Record<string, unknown>>

/**
 * A solid of a plain shape as a line that can be drawn on: the same volume in the same place, with its note, its cut and
 * its solid fraction.
 *
 * @param solid as it stands in the project file
 * @returns undefined for a shape that no such line makes, or one whose sizes cannot be read
 */
export function redrawn(solid: unknown, system: UnitSystem): Typed | undefined {
  if (typeof solid !== 'object' || solid === null) return undefined
  const typed = solid as Typed
  const shape = shapeOf(typed, system)
  if (shape === undefined) return undefined
  const kept = Object.entries(typed).filter(([name]) => ['op', 'fill', 'note'].includes(name))
  return { ...shape, ...Object.fromEntries(kept) }
}

function shapeOf(solid: Typed, system: UnitSystem): Typed | undefined {
  switch (solid.shape) {
    case 'cylinder':
      return turnedBetween(solid, [solid.radius, solid.radius], system)
    case 'cone':
      return turnedBetween(solid, solid.radii as Texts, system)
    case 'ring sector':
      return ring(solid)
    case 'box':
      return box(solid, system)
    case 'radial box':
      return radialBox(solid, system)
    default:
      return undefined
  }
}

const metres = (text: unknown): number => {
  const read = typeof text === 'string' ? readQuantity(text, 'm') : undefined
  return typeof read === 'number' ? read : Number.NaN
}
const all = (texts: unknown): readonly number[] => (Array.isArray(texts) ? texts.map(metres) : [])

function turnedBetween(solid: Typed, radii: unknown, system: UnitSystem): Typed | undefined {
  const [from, to] = [all(solid.from), all(solid.to)]
  const length = Math.hypot(...from.map((v, i) => v - (to[i] ?? Number.NaN)))
  const [first, last] = radii as readonly [unknown, unknown]
  if (!(length > 0) || !(metres(first) >= 0) || !(metres(last) >= 0)) return undefined
  const [none, whole] = [lengthText(0, undefined, system), lengthText(length, solid.radius ?? first, system)]
  const outer = [
    [whole, last],
    [none, first],
  ].filter(([, r]) => metres(r) > 0)
  return { shape: 'revolution', from: solid.from, to: solid.to, profile: [[none, none], [whole, none], ...outer] }
}

/** A whole ring about the machine axis; a sector of one is no shape of revolution. */
function ring({ inner, outer, along, angles }: Typed): Typed | undefined {
  const turn = Array.isArray(angles) ? angles.map((a) => readQuantity(String(a), 'rad')) : []
  const [from, to] = turn as readonly number[]
  const [rear, front] = Array.isArray(along) ? (along as Texts) : []
  if (Math.abs((to ?? 0) - (from ?? 0) - 2 * Math.PI) > 1e-9) return undefined
  if (!(metres(outer) > metres(inner)) || !(Math.abs(metres(front) - metres(rear)) > 0)) return undefined
  return {
    shape: 'revolution',
    from: ['0 m', '0 m', '0 m'],
    to: ['1 m', '0 m', '0 m'],
    profile: [
      [rear, inner],
      [front, inner],
      [front, outer],
      [rear, outer],
    ],
  }
}

/** A box drawn out along x; its outline lies in y and z. */
function box({ centre, size }: Typed, system: UnitSystem): Typed | undefined {
  const [at, of] = [all(centre), all(size)]
  if (at.length !== 3 || of.length !== 3 || ![...at, ...of].every(Number.isFinite)) return undefined
  const ends = (axis: number): Ends => endsOf(at[axis] as number, of[axis] as number, (centre as Texts)[axis], system)
  return { shape: 'extrusion', axis: 'x', between: ends(0), outline: rectangle(ends(1), ends(2)) }
}

/** A box on a ray of the machine axis: drawn at the left, along y, and turned to its ray. */
function radialBox({ along, radius, radial, across, angle }: Typed, system: UnitSystem): Typed | undefined {
  const sizes = [radius, radial, across].map(metres)
  if (!sizes.every(Number.isFinite) || !all(along).every(Number.isFinite)) return undefined
  const [r, a, b] = sizes as [number, number, number]
  const outline = rectangle(endsOf(r, a, radius, system), endsOf(0, b, across, system))
  return { shape: 'extrusion', axis: 'x', between: along, outline, turn: angle }
}

type Ends = readonly [string, string]

const endsOf = (centre: number, size: number, like: unknown, system: UnitSystem): Ends => [
  lengthText(centre - size / 2, like, system),
  lengthText(centre + size / 2, like, system),
]

const rectangle = ([left, right]: Ends, [low, high]: Ends): readonly Ends[] => [
  [left, low],
  [right, low],
  [right, high],
  [left, high],
]
