import type { Vec3 } from '@shieldwright/engine/numeric/vector.ts'
import type { SolidShape } from './solids.ts'

/** A layer on the cut face: on both sides of the shaft, from its wall to the edge of the block. */
interface Face {
  name: string
  top: number
  bottom: number
  from: number
  to: number
  bore: { axis: number; radius: number } | undefined
  seed: number
  /** Under the floor of the shaft, where the layer runs through. */
  under: { top: number; half: number } | undefined
}

type Mark = (x: number, z: number, turn: number) => Vec3[]

const Y = -0.03
const stroke = (x: number, z: number, dx: number, dz: number): Vec3[] => [
  [x - dx / 2, Y, z - dz / 2],
  [x + dx / 2, Y, z + dz / 2],
]

/** Marks as soils are drawn by hand: dashes for clay, dots for sand, rings for gravel, ticks for fill and till. */
const SOILS: readonly { words: RegExp; apart: readonly [number, number]; mark: Mark }[] = [
  { words: /gravel|cobble/i, apart: [2.1, 1.35], mark: (x, z, t) => pebble(x, z, 0.16 + 0.14 * t) },
  { words: /sand/i, apart: [1.1, 0.75], mark: (x, z) => stroke(x, z, 0.1, 0) },
  {
    words: /till|moraine/i,
    apart: [2, 1.2],
    mark: (x, z, t) => [...stroke(x, z, 0.5, 0.3), ...(t > 0.6 ? pebble(x + 0.8, z, 0.16) : [])],
  },
  { words: /clay|silt|mud|peat/i, apart: [1.7, 0.8], mark: (x, z, t) => stroke(x, z, 0.6 + 0.5 * t, 0) },
  {
    words: /rock|stone|lime|chalk/i,
    apart: [2.4, 1.3],
    mark: (x, z) => [...stroke(x, z, 1.6, 0), ...stroke(x + 0.6, z + 0.5, 0, 0.9)],
  },
  { words: /./, apart: [1.6, 0.9], mark: (x, z, t) => stroke(x, z, 0.5 * Math.cos(6 * t), 0.5 * Math.sin(6 * t)) },
]

function pebble(x: number, z: number, r: number): Vec3[] {
  const at = (i: number): Vec3 => [x + 1.3 * r * Math.cos((Math.PI * i) / 3), Y, z + r * Math.sin((Math.PI * i) / 3)]
  return [0, 1, 2, 3, 4, 5].flatMap((i) => [at(i), at(i + 1)])
}

/** Marks of a layer, the same every time; none in the bore that the machine came through. */
export function grainOf({ name, top, bottom, from, to, bore, seed, under }: Face): SolidShape {
  const soil = SOILS.find((s) => s.words.test(name)) as (typeof SOILS)[number]
  const [dx, dz] = soil.apart
  const ends: Vec3[] = []
  const rows = Math.floor((top - bottom) / dz)
  for (let row = 0; row < rows; row++)
    for (const side of [-1, 1])
      for (let k = -Math.floor(from / dx); k < Math.floor((to - from) / dx); k++) {
        const [a, b] = scatter(row * 977 + k * 31 + seed * 7919 + side)
        const x = side * (from + dx * (k + 0.5 + 0.35 * (a - 0.5) + (row % 2) * 0.35))
        const z = bottom + dz * (row + 0.5 + 0.3 * (b - 0.5))
        const inBore = side < 0 && bore !== undefined && Math.abs(z - bore.axis) < bore.radius + 0.3
        const beside = Math.abs(x) < to - 1 && Math.abs(x) > from + 0.7
        const below = under !== undefined && z < under.top - 0.4 && Math.abs(x) < under.half - 0.7 && x * side > 0
        if (!inBore && (beside || below)) ends.push(...soil.mark(x, z, a))
      }
  return { shape: 'lines', ends }
}

/** Two numbers in 0…1 that look thrown and are the same for the same place. */
function scatter(n: number): readonly [number, number] {
  const part = (x: number): number => x - Math.floor(x)
  return [part(Math.sin(n * 12.9898) * 43758.5453), part(Math.sin(n * 78.233) * 12543.137)]
}
