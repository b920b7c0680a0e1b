import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { mass } from '../mass/index.ts'
import type { Body } from '../numeric/body.ts'
import { encounter } from '../numeric/encounter.ts'
import { straightMotion } from '../numeric/motion.ts'
import { AT_REST, apply, IDENTITY, multiply, type Pose, rotationAbout, scale, type Vec3 } from '../numeric/vector.ts'
import { freshMemory, type Memory } from '../working/memory.ts'
import { blockingGraph } from './blocking.ts'
import { type Blocking, blockingAmong, blockingOf } from './blocking-of.ts'
import { cellsOf, type PartCells } from './shape.ts'
import { boxAt, modelOf, SETTINGS } from './strip.fixture.ts'

const block = (centre: Vec3, size: Vec3): Body => ({ kind: 'box', centre, half: scale(size, 0.5), turn: IDENTITY })
const ring = (inner: number, outer: number, rear: number, front: number, sweep = 2 * Math.PI): Body => ({
  kind: 'ring sector',
  inner,
  outer,
  rear,
  front,
  start: -sweep / 2,
  sweep,
})
const part = (id: string, bodies: readonly Body[], pose: Pose = AT_REST): PartCells =>
  cellsOf(
    id,
    bodies.map((body) => ({ op: 'add', body })),
    pose,
  )
const among = (parts: readonly PartCells[]): Blocking =>
  blockingAmong({ parts, tolerance: 1e-3, gap: 5e-3, may: new Map(), memory: freshMemory() })

describe('what blocks what', () => {
  test('a ring on a stub is held along nothing but the axis, and leaves by its open end', () => {
    const found = among([
      part('ring', [ring(1, 1.5, 0, 1)]),
      part('stub', [
        { kind: 'frustum', from: [-2, 0, 0], to: [1, 0, 0], radii: [1, 1] },
        { kind: 'frustum', from: [-3, 0, 0], to: [-1, 0, 0], radii: [2, 2] },
      ]),
    ])
    const { freedom, free } = found.parts.ring as Blocking['parts'][string]
    expect(freedom).toMatchObject({ dimension: 1, solidAngle: 0 })
    expect(free.map((k) => found.directions[k])).toEqual([[1, 0, 0]])
    expect(found.pairs[0]?.held).toHaveLength(24)
  })

  test('a stone between two plates of one cup goes up with it, and neither goes alone', () => {
    const cup = part('cup', [block([0, 0, 0], [2, 2, 0.2]), block([0, 0, 2], [2, 2, 0.2])])
    const stone = part('stone', [block([0, 0, 1], [1, 1, 1])])
    expect(among([cup, stone]).along([0, 0, 1]).movable).toEqual([['cup', 'stone']])
  })

  test('a tongue in a slot at 37 degrees is free along the slot, which no sampled direction is', () => {
    const pose: Pose = { turn: rotationAbout('y', (-37 * Math.PI) / 180), shift: [0, 0, 0] }
    const walls = [
      block([0, 0, 1], [6, 3, 1]),
      block([0, 0, -1], [6, 3, 1]),
      block([0, 1, 0], [6, 1, 1]),
      block([0, -1, 0], [6, 1, 1]),
    ]
    const found = among([part('tongue', [block([0, 0, 0], [2, 1, 1])], pose), part('slot', walls, pose)])
    const { freedom, own, ownBlockers, free } = found.parts.tongue as Blocking['parts'][string]
    expect(freedom.dimension).toBe(1)
    expect(free).toEqual([])
    expect(own).toHaveLength(2)
    expect(ownBlockers).toEqual([[], []])
    expect(Math.abs(own[0]?.[0] ?? 0)).toBeCloseTo(Math.cos((37 * Math.PI) / 180), 9)
  })

  test('overlap that the file accepts blocks nothing; the same overlap unaccepted blocks every way', () => {
    const peg = { shape: 'cylinder', radius: '0.3 m', from: ['0 m', '0 m', '0 m'], to: ['0 m', '0 m', '2 m'] }
    const document = (overlapAccepted: unknown[]) => ({
      schemaVersion: 1,
      about: { title: 'Peg' },
      settings: SETTINGS,
      materials: { steel: { density: '7850 kg/m3' } },
      parts: {
        peg: { name: 'Peg', material: 'steel', solids: [peg], overlapAccepted },
        plate: boxAt([0, 0, 0.5], [4, 4, 0.1]),
      },
    })
    expect(of(document([{ with: 'plate', depth: '1 m', why: 'the bore is not drawn' }])).pairs).toEqual([])
    expect(of(document([])).pairs[0]?.blocked).toHaveLength(26)
  })
})

const of = (document: unknown, memory: Memory = freshMemory()): Blocking => {
  const model = modelOf(document, memory)
  return blockingOf(model, mass(model, memory), memory)
}

const LIMITS = { tolerance: 0.02, reach: 0, resolution: 0.02 }

