import { describe, expect, test } from 'vitest'
import { model } from '../../model/index.ts'
import type { Check } from '../../working/check.ts'
import { freshMemory } from '../../working/memory.ts'
import { showQuantity, type UnitSystem } from '../../working/quantity.ts'
import {
  BOLTS,
  changeOf,
  examined,
  measured,
  opened,
  recordsOf,
  returnOf,
  sampled,
  weldOf,
} from './inspections.fixture.ts'

const verdict = (sections: Readonly<Record<string, unknown>>, id: string): string | undefined =>
  recordsOf(sections).get(id)?.verdict

describe('an opened part', () => {
  const reading = (value: number, on: string) => ({ value, by: 'inspector', on })
  const twice = (first: number, later: number) =>
    measured(undefined, { readings: { a: reading(first, '2033-03-01'), b: reading(later, '2033-03-10') } })
  const reworked = { decided: { as: 'reworked', by: 'machine engineer', on: '2033-03-05' } }

  test('that was reworked is held against what was measured after that alone', () => {
    expect(verdict(opened(twice(0.9, 0.2), reworked), 'inspection.within/B1/depth/most')).toBe('pass')
    expect(verdict(opened(measured(0.9), reworked), 'inspection.within/B1/depth/most')).toBe('open')
  })

  test('reused as found outside its limit is not in order, whatever was decided', () => {
    const as = { decided: { as: 'reused', by: 'machine engineer', on: '2033-03-02' } }
    expect(verdict(opened(measured(0.9), as), 'inspection.within/B1/depth/most')).toBe('fail')
    expect(verdict(opened(measured(0.9), as), 'inspection.decided/B1')).toBe('fail')
  })
})

describe('a weld', () => {
  test('examined by eye at once and by ultrasound after its wait is in order; by ultrasound an hour too early it is not', () => {
    expect(verdict(weldOf({ finished: '2033-03-01T10:00' }), 'weld.wait/W1')).toBe('pass')
    expect(verdict(weldOf({ finished: '2033-03-01T11:00' }), 'weld.wait/W1')).toBe('fail')
  })

  test('finished on a day without a time is taken to have been finished at its end', () => {
    expect(verdict(weldOf({ finished: '2033-03-01' }), 'weld.wait/W1')).toBe('fail')
  })

  test('rejected, repaired and examined again stands as it was examined last', () => {
    const tests = {
      first: examined({ result: 'rejected', on: '2033-03-02T10:00' }),
      again: examined({ result: 'accepted', on: '2033-03-06T10:00' }),
    }
    expect(verdict(weldOf({ tests }), 'weld.accepted/W1/again')).toBe('pass')
    expect(recordsOf(weldOf({ tests })).has('weld.accepted/W1/first')).toBe(false)
  })

  test('examined over less than was asked for, or by the welder himself, is not accepted', () => {
    expect(verdict(weldOf({ tests: { ut: examined({ done: '50 %' }) } }), 'weld.accepted/W1/ut')).toBe('fail')
    expect(verdict(weldOf({ tests: { ut: examined({ by: 'W12' }) } }), 'weld.accepted/W1/ut')).toBe('fail')
  })

  test('looked at before its last pass, by whatever method, is to be examined again; on the same day it is not sure', () => {
    const seen = (on: string) => weldOf({ tests: { vt: examined({ method: 'VT', on }), ut: examined({}) } })
    expect(verdict(seen('2033-03-01T09:00'), 'weld.accepted/W1/vt')).toBe('fail')
    expect(verdict(seen('2033-02-28'), 'weld.accepted/W1/vt')).toBe('fail')
    expect(verdict(seen('2033-03-01'), 'weld.accepted/W1/vt')).toBe('pass')
  })

  test('too hot between passes fails, and is not asked for where the procedure has no such limit', () => {
    const interpass = (highest: number) => weldOf({ interpass: { atMost: 250, highest } })
    expect(verdict(interpass(251), 'weld.preheat/W1/most')).toBe('fail')
    expect(verdict(interpass(250), 'weld.preheat/W1/most')).not.toBe('fail')
    expect(verdict(weldOf(), 'weld.preheat/W1/most')).toBeUndefined()
  })
})

