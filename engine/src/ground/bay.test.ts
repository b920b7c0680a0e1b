import { expect, test } from 'vitest'
import type { Patch } from '../working/patch.ts'
import { checkOf, groundOf } from './ground.fixture.ts'

const pressure = (patch: Patch = []) => checkOf('ground.bay.pressure', patch).demand.value as number
const block = (solids: unknown): Patch => [{ op: 'replace', path: '/parts/block/solids', value: solids }]
const G = 9.80665

test('a block on half of its outline presses with its weight over half its area (2 × 2 × 1 m of steel and 5 %, by hand)', () => {
  expect(pressure()).toBeCloseTo((G * 7850 * 4 * 1.05) / (0.5 * 4), 3)
})

test('a heavier piece presses more on its bay, and more packing less', () => {
  const now = pressure()
  expect(pressure([{ op: 'replace', path: '/materials/steel/density', value: '8000 kg/m3' }])).toBeGreaterThan(now)
  expect(pressure([{ op: 'replace', path: '/bays/B/bearingShare', value: 0.8 }])).toBeLessThan(now)
})

test('a centre of gravity off the middle presses more on that side; beyond the kern the pressure is open', () => {
  const with_ = (offset: string) =>
    block([
      { shape: 'box', centre: ['0 m', '0 m', '0 m'], size: ['2 m', '2 m', '1 m'], fill: 0.5 },
      { shape: 'box', centre: [offset, '0 m', '0 m'], size: ['0.5 m', '2 m', '1 m'], fill: 0.8 },
    ])
  expect(pressure(with_('0.4 m'))).toBeGreaterThan(pressure(with_('0 m')))
  const beyond = checkOf(
    'ground.bay.pressure',
    block([
      { shape: 'box', centre: ['0 m', '0 m', '0 m'], size: ['2 m', '2 m', '1 m'], fill: 0.02 },
      { shape: 'box', centre: ['0.9 m', '0 m', '0 m'], size: ['0.2 m', '2 m', '1 m'] },
    ]),
  )
  expect(beyond.verdict).toBe('open')
  expect(beyond.reasons.join()).toMatch(/no more than reach of the kern/)
})

// Cross-check against the generator of the invented demo: 565.95 t, disc 12.36 m, 55 % packed: 84.1 kPa.
test('a head face down presses on its disc: 84.1 kPa at 565.95 t on 55 % of a disc of 12.36 m', () => {
  const disc: Patch = [
    ...block([{ shape: 'cylinder', radius: '6.18 m', from: ['-0.3 m', '0 m', '0 m'], to: ['0.3 m', '0 m', '0 m'] }]),
    { op: 'add', path: '/parts/block/mass', value: { value: '565.95 t', basis: 'calculated', uncertainty: 0.01 } },
    { op: 'replace', path: '/settings/allowance', value: { calculated: 0 } },
    { op: 'replace', path: '/bays/B/bearingShare', value: 0.55 },
    {
      op: 'add',
      path: '/lifts/over',
      value: { piece: 'block', kind: 'turn', system: 'tower', hook: 'main', turn: { from: '0 deg', to: '90 deg' } },
    },
  ]
  expect(pressure(disc) / 1000).toBeCloseTo(84.1, 1)
})

test('the same disc upright stands on its edge: its outline is a strip, and it presses far more', () => {
  const upright: Patch = [
    ...block([{ shape: 'cylinder', radius: '2 m', from: ['-0.3 m', '0 m', '0 m'], to: ['0.3 m', '0 m', '0 m'] }]),
  ]
  const flat: Patch = [
    ...upright,
    {
      op: 'add',
      path: '/lifts/over',
      value: { piece: 'block', kind: 'turn', system: 'tower', hook: 'main', turn: { from: '0 deg', to: '90 deg' } },
    },
  ]
  // outlines 0.6 m × 4 m against a disc of 2 m radius
  expect(pressure(upright) / pressure(flat)).toBeCloseTo((Math.PI * 4) / 2.4, 2)
})

test('what is heavier on the way back is what the bay must bear', () => {
  const stiffened: Patch = [
    {
      op: 'add',
      path: '/changes',
      value: {
        ribs: {
          kind: 'stiffen',
          what: 'ribs',
          status: 'approved',
          parts: ['block'],
          added: { mass: '3 t', basis: 'calculated', uncertainty: 0.05, at: ['0 m', '0 m', '0 m'] },
        },
      },
    },
  ]
  expect(pressure(stiffened) - pressure()).toBeCloseTo((G * 3000 * 1.05) / 2, 0)
})

test('every pile of a bay takes its share of what stands on it', () => {
  expect(checkOf('ground.bay.piles').demand.value).toBeCloseTo((G * 7850 * 4 * 1.05) / 4, 3)
})

test('the step that sets a piece down names its bay, and what stood on the cradle before it', () => {
  const [step] = groundOf().steps
  expect(step?.landing?.bay).toBe('B')
  expect(step?.cradle?.parts).toContain('block')
})
