import fc from 'fast-check'
import { expect, test } from 'vitest'
import { simplexOfLibrary } from './minimiser.fixture.ts'
import { forcesAt, type PivotGeometry, pivotAngles, pivotCorners, pivotStretches, pivotTurn } from './pivot.ts'
import { outcome } from './small.fixture.ts'
import { turned } from './turning.ts'

const DEGREE = Math.PI / 180
const QUARTER = Math.PI / 2
const real = (min: number, max: number) => fc.double({ min, max, noNaN: true })

/** Hand calculation: heel (0, 0), centre of gravity (3, 1.2), lug (6, −0.5) m along and across, 1800 kN; upright at 90°. */
const heel: PivotGeometry = { cog: [-1.2, 3], lug: [0.5, 6], weight: 1.8e6 }
const fromFlat = (degrees: number): number => QUARTER - degrees * DEGREE

test('a piece turned about its heel: half on the hook while flat, over centre at 68.20°', () => {
  expect(forcesAt(heel, fromFlat(0)).hook / 1e3).toBeCloseTo(900, 6)
  expect(forcesAt(heel, fromFlat(30)).hook / 1e3).toBeCloseTo(660.38, 2)
  expect(forcesAt(heel, fromFlat(60)).up / 1e3).toBeCloseTo(1558.41, 2)
  expect(90 - (pivotAngles(heel, QUARTER, 0).overCentre[0] as number) / DEGREE).toBeCloseTo(68.199, 3)
})

test('beyond the over-centre angle it is held back, not pushed', () => {
  const stretches = pivotStretches(heel, QUARTER, 0)
  expect(stretches.map((s) => s.holding)).toEqual(['held', 'over centre'])
  const { holdBack, hook, up } = pivotTurn(heel, QUARTER, 0, 0)
  expect(holdBack.angle).toBeCloseTo(0, 9)
  expect(holdBack.pull / 1e3).toBeCloseTo((1800 * 1.2) / Math.hypot(6, 0.5), 6)
  expect(hook.hook / 1e3).toBeCloseTo(900, 6)
  expect(up.up / 1e3).toBeCloseTo(1800, 6)
})

test('a general minimiser finds the same pull where the energy is lowest', () => {
  fc.assert(
    fc.property(real(0.5, 4), real(-1, 1.5), real(4, 7), real(-1, 1), real(5, 60), (u, v, along, across, angle) => {
      const g: PivotGeometry = { cog: [-v, u], lug: [-across, along], weight: 1e6 }
      const at = fromFlat(angle)
      const plan = forcesAt(g, at)
      const [lug, k, rise] = [turned(g.lug, at), 1e7, 30]
      fc.pre(plan.hook > 1e5 && plan.up > 0 && lug[0] > 1)
      const head = [lug[0], lug[1] + rise] as const
      const stretch = (turn: number): number => {
        const p = turned(g.lug, at + turn)
        return Math.max(0, Math.hypot(head[0] - p[0], head[1] - p[1]) - (rise - plan.hook / k))
      }
      const energy = ([t]: number[]): number =>
        (g.weight * turned(g.cog, at + (t as number))[1] + (k * stretch(t as number) ** 2) / 2) / g.weight
      let x = [0.01]
      for (let i = 0; i < 4; i++)
        x = simplexOfLibrary()(energy, x, { maxIterations: 400, minErrorDelta: 1e-16, minTolerance: 1e-14 }).x
      expect((stretch(x[0] as number) * k) / plan.hook).toBeCloseTo(1, 3)
    }),
    { numRuns: 20, seed: 5 },
  )
})

test('forces and moments close whatever the lean of the line', () => {
  fc.assert(
    fc.property(real(-80, 80), real(-0.1, 0.1), (angle, lean) => {
      const { hook, up, across } = forcesAt(heel, angle * DEGREE, lean)
      const [c, l] = [turned(heel.cog, angle * DEGREE), turned(heel.lug, angle * DEGREE)]
      fc.pre(Math.abs(l[0] * Math.cos(lean) - l[1] * Math.sin(lean)) > 0.3)
      const moment = hook * (l[0] * Math.cos(lean) - l[1] * Math.sin(lean)) - heel.weight * c[0]
      expect(Math.abs(moment)).toBeLessThan(1e-3)
      expect(Math.abs(up + hook * Math.cos(lean) - heel.weight)).toBeLessThan(1e-3)
      expect(Math.abs(across + hook * Math.sin(lean))).toBeLessThan(1e-3)
    }),
  )
})

