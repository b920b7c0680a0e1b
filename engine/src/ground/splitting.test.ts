import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Operation } from '../working/patch.ts'
import { saddlePressure, stripNormal, stripPush } from './cradle.formulas.ts'
import { checkOf, groundOf } from './ground.fixture.ts'

const replace = (path: string, value: unknown): Operation => ({ op: 'replace', path, value })
const remove = (path: string): Operation => ({ op: 'remove', path })
const splitting = (...patch: Operation[]) => checkOf('ground.cradle.splitting', patch)
const bursting = (...patch: Operation[]) => checkOf('ground.jack.bursting', patch)

describe('a cradle that its load pushes apart', () => {
  test('is pushed by half the load times tan β on either side: by hand, with the load factor', () => {
    const heaviest = Math.max(...groundOf().steps.map(({ cradle }) => cradle?.along.value as number))
    const beta = (50 * Math.PI) / 180
    expect(splitting().demand.value).toBeCloseTo(((1.35 * heaviest) / 2) * Math.tan(beta), 3)
  })

  test('is pushed apart less by a fitted bed than by two strips at its ends: the check is a bound', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 1.5, noNaN: true }), (alpha) => {
        const p = saddlePressure.value({ w: 1, R: 1, alpha })
        // horizontal part of p₀ cos θ over one side, by the middle of 2000 strips
        const step = alpha / 2000
        const fitted = Array.from({ length: 2000 }, (_, i) => (i + 0.5) * step).reduce(
          (sum, t) => sum + p * Math.cos(t) * Math.sin(t) * step,
          0,
        )
        const N = stripNormal.value({ w: 1, beta: alpha, mu: 0 })
        expect(fitted).toBeLessThan(stripPush.value({ N, beta: alpha, mu: 0 }))
      }),
    )
  })

  test('is held by its bars: layers · π d²/4 a spacing, at f_yk/γ', () => {
    expect(splitting().capacity.value).toBeCloseTo((((2 * Math.PI * 0.016 ** 2) / 4 / 0.2) * 500e6) / 1.15, 3)
    const wider = splitting(replace('/cradle/tied/spacing', '400 mm'))
    expect(wider.capacity.value).toBeCloseTo((splitting().capacity.value as number) / 2, 3)
  })

  test.each([
    '/cradle/tied/bar',
    '/cradle/tied/spacing',
    '/cradle/tied/yield',
    '/cradle/tied/designed',
    '/ground/factors/reinforcement',
  ])('is open without %s: concrete in tension is never counted', (path) => {
    expect([splitting(remove(path)).verdict, splitting(remove(path)).reasons]).toEqual([
      'open',
      [`${path} is not given`],
    ])
  })

  test('said to be reinforced is open all the same while its bars are not given', () => {
    expect(splitting(remove('/cradle/tied'), { op: 'add', path: '/cradle/reinforced', value: true }).verdict).toBe(
      'open',
    )
  })
})

describe('the concrete under the plate of a jack', () => {
  test('is burst by a quarter of the heaviest jack, whatever the plate', () => {
    const jack = checkOf('ground.jack.load').demand.value as number
    expect(bursting().demand.value).toBeCloseTo((1.35 * jack) / 4, 3)
    expect(bursting(replace('/cradle/jacking/pad', ['0.2 m', '0.2 m'])).demand.value).toBe(bursting().demand.value)
  })

  test('is open while nobody has designed its bars', () => {
    const check = bursting(remove('/cradle/jacking/links/designed'))
    expect([check.verdict, check.reasons]).toEqual(['open', ['/cradle/jacking/links/designed is not given']])
  })
})
