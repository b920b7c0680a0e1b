import { expect, test } from 'vitest'
import type { Check } from '../working/check.ts'
import type { Change } from './fixture.ts'
import { outcome } from './small.fixture.ts'
import { spreader } from './structure.fixture.ts'

const checkOf = (id: string, change: Change): Check => outcome('out', change).checks.find((c) => c.id === id) as Check

const VALID = 'lift.system.test-valid/out'
const tower =
  (more: object): Change =>
  (d) =>
    Object.assign(d.systems.tower, more)

// the lift is on 2031-11-20
test.each([
  ['of the month before', { tested: { factor: 1.25, on: '2031-10-01' } }, 'pass'],
  ['that nobody dated', { tested: { factor: 1.25 } }, 'open'],
  ['that is still to come', { tested: { factor: 1.25, on: '2031-11-21' } }, 'fail'],
  ['that has run out', { tested: { factor: 1.25, on: '2030-11-01', until: '2031-11-19' } }, 'fail'],
  ['from before the tower was raised again', { changed: { on: '2031-11-10', what: 'raised by 2 m' } }, 'fail'],
  ['from before a change that comes after the lift', { changed: { on: '2031-11-21', what: 'new ropes' } }, 'pass'],
])('a load test %s', (_, more, verdict) => {
  expect(checkOf(VALID, tower(more)).verdict).toBe(verdict)
})

test('a load test that a change overtook names what was done, and when', () => {
  const { reasons } = checkOf(VALID, tower({ changed: { on: '2031-11-10', what: 'raised by 2 m' } }))
  expect(reasons.join()).toContain('tested on 2031-10-01, before what was done on 2031-11-10: raised by 2 m')
})

const PROOF = 'lift.gear.proof/out/main/SP'

test('a spreader made for the job is tested to half as much again under European rules, to a quarter under US ones', () => {
  const proved =
    (factor: number, rules: string): Change =>
    (d) => {
      spreader((gear) => {
        gear.proof.factor = factor
      })(d)
      d.settings.riggingRules = rules
    }
  const verdict = (factor: number, rules: string): string => checkOf(PROOF, proved(factor, rules)).verdict
  expect(verdict(1.5, 'European')).toBe('pass')
  expect(verdict(1.49, 'European')).toBe('fail')
  expect(verdict(1.25, 'US')).toBe('pass')
  expect(verdict(1.24, 'US')).toBe('fail')
})

test('a spreader needs its certificate as a sling does, and its proof test before its first use', () => {
  const certificate = (change: (gear: Record<string, unknown>) => void): Check =>
    checkOf('lift.stock.certificate/out/main', spreader(change))
  expect(certificate(() => {}).verdict).toBe('pass')
  const without = certificate((gear) => {
    delete gear.certificateUntil
  })
  expect(without.verdict).toBe('open')
  expect(without.reasons.join()).toContain('/gear/SP/certificateUntil')
  const late = certificate((gear) => {
    gear.proof = { factor: 1.5, on: '2031-12-01' }
  })
  expect(late.verdict).toBe('fail')
})

test('a weld of a lug that is tested after the lift is not tested in it', () => {
  const tested = (on: string): string =>
    checkOf('lift.lug.tested/out/main/lugs', (d) => {
      d.pieces.block.points.a.lug.weld.ndt.on = on
    }).verdict
  expect(tested('2031-11-20')).toBe('pass')
  expect(tested('2031-11-21')).toBe('fail')
})
