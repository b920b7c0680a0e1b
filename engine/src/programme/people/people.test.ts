import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { model } from '../../model/index.ts'
import { freshMemory } from '../../working/memory.ts'
import { readQuantity } from '../../working/quantity.ts'
import { airOf, checksOfPeople, counted, gasRead, line } from './people.fixture.ts'
import { airNeeded } from './people.formulas.ts'

type Section = Parameters<typeof checksOfPeople>[0]

const of = (people: Section, id: string, more = {}) => checksOfPeople(people, more).get(`programme.people.${id}`)
const verdictOf = (people: Section, id: string, more = {}) => of(people, id, more)?.verdict

describe('head count', () => {
  const board = {
    a: line('fitter'),
    b: line('welder', { out: '2032-10-21T09:30' }),
    c: line('electrician', { in: '2032-10-21T10:30' }),
  }

  test('who has come up, and who has not yet gone down, is not below ground', () => {
    expect(verdictOf({ board, counts: { k: counted(1) } }, 'head-count/board/lines')).toBe('pass')
    expect(verdictOf({ board, counts: { k: counted(1, { at: '2032-10-21T11:00' }) } }, 'head-count/board/lines')).toBe(
      'fail',
    )
  })

  test('one too many is as wrong as one too few, and the names are said', () => {
    for (const below of [0, 2]) {
      const found = of({ board, counts: { k: counted(below) } }, 'head-count/board/lines')
      expect(found?.verdict).toBe('fail')
      expect(found?.reasons.join()).toContain('fitter')
    }
  })

  test('local time and time with its offset are the same instant', () => {
    const zone = { programme: { start: '2032-10-01', timeZone: 'Europe/Berlin', calendars: {} } }
    const abroad = { a: line('fitter', { in: '2032-10-21T05:00Z', out: '2032-10-21T08:00Z' }) }
    const at = (time: string) => ({ board: abroad, counts: { k: counted(1, { at: time }) } })
    // in October Berlin is two hours ahead: up at 10:00
    expect(verdictOf(at('2032-10-21T09:59'), 'head-count/board/lines', zone)).toBe('pass')
    expect(verdictOf(at('2032-10-21T10:00'), 'head-count/board/lines', zone)).toBe('fail')
  })

  test('nobody is below ground twice, or comes up before going down', () => {
    const twice = { a: line('fitter'), b: line('fitter', { in: '2032-10-21T08:00' }) }
    expect(of({ board: twice }, 'head-count/board/lines')?.reasons.join()).toContain('twice')
    const early = { a: line('fitter', { out: '2032-10-21T06:00' }) }
    expect(of({ board: early }, 'head-count/board/lines')?.reasons.join()).toContain('before going down')
  })
})

describe('gas', () => {
  // 29 CFR 1926.800(j)(1)(ix)(B), as read: 20 percent or more of the lower explosive limit.
  test.each([
    ['19.9 %', 'near'],
    ['20 %', 'fail'],
    ['35 %', 'fail'],
    ['10 %', 'pass'],
  ])('flammable gas at %s of its lower explosive limit: %s', (value, verdict) => {
    expect(verdictOf(gasRead({ flammable: value }), 'gas/heading/flammable-most')).toBe(verdict)
  })

  // 29 CFR 1926.800(j)(1), from memory: 19.5 % and 22 %.
  test.each([
    ['19.4 %', 'fail', 'pass'],
    ['19.5 %', 'pass', 'pass'],
    ['20.9 %', 'pass', 'pass'],
    ['22.1 %', 'pass', 'fail'],
  ])('oxygen at %s: least %s, most %s', (value, least, most) => {
    expect(verdictOf(gasRead({ oxygen: value }), 'gas/heading/oxygen-least')).toBe(least)
    expect(verdictOf(gasRead({ oxygen: value }), 'gas/heading/oxygen-most')).toBe(most)
  })

  test('the last reading stands, in whatever order they are written', () => {
    const reading = (value: string, at: string) => ({ gas: 'flammable', value, at, by: 'gas tester' })
    const readings = { late: reading('2 %', '2032-10-21T12:00'), early: reading('30 %', '2032-10-21T10:00') }
    expect(verdictOf({ gas: { heading: { where: 'Heading', readings } } }, 'gas/heading/flammable-most')).toBe('pass')
  })

  test('a lower limit of the project rules, with its place in the working', () => {
    const found = of(
      { ...gasRead({ 'carbon monoxide': '25 ppm' }), rules: { gas: { 'carbon monoxide': { atMost: '20 ppm' } } } },
      'gas/heading/carbon-monoxide-most',
    )
    expect(found?.verdict).toBe('fail')
    expect(JSON.stringify(found?.demand)).toContain('/belowGround/rules/gas/carbon monoxide/atMost')
  })

  test('a gas that nobody read leaves the place open', () => {
    expect(verdictOf(gasRead({ oxygen: '20.8 %' }), 'gas-tested/heading')).toBe('open')
  })
})

describe('air', () => {
  test('each person and each horsepower beside asks for no less air (random)', () => {
    const [q, d] = [readQuantity('200 ft3/min', 'm3/s') as number, readQuantity('100 ft3/min/hp', 'm3/J') as number]
    const count = fc.nat(200)
    fc.assert(
      fc.property(count, count, count, count, (n, p, moreN, moreP) => {
        const of = (people: number, hp: number) => airNeeded.value({ n: people, q, P: hp * 745.7, d })
        expect(of(n + moreN, p + moreP)).toBeGreaterThanOrEqual(of(n, p))
        expect(of(n + 1, p) - of(n, p)).toBeCloseTo(q, 9)
      }),
    )
  })

  test('a diesel whose power is not known leaves the air open', () => {
    const air = { shaft: { what: 'Shaft', supplied: '20 m3/s', people: 3, diesels: { loader: { what: 'Loader' } } } }
    expect(of({ air }, 'air/shaft')?.reasons).toEqual(['/belowGround/air/shaft/diesels/loader/power is not given'])
  })

  test('the same in SI and in US customary', () => {
    const si = airOf(`${37400 * 0.3048 ** 3} m3/min`)
    expect(of(si, 'air/shaft')?.utilisation).toBeCloseTo(1, 9)
  })
})

test('with nothing entered one open check stands for each kind, and no more', () => {
  const all = [...checksOfPeople({}).values()]
  expect(all.every(({ verdict }) => verdict === 'open')).toBe(true)
  expect(all.map(({ kind }) => kind)).toEqual([...new Set(all.map(({ kind }) => kind))])
})

test.each([
  [{ board: { a: { who: 'fitter', in: '2032-10-21' } } }, '/belowGround/board/a/in', 'a day with its time'],
  [{ counts: { k: counted(1.5) } }, '/belowGround/counts/k/below', 'a number of people'],
  [{ counts: { k: counted(1, { before: 'A99' }) } }, '/belowGround/counts/k/before', 'an activity'],
  [{ air: { s: { what: 'Shaft', supplied: '14' } } }, '/belowGround/air/s/supplied', 'a flow with its unit'],
])('%j is refused at its place', (belowGround, pointer, expected) => {
  const { problems } = model({ schemaVersion: 1, about: { title: 'Small' }, belowGround }, freshMemory())
  expect(problems.find((p) => p.pointer === pointer)?.expected).toContain(expected)
})
