import fc from 'fast-check'
import { expect, test } from 'vitest'
import { simplexOfLibrary } from './minimiser.fixture.ts'
import { peakOf, stretchesOf } from './stretches.ts'
import { swayStiffness } from './sway.ts'
import { cornerTurn, holdsThroughout, restraintAt, turnCorners, worstCorner } from './turnBox.ts'
import { heldAt, type Planar, type TurnGeometry, type TwoHooks, turned } from './turning.ts'

const DEGREE = Math.PI / 180
const QUARTER = Math.PI / 2
const real = (min: number, max: number) => fc.double({ min, max, noNaN: true })

/** A piece with its points 4.2 m above and below its centre of gravity, under hooks that come no closer than 5.2 m. */
const geometry = (more: Partial<TurnGeometry> = {}): TurnGeometry => ({
  main: [0.1, 4.2],
  tail: [0.1, -4.2],
  weight: 6e6,
  level: () => 8,
  heads: { main: 24, tail: 24 },
  hooks: { least: 5.2 },
  side: 1,
  ...more,
})

/** Points along the piece and across, upward when flat, from the centre of gravity; hooks far up and free to come together. */
const fromFlat = (main: Planar, tail: Planar): TurnGeometry =>
  geometry({
    main: [-main[1], main[0]],
    tail: [-tail[1], tail[0]],
    heads: { main: 1e6, tail: 1e6 },
    hooks: { least: 0 },
  })

const STIFF = 4e7

/** The pulls where a general minimiser, knowing values alone, finds the energy of the piece on two stiff lines lowest. */
function pullsOfLeastEnergy(g: TurnGeometry, held: TwoHooks): { main: number; tail: number; moved: number } {
  const lines = (['main', 'tail'] as const).map((side) => {
    const [at, { up, length }] = [turned(g[side], held.angle), held.lines[side]]
    const head: Planar = [at[0] + up[0] * length, at[1] + up[1] * length]
    return { point: g[side], head, unstretched: length - held[side] / STIFF }
  })
  const stretches = ([x, z, a]: number[]): number[] =>
    lines.map(({ point, head, unstretched }) => {
      const p = turned(point, held.angle + (a as number) / 4)
      return Math.max(0, Math.hypot(head[0] - p[0] - (x as number), head[1] - p[1] - (z as number)) - unstretched)
    })
  const energy = (v: number[]): number =>
    (g.weight * (v[1] as number) + stretches(v).reduce((sum, s) => sum + (STIFF * s * s) / 2, 0)) / g.weight
  const minimise = simplexOfLibrary()
  let at = [0.05, 0.02, -0.06]
  for (let k = 0; k < 8; k++)
    at = minimise(energy, at, { maxIterations: 4000, minErrorDelta: 1e-16, minTolerance: 1e-12 }).x
  const [main, tail] = stretches(at).map((s) => s * STIFF) as [number, number]
  return { main, tail, moved: Math.hypot(...at) }
}

test('a general minimiser finds the same pulls at the lowest energy, lines leaning or plumb', () => {
  let leaning = 0
  fc.assert(
    fc.property(real(2, 88), real(-0.4, 0.4), real(-0.4, 0.4), real(3, 7), (angle, a, b, least) => {
      const g = geometry({ main: [a, 4.2], tail: [b, -3.6], hooks: { least }, heads: { main: 24, tail: 22 } })
      const held = heldAt(g, angle * DEGREE)
      fc.pre(held !== undefined && held.tail > 0.01 * g.weight && swayStiffness(g, held) > 1e4)
      if (held === undefined) return
      if (held.mainLean > 0.01) leaning++
      const free = pullsOfLeastEnergy(g, held)
      expect(Math.abs(free.main - held.main) / g.weight).toBeLessThan(2e-3)
      expect(Math.abs(free.tail - held.tail) / g.weight).toBeLessThan(2e-3)
      expect(free.moved).toBeLessThan(0.02)
    }),
    { numRuns: 14, seed: 19 },
  )
  expect(leaning).toBeGreaterThan(2)
})

test('a thick disc with its main point below its centre of gravity runs over from 81.47° on', () => {
  // hand calculation: main (12, 0.5), tail (0, 0), centre of gravity (6, 0.9) m; from flat
  const g = fromFlat([6, -0.4], [-6, -0.9])
  const { stretches } = stretchesOf(g, QUARTER, -5 * DEGREE, DEGREE)
  expect(stretches.map((s) => s.holding)).toEqual(['both', 'neither', 'main alone'])
  const [slack, natural] = [stretches[1]?.from, stretches[1]?.to].map((a) => 90 - (a as number) / DEGREE)
  expect(slack).toBeCloseTo(81.469, 3)
  expect(natural).toBeCloseTo(93.814, 3)
})

test('a range in which nothing holds the piece is found though it is narrower than the angles looked at', () => {
  const g = fromFlat([6, -0.0004], [-6, -0.0009])
  const { stretches } = stretchesOf(g, QUARTER, -0.05, 5 * DEGREE)
  const lost = stretches.find((s) => s.holding === 'neither')
  expect(Math.abs((lost?.to as number) - (lost?.from as number))).toBeLessThan(0.02 * DEGREE)
})

