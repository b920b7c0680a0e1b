import { describe, expect, test } from 'vitest'
import { GRAVITY } from '../working/answer.ts'
import type { Operation, Patch } from '../working/patch.ts'
import { checkOf, groundOf, site } from './ground.fixture.ts'

const put = (path: string, value: unknown): Operation => ({ op: 'add', path, value })
const stored = (more: object = {}): Patch => [
  put('/bays/B/stored', {
    beams: { what: 'beams', centre: ['24 m', '0 m'], size: ['2 m', '2 m'], height: '1 m', mass: '40 t', ...more },
  }),
]
const idsAt = (patch: Patch) => groundOf(patch).steps[0]?.loads.map(({ id }) => id)

describe('stockpiles and plant', () => {
  test('press on what they stand on with their weight over their plan', () => {
    expect(checkOf('ground.plant.pressure').demand.value).toBeCloseTo((60_000 * (GRAVITY.value as number)) / 9, 6)
    expect(checkOf('ground.plant.pressure', stored(), 'B-beams').demand.value).toBeCloseTo((40_000 * 9.80665) / 4, 6)
  })

  describe('alone on a bay that no piece reaches', () => {
    const beams = { what: 'beams', centre: ['-30 m', '25 m'], size: ['4 m', '4 m'], height: '1 m' }
    const yard = { centre: ['-30 m', '25 m'], size: ['6 m', '6 m'], level: '0 m', allowable: '100 kPa' }
    const bay = (pile: object, more: object = {}): Patch => [
      put('/bays/Y', { ...yard, ...more, stored: { beams: { ...beams, ...pile } } }),
    ]
    const settled = (mass: string) =>
      checkOf('ground.bay.settlement', bay({ mass }, { settlement: '1 m' }), 'Y').demand.value as number

    test('settle it in proportion to their mass, beside what settles it from elsewhere', () => {
      const [one, two, three] = ['80 t', '160 t', '240 t'].map(settled) as [number, number, number]
      expect(two).toBeGreaterThan(one)
      expect(three - two).toBeCloseTo(two - one, 9)
    })

    test('are held against what the work there allows, and load its piles evenly', () => {
      const limited = (settlement: string) =>
        checkOf('ground.bay.settlement', bay({ mass: '80 t' }, { settlement }), 'Y').verdict
      expect([limited('30 mm'), limited('0.01 mm')]).toEqual(['pass', 'fail'])
      const piles = { count: 4, workingLoad: '400 kN', toe: '-12 m' }
      expect(checkOf('ground.bay.piles', bay({ mass: '80 t' }, { piles }), 'Y').demand.value).toBeCloseTo(
        (80_000 * 9.80665) / 4,
        6,
      )
    })

    test('leave it open without a limit, and without their mass', () => {
      const reasons = (patch: Patch) => checkOf('ground.bay.settlement', patch, 'Y').reasons
      expect(reasons(bay({ mass: '80 t' }))).toEqual(['/bays/Y/settlement is not given'])
      expect(reasons(bay({}, { settlement: '1 m' }))).toEqual(['/bays/Y/stored/beams/mass is not given'])
    })

    test('and cleared away for the only lift, they are judged as they stood before it', () => {
      const cleared = bay({ mass: '80 t', clearedFor: ['out'] }, { settlement: '1 m' })
      const check = checkOf('ground.bay.settlement', cleared, 'Y')
      expect(check.title).toContain('as it stands, before any step')
      expect(check.demand.value).toBeGreaterThan(0)
    })

    test('and with no order at all they are judged as they stand: settlement, piles, wall, service', () => {
      const steps = Object.keys(site.steps)
      const still: Patch = [
        put('/order', []),
        ...steps.map((id) => ({ op: 'remove', path: `/steps/${id}` }) as const),
        { op: 'remove', path: '/ground/instruments' },
        ...bay({ mass: '80 t' }, { settlement: '0.01 mm', piles: { count: 4, workingLoad: '100 kN', toe: '-12 m' } }),
      ]
      const verdicts = groundOf(still).checks.flatMap((c) =>
        c.subject.id === 'Y' || c.id === 'ground.wall.surcharge/as-it-stands' ? [[c.kind, c.verdict]] : [],
      )
      expect(Object.fromEntries(verdicts)).toMatchObject({
        'ground.bay.settlement': 'fail',
        'ground.bay.piles': 'fail',
        'ground.wall.surcharge': 'pass',
      })
    })
  })

  test('count where a bay is fullest: cleared for the lift that brings a piece, they stand there no longer', () => {
    const total = (patch: Patch) => groundOf(patch).bays.find(({ id }) => id === 'B')?.total.value as number
    expect(total(stored()) - total([])).toBeCloseTo(40_000 * (GRAVITY.value as number), 3)
    expect(total(stored({ clearedFor: ['out'], mass: '20 t' }))).toBe(total([]))
    // heavier than the piece, they load the bay most before it comes
    expect(total(stored({ clearedFor: ['out'] }))).toBeCloseTo(40_000 * (GRAVITY.value as number), 3)
  })

  test('stand with everything else on their bay and beside the wall, and are gone for the lift they are cleared for', () => {
    const piles = (patch: Patch) => checkOf('ground.bay.piles', patch).demand.value as number
    expect(piles(stored()) - piles([])).toBeCloseTo((40_000 * 9.80665) / 4, 6)
    expect(idsAt(stored())).toContain('B/beams')
    expect(idsAt(stored({ clearedFor: ['out'] }))).not.toContain('B/beams')
    expect(idsAt([put('/ground/plant/silo/during', ['take'])])).toContain('plant/silo')
  })

  test('of an unknown mass leave the wall open', () => {
    const { mass, ...unknown } = {
      mass: undefined,
      what: 'beams',
      centre: ['24 m', '0 m'],
      size: ['2 m', '2 m'],
      height: '1 m',
    }
    expect(mass).toBeUndefined()
    const check = checkOf('ground.wall.surcharge', [put('/bays/B/stored', { beams: unknown })])
    expect([check.verdict, check.reasons]).toEqual(['open', ['/bays/B/stored/beams/mass is not given']])
  })

  test('heavier plant beside the wall presses more on it', () => {
    const wall = (mass: string) =>
      checkOf('ground.wall.surcharge', [
        put('/ground/plant/silo/centre', ['12 m', '0 m']),
        put('/ground/plant/silo/mass', mass),
      ]).demand.value as number
    expect(wall('80 t')).toBeGreaterThan(wall('60 t'))
  })
})