test('no angle between two critical ones asks more of hook or pivot than the ends of its stretch', () => {
  fc.assert(
    fc.property(real(0.5, 4), real(-1, 1.5), real(4, 7), real(-1, 1), (u, v, along, across) => {
      const g: PivotGeometry = { cog: [-v, u], lug: [-across, along], weight: 1e6 }
      // where both stand over the pivot at nearly one angle the quotient is all rounding
      fc.pre(Math.abs(v) > 0.01 && Math.abs(across * u - along * v) > 0.1)
      const turn = pivotTurn(g, QUARTER, 0, 0.02)
      for (const { from, to, holding } of turn.stretches) {
        if (holding !== 'held') continue
        const between = Array.from({ length: 61 }, (_, k) => forcesAt(g, from + ((to - from) * k) / 60))
        expect(Math.max(...between.map((f) => f.hook))).toBeLessThanOrEqual(turn.hook.hook + 1e-6 * g.weight)
        expect(Math.max(...between.map((f) => f.up))).toBeLessThanOrEqual(turn.up.up + 1e-6 * g.weight)
      }
    }),
    { numRuns: 60 },
  )
})

test('a mirrored piece has mirrored forces, and each corner of the box its own over-centre angle', () => {
  const mirrored: PivotGeometry = { ...heel, cog: [1.2, 3], lug: [-0.5, 6] }
  expect(forcesAt(mirrored, -0.7, -0.02).hook).toBeCloseTo(forcesAt(heel, 0.7, 0.02).hook, 3)
  const corners = pivotCorners(heel, { from: QUARTER, to: 0, lean: 0 }, { shift: 0.1, lower: 1.5e6 })
  expect(corners).toHaveLength(8)
  expect(new Set(corners.map((c) => c.worked.stretches[0]?.to.toFixed(6))).size).toBe(4)
})

test('a block tipped about its edge bears on the whole of it, and its hook carries its share', () => {
  const tipped = outcome('turn', (d) => {
    delete d.lifts.turn.tail
    d.lifts.turn.rigging.legs = ['b', 'c'].map((to) => ({ item: 'sling', to }))
    d.settings.outOfPlumb = '0 deg'
    d.settings.cogShift = '0 m'
    d.lifts.turn.turn = {
      from: '0 deg',
      to: '45 deg',
      speed: '2 deg/min',
      pivot: { at: ['1.5 m', '0 m', '-1 m'], edge: '2 m', friction: 0.3 },
    }
  })
  // 20 t and 5 % of allowance; at 0° 1.5 of 2.7 m on the hook, at 45° 0.5 of 0.7 m
  const weight = 21e3 * 9.80665
  expect(tipped.pivot?.up.value as number).toBeCloseTo(weight * (1 - 1.5 / 2.7), 0)
  expect(tipped.pivot?.line.value as number).toBeCloseTo((weight * (1 - 1.5 / 2.7)) / 2, 0)
  // stage by stage hook and pivot carry the weight between them
  expect(tipped.pivot?.stages.map(({ angle }) => Math.round(angle / DEGREE))).toEqual([0, 15, 30, 45])
  for (const { hook, up } of tipped.pivot?.stages ?? [])
    expect((hook.value as number) + (up.value as number)).toBeCloseTo(weight, 3)
  const share = tipped.checks.find((c) => c.kind === 'lift.turn.share')
  expect(share?.assumptions[0]).toContain('45.0°')
})

test('a corner below the pivot would strike the bay, by as much as it swings down, unless a stand is as high', () => {
  // the lower front corner stands 0.3 m before the pivot and 0.5 m under it: lowest when it has come plumb under it
  const [reach, plumb] = [Math.hypot(0.3, 0.5), Math.atan(0.3 / 0.5)]
  const standing = (height?: string) =>
    outcome('turn', (d) => {
      delete d.lifts.turn.tail
      d.lifts.turn.rigging.legs = ['b', 'c'].map((to) => ({ item: 'sling', to }))
      const pivot = { at: ['1.2 m', '0 m', '-0.5 m'], edge: '2 m', friction: 0.3, ...(height && { height }) }
      d.lifts.turn.turn = { from: '0 deg', to: '45 deg', speed: '2 deg/min', pivot }
    }).checks.find((c) => c.kind === 'lift.turn.pivot-ground')
  expect(standing()?.verdict).toBe('fail')
  expect(standing()?.demand.value).toBeCloseTo(reach, 9)
  expect(standing()?.assumptions).toEqual([`Deepest at ${(plumb / DEGREE).toFixed(1)}°: block.`])
  expect(standing('0.58 m')?.verdict).toBe('fail')
  expect(standing('0.7 m')?.verdict).toBe('pass')
})