test('the greatest share, lean and horizontal pull are those of two thousand angles, or more', () => {
  const values: ((h: TwoHooks) => number)[] = [
    (h) => h.main,
    (h) => h.tail,
    (h) => h.mainLean,
    (h) => h.tail * Math.sin(h.tailLean),
  ]
  for (const offset of [-0.4, 0.05, 0.4]) {
    const g = geometry({ main: [offset, 4.2] })
    const course = stretchesOf(g, 0.5 * DEGREE, QUARTER, 5 * DEGREE)
    for (const of of values) {
      const scanned = Array.from({ length: 2001 }, (_, k) => heldAt(g, (0.5 + (89.5 * k) / 2000) * DEGREE))
      const most = Math.max(...scanned.flatMap((h) => (h === undefined ? [] : [of(h)])))
      expect(peakOf(g, course, of)?.value).toBeGreaterThanOrEqual(most * (1 - 1e-9))
      expect(peakOf(g, course, of)?.value).toBeLessThanOrEqual(most * (1 + 1e-4))
    }
  }
})

test('shares of plumb lines sum to the weight, and run on without a jump inside a stretch', () => {
  fc.assert(
    fc.property(real(-0.5, 0.5), real(-0.5, 0.5), (a, b) => {
      const g = geometry({ main: [a, 4.2], tail: [b, -4], hooks: { least: 0 }, heads: { main: 1e4, tail: 1e4 } })
      const { stretches } = stretchesOf(g, 0, QUARTER, DEGREE)
      for (const { from, to, holding } of stretches) {
        if (holding !== 'both' || to - from < DEGREE) continue
        let before: TwoHooks | undefined
        for (let k = 1; k < 600; k++) {
          const held = heldAt(g, from + ((to - from) * k) / 600) as TwoHooks
          if (held.mainLean > 1e-9) continue
          expect((held.main + held.tail) / g.weight).toBeCloseTo(1, 9)
          if (before !== undefined && from > 0) expect(Math.abs(held.main - before.main)).toBeLessThan(0.1 * g.weight)
          before = held
        }
      }
    }),
    { numRuns: 20 },
  )
})

test('a mirrored turn has the same stretches, mirrored, and a lifted site changes nothing', () => {
  fc.assert(
    fc.property(real(-1, 1), real(-1, 1), real(-30, 30), (a, b, up) => {
      const g = geometry({ main: [a, 3], tail: [b, -3] })
      const plain = stretchesOf(g, 0, QUARTER, DEGREE).stretches
      const mirrored = stretchesOf({ ...g, main: [-a, 3], tail: [-b, -3], side: -1 }, 0, -QUARTER, DEGREE).stretches
      const raised = stretchesOf(
        { ...g, level: () => 8 + up, heads: { main: 24 + up, tail: 24 + up } },
        0,
        QUARTER,
        DEGREE,
      ).stretches
      expect(mirrored.map((s) => s.holding)).toEqual(plain.map((s) => s.holding))
      expect(raised.map((s) => s.holding)).toEqual(plain.map((s) => s.holding))
      for (const [i, s] of plain.entries()) {
        expect(mirrored[i]?.to).toBeCloseTo(-s.to, 7)
        expect(raised[i]?.to).toBeCloseTo(s.to, 7)
      }
    }),
    { numRuns: 60 },
  )
})

test('plumb lines of one length swing like a pendulum of that length', () => {
  const g = geometry({ hooks: { least: 0 } })
  const held = heldAt(g, QUARTER) as TwoHooks
  const length = 24 - 8 + 0.1
  expect(swayStiffness(g, held)).toBeCloseTo(g.weight / length, 3)
})

test('a piece on its main point alone is stable while that point lies above its centre of gravity', () => {
  const above = geometry({ main: [0, 3], hooks: { least: 0 } })
  const hung = heldAt(above, 0) as TwoHooks
  expect(hung.tail).toBe(0)
  expect(swayStiffness(above, hung)).toBeCloseTo(above.weight / 3, 6)
})

test('the force that holds a piece over centre has the moment of its weight about the main point', () => {
  const g = fromFlat([6, -0.4], [-6, -0.9])
  const angle = 5 * DEGREE
  const [m, t] = [turned(g.main, angle), turned(g.tail, angle)]
  const length = Math.hypot(m[0] - t[0], m[1] - t[1])
  expect(restraintAt(g, angle) * length).toBeCloseTo(g.weight * Math.abs(m[0]), 3)
  expect(restraintAt(g, Math.atan2(-g.main[0], g.main[1]))).toBeCloseTo(0, 3)
})

test('the corner that is lost over the widest angle is the worst, and the lower mass is held where the upper one is', () => {
  const g = geometry({ main: [0.01, 4.2], tail: [0.3, -4], hooks: { least: 0 } })
  const corners = turnCorners(g, { from: 0, to: QUARTER, step: 5 * DEGREE }, 0.05, 5e6)
  expect(corners).toHaveLength(8)
  const worst = worstCorner(corners)
  expect(worst?.worked.lost).toBe(Math.max(...corners.map((c) => c.worked.lost)))
  for (const mass of ['upper', 'lower'] as const) {
    const lost = corners.filter((c) => c.mass === mass).map((c) => c.worked.lost)
    expect(lost).toEqual(corners.filter((c) => c.mass === 'upper').map((c) => c.worked.lost))
  }
  const upper = corners[0]?.worked.most.main as number
  expect((corners[1]?.worked.most.main as number) / upper).toBeCloseTo(5 / 6, 9)
})

test('a box of no size leaves the plan itself', () => {
  const g = geometry()
  const [only] = turnCorners(g, { from: 0, to: QUARTER, step: 5 * DEGREE }, 0, 5e6)
  expect(only?.worked.most).toEqual(cornerTurn(g, { from: 0, to: QUARTER, step: 5 * DEGREE }).most)
  expect(only === undefined ? false : holdsThroughout(only)).toBe(true)
})
