import { describe, expect, test } from 'vitest'
import type { Check } from '../working/check.ts'
import { boomGap } from './boom.formulas.ts'
import type { Change } from './fixture.ts'
import { withBoom } from './overhead.fixture.ts'
import { type Document, outcome } from './small.fixture.ts'

const boomOf = (change?: Change): Check =>
  outcome('out', withBoom(change)).checks.find(({ kind }) => kind === 'lift.path.boom') as Check

const gapOf = (change?: Change): number => boomOf(change).capacity.value as number

/** A plate of this length across the line to the crane, on top of the block: wider than the rigging over it. */
const plate =
  (half: number): Change =>
  (d) => {
    d.lifts.out.landing = ['0 m', '0.5 m', '0 m']
    d.systems.tower.standings = [['20 m', '0 m']]
    d.parts.block.solids.push({
      shape: 'box',
      centre: ['0 m', '0 m', '0.95 m'],
      size: [`${2 * half} m`, '1 m', '0.1 m'],
    })
  }

describe('what hangs from a crane and its boom', () => {
  // From (20, 0) over the shaft: r = 20, cos θ = 19/30. The edge of the plate comes up to z = 9, at 20 − 9 from the centre.
  test('are apart by the distance of the edge of a wide piece, at its highest, from the line of the boom less half of it', () => {
    const theta = Math.acos(19 / 30)
    const edge = (11 - 1) * Math.sin(theta) - (9 - 2) * Math.cos(theta) - 0.6
    const check = boomOf(plate(9))
    // the piece hangs level within some mm, so that the upper edge of the plate is where it is as found
    expect(check.capacity.value).toBeGreaterThan(edge - 0.1)
    expect(check.capacity.value).toBeLessThanOrEqual(edge + 1e-6)
    expect(check.assumptions[0]).toMatch(/^the piece, block and the boom/)
  })

  test('come nearer the wider the piece is towards the crane', () => {
    const gaps = [5, 7, 9, 11].map((half) => gapOf(plate(half)))
    expect(gaps).toEqual([...gaps].sort((a, b) => b - a))
    expect(new Set(gaps).size).toBe(4)
  })

  test('come nearer the steeper the boom stands: the standing moved in', () => {
    const at =
      (x: number): Change =>
      (d) => {
        plate(6)(d)
        d.systems.tower.standings = [[`${x} m`, '0 m']]
      }
    const gaps = [20, 18, 16].map((x) => gapOf(at(x)))
    expect(gaps).toEqual([...gaps].sort((a, b) => b - a))
  })

  test('a thicker boom is nearer by half of what it grew', () => {
    const thin = gapOf(plate(9))
    const thick = gapOf((d) => {
      plate(9)(d)
      d.systems.tower.boom.depth = '2 m'
    })
    expect(thin - thick).toBeCloseTo(0.4, 6)
  })

  // At 17.0 m a boom of 20.5 m has its head at 14.8 m; the top of the block comes up to 14.1 m under it.
  test('hoisted close to the head it is the block that governs', () => {
    const check = boomOf((d) => {
      d.systems.tower.setUp.boom = '20.5 m'
    })
    expect(check.verdict).toBe('fail')
    expect(check.reasons[0]).toMatch(/^the block and the boom/)
  })

  // At 20 m a boom of 19.2 m has its head at 4.8 m. From deep under it the piece rises to 7 m in one move and is set down on a stand of
  // 6 m: as it ends, piece, rigging and block are wholly on the upper side of the boom.
  test('hoisted past the head they strike, however far over it', () => {
    const check = boomOf((d) => {
      d.lifts.out.landing = ['0 m', '0.5 m', '6 m']
      d.systems.tower.standings = [['20 m', '0 m']]
      d.systems.tower.setUp.boom = '19.2 m'
    })
    expect(check.verdict).toBe('fail')
    // the least way out is to one side, past half of a block and half of the boom
    expect(check.capacity.value).toBeLessThan(-1)
  })

  // Straight out from (0, −30): from 30 m over the shaft to 50 m over the bay, where the boom of 60 m lies flatter over the block.
  test('are nearest at the end of a luff at which the boom is nearer to what hangs', () => {
    const check = boomOf((d) => {
      d.systems.tower.standings = [['0 m', '-30 m']]
      d.systems.tower.setUp.boom = '60 m'
    })
    const under = (r: number): number => {
      const theta = Math.acos((r - 1) / 60)
      return (r - 2) * Math.sin(theta) - 7 * Math.cos(theta) - 0.6
    }
    const least = Math.min(under(30), under(50))
    const told = Number(check.assumptions.find((a) => a.startsWith('the piece'))?.match(/boom: ([\d.]+)/)?.[1])
    expect(Math.abs(told - least)).toBeLessThan(0.1)
  })

  test('its moment is told, once every speed on the way is known', () => {
    expect(boomOf().assumptions[0]).toMatch(/in the stage \w+ at a radius of [\d.]+ m, \d+ min after the load is taken/)
    const untimed = boomOf((d) => {
      delete d.systems.tower.slewSpeed
      delete d.systems.tower.hooks.main.speed
    })
    expect(untimed.assumptions[0]).toMatch(/at a radius of [\d.]+ m$/)
    expect(untimed.verdict).toBe('pass')
  })

  test.each<[string, (d: Document) => void]>([
    ['/systems/tower/setUp/boom', (d) => delete d.systems.tower.setUp],
    ['/systems/tower/boom/ahead', (d) => delete d.systems.tower.boom],
    ['/systems/tower/boom/level', (d) => delete d.systems.tower.boom.level],
    ['/systems/tower/boom/depth', (d) => delete d.systems.tower.boom.depth],
    ['/systems/tower/boom/width', (d) => delete d.systems.tower.boom.width],
    ['/systems/tower/hooks/main/blockSize/height', (d) => delete d.systems.tower.hooks.main.blockSize],
    [
      '/lifts/out/standing',
      (d) => {
        d.systems.tower.standings.push(['-12 m', '8 m'])
        delete d.lifts.out.standing
      },
    ],
    [
      '/systems/tower/standings',
      (d) => {
        delete d.systems.tower.standings
        delete d.lifts.out.standing
      },
    ],
    ['/settings/clearanceToBoom', (d) => delete d.settings.clearanceToBoom],
    ['/stock/sling/length', (d) => delete d.stock.sling.length],
  ])('is open without %s, and says so', (pointer, without) => {
    const check = boomOf(without)
    expect(check.verdict).toBe('open')
    expect(check.reasons).toContain(`${pointer} is not given`)
  })

  test('a boom that does not reach as far as the load is open, for no angle holds it there', () => {
    const check = boomOf((d) => {
      d.systems.tower.setUp.boom = '12 m'
    })
    expect(check.verdict).toBe('open')
    expect(check.reasons.join()).toContain('length of the boom is 12.00\u00a0m')
  })

  test('a tower has no boom to be struck', () => {
    expect(outcome('out').checks.filter(({ kind }) => kind === 'lift.path.boom')).toEqual([])
  })
})

describe('the distance from a boom', () => {
  // Level boom: what lies 3 m under it and 4 m beside is 5 m off its line, in the direction 3-4-5.
  test('of a point under and beside it is that of plane geometry', () => {
    const phi = Math.atan2(4, 3)
    const at = { rho: 10, y: 4, z: -3, a: 0, z_0: 0, theta: 0, phi, h: 0, b: 0 }
    expect(boomGap.value(at)).toBeCloseTo(5, 12)
    expect(boomGap.value({ ...at, h: 1, b: 2 })).toBeCloseTo(5 - (1 * 0.6 + 2 * 0.8) / 2, 12)
  })
})
