import { add, scale, type Vec3 } from '../../engine/src/numeric/vector.ts'
import { type HeldBody, holding, leastFriction, type Pressed, type PressPoint } from '../../engine/src/strip/statics.ts'
import { numberOf, numbersOf, rowsOf } from '../inputs.ts'
import type { Inputs, Value, VerifiedFunction } from '../types.ts'

/** Bodies that contact alone holds, or does not. */
export const standing: Record<string, VerifiedFunction> = {
  /** A centre of gravity over supports in plan; parts may be given instead, each with mass and place. */
  'strip.on-supports': (inputs) => ({ stable: holding(onSupports(inputs), 0).held }),
  /** Greatest overhang of a stack of equal blocks, each over the one below, by halving. */
  'strip.overhang': (inputs) => ({
    overhang: greatestOverhang(numberOf(inputs, 'blocks'), numberOf(inputs, 'length')),
  }),
  /** Least friction at which a block on a slope stays, of base b and height h. */
  'strip.block-on-slope': (inputs): Record<string, Value> => {
    const least = leastFriction(onSlope(numberOf(inputs, 'b'), numberOf(inputs, 'h'), numberOf(inputs, 'slope')))
    return least === undefined ? { stands: false } : { stands: true, friction: least }
  },
}

const DOWN: Vec3 = [0, 0, -1]
const UP: Vec3 = [0, 0, 1]

const around = (low: Vec3, high: Vec3): Vec3[] =>
  [low[0], high[0]].flatMap((x) => [low[1], high[1]].flatMap((y) => [low[2], high[2]].map((z): Vec3 => [x, y, z])))

function onSupports(inputs: Inputs): Pressed {
  const supports = rowsOf(inputs, 'supports') as [number, number][]
  const [x, y] = inputs.parts === undefined ? numbersOf(inputs, 'cog') : centreOf(rowsOf(inputs, 'parts'))
  const cog: Vec3 = [x as number, y as number, 1]
  return {
    bodies: [{ id: 'body', weight: 1, cog, corners: around(add(cog, [-5, -5, -1]), add(cog, [5, 5, 1])) }],
    points: supports.map(([u, v]): PressPoint => ({ at: [u, v, 0], into: UP, body: 'body' })),
    down: DOWN,
  }
}

function centreOf(parts: readonly number[][]): [number, number] {
  const total = parts.reduce((sum, [m]) => sum + (m as number), 0)
  return [1, 2].map((i) => parts.reduce((sum, p) => sum + (p[0] as number) * (p[i] as number), 0) / total) as [
    number,
    number,
  ]
}

const HALVINGS = 40

/** Blocks over the edge of a table at x = 0: each reaches as far over the one below as the ones above it allow. */
function greatestOverhang(count: number, length: number): number {
  const shifts: number[] = []
  for (let above = 1; above <= count; above++) {
    let [held, falls] = [0, length]
    for (let i = 0; i < HALVINGS; i++) {
      const middle = (held + falls) / 2
      if (holding(stackOf([...shifts, middle], length), 0).held) held = middle
      else falls = middle
    }
    shifts.push(held)
  }
  return shifts.reduce((sum, s) => sum + s, 0)
}

/** From the top: how far each block reaches over the next; the last over the table. */
function stackOf(shifts: readonly number[], length: number): Pressed {
  const fromBelow = [...shifts].reverse()
  let edge = 0
  const starts = fromBelow.map((shift) => {
    edge += shift
    return edge - length
  })
  const bodies = starts.map((x, i): HeldBody => {
    const [low, high]: [Vec3, Vec3] = [
      [x, 0, i],
      [x + length, 1, i + 1],
    ]
    return { id: `${i}`, weight: 1, cog: scale(add(low, high), 0.5), corners: around(low, high) }
  })
  const points = starts.flatMap((x, i) =>
    [x, i === 0 ? 0 : (starts[i - 1] as number) + length].flatMap((u) =>
      [0, 1].map(
        (v): PressPoint => ({
          at: [u, v, i],
          into: UP,
          body: `${i}`,
          ...(i === 0 ? {} : { against: `${i - 1}` }),
        }),
      ),
    ),
  )
  return { bodies, points, down: DOWN }
}

const onSlope = (b: number, h: number, slope: number): Pressed => ({
  bodies: [{ id: 'block', weight: 1, cog: [b / 2, b / 2, h / 2], corners: around([0, 0, 0], [b, b, h]) }],
  points: [0, b].flatMap((x) => [0, b].map((y): PressPoint => ({ at: [x, y, 0], into: UP, body: 'block' }))),
  down: [Math.sin(slope), 0, -Math.cos(slope)],
})
