import fc from 'fast-check'
import { expect, test } from 'vitest'
import { craneOffset, floatForce, trackPressure } from './crane.formulas.ts'
import { allowableAt } from './crane.ts'
import { checkOf, siteModel } from './ground.fixture.ts'
import { distanceToLine } from './line.ts'

const angle = fc.double({ min: 0, max: Math.PI / 2, noNaN: true })

test('a crane balanced over its middle presses evenly on both tracks, whichever way it slews', () => {
  fc.assert(
    fc.property(angle, (theta) => {
      expect(trackPressure.value({ W: 1e6, e: 0, theta, L: 8, b: 1, gauge: 6 })).toBeCloseTo(1e6 / 16, 6)
    }),
  )
})

test('on its nearer track alone a crane presses twice the mean, over the side', () => {
  const W = 1e6
  expect(trackPressure.value({ W, e: 3, theta: Math.PI / 2, L: 8, b: 1, gauge: 6 })).toBeCloseTo(W / 8, 6)
  expect(trackPressure.broken({ W, e: 3.1, theta: Math.PI / 2, L: 8, b: 1, gauge: 6 })).not.toEqual([])
})

test('a load off centre along the track lifts no pressure below zero: at L/3 off, contact is half and pressure four times', () => {
  const even = trackPressure.value({ W: 1e6, e: 0, theta: 0, L: 9, b: 1, gauge: 6 })
  expect(trackPressure.value({ W: 1e6, e: 3, theta: 0, L: 9, b: 1, gauge: 6 }) / even).toBeCloseTo(4, 6)
})

test('the force on a float is continuous as the far float lifts, and never more than the whole crane', () => {
  const at = (e: number) => floatForce.value({ W: 1e6, e, theta: Math.PI / 4, L: 8, B: 8 })
  const lifts = (0.5 * 8) / Math.SQRT2
  expect(at(lifts + 1e-9)).toBeCloseTo(at(lifts - 1e-9), 2)
  fc.assert(
    fc.property(fc.double({ min: 0, max: 4, noNaN: true }), angle, (e, theta) => {
      const inputs = { W: 1, e, theta, L: 8, B: 8 }
      if (floatForce.broken(inputs).length === 0) expect(floatForce.value(inputs)).toBeLessThanOrEqual(1 + 1e-12)
      expect(floatForce.value(inputs)).toBeGreaterThanOrEqual(0.25)
    }),
  )
})

test('a counterweight behind the slewing centre takes the load ahead of it in', () => {
  const offset = (a: number) => craneOffset.value({ m: 80_000, a, m_load: 40_000, r: 6 })
  expect(offset(0)).toBeCloseTo(2, 9)
  expect(offset(-3)).toBeCloseTo(0, 9)
})

test('a pad governs where the crane stands on it, the platform elsewhere, and off both the limit is open', () => {
  const { ground } = siteModel().project
  expect(allowableAt(ground, [16, 0]).value).toBe(150_000)
  expect(allowableAt(ground, [16, 20]).value).toBe(60_000)
  expect(allowableAt(ground, [16, -20]).value).toBeUndefined()
})

test('without its own centre of gravity a crane on tracks is open; one on outriggers takes the first guess and says so', () => {
  expect(checkOf('ground.crane.pressure', [{ op: 'remove', path: '/systems/crane/ownOffset' }]).verdict).toBe('open')
  const guessed = checkOf('ground.crane.pressure', [
    { op: 'remove', path: '/systems/crane/ownOffset' },
    { op: 'remove', path: '/systems/crane/tracks' },
    { op: 'add', path: '/systems/crane/outriggers', value: { base: ['6 m', '6 m'], mat: ['3 m', '3 m'] } },
  ])
  // by hand: 0.65 × g × (80 t + 1 t block + 32.97 t with 5 % on 31.4 t) over 9 m²
  expect(guessed.demand.value).toBeCloseTo((0.65 * 9.80665 * (80_000 + 1000 + 32_970)) / 9, 0)
  expect(guessed.assumptions.join(' ')).toMatch(/First guess/)
})

test('a longer radius or a heavier piece presses more', () => {
  const use = (path: string, value: unknown) =>
    checkOf('ground.crane.pressure', [{ op: 'replace', path, value }]).demand.value as number
  const now = checkOf('ground.crane.pressure').demand.value as number
  expect(use('/lifts/aside/radius', '6.5 m')).toBeGreaterThan(now)
  expect(use('/materials/steel/density', '8200 kg/m3')).toBeGreaterThan(now)
})

test('plan distance to a line is to its nearest piece, or to its end', () => {
  const corner: [number, number][] = [
    [0, 0],
    [10, 0],
    [10, 10],
  ]
  expect(distanceToLine([5, 3], corner)).toBe(3)
  expect(distanceToLine([-3, -4], corner)).toBe(5)
  expect(distanceToLine([12, 8], corner)).toBe(2)
})

test('a line that is dead on lift days needs no distance', () => {
  const near = { op: 'replace', path: '/lifts/aside/radius', value: '20 m' } as const
  expect(checkOf('ground.line.clearance', [near]).verdict).toBe('fail')
  const dead = { op: 'add', path: '/utilities/wire/deadOnLifts', value: 'grid owner, permit each lift day' } as const
  expect(checkOf('ground.line.clearance', [near, dead]).verdict).toBe('pass')
})
