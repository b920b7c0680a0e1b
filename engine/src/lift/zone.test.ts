import { describe, expect, test } from 'vitest'
import type { Point2 } from '../numeric/plan.ts'
import { missingUnder } from '../working/answer.ts'
import { type Document, outcome } from './small.fixture.ts'

const zoned = (change: (d: Document) => void = () => {}) =>
  outcome('out', (d) => {
    d.settings.fallZone = { width: '2 m', perHeight: 0.25 }
    change(d)
  }).zone
const reach = (outline: readonly Point2[], [x, y]: Point2): number =>
  Math.max(...outline.map((p) => p[0] * x + p[1] * y))

// The block of 3 × 2 m rises until its bottom is 7 m over the collar: 2 m + 0.25 × 7 m = 3.75 m beside it.
describe('fall zone of a block of 3 by 2 m that passes 7 m over the ground', () => {
  test('is 3.75 m wide beside its outline', () => expect(zoned().margin.value).toBeCloseTo(3.75, 9))

  test('goes from the shaft to the bay with the block: 1.5 + 3.75 m aside, 20 + 1 + 3.75 m along', () => {
    const travel = zoned().fall[1] as readonly Point2[]
    expect(reach(travel, [1, 0])).toBeCloseTo(5.25, 9)
    expect(reach(travel, [0, 1])).toBeCloseTo(24.75, 9)
    expect(reach(travel, [0, -1])).toBeCloseTo(4.75, 9)
  })

  test('lies over the floor of the shaft, which a lift that stays on its bay does not', () => {
    expect(zoned().overShaft).toBe(true)
    const away = zoned((d) => {
      d.machine.pose.origin[1] = '60 m'
      d.bays.B1.centre[1] = '80 m'
    })
    expect(away.overShaft).toBe(false)
  })

  test('is not drawn where nobody has decided its width', () => {
    const open = outcome('out').zone
    expect(open.fall).toEqual([])
    expect(missingUnder(open.margin)).toEqual(['/settings/fallZone/width', '/settings/fallZone/perHeight'])
  })
})

// About (0, 8) the block goes half round from radius 8 m to 12 m: x = (8 + 4s) sin πs is the largest at s = 0.540: 10.08 m.
test('the zone of a crane follows the arc of its slew, not the straight line, and its tail has a circle', () => {
  const crane = zoned((d) => {
    Object.assign(d.systems.tower, {
      kind: 'crawler crane',
      standings: [['0 m', '8 m']],
      slewSpeed: '30 deg/min',
      luffSpeed: '4 m/min',
      tailRadius: '5 m',
    })
    d.lifts.out.standing = 0
  })
  const travel = crane.fall[1] as readonly Point2[]
  expect(Math.max(reach(travel, [1, 0]), reach(travel, [-1, 0]))).toBeCloseTo(10.08 + 1.5 + 3.75, 1)
  expect(crane.tails.map(({ centre, radius }) => [centre, radius.value])).toEqual([[[0, 8], 5]])
})

test('of two cranes that share a piece both tails sweep, the second about where it stands; one that nobody has placed has no centre', () => {
  const both = (standing: Record<string, unknown>) =>
    zoned((d) => {
      Object.assign(d.systems.tower, { kind: 'crawler crane', standings: [['0 m', '8 m']], tailRadius: '5 m' })
      d.systems.second = {
        ...structuredClone(d.systems.tower),
        name: 'second crane',
        tailRadius: '4 m',
        standings: [['9 m', '0 m'], ['12 m', '0 m']], // biome-ignore format: two places
      }
      d.lifts.out.standing = 0
      d.lifts.out.tail = { system: 'second', hook: 'tail', rigging: { legs: [] }, ...standing }
    }).tails
  expect(both({ standing: 1 }).map(({ centre, radius }) => [centre, radius.value])).toEqual([
    [[0, 8], 5],
    [[12, 0], 4],
  ])
  expect(both({})[1]).toMatchObject({ centre: undefined, standing: { pointer: '/lifts/out/tail/standing' } })
  expect(both({})[1]?.standing.value).toBeUndefined()
})
