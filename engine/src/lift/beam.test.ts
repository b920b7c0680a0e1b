import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Check } from '../working/check.ts'
import { bucklingMoment, compressionResistance, criticalMoment } from './beam.formulas.ts'
import { allowableCompression, nominalMoment, nominalMomentOfBox } from './beamUs.formulas.ts'
import { simpleBeam } from './simpleBeam.ts'
import { type Document, outcome } from './small.fixture.ts'
import { slungSpreader, spreader } from './structure.fixture.ts'

const STEEL = { E: 210e9, G: 81e9 }
/** An I-section of 300 mm, in SI. */
const I300 = { I_z: 6.04e-6, I_t: 2.02e-7, I_w: 1.26e-7 }

test('resistance to lateral-torsional buckling falls with the unbraced length, by either family of rules', () => {
  const european = (L: number): number =>
    bucklingMoment.value({
      W: 6.28e-4,
      f_y: 275e6,
      alpha: 0.34,
      gamma_M1: 1,
      M_cr: criticalMoment.value({ ...STEEL, ...I300, L, C_1: 1, C_2: 0, z_g: 0 }),
    })
  const us = { E: 200e9, F_y: 275e6, Z_x: 6.28e-4, S_x: 5.57e-4, I_y: 6.04e-6, J: 2.02e-7, A: 5.38e-3, C_b: 1 }
  const american = (L_b: number): number => nominalMoment.value({ ...us, C_w: 1.26e-7, h_o: 0.289, L_b })
  const box = (L_b: number): number => nominalMomentOfBox.value({ ...us, J: 1e-6, L_b })
  fc.assert(
    fc.property(
      fc.double({ min: 0.5, max: 20, noNaN: true }),
      fc.double({ min: 1.01, max: 3, noNaN: true }),
      (L, k) => {
        for (const resistance of [european, american, box])
          expect(resistance(L * k)).toBeLessThanOrEqual(resistance(L) * (1 + 1e-9))
        expect(european(L * k)).toBeLessThan(european(L) + 1e-6)
      },
    ),
  )
})

test('a load on the top flange makes a beam turn over sooner, one hung below it later', () => {
  const at = (z_g: number) => criticalMoment.value({ ...STEEL, ...I300, L: 6, C_1: 1.365, C_2: 0.553, z_g })
  expect(at(0.15)).toBeLessThan(at(0))
  expect(at(-0.15)).toBeGreaterThan(at(0))
})

test('resistance to compression falls with the length, by either family of rules', () => {
  const european = (L: number) =>
    compressionResistance.value({ A: 0.0306, I: 8.4e-4, L, E: 210e9, f_y: 345e6, alpha: 0.49, gamma_M1: 1 })
  const american = (L: number) => allowableCompression.value({ s: L / 0.16568, F_y: 345e6, E: 200e9, N_d: 3 })
  for (const L of [2, 4, 8, 16, 32]) {
    expect(european(2 * L)).toBeLessThan(european(L))
    expect(american(2 * L)).toBeLessThan(american(L))
  }
})

test('a symmetric load puts half on each support, and what one gains the other loses', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 1, max: 40, noNaN: true }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.double({ min: 1, max: 1e7, noNaN: true }),
      fc.double({ min: 0, max: 1e5, noNaN: true }),
      (L, share, P, w) => {
        const one = simpleBeam({ L, w, loads: [{ P, x: L * share }] })
        const mirrored = simpleBeam({ L, w, loads: [{ P, x: L * (1 - share) }] })
        const middle = simpleBeam({ L, w, loads: [{ P, x: L / 2 }] })
        expect(one.left).toBeCloseTo(mirrored.right, 3)
        expect(middle.left).toBeCloseTo(middle.right, 3)
        expect(one.left + one.right).toBeCloseTo(P + w * L, 3)
        expect(one.moment).toBeLessThanOrEqual(middle.moment * (1 + 1e-9))
      },
    ),
  )
})

const of = (kind: string, end: string, change: (d: Document) => void): Check =>
  outcome('out', change).checks.find((c) => c.kind === kind && c.id.endsWith(end)) as Check

