import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Point2 } from '../numeric/plan.ts'
import type { Check } from '../working/check.ts'
import { between } from './beside.ts'
import { type Document, outcome } from './small.fixture.ts'

const out = (change: (d: Document) => void) => outcome('out', change).checks
const of = (checks: readonly Check[], kind: string): Check => checks.find((c) => c.kind === kind) as Check

const wire = (x: number, more: Record<string, unknown> = {}) => ({
  what: 'overhead line',
  line: [
    [`${x} m`, '-50 m'],
    [`${x} m`, '50 m'],
  ],
  height: '11 m',
  voltage: '20 kV',
  ...more,
})

describe('a live line beside the way', () => {
  // The block is 3 m across: its outline reaches x 1.5 m, and the line stands at 6.5 m.
  test('is 5 m from the outline of a block that passes it at 6.5 m, and asks for 10 ft at 20 kV', () => {
    const line = of(
      out((d) => {
        d.utilities = { wire: wire(6.5) }
      }),
      'lift.path.live-line',
    )
    expect(line.capacity.value).toBeCloseTo(5, 6)
    expect(line.demand.value).toBeCloseTo(3.048, 9)
  })

  test('keeps the greater of its owner’s distance and that of its voltage, and is open without a voltage', () => {
    const asked = (more: Record<string, unknown>) =>
      of(
        out((d) => {
          d.utilities = { wire: wire(6.5, more) }
        }),
        'lift.path.live-line',
      ).demand.value
    expect(asked({ clearance: '6 m' })).toBe(6)
    expect(asked({ clearance: '2 m' })).toBeCloseTo(3.048, 9)
    expect(asked({ clearance: '6 m', voltage: undefined })).toBeUndefined()
  })

  test('that has a voltage and no height is one all the same; one of which nobody says where it runs is open', () => {
    const told = (more: Record<string, unknown>) =>
      of(
        out((d) => {
          d.utilities = { wire: wire(6.5, more) }
        }),
        'lift.path.live-line',
      )
    expect(told({ height: undefined }).capacity.value).toBeCloseTo(5, 6)
    expect(told({ line: undefined }).verdict).toBe('open')
    expect(told({ line: undefined }).reasons.join()).toContain('/utilities/wire/line')
  })

  // From a standing at (0, 8) to the bay at (0, 20): a line between the two is crossed by the boom, not by the piece.
  test('is crossed by the boom of a crane that slews over it', () => {
    const crossed = of(
      out((d) => {
        Object.assign(d.systems.tower, {
          kind: 'crawler crane',
          standings: [['0 m', '40 m']],
          slewSpeed: '30 deg/min',
          luffSpeed: '4 m/min',
        })
        d.lifts.out.standing = 0
        d.utilities = {
          wire: {
            ...wire(0),
            line: [
              ['-50 m', '30 m'],
              ['50 m', '30 m'],
            ],
          },
        }
      }),
      'lift.path.live-line',
    )
    expect(crossed.capacity.value).toBe(0)
    expect(crossed.verdict).toBe('fail')
  })
})

const point = fc.tuple(fc.integer({ min: -20, max: 20 }), fc.integer({ min: -20, max: 20 }))

test('the distance between two lines is the same from either, and no greater for a line that goes on', () => {
  fc.assert(
    fc.property(
      fc.array(point, { minLength: 2, maxLength: 4 }),
      fc.array(point, { minLength: 2, maxLength: 4 }),
      point,
      (a, b, more) => {
        const [one, other] = [a as Point2[], b as Point2[]]
        expect(between(one, other)).toBeCloseTo(between(other, one), 9)
        expect(between(one, [...other, more as Point2])).toBeLessThanOrEqual(between(one, other) + 1e-9)
      },
    ),
  )
})

describe('the legs of its own tower', () => {
  const gap = (legs: Record<string, unknown>) =>
    of(
      out((d) => {
        d.systems.tower.legWidth = '0.6 m'
        d.systems.tower.legs = legs
      }),
      'lift.path.tower-leg',
    ).capacity.value as number
  const leg = (x: number, offset = 0) => ({ x: `${x} m`, offset: `${offset} m` })

  // half of 10 m between the legs, less 1.5 m of the block and 0.3 m of the leg
  test('stand 3.2 m from a block of 3 m between legs of 0.6 m at ±5 m', () => {
    expect(gap({ left: leg(-5), right: leg(5) })).toBeCloseTo(3.2, 6)
  })

  test('one leg more never gives more room', () => {
    fc.assert(
      fc.property(fc.integer({ min: -9, max: 9 }), fc.integer({ min: -9, max: 9 }), (x, y) => {
        expect(gap({ left: leg(-5), more: leg(x, y) })).toBeLessThanOrEqual(gap({ left: leg(-5) }) + 1e-9)
      }),
      { numRuns: 12 },
    )
  })
})
