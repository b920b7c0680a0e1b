import { expect, test } from 'vitest'
import { boxAt, lidOnTub, looseOnTub, POSE, SETTINGS, stripOf } from './strip.fixture.ts'

const held = (document: Parameters<typeof stripOf>[0]) =>
  stripOf(document).checks.filter(({ kind }) => kind === 'strip.step.held' || kind === 'strip.step.steady')

test('a block that lies loose on what stays is held with friction, and bears as much sideways as the friction', () => {
  const [rests, steady] = held(looseOnTub({ ...SETTINGS, contactFriction: '0.3' }))
  expect(rests?.verdict).toBe('pass')
  // Eight edges inside the cone of friction reach at least cos(22.5°) of it between them.
  expect(steady?.capacity.value).toBeGreaterThanOrEqual(0.3 * Math.cos(Math.PI / 8) - 1e-6)
  expect(steady?.capacity.value).toBeLessThanOrEqual(0.3 + 1e-6)
})

test('without a stated friction the answer is open where it hangs on it, and says how much would do', () => {
  const leaning = { ...looseOnTub(SETTINGS), machine: { pose: { ...POSE, pitch: '3 deg' } } }
  const [rests] = held(leaning)
  expect(rests?.verdict).toBe('open')
  // tan 3° = 0.0524, rounded up.
  expect(rests?.assumptions.join(' ')).toContain('a friction of 0.06')
})

test('a block over the edge tips, with the least force that a support has to give', () => {
  const parts = {
    lid: boxAt([0, 0, 0.5]),
    tub: boxAt([0, 0, -0.5], [4, 1, 1]),
    block: boxAt([2.2, 0, 0.25], [1, 0.5, 0.5]),
  }
  const [rests] = held(lidOnTub({ parts, settings: { ...SETTINGS, contactFriction: '0.3' } }))
  expect(rests?.verdict).toBe('fail')
  // 0.25 m³ of steel, 19.2 kN, its centre 0.2 m beyond the edge, a support 0.7 m beyond it: 5.5 kN.
  expect(rests?.reasons.join(' ')).toMatch(/"block" tips: .* at least 6 kN at "block"/)
})

test('an arm that hangs on nothing drops whatever the friction', () => {
  const parts = { lid: boxAt([0, 0, 0.5]), tub: boxAt([0, 0, -0.5]), arm: boxAt([1, 0, 0.5]) }
  const [rests] = held(lidOnTub({ parts, settings: { ...SETTINGS, contactFriction: '0.9' } }))
  expect(rests?.verdict).toBe('fail')
  expect(rests?.reasons.join(' ')).toContain('"arm" drops')
})

test('a block left on the base slab stands there', () => {
  const parts = { lid: boxAt([0, 0, 0.5]), tub: boxAt([0, 0, -0.5]), block: boxAt([4, 0, -4.5]) }
  const [rests] = held(lidOnTub({ parts, settings: { ...SETTINGS, contactFriction: '0.3' } }))
  expect(rests?.verdict).toBe('pass')
})
