import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Operation } from '../working/patch.ts'
import { openChances } from './chance.ts'
import { checkOf, groundOf } from './ground.fixture.ts'

const replace = (path: string, value: unknown): Operation => ({ op: 'replace', path, value })
const remove = (path: string): Operation => ({ op: 'remove', path })
const piles = (...patch: Operation[]) => checkOf('ground.overlap.chance', patch)
const rings = (...patch: Operation[]) => checkOf('ground.rings.chance', patch)

test('of a joint without any margin is one half, whatever its spread', () => {
  expect(openChances(0, 0.1, 1).one).toBeCloseTo(0.5, 12)
  expect(openChances(0, 7, 2).any).toBeCloseTo(0.75, 12)
})

test('that any of n opens lies between that of one and n times it, and rises with n', () => {
  fc.assert(
    fc.property(fc.double({ min: -2, max: 6, noNaN: true }), fc.integer({ min: 1, max: 200 }), (margin, n) => {
      const { one, any } = openChances(margin, 1, n)
      expect(any).toBeGreaterThanOrEqual(one * (1 - 1e-12))
      expect(any).toBeLessThanOrEqual(n * one * (1 + 1e-12))
      expect(openChances(margin, 1, n + 1).any).toBeGreaterThanOrEqual(any)
    }),
  )
})

describe('that a joint of two piles stands open', () => {
  test('falls as a tolerance stands for more standard deviations, and rises with its size', () => {
    const wide = replace('/shaft/wall/verticality', 0.006)
    const chance = (k: number, ...more: Operation[]) =>
      piles(wide, replace('/shaft/wall/openJoint/deviations', k), ...more).demand.value as number
    expect(chance(2)).toBeGreaterThan(chance(3))
    expect(chance(2, replace('/shaft/wall/settingOut', '75 mm'))).toBeGreaterThan(chance(2))
  })

  test('is not nothing where two piles at their full tolerance still just meet: a tolerance is no hard limit', () => {
    // overlap of 0.394 m at the top; twice 0.02 m + 24 m · 0.007
    const just = replace('/shaft/wall/verticality', 0.007)
    expect(['pass', 'near']).toContain(checkOf('ground.overlap.closed', [just]).verdict)
    expect(piles(just, replace('/shaft/wall/openJoint/deviations', 2)).verdict).toBe('fail')
  })

  test('is open while nobody says how a tolerance is read, or what is accepted', () => {
    for (const field of ['deviations', 'accepted']) {
      const path = `/shaft/wall/openJoint/${field}`
      expect([piles(remove(path)).verdict, piles(remove(path)).reasons]).toEqual(['open', [`${path} is not given`]])
    }
  })

  test('is no question any more once every pile is surveyed', () => {
    const asBuilt = Object.fromEntries(
      Array.from({ length: 53 }, (_, i) => {
        const at = [6.8 * Math.cos((2 * Math.PI * i) / 53), 6.8 * Math.sin((2 * Math.PI * i) / 53)].map((v) => `${v} m`)
        return [`P${i + 1}`, { head: at, low: at, lowAt: '-20 m' }]
      }),
    )
    const surveyed: Operation = { op: 'add', path: '/shaft/wall/asBuilt', value: asBuilt }
    expect(groundOf([surveyed]).checks.filter(({ kind }) => kind === 'ground.overlap.chance')).toEqual([])
  })
})

describe('that a joint of the last rings opens', () => {
  test('rises with what is not known of gasket and ties, with the joints, and with the head of the water', () => {
    const few = replace('/cradle/lastRings/ties/count', 5)
    const chance = (...patch: Operation[]) => rings(few, ...patch).demand.value as number
    expect(chance(replace('/cradle/lastRings/openJoint/force', 0.3))).toBeGreaterThan(chance())
    expect(chance(replace('/cradle/lastRings/openJoint/held', 0.3))).toBeGreaterThan(chance())
    expect(chance(replace('/cradle/lastRings/openJoint/joints', 12))).toBeGreaterThan(chance())
    expect(chance(replace('/ground/water/lower/head', '-4 m'))).toBeGreaterThan(chance())
  })

  test.each(['force', 'held', 'joints', 'accepted'])(
    'is open without %s, for one value of each says nothing of it',
    (field) => {
      const path = `/cradle/lastRings/openJoint/${field}`
      expect([rings(remove(path)).verdict, rings(remove(path)).reasons]).toEqual(['open', [`${path} is not given`]])
    },
  )

  test('is open while nobody has designed the ties', () => {
    expect(rings(remove('/cradle/lastRings/ties/designed')).verdict).toBe('open')
  })
})
