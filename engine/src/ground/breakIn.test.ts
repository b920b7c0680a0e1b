import { describe, expect, test } from 'vitest'
import type { Operation } from '../working/patch.ts'
import { bedHolds, offsetMoment } from './breakIn.formulas.ts'
import { rollFriction } from './cradle.formulas.ts'
import { checkOf, groundOf } from './ground.fixture.ts'

const replace = (path: string, value: unknown): Operation => ({ op: 'replace', path, value })
const remove = (path: string): Operation => ({ op: 'remove', path })
const BREAK_IN = '/cradle/driveIn/breakIn'
const demand = (kind: string, ...patch: Operation[]) => checkOf(kind, patch).demand.value as number
const capacity = (kind: string, ...patch: Operation[]) => checkOf(kind, patch).capacity.value as number

describe('the head against the wall at the eye', () => {
  test('pushes with all its tools, against the face, and drags the whole skin: by hand for a shield of 6 m', () => {
    const [tools, face, skin] = [30 * 100_000, 20_000 * Math.PI * 9, 10_000 * Math.PI * 6 * 7.5]
    expect(demand('ground.drive-in.push')).toBeCloseTo(tools + face + skin, 3)
    expect(demand('ground.drive-in.wall')).toBeCloseTo(tools + face, 3)
  })

  test('needs the torque of the drag of its tools at their mean radius', () => {
    expect(demand('ground.drive-in.torque')).toBeCloseTo(30 * 100_000 * 0.12 * 1.6, 3)
  })

  test('that cannot turn does not cut a wall; an eye that is broken out before asks for no torque', () => {
    const still = replace(`${BREAK_IN}/torque`, '0 N m')
    expect(checkOf('ground.drive-in.torque', [still]).verdict).toBe('fail')
    expect(checkOf('ground.drive-in.torque', [still, replace(`${BREAK_IN}/tool`, '0 N')]).verdict).toBe('pass')
  })

  test('what the last of the wall bears counts once an engineer has signed it, however strong it is', () => {
    const check = checkOf('ground.drive-in.wall', [replace(`${BREAK_IN}/wall`, '90 MN'), remove(`${BREAK_IN}/signed`)])
    expect([check.verdict, check.reasons]).toEqual(['open', [`${BREAK_IN}/signed is not given`]])
  })

  test('of which nothing is said is open in every check', () => {
    const kinds = ['push', 'wall', 'torque', 'held'].map((k) => `ground.drive-in.${k}`)
    for (const patch of [[remove(BREAK_IN)], [remove('/cradle/driveIn')]])
      for (const check of groundOf(patch).checks.filter((c) => kinds.includes(c.kind)))
        expect([check.kind, check.verdict]).toEqual([check.kind, 'open'])
    expect(groundOf([remove(BREAK_IN)]).checks.filter((c) => kinds.includes(c.kind))).toHaveLength(4)
  })
})

describe('roll', () => {
  test('of a shield in the ground is held by friction on its skin, at its radius', () => {
    expect(capacity('ground.drive-in.held')).toBeCloseTo(Math.PI * 6 * 7.5 * 4_000 * 3, 3)
  })

  test('at rest is judged to either side', () => {
    const rolled = (angle: string) => checkOf('ground.drive-in.roll', [replace('/machine/pose/roll', angle)])
    expect(rolled('1.5 deg').utilisation).toBeCloseTo(0.75, 9)
    expect(rolled('-1.5 deg').utilisation).toBeCloseTo(0.75, 9)
    expect(rolled('-2.1 deg').verdict).toBe('fail')
  })

  test('on a smooth bed without stops is held by nothing', () => {
    const smooth = [replace('/cradle/restart/holds', 0), remove('/cradle/restart/stops')]
    expect(checkOf('ground.restart.roll', smooth).verdict).toBe('fail')
  })

  test('the friction that just holds a weight to one side gives its moment about the axis: one equilibrium, two formulas', () => {
    const [W, R, alpha, e] = [1e6, 3, 0.9, 0.12]
    const mu = rollFriction.value({ e, R, alpha })
    expect(bedHolds.value({ mu, W, R, alpha })).toBeCloseTo(offsetMoment.value({ W, e }), 6)
  })

  test('a weight to one side turns the shield with the head; a heavier machine on its axis is held better', () => {
    const aside = replace('/parts/block/solids/0/centre/1', '2 m')
    expect(demand('ground.restart.roll', aside)).toBeGreaterThan(demand('ground.restart.roll'))
    expect(demand('ground.drive-in.held', aside)).toBeGreaterThan(demand('ground.drive-in.held'))
    const heavy = replace('/materials/steel/density', '8500 kg/m3')
    expect(capacity('ground.restart.roll', heavy)).toBeGreaterThan(capacity('ground.restart.roll'))
    expect(demand('ground.restart.roll', heavy)).toBeCloseTo(demand('ground.restart.roll'), 3)
  })

  test('of a restart on rings is held by the same bed', () => {
    const onRings = {
      on: 'rings',
      thrust: '6 MN',
      diameter: '5.8 m',
      torque: '0.3 MN m',
      holds: 0.15,
      stops: '0.2 MN m',
    }
    expect(capacity('ground.restart.roll', replace('/cradle/restart', onRings))).toBe(capacity('ground.restart.roll'))
  })
})
