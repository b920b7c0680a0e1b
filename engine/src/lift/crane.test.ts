import fc from 'fast-check'
import { expect, test } from 'vitest'
import { given, stated } from '../working/answer.ts'
import { craneOffset, floatForce, worstFloatSlew } from './crane.formulas.ts'
import { largestFloat, SLEWS, slewCourse, worstSlewOf } from './crane.ts'
import { modelOf, smallProject } from './small.fixture.ts'

const CORNERS = [
  [1, 1],
  [1, -1],
  [-1, -1],
  [-1, 1],
] as const
const all = (W: number, e: number, theta: number, L: number, B: number): number[] =>
  CORNERS.map(([s_x, s_y]) => floatForce.value({ W, e, theta, L, B, s_x, s_y }))

const onFloats = (own: string | undefined) => {
  const { project } = modelOf(
    smallProject((d) => {
      d.systems.crane = {
        name: 'Crane',
        kind: 'mobile crane',
        hooks: { main: { name: 'hook', rated: '40 t' } },
        selfMass: '60 t',
        outriggers: { base: ['8 m', '8 m'], mat: ['2 m', '2 m'] },
        ...(own === undefined ? {} : { ownOffset: own }),
      }
    }),
  )
  const system = project.systems.crane as NonNullable<(typeof project.systems)['crane']>
  return { id: 'crane', system, load: stated('kg', 10_000, 'load'), radius: stated('m', 12, 'radius') }
}

test('floats carry the whole weight, balance it about both axes, and never pull, at any slew and reach inside the base', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 4, noNaN: true }),
      fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }),
      fc.double({ min: 7, max: 12, noNaN: true }),
      (e, theta, B) => {
        const [L, W] = [9, 1e6]
        fc.pre(Math.abs(e * Math.cos(theta)) <= L / 2 && Math.abs(e * Math.sin(theta)) <= B / 2)
        const feet = all(W, e, theta, L, B)
        const moment = (k: 0 | 1, arm: number) =>
          feet.reduce((sum, R, i) => sum + (R * (CORNERS[i]?.[k] ?? 0) * arm) / 2, 0)
        expect(feet.reduce((a, b) => a + b, 0)).toBeCloseTo(W, 3)
        expect(moment(0, L)).toBeCloseTo(W * e * Math.cos(theta), 3)
        expect(moment(1, B)).toBeCloseTo(W * e * Math.sin(theta), 3)
        expect(Math.min(...feet)).toBeGreaterThan(-1e-6)
      },
    ),
  )
})

test('the force on a float is continuous as the far float lifts', () => {
  const at = (e: number) => floatForce.value({ W: 1e6, e, theta: Math.PI / 4, L: 8, B: 8, s_x: 1, s_y: 1 })
  const lifts = (0.5 * 8) / Math.SQRT2
  expect(at(lifts + 1e-9)).toBeCloseTo(at(lifts - 1e-9), 2)
})

test('a counterweight behind the slewing centre takes the load ahead of it in, and pulls back the empty crane', () => {
  const offset = (a: number, m_load: number) => craneOffset.value({ m: 80_000, a, m_load, r: 6 })
  expect(offset(0, 40_000)).toBeCloseTo(2, 9)
  expect(offset(-3, 40_000)).toBeCloseTo(0, 9)
  expect(offset(-3, 0)).toBeCloseTo(-3, 9)
})

test('over a whole slew of a square base every float takes the largest force once, over its corner', () => {
  const course = slewCourse(onFloats('-1 m'))
  expect(course).toHaveLength(SLEWS.length)
  const most = [0, 1, 2, 3].map((i) => Math.max(...course.map((s) => s.feet[i] as number)))
  for (const one of most) expect(one).toBeCloseTo(most[0] as number, 6)
  const worst = course.find((s) => s.feet[0] === most[0])
  expect(worst?.slew).toBeCloseTo(Math.PI / 4, 9)
  expect(largestFloat(onFloats('-1 m'), onFloats('-1 m').system.outriggers as never).value).toBeCloseTo(
    most[0] as number,
    3,
  )
})

test('a crane that would tip has no course, and its largest float is unknown', () => {
  const tips = { ...onFloats('0 m'), load: stated('kg', 60_000, 'load') }
  expect(slewCourse(tips)).toEqual([])
  expect(largestFloat(tips, tips.system.outriggers as never).value).toBeUndefined()
})

test('with the radius unknown nothing is said of the floats', () => {
  const unknown = { ...onFloats('-1 m'), radius: given('m', '/lifts/x/radius', undefined) }
  expect(slewCourse(unknown)).toEqual([])
  expect(largestFloat(unknown, unknown.system.outriggers as never).value).toBeUndefined()
})

test('the worst slew of the floats, in closed form, is the worst of a fine search all round', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -2.9, max: 2.9, noNaN: true }),
      fc.double({ min: 6, max: 10, noNaN: true }),
      fc.double({ min: 6, max: 10, noNaN: true }),
      (e, L, B) => {
        const theta = worstFloatSlew.value({ L, B })
        const side = e >= 0 ? 1 : -1
        const exact = floatForce.value({ W: 1, e, theta, L, B, s_x: side, s_y: side })
        const slews = Array.from({ length: 720 }, (_, i) => (i * Math.PI) / 360)
        const searched = Math.max(...slews.flatMap((slew) => all(1, e, slew, L, B)))
        expect(exact).toBeGreaterThanOrEqual(searched - 1e-12)
        expect(exact).toBeLessThan(searched + 1e-4)
      },
    ),
  )
})

test('golden section finds the top of a curve between the five-degree steps', () => {
  expect(worstSlewOf((theta) => Math.cos(theta - 0.7))).toBeCloseTo(0.7, 5)
  expect(worstSlewOf((theta) => theta)).toBeCloseTo(Math.PI / 2, 9)
})