// M36, 10.9: stress area 817 mm² (ISO 898-1), yield 940 MPa of that grade; 0.9 of their product is 691 kN, less where the thread is turned under load
test('a bolt measured above 0.9 of yield fails, one below what the joint needs as well; without the friction the upper end is open', () => {
  const turned = { bolts: { ...(BOLTS.bolts as object), friction: 0.12 } }
  const at = (joint: object, preload: string, of: string) =>
    returnOf({ ...joint }, sampled(preload)).get(`bolting.sampled/R1/${of}`)?.verdict
  expect(at(turned, '500 kN', 'most')).toBe('pass')
  expect(at(turned, '692 kN', 'most')).toBe('fail')
  expect(at(BOLTS, '692 kN', 'most')).toBe('open')
  expect([at(turned, '200 kN', 'least'), at(turned, '199 kN', 'least')]).toEqual(['pass', 'fail'])
})

test('heat is recorded in either scale, or as a number in degrees Celsius: 248 °F is 120 °C', () => {
  const verdict = (lowest: string | number) =>
    recordsOf(weldOf({ preheat: { atLeast: '248 °F', lowest } })).get('weld.preheat/W1/least')?.verdict
  expect(['120 °C', 120, '248 °F', '119.9 °C', '247.9 °F', 119.9].map(verdict)).toEqual([
    'pass',
    'pass',
    'pass',
    'fail',
    'fail',
    'fail',
  ])
  for (const preheat of [{ atLeast: 'warm' }, { atLeast: '120 kg' }, { atLeast: '120' }, { atLeast: '-300 °C' }])
    expect(
      model({ schemaVersion: 1, about: { title: 'Small' }, ...weldOf({ preheat }) }, freshMemory()).problems,
    ).toMatchObject([{ pointer: '/welds/W1/preheat/atLeast', expected: 'a temperature with its unit' }])
})

test('heat is told with its unit in the scale of the reader: 120 °C is 248 °F, 125 °C is 257 °F', () => {
  const { demand, capacity } = recordsOf(weldOf()).get('weld.preheat/W1/least') as Check
  const shown = (units: UnitSystem) => [demand, capacity].map((a) => showQuantity(a.value, a.unit, units))
  expect(shown('SI')).toEqual(['120.0\u00a0°C', '125.0\u00a0°C'])
  expect(shown('US')).toEqual(['248.0\u00a0°F', '257.0\u00a0°F'])
})

describe('a change that is welded', () => {
  const ID = 'weld.of-change/C1'
  const checkOf = (sections: Readonly<Record<string, unknown>>) => recordsOf(sections).get(ID)

  test('with no weld on record is open while it is approved, naming what to record, and fails once it is done', () => {
    expect(checkOf(changeOf())?.verdict).toBe('open')
    expect(checkOf(changeOf())?.assumptions.join()).toContain('a weld that names C1 as its change')
    expect(checkOf(changeOf({ status: 'done' }))).toMatchObject({
      verdict: 'fail',
      reasons: ['done, and no weld on record names it'],
    })
    expect(checkOf({ ...changeOf(), ...weldOf({ change: 'C1' }) })?.verdict).toBe('pass')
  })

  test('is open until every weld of it is examined, one of another change is nothing to it', () => {
    const unseen = weldOf({ change: 'C1', tests: { ut: examined({ result: undefined }) } })
    expect(checkOf({ ...changeOf(), ...unseen })?.verdict).toBe('open')
    expect(checkOf({ ...changeOf(), ...weldOf({ change: 'C1', tests: {} }) })?.verdict).toBe('open')
    expect(checkOf({ ...changeOf(), ...weldOf() })?.verdict).toBe('open')
  })

  test('asks for nothing where nobody says that it is welded, or where it is not to be done', () => {
    for (const more of [{ joining: undefined }, { joining: 'bolted' }, { status: 'proposed' }, { status: 'rejected' }])
      expect(checkOf(changeOf(more))).toBeUndefined()
  })
})
