import fc from 'fast-check'
import { expect, test } from 'vitest'
import { missingUnder } from '../working/answer.ts'
import type { Check } from '../working/check.ts'
import { type Document, liftsOf } from './small.fixture.ts'
import { withAnother } from './standing.fixture.ts'

const KIND = 'lift.path.standing'
const checkOf = (lift: string, change: (d: Document) => void): Check | undefined =>
  liftsOf((d) => {
    withAnother(d)
    change(d)
  }).lifts[lift]?.checks.find((c) => c.kind === KIND)

const at = (x: number, y: number) => (d: Document) => {
  d.lifts.first.landing = [`${x} m`, `${y} m`, '0 m']
}

// The block rises at x −4 (the other) and 0, is 3 × 2 × 2 m, travels with its bottom 7 m over the bay and is landed at (0, 20).
test('a piece that is landed beside another has between them what lies between their sides', () => {
  expect(checkOf('out', at(5, 20))?.capacity.value).toBeCloseTo(5 - 3, 9)
  expect(checkOf('out', at(0, 26))?.capacity.value).toBeCloseTo(6 - 2, 9)
})

test('a piece that stands under the way is passed over, not struck: 5 m from its top to the bottom of the block', () => {
  expect(checkOf('out', at(0, 12))?.capacity.value).toBeCloseTo(5, 9)
})

test('nothing stands there for the first piece of an order, and what is landed on another strikes it', () => {
  expect(checkOf('first', () => {})).toBeUndefined()
  const onTop = checkOf('out', at(0.5, 20))
  expect(onTop?.verdict).toBe('fail')
  expect(onTop?.capacity.value).toBeCloseTo(-2, 9)
})

/** A stockpile 2 m square and 3 m high beside where the block is landed. */
const pile = (d: Document): Document =>
  (d.bays.B1.stored = {
    pile: { what: 'stockpile of bearers', centre: ['5 m', '20 m'], size: ['2 m', '2 m'], height: '3 m' },
  })
const alone = (change: (d: Document) => void): Check | undefined =>
  liftsOf((d) => {
    d.lifts.out.landing = ['0 m', '20 m', '0 m']
    pile(d)
    change(d)
  }).lifts.out?.checks.find((c) => c.kind === KIND)

test('a stockpile is kept clear of like a piece: beside it, under the way, or struck', () => {
  expect(alone(() => {})?.capacity.value).toBeCloseTo(5 - 1.5 - 1, 9)
  const under = alone((d) => {
    d.bays.B1.stored.pile.centre = ['0 m', '12 m']
  })
  expect(under?.capacity.value).toBeCloseTo(7 - 3, 9)
  const struck = alone((d) => {
    d.bays.B1.stored.pile.centre = ['0 m', '20 m']
  })
  expect(struck?.verdict).toBe('fail')
  expect(struck?.reasons.join()).toMatch(/strikes stockpile of bearers on bay B1/)
})

test('a gap to a stockpile names each figure that it is measured from by what it is', () => {
  const capacity = alone(() => {})?.capacity as { inputs?: Record<string, { value: number }> } | undefined
  const inputs = capacity?.inputs ?? {}
  const of = (what: string) => inputs[`stockpile of bearers on bay B1, ${what}`]?.value
  expect([of('x'), of('y'), of('size along x'), of('size along y'), of('height')]).toEqual([5, 20, 2, 2, 3])
  expect(Object.keys(inputs).join()).not.toContain('undefined')
})

test('what is cleared away for a lift is not in its way', () => {
  expect(
    alone((d) => {
      d.bays.B1.stored.pile.clearedFor = ['out']
    }),
  ).toBeUndefined()
})

test('beside a stockpile on its own bay a piece needs a place of its own', () => {
  const open = alone((d) => delete d.lifts.out.landing)
  expect(open?.verdict).toBe('open')
  expect(missingUnder((open as Check).capacity)).toEqual(['/lifts/out/landing'])
})

test('where two share a bay and one has no place of its own, it is open and says which place is missing', () => {
  const open = checkOf('out', (d) => delete d.lifts.first.landing)
  expect(open?.verdict).toBe('open')
  expect(missingUnder((open as Check).capacity)).toEqual(['/lifts/first/landing'])
})

test('on another bay a piece without a place stands in the middle', () => {
  const other = checkOf('out', (d) => {
    d.bays.B2 = { ...structuredClone(d.bays.B1), centre: ['9 m', '20 m'] }
    d.lifts.first.bay = 'B2'
    delete d.lifts.first.landing
  })
  expect(other?.capacity.value).toBeCloseTo(9 - 3, 9)
})

test('the gap to a piece farther off along the same line is greater by as much', () => {
  fc.assert(
    fc.property(fc.double({ min: 4, max: 8, noNaN: true }), fc.double({ min: 0.1, max: 3, noNaN: true }), (x, more) => {
      const [near, far] = [checkOf('out', at(x, 20)), checkOf('out', at(x + more, 20))]
      expect((far?.capacity.value as number) - (near?.capacity.value as number)).toBeCloseTo(more, 6)
    }),
    { numRuns: 15 },
  )
})