describe('laws of blocking', () => {
  const real = fc.double({ min: -1, max: 1, noNaN: true, noDefaultInfinity: true })
  const place = fc.tuple(
    fc.integer({ min: -3, max: 3 }),
    fc.integer({ min: -3, max: 3 }),
    fc.integer({ min: -3, max: 3 }),
  )
  const size = fc.constantFrom(0.5, 1, 1.7)
  const shape = fc.oneof(
    fc.tuple(place, size, size, size).map(([p, a, b, c]): Body => block(p, [a, b, c])),
    fc.tuple(place, size).map(([p, r]): Body => ({ kind: 'ball', centre: p, radius: r })),
    fc
      .tuple(place, size)
      .map(([p, r]): Body => ({ kind: 'frustum', from: p, to: [p[0] + 1, p[1], p[2]], radii: [r, r / 2] })),
    fc.tuple(size, fc.integer({ min: -3, max: 3 })).map(([r, x]): Body => ring(1 + r, 2 + r, x, x + 1)),
  )
  const shapes = fc.array(shape, { minLength: 2, maxLength: 5 })
  const direction = fc
    .tuple(real, real, real)
    .filter((v) => Math.hypot(...v) > 0.2)
    .map((v): Vec3 => scale(v, 1 / Math.hypot(...v)))
  const arcs = (parts: readonly PartCells[], d: Vec3): string[] =>
    [...blockingGraph(parts, d, 0.02)].flatMap(([id, by]) => [...by].map((b) => `${id}<${b}`)).sort()

  test('to turn the whole scene, and the direction with it, changes nothing', () => {
    let counted = 0
    fc.assert(
      fc.property(shapes, direction, real, real, (bodies, d, a, b) => {
        const pose: Pose = { turn: multiply(rotationAbout('x', 3 * a), rotationAbout('z', 3 * b)), shift: [5, -2, 1] }
        const still = bodies.map((body, i) => part(`p${i}`, [body]))
        const turned = bodies.map((body, i) => part(`p${i}`, [body], pose))
        const found = arcs(still, d)
        counted += found.length
        expect(arcs(turned, apply(pose.turn, d))).toEqual(found)
      }),
      { numRuns: 60, seed: 7 },
    )
    expect(counted).toBeGreaterThan(30)
  })

  test('one part more never frees another, and who blocks whom turns round with the direction', () => {
    fc.assert(
      fc.property(shapes, direction, (bodies, d) => {
        const parts = bodies.map((body, i) => part(`p${i}`, [body]))
        const all = arcs(parts, d)
        for (const arc of arcs(parts.slice(1), d)) expect(all).toContain(arc)
        expect(arcs(parts, scale(d, -1))).toEqual(all.map((arc) => arc.split('<').reverse().join('<')).sort())
      }),
      { numRuns: 60, seed: 7 },
    )
  })

  test('whatever way a part leaves by it comes back by: a strip-down of unchanged parts reversed is a build-up', () => {
    let free = 0
    fc.assert(
      fc.property(shapes, direction, (bodies, d) => {
        const parts = bodies.map((body, i) => part(`p${i}`, [body]))
        const [a, ...others] = parts as [PartCells, ...PartCells[]]
        const by = scale(d, 30)
        const own = a.solids.map(({ cell }) => cell)
        for (const b of others) {
          const other = b.solids.map(({ cell }) => cell)
          const out = encounter(own, other, straightMotion(AT_REST, by), LIMITS).verdict
          const back = encounter(own, other, straightMotion({ ...AT_REST, shift: by }, scale(by, -1)), LIMITS).verdict
          if (out === 'clear') free++
          expect(back).toBe(out)
        }
      }),
      { numRuns: 60, seed: 7 },
    )
    expect(free).toBeGreaterThan(50)
  })

  test('the sample and a direction asked for by itself say the same', () => {
    fc.assert(
      fc.property(shapes, fc.nat(25), (bodies, k) => {
        const found = among(bodies.map((body, i) => part(`p${i}`, [body])))
        const { blockers } = found.along(found.directions[k] as Vec3)
        for (const { parts, blocked, open } of found.pairs)
          expect(blockers.get(parts[0])?.has(parts[1])).toBe([...blocked, ...open].includes(k))
      }),
      { numRuns: 30, seed: 7 },
    )
  })
})

test('an edited part is looked at again against the others, and no other pair is', () => {
  const lattice = (moved: string) => ({
    schemaVersion: 1,
    about: { title: 'Lattice' },
    settings: SETTINGS,
    materials: { steel: { density: '7850 kg/m3' } },
    parts: Object.fromEntries(
      Array.from({ length: 27 }, (_, i) => [
        `p${i}`,
        boxAt([1.1 * (i % 3), 1.1 * (Math.floor(i / 3) % 3), 1.1 * Math.floor(i / 9)], [1, 1, 1], {
          ...(i === 13
            ? { solids: [{ shape: 'box', centre: ['1.1 m', '1.1 m', '1.1 m'], size: ['1 m', '1 m', moved] }] }
            : {}),
        }),
      ]),
    ),
  })
  const memory = freshMemory()
  const before = modelOf(lattice('1 m'), memory)
  blockingOf(before, mass(before, memory), memory)
  const cold = memory.computed['strip-pair'] as number
  const after = { ...before, project: before.project }
  blockingOf(after, mass(after, memory), memory)
  expect(memory.computed['strip-pair']).toBe(cold)
  const edited = modelOf(lattice('0.9 m'), memory)
  const again = blockingOf(edited, mass(edited, memory), memory)
  const more = (memory.computed['strip-pair'] as number) - cold
  expect(more).toBeGreaterThan(5)
  expect(more).toBeLessThanOrEqual(26)
  expect(again.pairs).toEqual(of(lattice('0.9 m')).pairs)
})
