import { expect, test } from 'vitest'
import type { Check } from '../working/check.ts'
import { type HungLoad, hang, heightToSpare, intendedHang, swingsBack } from './hang.ts'
import { type Document, outcome } from './small.fixture.ts'

const checkOf = (id: string, change: (d: Document) => void): Check =>
  outcome('out', change).checks.find((c) => c.id === id) as Check

const said = (c: Check): string => JSON.stringify(c)

test('legs that are too short are named with the length that would do', () => {
  const check = checkOf('lift.leg.angle/out/leg 1', (d) => {
    d.stock.sling.length = '1.8 m'
  })
  expect(check.verdict).toBe('fail')
  // across from the hook 1.5 m, at 45°: √2 × 1.5 m = 2.12 m and a little more with the box of the centre of gravity
  expect(said(check)).toMatch(/leg 1 of 1\.80 m is too short: 2\.1\d m/)
})

test('a leg that does not reach is told so, with the length that would do over the distance of its ends, and no rating', () => {
  const short = (d: Document) => {
    d.stock.sling.length = '1.2 m'
  }
  // the points lie 1.5 m from the hook across: √2 × 1.5 m, however far the leg is drawn out
  expect(checkOf('lift.leg.angle/out/leg 1', short).reasons.join()).toMatch(
    /leg 1 of 1\.20 m is too short, and does not reach over 1\.\d\d m: 2\.1\d m/,
  )
  expect(checkOf('lift.leg.tension/out/main/leg 1', short).reasons.join()).toMatch(/no higher rating alone mends that/)
})

test('what carries too much is told with the rating that would bear it', () => {
  const weak = checkOf('lift.leg.tension/out/main/leg 1', (d) => {
    d.stock.sling.rated = '5 t'
  })
  const [pull, bears] = [weak.demand.value as number, weak.capacity.value as number]
  const due = (Math.ceil(((5 * pull) / bears) * 10) / 10).toFixed(1)
  expect(weak.reasons).toEqual([`rated 5.0\u00a0t: ${due}\u00a0t or more would bear it`])
})

test('a piece out of level is told by how much, and which leg is slack', () => {
  const check = checkOf('lift.hang.tilt/out', (d) => {
    d.stock.long = { ...d.stock.sling, length: '4.4 m' }
    d.lifts.out.rigging.legs[0].item = 'long'
    d.settings.tilt = '0.1 deg'
  })
  expect(check.verdict).toBe('fail')
  expect(check.reasons.join('; ')).toMatch(/leg 1 is slack.* by plan; it hangs \d+\.\d° out of level/)
})

test('a piece that would turn over is told by how much its centre of gravity is too high', () => {
  const check = checkOf('lift.hang.stability/out', (d) => {
    for (const p of Object.values(d.pieces.block.points) as Document[]) p.at[2] = '-3 m'
    d.stock.sling.length = '1.8 m'
  })
  expect(check.verdict).toBe('fail')
  expect(said(check)).toMatch(/it lies \d\.\d\d m too high/)
})

test('a piece is held only when it is with its centre of gravity at the top of its box as well', () => {
  const held = (shift: string) =>
    checkOf('lift.hang.stability/out', (d) => {
      for (const p of Object.values(d.pieces.block.points) as Document[]) p.at[2] = '-2.4 m'
      d.settings.cogShift = shift
    })
  expect(held('20 mm').verdict).toBe('pass')
  expect(held('300 mm').verdict).toBe('fail')
  expect(held('300 mm').capacity.value).toBeLessThan(0)
  expect(said(held('300 mm'))).toMatch(/0\.30 m higher as well, at the top of its box/)
})

test('slack legs are named', () => {
  const check = checkOf('lift.hang.stability/out', (d) => {
    d.stock.long = { ...d.stock.sling, length: '4.1 m' }
    d.lifts.out.rigging.legs[1].item = 'long'
  })
  expect(said(check)).toMatch(/leg 2 is slack/)
})

/** Two legs on level points, the centre of gravity so far below them. */
const swing = (below: number): HungLoad => ({
  legs: (
    [
      [1, 1, 0],
      [-1, 1, 0],
      [-1, -1, 0],
      [1, -1, 0],
    ] as const
  ).map((to) => ({ to, length: 2, stiffness: 1e7 })),
  weight: 1e5,
  cog: [0, 0, -below],
})

test('the height to spare ends where the stiffness does', () => {
  const load = swing(0.5)
  const spare = heightToSpare(load)
  const at = (by: number): number => intendedHang({ ...load, cog: [0, 0, -0.5 + by] })?.stiffness ?? -1
  expect(at(spare - 0.01)).toBeGreaterThan(0)
  expect(at(spare + 0.01)).toBeLessThan(0)
})

test('pushed out, a low piece swings back', () => {
  const load = swing(1)
  expect(swingsBack(load, hang(load), 0.2)).toBe(true)
})

test('stable for the least push but not for a wide one: it does not come back', () => {
  const load = swing(0.5)
  const high: HungLoad = { ...load, cog: [0, 0, -0.5 + heightToSpare(load) - 0.002] }
  const near = intendedHang(high)
  expect(near?.stiffness).toBeGreaterThan(0)
  expect(swingsBack(high, near as NonNullable<typeof near>, 0.3)).toBe(false)
})

test('under a spreader pinned to the hook, a low piece swings back too', () => {
  const load: HungLoad = {
    legs: [2, -2].flatMap((x) =>
      [1, -1].map((y) => ({ to: [x, y, 0] as const, from: [x, 0, -0.8] as const, length: 5, stiffness: 3e7 })),
    ),
    weight: 4e5,
    cog: [0.02, 0.01, -1.5],
    spreader: { weight: 2e4, cog: [0, 0, -0.8], top: [] },
  }
  expect(swingsBack(load, hang(load), 0.1)).toBe(true)
})
