import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { model } from '../model/index.ts'
import { freshMemory } from '../working/memory.ts'
import { arrangementOf, placesOfBolts, tighteningOrder } from './bolt-places.ts'
import { gradeOf, threadOf } from './bolt-sizes.ts'
import { boltingOf } from './bolting.ts'
import { bolted, lidOnTub, stripOf } from './strip.fixture.ts'

const ring = (n: number) => Array.from({ length: n }, (_, i) => [Math.cos(i), Math.sin(i)] as const)

const boltsOf = (more: Record<string, unknown>) => {
  const bolts = { thread: 'M36', grade: '10.9', count: 12, timeOff: '6 min', timeOn: '9 min', ...more }
  const made = model(lidOnTub({ joints: { J1: bolted('lid', 'tub', { bolts }) } }), freshMemory())
  const joint = made.model?.project.joints.J1
  if (joint?.bolts === undefined) throw new Error(JSON.stringify(made.problems))
  return { joint, bolts: joint.bolts }
}

describe('threads and grades', () => {
  test('coarse and fine metric threads, and inch threads, are read from how the trade writes them', () => {
    expect(threadOf('M64')).toMatchObject({ d: 0.064, pitch: 0.006, coarse: true })
    expect(threadOf('M64x4')).toMatchObject({ d: 0.064, pitch: 0.004, coarse: false })
    expect(threadOf('1-1/4 in')?.d).toBeCloseTo(0.03175, 9)
    for (const nonsense of ['', 'M', 'M65', 'Mx4', 'M10x12', '0 in', 'G 1/2'])
      expect(threadOf(nonsense)).toBeUndefined()
  })

  test('a class that is used once only says so', () => {
    expect(gradeOf('12.9', 0.036)?.onceOnly).toBeDefined()
    expect(gradeOf('10.9', 0.036)?.onceOnly).toBeUndefined()
    expect(gradeOf('11.11', 0.036)).toBeUndefined()
  })
})

describe('order of tightening', () => {
  // Opposite bolts in turn, each pair as far as can be from those already tight: common practice, no source.
  test('on a whole ring opposite bolts follow one another', () => {
    const order = tighteningOrder({ kind: 'circle', at: ring(8) }).flat()
    for (let i = 0; i < 8; i += 2) expect(Math.abs((order[i] as number) - (order[i + 1] as number))).toBe(4)
    expect(order.slice(0, 4)).toEqual([0, 4, 2, 6])
  })

  test('every bolt is taken once in a pass, whatever the arrangement and the tools', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 80 }),
        fc.integer({ min: 1, max: 8 }),
        fc.constantFrom('circle', 'rows', 'arc'),
        (n, tools, kind) => {
          const strokes = tighteningOrder({ kind, at: ring(n) }, tools)
          expect(strokes.flat().sort((a, b) => a - b)).toEqual(Array.from({ length: n }, (_, i) => i))
          expect(Math.max(...strokes.map((s) => s.length))).toBeLessThanOrEqual(tools)
        },
      ),
    )
  })

  test('places lie on their circle, in their rows, or nowhere', () => {
    const { joint } = boltsOf({ circle: '2 m' })
    expect(placesOfBolts(joint).at.every(([x, y]) => Math.abs(Math.hypot(x, y) - 1) < 1e-12)).toBe(true)
    const rows = placesOfBolts(boltsOf({ rows: { number: 2, pitch: '100 mm', gauge: '80 mm' } }).joint)
    // two rows of six, 80 mm apart: Σ y² about the long axis 12 · 0.04²
    expect(arrangementOf(rows).second).toBeCloseTo(12 * 0.04 ** 2, 9)
    expect(placesOfBolts(boltsOf({}).joint).kind).toBe('none')
  })
})

describe('preload', () => {
  test('a tensioner scatters less than a dry torque wrench, and needs no friction', () => {
    const pulled = boltingOf(
      'J1',
      boltsOf({ method: 'hydraulic tension', tensioner: { area: '52 cm2', transfer: 1.12 } }).bolts,
    )
    const dry = boltingOf('J1', boltsOf({ method: 'torque', lubrication: 'none', nutFactor: 0.2 }).bolts)
    expect(pulled.least.value).toBeGreaterThan(dry.least.value as number)
    expect(pulled.pressure?.value).toBeCloseTo(((pulled.target.value as number) * 1.12) / 52e-4, 3)
    expect(pulled.torque).toBeUndefined()
    expect(dry.torque?.value).toBeCloseTo(0.2 * (dry.target.value as number) * 0.036, 6)
  })

  test('more preload aimed at never lowers any figure of it', () => {
    fc.assert(
      fc.property(fc.integer({ min: 100, max: 500 }), fc.integer({ min: 1, max: 200 }), (kN, more) => {
        const at = (preload: number) =>
          boltingOf(
            'J1',
            boltsOf({ preload: `${preload} kN`, method: 'torque', lubrication: 'oil', friction: 0.12 }).bolts,
          )
        const [low, high] = [at(kN), at(kN + more)]
        for (const of of ['least', 'most', 'torque'] as const)
          expect(high[of]?.value).toBeGreaterThan(low[of]?.value as number)
      }),
      { numRuns: 20 },
    )
  })

  test('what is not given leaves the figures open at its place', () => {
    const { least, torque } = boltingOf('J1', boltsOf({ method: 'torque', nutFactor: 0.16 }).bolts)
    expect(least.value).toBeUndefined()
    expect(torque?.value).toBeDefined()
  })
})

test('the list of the return names each joint that the step opened, with passes up to the whole preload', () => {
  const bolts = {
    thread: 'M36',
    grade: '12.9',
    count: 8,
    circle: '2 m',
    method: 'torque',
    lubrication: 'paste',
    nutFactor: 0.14,
    reused: true,
    timeOff: '6 min',
    timeOn: '9 min',
  }
  const { boltUp } = stripOf(lidOnTub({ joints: { J1: bolted('lid', 'tub', { bolts }) } }))
  const [joint] = boltUp[0]?.joints ?? []
  expect(boltUp[0]?.step).toBe('S1')
  expect(joint?.joint).toBe('J1')
  expect(joint?.bolting.passes.map(({ share }) => share)).toEqual([0.3, 0.6, 1])
  expect(joint?.bolting.passes.at(-1)?.tension.value).toBe(joint?.bolting.target.value)
  expect(joint?.strokes.flat()).toHaveLength(8)
  expect(joint?.refused).toContain('12.9')
  expect(joint?.cautions.some((c) => c.includes('hydraulic tensioning'))).toBe(true)
})
