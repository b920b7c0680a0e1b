import { expect, test } from 'vitest'
import type { Check } from '../working/check.ts'
import type { Change } from './fixture.ts'
import { outcome } from './small.fixture.ts'

/** Two legs on either tail point under a spreader, which two slings carry at so much under the hook. */
const slung =
  (under: string): Change =>
  (d) => {
    d.stock.sling.quantity = 8
    d.gear = { SP: { name: 'Tail spreader', kind: 'spreader', mass: '300 kg', rated: '40 t', length: '1.8 m' } }
    d.lifts.turn.tail.rigging = {
      nodes: {
        left: { gear: 'SP', offset: ['0 m', '0.9 m', `-${under}`] },
        right: { gear: 'SP', offset: ['0 m', '-0.9 m', `-${under}`] },
      },
      legs: [
        { item: 'sling', to: 'left' },
        { item: 'sling', to: 'right' },
        ...['e', 'e', 'f', 'f'].map((to) => ({ item: 'sling', to, from: to === 'e' ? 'left' : 'right' })),
      ],
    }
  }

const G = 9.80665
const turn = (under: string) => outcome('turn', slung(under))
const checkOf = (under: string, id: string): Check => turn(under).checks.find((c) => c.id === id) as Check

test('two slings above a spreader carry all of it: each half of what hangs below, and more as it leans', () => {
  const { checks } = turn('1.2 m')
  const tension = (leg: number): number =>
    checks.find((c) => c.id === `lift.leg.tension/turn/tail/leg ${leg}`)?.demand.value as number
  // of four legs each takes its quarter, and all of the shift of 20 mm over 1.8 m
  const pull = tension(3) / (1 / 4 + 0.02 / 1.8)
  const carried = pull + (300 + 6 * 60) * G
  const lean = Math.atan2(0.9, 1.2)
  expect(tension(1)).toBeCloseTo((carried / 2 + (carried * 0.02) / 1.8) / Math.cos(lean), 3)
  expect(tension(1)).toBeGreaterThan(2 * tension(3))
})

test('a sling above the spreader is asked for its angle as one below is', () => {
  // 45° where it hangs 0.9 m under the hook
  expect(checkOf('0.95 m', 'lift.leg.angle/turn/tail/legs').verdict).not.toBe('fail')
  expect(checkOf('0.85 m', 'lift.leg.angle/turn/tail/legs').verdict).toBe('fail')
  expect(checkOf('0.9 m', 'lift.shackle.included-angle/turn/tail/legs').demand.value).toBeCloseTo(Math.PI / 2, 9)
})

test('each leg of a tail hook has its ends: slings above meet in the hook, legs below hang from the spreader', () => {
  const ends = turn('1.2 m').tailLegs.map((leg) => leg.ends)
  expect(ends[0]?.[0]).toEqual([0, 0])
  expect(ends[0]?.[1]).toEqual([0.9, -1.2])
  expect(ends[2]?.[0]).toEqual([0.9, -1.2])
  // a sling of 4 m, plumb
  expect(ends[2]?.[1][1]).toBeCloseTo(-5.2, 9)
})