describe('a buried service', () => {
  const alone = (mass: string, size: string, axis: string): number => {
    const silo = { what: 'silo', centre: ['300 m', '300 m'], size: [size, size], mass }
    const patch = [
      put('/ground/plant', { silo }),
      put('/utilities/sewer/line', [['300 m', '290 m'], ['300 m', '310 m']]), // biome-ignore format: two corners
      put('/utilities/sewer/axis', axis),
    ]
    return checkOf('ground.service.stress', patch).demand.value as number
  }

  test('under the middle of a square of 6 m, 3 m down, takes 0.70 of its pressure: four corners of Newmark with m = n = 1', () => {
    // corner factor of m = n = 1 is 0.1752 in the published table
    const q = (100_000 * 9.80665) / 36
    expect(alone('100 t', '6 m', '-3 m') / q).toBeCloseTo(4 * 0.1752, 3)
  })

  test('far below any footing takes what a point load gives: 3 P/(2π z²)', () => {
    const P = 100_000 * 9.80665
    expect(alone('100 t', '2 m', '-40 m') / ((3 * P) / (2 * Math.PI * 1600))).toBeCloseTo(1, 1)
  })

  test('goes with the load, and less the deeper it lies', () => {
    expect(alone('200 t', '4 m', '-4 m')).toBeCloseTo(2 * alone('100 t', '4 m', '-4 m'), -1)
    expect(alone('100 t', '4 m', '-8 m')).toBeLessThan(alone('100 t', '4 m', '-4 m'))
  })
})
