import { describe, expect, test } from 'vitest'
import type { ExclusionZone } from '../lift/index.ts'
import type { Bay } from '../model/index.ts'
import { given } from '../working/answer.ts'
import { checkIn, liftsOf, oneStep, programmeFor, programmeOf, stripOf, task, WORK } from './programme.fixture.ts'
import { meets } from './underLifts.ts'

const bay = (x: number, y: number): Bay =>
  ({ centre: [given('m', '', x), given('m', '', y)], size: [given('m', '', 4), given('m', '', 2)] }) as unknown as Bay
const triangle = (tail?: number): ExclusionZone => ({
  fall: [
    [
      [0, 0],
      [10, 0],
      [0, 10],
    ],
  ],
  margin: given('m', '', 1),
  overShaft: false,
  tails:
    tail === undefined
      ? []
      : [{ of: 'crane', centre: [30, 0], standing: given('1', '', 0), radius: given('m', '', tail) }],
})

describe('a fall zone in plan', () => {
  test.each([
    ['over the middle', 3, 3, true],
    ['touched by its slanting side', 6, 5, true],
    ['beside the slanting side, within the box about the zone', 9, 8, false],
    ['clear of it', 20, 0, false],
  ])('%s', (_, x, y, met) => expect(meets(triangle(), bay(x, y))).toBe(met))

  // the bay's near edge is 28 − 22 − … from the centre of the tail: 30 − (20 + 2) = 8 m
  test('the tail of a crane reaches a bay from its radius on', () => {
    expect(meets(triangle(7.9), bay(20, 0))).toBe(false)
    expect(meets(triangle(8.1), bay(20, 0))).toBe(true)
  })
})

describe('people in the shaft', () => {
  const crew = { ...WORK, shaftFloor: 'floor', setUp: '0 h' }
  const floor = {
    tower: { name: 'Tower', kind: 'plant', capacity: 1 },
    floor: { name: 'Floor', kind: 'space', capacity: 1 },
  }
  const made = (work: Record<string, unknown>, more: Record<string, unknown> = {}) =>
    programmeFor(
      oneStep({
        programme: programmeOf({ work, resources: floor, activities: { A: task({ needs: { floor: 1 }, ...more }) } }),
      }),
      stripOf([{ step: 'S1', piece: 'crown' }]),
      liftsOf({ 'crown-out': { hours: 3 } }),
    )

  test('who holds the floor while a lift goes over it is named', () => {
    const found = checkIn(made(crew), 'programme.floor.empty')
    expect(found.verdict).toBe('fail')
    expect(found.reasons.join()).toContain('Task')
  })

  test('where the lift takes the floor as well, the plan keeps the two apart', () => {
    const found = checkIn(made({ ...crew, lifts: { calendar: 'lift', needs: { floor: 1 } } }), 'programme.floor.empty')
    expect(found.verdict).toBe('pass')
  })
})

describe('people on bays under a lift', () => {
  const space = { kind: 'space', capacity: 1 }
  const bayAt = (y: string) => ({ centre: ['5 m', y], size: ['6 m', '6 m'], level: '0 m', allowable: '100 kPa' })
  /** A lift over B2, with work that holds B1, far away, and B2 as well. */
  const overB2 = (lift: Parameters<typeof liftsOf>[0][string], days?: number[]) =>
    checkIn(
      programmeFor(
        oneStep({
          bays: { B1: bayAt('90 m'), B2: bayAt('12 m') },
          programme: programmeOf({
            work: { ...WORK, setUp: '0 h' },
            resources: {
              tower: { name: 'Tower', kind: 'plant', capacity: 1 },
              B1: { ...space, name: 'Far' },
              B2: { ...space, name: 'Near' },
            },
            activities: {
              A: task({ needs: { B1: 1, B2: 1 }, ...(days === undefined ? { notBefore: '2032-01-05' } : { days }) }),
            },
          }),
        }),
        stripOf([{ step: 'S1', piece: 'crown' }]),
        liftsOf({ 'crown-out': lift }),
      ),
      'programme.zone.closed',
    )

  test('work that holds two bays is seen on each of them', () => {
    expect(overB2({ hours: 3 }, [1, 1, 1]).verdict).toBe('fail')
    expect(overB2({ hours: 3 }).verdict).toBe('pass')
  })

  test('how long a zone is closed is not known of a lift without its time', () => {
    const found = overB2({})
    expect(found.verdict).toBe('open')
    expect(found.reasons).toEqual(['/lifts/crown-out/duration is not given'])
  })
})
