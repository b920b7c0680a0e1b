import { describe, expect, test } from 'vitest'
import type { Operation } from '../working/patch.ts'
import { checkOf } from './ground.fixture.ts'

const replace = (path: string, value: unknown): Operation => ({ op: 'replace', path: `/systems/tower/${path}`, value })
const add = (path: string, value: unknown): Operation => ({ op: 'add', path: `/systems/tower/${path}`, value })
const remove = (path: string): Operation => ({ op: 'remove', path: `/systems/tower/${path}` })
const uplift = (...patch: Operation[]) => checkOf('ground.tower.uplift', patch)
const along = (...patch: Operation[]) => checkOf('ground.tower.sliding', patch, 'along')
const across = (...patch: Operation[]) => checkOf('ground.tower.sliding', patch, 'across')

/** The small site: ½ · 1.25 kg/m³ · (30 m/s)² · 60 m² · 1.6, with the factor of 1.5. */
const PUSH = 0.5 * 1.25 * 30 ** 2 * 60 * 1.6 * 1.5
const WEIGHT = 120_000 * 9.80665

describe('a tower in a storm', () => {
  test('is pushed by ½ ρ v² A c with the factor, and held by the friction of wheels that do not turn', () => {
    expect(along().demand.value).toBeCloseTo(PUSH, 3)
    expect(along().capacity.value).toBeCloseTo(0.14 * 0.75 * WEIGHT, 3)
    expect(across().capacity.value).toBeCloseTo(0.14 * WEIGHT + 300_000, 3)
  })

  test('cannot have more than all of its weight on held wheels: the file is refused at that place', () => {
    expect(() => along(replace('storm/held', 1.2))).toThrow(/\/systems\/tower\/storm\/held.*at most 1/)
  })

  test('with no wheel held runs away along its rails, however heavy it is', () => {
    expect(along(replace('storm/held', 0), replace('selfMass', '900 t')).verdict).toBe('fail')
  })

  test.each([
    ['wind/outOfService', along],
    ['storm/friction', along],
    ['storm/held', along],
    ['wind/outOfService', across],
    ['storm/friction', across],
    ['storm/across', across],
    ['wind/outOfService', uplift],
  ])('is open without %s, and says so', (path, of) => {
    expect(of(remove(path)).verdict).toBe('open')
    expect(of(remove(path)).reasons).toEqual([`/systems/tower/${path} is not given`])
  })

  test('of which nothing is said but its own mass is open, not left out', () => {
    const bare = [remove('storm'), remove('wind'), remove('sail'), replace('legs', {})]
    for (const of of [uplift, along, across]) expect(of(...bare).verdict).toBe('open')
    expect(uplift(...bare).reasons).toEqual(['/systems/tower/legs is not given'])
  })

  test('counts its moorings once somebody has designed them', () => {
    const moorings = { along: '200 kN', down: '90 kN' }
    const loose = [along(add('storm/moorings', moorings)), uplift(add('storm/moorings', moorings))]
    for (const c of loose)
      expect([c.verdict, c.reasons]).toEqual(['open', ['/systems/tower/storm/moorings/designed is not given']])
    const designed = add('storm/moorings', { ...moorings, designed: 'structural engineer, sheet 2' })
    expect((along(designed).capacity.value as number) - (along().capacity.value as number)).toBeCloseTo(200_000, 3)
    expect((uplift(designed).capacity.value as number) - (uplift().capacity.value as number)).toBeCloseTo(90_000, 3)
  })

  test('that no leg leaves the rail overturns neither: γ F h against W b/2 about the legs on one side', () => {
    const { demand, capacity, utilisation } = uplift()
    expect(utilisation).toBeCloseTo((PUSH * 8) / ((WEIGHT * 6) / 2), 9)
    expect(demand.value as number).toBeLessThan(capacity.value as number)
  })

  test('with rails nearer together than its legs stand along them is tipped across them', () => {
    const rails = (x: number) => ['A', 'B', 'C', 'D'].map((leg, i) => replace(`legs/${leg}/x`, `${i < 2 ? -x : x} m`))
    expect(uplift(...rails(20)).demand.value).toBeCloseTo(uplift().demand.value as number, 6)
    expect(uplift(...rails(1.5)).demand.value).toBeCloseTo(2 * (uplift().demand.value as number), 6)
  })

  test('a mean of ten minutes is brought up to the gust, which pushes with its square', () => {
    const mean = replace('wind/read', { as: 'mean', at: 'hook' })
    expect(along(mean).reasons).toEqual(['/climate/gustFactor is not given'])
    expect(along(remove('wind/read')).reasons).toEqual(['/systems/tower/wind/read is not given'])
    const months = Array.from({ length: 12 }, () => ({ scale: '5 m/s', shape: 2 }))
    const climate: Operation = {
      op: 'add',
      path: '/climate',
      value: { station: 'a', averaging: '1 h', height: '10 m', gustFactor: 1.5, persistence: 0.9, months },
    }
    expect(along(mean, climate).demand.value).toBeCloseTo(PUSH * 1.5 ** 2, 3)
  })

  test('a gust read at ten metres is more at a hook that is higher', () => {
    const low = replace('wind/read', { as: 'gust', at: '10 m' })
    expect(along(low, replace('hooks/main/highest', '10 m')).demand.value).toBeCloseTo(PUSH, 3)
    expect(along(low, replace('hooks/main/highest', '30 m')).demand.value as number).toBeGreaterThan(PUSH)
  })
})
