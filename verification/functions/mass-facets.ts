import { numberOf, textOf } from '../inputs.ts'
import type { Inputs } from '../types.ts'

/** Corners, and three indices a triangle, seen counter-clockwise from outside. */
export interface Facets {
  vertices: number[][]
  triangles: number[][]
}

/** A round body as facets: an inscribed prism, a ring with facets on both bores, or a ball by halving an icosahedron. */
export function facetsOf(inputs: Inputs): Facets {
  const shape = textOf(inputs, 'shape')
  if (shape === 'ball') return ball(numberOf(inputs, 'level'))
  const [sides, h] = [numberOf(inputs, 'sides'), numberOf(inputs, 'h')]
  return shape === 'ring'
    ? ring(sides, numberOf(inputs, 'ri'), numberOf(inputs, 'ro'), h)
    : prism(sides, numberOf(inputs, 'r'), h)
}

const circle = (sides: number, r: number, z: number): number[][] =>
  Array.from({ length: sides }, (_, i) => {
    const t = (2 * Math.PI * i) / sides
    return [r * Math.cos(t), r * Math.sin(t), z]
  })

/** A band between two rows of corners of the same number, the first to the right of the second. */
const band = (a: number, b: number, n: number): number[][] =>
  Array.from({ length: n }, (_, i) => [i, (i + 1) % n]).flatMap(([i = 0, j = 0]) => [
    [a + i, a + j, b + j],
    [a + i, b + j, b + i],
  ])

function prism(n: number, r: number, h: number): Facets {
  const fan = (row: number, middle: number, turned: boolean): number[][] =>
    Array.from({ length: n }, (_, i) => {
      const [p, q] = [row + i, row + ((i + 1) % n)]
      return turned ? [middle, q, p] : [middle, p, q]
    })
  return {
    vertices: [...circle(n, r, 0), ...circle(n, r, h), [0, 0, 0], [0, 0, h]],
    triangles: [...band(0, n, n), ...fan(0, 2 * n, true), ...fan(n, 2 * n + 1, false)],
  }
}

function ring(n: number, ri: number, ro: number, h: number): Facets {
  const rows = [circle(n, ro, 0), circle(n, ro, h), circle(n, ri, h), circle(n, ri, 0)]
  return { vertices: rows.flat(), triangles: [0, 1, 2, 3].flatMap((k) => band(k * n, ((k + 1) % 4) * n, n)) }
}

const GOLDEN = (1 + Math.sqrt(5)) / 2

function ball(level: number): Facets {
  let { vertices, triangles } = icosahedron()
  for (let i = 0; i < level; i++) ({ vertices, triangles } = halved({ vertices, triangles }))
  return { vertices, triangles }
}

function icosahedron(): Facets {
  const signs = [
    [1, 1],
    [1, -1],
    [-1, 1],
    [-1, -1],
  ]
  const corners = signs.flatMap(([s = 1, t = 1]) => [
    [0, s, t * GOLDEN],
    [s, t * GOLDEN, 0],
    [t * GOLDEN, 0, s],
  ])
  const near = (a: number[], b: number[]): boolean =>
    Math.abs(Math.hypot(...a.map((x, k) => x - (b[k] as number))) - 2) < 1e-9
  const triangles: number[][] = []
  for (const [i, p] of corners.entries())
    for (const [j, q] of corners.entries())
      for (const [k, r] of corners.entries())
        if (i < j && j < k && near(p, q) && near(q, r) && near(r, p))
          triangles.push(isOutward(p, q, r) ? [i, j, k] : [i, k, j])
  return { vertices: corners.map(onBall), triangles }
}

const isOutward = (
  [a = 0, b = 0, c = 0]: number[],
  [d = 0, e = 0, f = 0]: number[],
  [g = 0, h = 0, i = 0]: number[],
): boolean => a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g) > 0

const onBall = (p: number[]): number[] => p.map((x) => x / Math.hypot(...p))

/** Each triangle in four, the middles of its sides pushed out to the ball. */
function halved({ vertices, triangles }: Facets): Facets {
  const corners = [...vertices]
  const middles = new Map<string, number>()
  const middle = (i: number, j: number): number => {
    const key = i < j ? `${i}/${j}` : `${j}/${i}`
    const known = middles.get(key)
    if (known !== undefined) return known
    const [p, q] = [vertices[i] as number[], vertices[j] as number[]]
    middles.set(key, corners.length)
    return corners.push(onBall(p.map((x, k) => x + (q[k] as number)))) - 1
  }
  const split = triangles.flatMap(([a = 0, b = 0, c = 0]) => {
    const [ab, bc, ca] = [middle(a, b), middle(b, c), middle(c, a)]
    return [
      [a, ab, ca],
      [b, bc, ab],
      [c, ca, bc],
      [ab, bc, ca],
    ]
  })
  return { vertices: corners, triangles: split }
}
