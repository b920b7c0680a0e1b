import { describe, expect, test } from 'vitest'
import type { Operation } from '../working/patch.ts'
import { checkOf } from './ground.fixture.ts'
import { jointForce, jointOpening } from './rings.formulas.ts'

const replace = (path: string, value: unknown): Operation => ({ op: 'replace', path: `/cradle/${path}`, value })
const remove = (path: string): Operation => ({ op: 'remove', path: `/cradle/${path}` })

describe('a joint of the last rings without thrust', () => {
  test('is opened by its gasket alone where there is no water outside', () => {
    expect(jointForce.value({ D: 6, a: 0.05, q: 20_000, u: 0 })).toBeCloseTo(Math.PI * 5.9 * 20_000, 6)
  })

  test('is opened by the water on the ring between outside and gasket: π(R² − r²) u', () => {
    expect(jointForce.value({ D: 6, a: 0.05, q: 0, u: 2e5 })).toBeCloseTo(Math.PI * (3 ** 2 - 2.95 ** 2) * 2e5, 6)
  })

  test('opens half as far with twice the ties, twice as far where they reach over twice the length', () => {
    const w = jointOpening.value({ F: 1e6, s: 1.5, n: 8, EA: 4e8 })
    expect(w).toBeCloseTo((1e6 * 1.5) / (8 * 4e8), 12)
    expect(jointOpening.value({ F: 1e6, s: 1.5, n: 16, EA: 4e8 })).toBeCloseTo(w / 2, 12)
    expect(jointOpening.value({ F: 1e6, s: 3, n: 8, EA: 4e8 })).toBeCloseTo(2 * w, 12)
  })

  test('deeper in the water asks for more, and a lower head for less', () => {
    const force = (...patch: Operation[]) => checkOf('ground.rings.closed', patch).demand.value as number
    expect(force({ op: 'replace', path: '/ground/water/lower/head', value: '-4 m' })).toBeGreaterThan(force())
  })

  test('ties count once somebody has designed them; without ties nothing is assumed to hold', () => {
    expect(checkOf('ground.rings.closed', [remove('lastRings/ties/designed')]).reasons).toEqual([
      '/cradle/lastRings/ties/designed is not given',
    ])
    expect(checkOf('ground.rings.closed', [remove('lastRings/ties')]).verdict).toBe('open')
    expect(checkOf('ground.rings.opening', [remove('lastRings/ties')]).verdict).toBe('open')
  })

  test('bolts that stay are counted for strength, not for the opening', () => {
    const bolts: Operation = { op: 'add', path: '/cradle/lastRings/bolts', value: { count: 20, load: '60 kN' } }
    const [plain, bolted] = [checkOf('ground.rings.closed'), checkOf('ground.rings.closed', [bolts])]
    expect((bolted.capacity.value as number) - (plain.capacity.value as number)).toBeCloseTo(1.2e6, 3)
    expect(checkOf('ground.rings.opening', [bolts]).demand.value).toBe(checkOf('ground.rings.opening').demand.value)
  })
})

describe('the restart', () => {
  test('on grouted rings holds π D L f, and has no feet on the wall', () => {
    const onRings = { on: 'rings', thrust: '6 MN', length: '30 m', diameter: '5.8 m', friction: '15 kPa' }
    const held = checkOf('ground.restart.reaction', [replace('restart', onRings)])
    expect(held.capacity.value).toBeCloseTo(Math.PI * 5.8 * 30 * 15_000, 3)
    expect(held.verdict).toBe('pass')
    expect(() => checkOf('ground.restart.bearing', [replace('restart', onRings)])).toThrow()
    const { friction: _, ...unknown } = onRings
    expect(checkOf('ground.restart.reaction', [replace('restart', unknown)]).verdict).toBe('open')
  })

  test('on a frame that nobody has signed is open, however strong the frame', () => {
    const weak = checkOf('ground.restart.reaction', [replace('restart/load', '90 MN'), remove('restart/signed')])
    expect(weak.verdict).toBe('open')
    expect(weak.reasons).toEqual(['/cradle/restart/signed is not given'])
  })

  test('larger feet press less on the wall', () => {
    const pressure = (foot: string[]) =>
      checkOf('ground.restart.bearing', [replace('restart/foot', foot)]).demand.value as number
    expect(pressure(['1.6 m', '0.8 m'])).toBeCloseTo(pressure(['0.8 m', '0.8 m']) / 2, 3)
  })
})