test('a beam held by its hook bends; the same under slings on its ends is pressed together', () => {
  const held = JSON.stringify(of('lift.beam.use', '/SP', spreader()).demand)
  const slung = JSON.stringify(of('lift.beam.use', '/SP', slungSpreader()).demand)
  expect(held).toContain('lift.beam.end-moment')
  expect(held).not.toContain('lift.beam.spreader-moment')
  expect(slung).toContain('lift.beam.spreader-moment')
})

test('slings above press a spreader with their tension times the sine of their angle', () => {
  const lift = outcome('out', slungSpreader())
  const use = lift.checks.find(({ id }) => id === 'lift.beam.use/out/main/SP')
  type Sum = { terms: { label: string; answer: { value: number } }[] }
  const { N } = ((use as Check).demand as unknown as { inputs: { N: Sum } }).inputs
  const pressed = N.terms.find(({ label }) => label === 'slings above')?.answer.value as number
  const sling = lift.legs.find(({ to }) => to === 'fore')
  const level = (sling?.worst.value as number) * Math.sin(sling?.angle.value as number)
  expect(pressed / level).toBeCloseTo(1, 3)
})

test('a heavier piece never lowers the use of a beam, of its web or of the header', () => {
  const used = (tonnes: number) =>
    outcome('out', (d) => {
      spreader()(d)
      d.parts.block.mass.value = `${tonnes} t`
    })
      .checks.filter((c) => c.kind.startsWith('lift.beam.'))
      .map((c) => c.utilisation as number)
  const uses = [10, 15, 20, 30].map(used)
  expect(uses[0]?.length).toBe(8)
  for (const [i, lighter] of uses.slice(0, -1).entries())
    for (const [j, use] of lighter.entries()) expect(uses[i + 1]?.[j]).toBeGreaterThan(use)
})

test('beams follow the rules of the project and never mix them', () => {
  const by = (rules: string | undefined) =>
    of('lift.beam.use', '/SP', (d) => {
      spreader()(d)
      d.settings.riggingRules = rules
    })
  expect(JSON.stringify(by('US').demand)).not.toContain('eurocode')
  expect(JSON.stringify(by('European').demand)).not.toContain('bth')
  expect(by(undefined).verdict).toBe('open')
})

test('a slender web is outside the classes of the rules: open, with the limit, never a number', () => {
  const slim = of(
    'lift.beam.use',
    '/SP',
    spreader(({ beam }) => {
      beam.section.web = '2 mm'
    }),
  )
  expect(slim.verdict).toBe('open')
  expect(slim.reasons.join()).toContain(
    'height over thickness is 130.000, where it holds only for no more than 100.888',
  )
})

test('the reactions of the header carry its hook, its trolley and itself wherever the hook stands', () => {
  const { headers } = outcome('out')
  const spots = headers[0]?.spots ?? []
  expect(spots.length).toBeGreaterThan(2)
  const totals = spots.map(({ low, high }) => (low.value as number) + (high.value as number))
  for (const total of totals) expect(total / (totals[0] as number)).toBeCloseTo(1, 9)
  const [from, to] = [spots.at(-2), spots.at(-1)]
  expect(from?.low.value).toBeCloseTo(to?.high.value as number, 3)
})

test('legs that stand unevenly about the hook line share the reaction of their rail by their levers', () => {
  const { headers } = outcome('out', (d) => {
    d.systems.tower.legs = {
      A: { x: '-7 m', offset: '-2 m' },
      B: { x: '-7 m', offset: '4 m' },
      C: { x: '7 m', offset: '-3 m' },
      D: { x: '7 m', offset: '3 m' },
    }
  })
  for (const { low, high, legs } of headers[0]?.spots ?? []) {
    const { A = 0, B = 0, C = 0, D = 0 } = legs
    expect(A + B).toBeCloseTo(low.value as number, 3)
    expect(A).toBeCloseTo(2 * B, 3)
    expect(C).toBeCloseTo((high.value as number) / 2, 3)
    expect(D).toBeCloseTo(C, 3)
  }
})
