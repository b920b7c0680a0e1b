import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Vec3 } from '../numeric/vector.ts'
import type { Check } from '../working/check.ts'
import { tStub } from './bolt.formulas.ts'
import { boltForces } from './boltGroup.ts'
import { type Document, outcome } from './small.fixture.ts'
import { frame } from './structure.fixture.ts'

const newtons = fc.double({ min: -1e6, max: 1e6, noNaN: true })
const force: fc.Arbitrary<Vec3> = fc.tuple(newtons, newtons, newtons)
const circle = (n: number, r: number): Vec3[] =>
  Array.from({ length: n }, (_, i) => {
    const a = (2 * Math.PI * i) / n
    return [r * Math.cos(a), r * Math.sin(a), 0]
  })

test('the forces of the bolts are together the force and the moment on the group', () => {
  fc.assert(
    fc.property(force, force, fc.integer({ min: 3, max: 40 }), (F, M, n) => {
      const { residual } = boltForces(circle(n, 0.8), [0, 0, 1], F, M)
      expect(residual.force).toBeLessThan(1e-6)
      expect(residual.moment).toBeLessThan(1e-6)
    }),
  )
})

test('on a circle of n bolts a moment pulls the outermost by 4 M/(n D)', () => {
  const { tension } = boltForces(circle(12, 0.8), [0, 0, 1], [0, 0, 0], [0, -1000, 0])
  expect(Math.max(...tension)).toBeCloseTo((4 * 1000) / (12 * 1.6), 9)
})

test('a group does not care how its axis lies: the same joint on its side has the same forces', () => {
  const flat = boltForces(circle(8, 0.5), [0, 0, 1], [100, 0, 30], [0, 50, 20])
  const turned = circle(8, 0.5).map(([x, y]): Vec3 => [0, x, y])
  const side = boltForces(turned, [1, 0, 0], [30, 100, 0], [20, 0, 50])
  expect(Math.max(...side.tension)).toBeCloseTo(Math.max(...flat.tension), 9)
  expect(Math.max(...side.shear)).toBeCloseTo(Math.max(...flat.shear), 9)
})

test('a thinner flange never lets a bolt bear more, and a bolt never bears more than by itself', () => {
  const at = (t: number) => tStub.value({ F_t: 141e3, l: 0.1, t, m: 0.04, e: 0.04, f_y: 355e6, gamma_M0: 1 })
  for (const t of [0.005, 0.01, 0.02, 0.03, 0.06]) {
    expect(at(t)).toBeLessThanOrEqual(at(t * 1.1))
    expect(at(t)).toBeLessThanOrEqual(141e3)
  }
})

const of = (kind: string, change: (d: Document) => void): Check =>
  outcome('out', change).checks.find((c) => c.kind === kind) as Check

test('a heavier piece never lowers the use of the bolts of its frame', () => {
  const used = (tonnes: number): number =>
    of('lift.bolts.use', (d) => {
      frame()(d)
      d.parts.block.mass.value = `${tonnes} t`
    }).utilisation as number
  const uses = [10, 15, 22, 30].map(used)
  expect([...uses].sort((a, b) => a - b)).toEqual(uses)
  expect(uses[0]).toBeLessThan(uses[3] as number)
})

test('a frame whose bolts stand off the load bears a moment: its worst bolt pulls harder', () => {
  const middle = of('lift.bolts.use', frame())
  const off = of(
    'lift.bolts.use',
    frame(({ bolts }) => {
      bolts.at = ['0.6 m', '0 m', '0.9 m']
    }),
  )
  expect(off.utilisation).toBeGreaterThan(middle.utilisation as number)
})

test('bolts follow the rules of the project, and a thread that means none stays open', () => {
  const by = (rules: string | undefined) =>
    of('lift.bolts.use', (d) => {
      frame()(d)
      d.settings.riggingRules = rules
    })
  expect(JSON.stringify(by('US').demand)).not.toContain('eurocode')
  expect(JSON.stringify(by('European').demand)).not.toContain('aisc')
  expect(by(undefined).verdict).toBe('open')
  const odd = of(
    'lift.bolts.use',
    frame(({ bolts }) => {
      bolts.thread = 'stud'
    }),
  )
  expect(odd.verdict).toBe('open')
  expect(odd.reasons.join()).toContain('/gear/FR/bolts/thread')
})
