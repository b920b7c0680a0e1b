import fc from 'fast-check'
import { expect, test } from 'vitest'
import { legReactions } from '../lift/index.ts'
import type { Model } from '../model/index.ts'
import { stated } from '../working/answer.ts'
import type { Patch } from '../working/patch.ts'
import { checkOf, siteModel } from './ground.fixture.ts'

type System = Model['project']['systems'][string]
const towerAfter = (patch: Patch = []) => siteModel(patch).project.systems.tower as System
const at = (x: number) => stated('m', x, 'hook')
const reactions = (system: System, mass: number, x: number) =>
  legReactions('tower', system, stated('kg', mass, 'under the head'), at(x))
const G = 9.80665

test('legs carry everything: their loads sum to the weight, and balance the hook about the middle', () => {
  const system = towerAfter()
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 1e6, noNaN: true }),
      fc.double({ min: -9, max: 9, noNaN: true }),
      (mass, x) => {
        const legs = reactions(system, mass, x)
        const sum = legs.reduce((s, l) => s + (l.vertical.value as number), 0)
        const moment = legs.reduce((s, l) => s + l.x * (l.vertical.value as number), 0)
        expect(sum / (G * (120_000 + mass))).toBeCloseTo(1, 9)
        expect(Math.abs(moment - G * mass * x)).toBeLessThan(1e-6 * sum)
      },
    ),
  )
})

test('moving the hook to the other end mirrors the loads', () => {
  const system = towerAfter()
  const loads = (x: number) => reactions(system, 300_000, x).map((l) => [l.x, l.vertical.value as number] as const)
  for (const [x, load] of loads(3)) {
    expect(loads(-3).find(([other]) => other === -x)?.[1]).toBeCloseTo(load, 6)
  }
})

// Cross-check against the generator of the invented demo: 598 t tower, 627.954 t on the hook, 11.8 t block, rails at ±13.6 m.
test.each([
  [-7.5, 221_237, 397_640],
  [0, 309_438, 309_438],
  [2.95, 344_131, 274_746],
  [7.5, 397_640, 221_237],
])('the large tower with its hook at x %d m: legs ahead %d kg each, legs behind %d kg each', (x, ahead, behind) => {
  const system = towerAfter([
    { op: 'replace', path: '/systems/tower/selfMass', value: '598 t' },
    ...['A', 'B'].map((leg) => ({ op: 'replace', path: `/systems/tower/legs/${leg}/x`, value: '-13.6 m' }) as const),
    ...['C', 'D'].map((leg) => ({ op: 'replace', path: `/systems/tower/legs/${leg}/x`, value: '13.6 m' }) as const),
  ])
  for (const leg of reactions(system, 627_954 + 11_800, x)) {
    expect(Math.abs((leg.vertical.value as number) / G - (leg.x > 0 ? ahead : behind))).toBeLessThan(1)
  }
})

test('a heavier piece, more wind or fewer piles: each raises the use of the piles', () => {
  const use = (path: string, value: unknown) =>
    checkOf('ground.tower.leg', [{ op: 'replace', path, value }]).utilisation as number
  const now = checkOf('ground.tower.leg').utilisation as number
  expect(use('/materials/steel/density', '9000 kg/m3')).toBeGreaterThan(now)
  expect(use('/systems/tower/wind/service', '14 m/s')).toBeGreaterThan(now)
  expect(use('/systems/tower/foundation/pilesUnderLeg', 1)).toBeGreaterThan(now)
})

test('the block below the head enters once: a hook load that names it is not given it again', () => {
  const without = checkOf('ground.tower.leg', [{ op: 'remove', path: '/systems/tower/hooks/main/block' }])
  expect(without.verdict).toBe('open')
  expect(without.reasons).toEqual(['/systems/tower/hooks/main/block is not given'])
})

test('the storm couple grows with the square of the gust (½ ρ v²)', () => {
  const uplift = (gust: string) =>
    checkOf('ground.tower.uplift', [{ op: 'replace', path: '/systems/tower/wind/outOfService', value: gust }]).demand
      .value as number
  expect(uplift('40 m/s') / uplift('20 m/s')).toBeCloseTo(4, 9)
})
