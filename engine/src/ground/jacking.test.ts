import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { checkOf, siteModel } from './ground.fixture.ts'
import { standingOn } from './jacking.ts'

const metres = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const corners: [number, number][] = [
  [-4, -2],
  [-4, 2],
  [4, -2],
  [4, 2],
]

describe('a rigid body on points of equal stiffness', () => {
  test('over the middle of four corners each carries a quarter; over a side, its two carry all of it', () => {
    expect(standingOn(corners, [0, 0]).shares).toEqual([0.25, 0.25, 0.25, 0.25].map((s) => expect.closeTo(s, 12)))
    expect(standingOn(corners, [4, 0]).shares).toEqual([0, 0, 0.5, 0.5].map((s) => expect.closeTo(s, 12)))
  })

  test('forces and moments close over any points and any centre of gravity', () => {
    const point = fc.tuple(metres(-6, 6), metres(-3, 3))
    let compared = 0
    fc.assert(
      fc.property(fc.array(point, { minLength: 0, maxLength: 5 }), point, (more, [x, y]) => {
        const points = [...corners, ...more]
        const { shares, leverage } = standingOn(points, [x, y])
        const sum = (arm: (i: number) => number) => shares.reduce((s, share, i) => s + share * arm(i), 0)
        expect(sum(() => 1)).toBeCloseTo(1, 9)
        expect(sum((i) => points[i]?.[0] as number)).toBeCloseTo(x, 9)
        expect(sum((i) => points[i]?.[1] as number)).toBeCloseTo(y, 9)
        for (const row of leverage) expect(row.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 9)
        compared++
      }),
    )
    expect(compared).toBeGreaterThan(50)
  })

  test('three points carry what statics says, whatever their height: the plane follows each of them', () => {
    const { shares, leverage } = standingOn([[0, 0], [6, 0], [0, 3]], [2, 1]) // biome-ignore format: points
    expect(shares).toEqual([1 / 3, 1 / 3, 1 / 3].map((s) => expect.closeTo(s, 12)))
    expect(leverage.map((row, i) => row[i])).toEqual([1, 1, 1].map((h) => expect.closeTo(h, 12)))
  })

  test('of four corners one that is raised takes a quarter of k d with the one across, and the other two lose it', () => {
    // springs solved by hand: corner raised by d, forces k d/4 × (+1 −1 −1 +1)
    const { leverage } = standingOn(corners, [0, 0])
    const forces = [0, 1, 2, 3].map((i) => (i === 0 ? 1 : 0) - (leverage[0]?.[i] as number))
    expect(forces).toEqual([0.25, -0.25, -0.25, 0.25].map((f) => expect.closeTo(f, 12)))
  })
})

describe('jacks under the shield', () => {
  test('a looser synchronous tolerance or a stiffer point loads the heaviest jack more', () => {
    const heaviest = (path: string, value: string) =>
      checkOf('ground.jack.load', [{ op: 'replace', path: `/cradle/jacking/${path}`, value }]).demand.value as number
    const now = checkOf('ground.jack.load').demand.value as number
    expect(heaviest('apart', '4 mm')).toBeGreaterThan(now)
    expect(heaviest('stiffness', '80 kN/mm')).toBeGreaterThan(now)
    // 50 kN/mm × 2 mm × (1 − 3/4), four corners
    expect(now - heaviest('apart', '0 mm')).toBeCloseTo(25_000, 3)
  })

  test('on three points a tolerance changes nothing and need not be known', () => {
    const patch = ['/cradle/jacking/points/J4', '/cradle/jacking/apart', '/cradle/jacking/stiffness'].map(
      (path) => ({ op: 'remove', path }) as const,
    )
    expect(checkOf('ground.jack.load', patch).verdict).not.toBe('open')
  })

  test('a centre of gravity outside the points leaves a jack without load: it fails', () => {
    const far = { J1: ['-3 m', '2 m'], J2: ['-3 m', '3 m'], J3: ['2.5 m', '2 m'], J4: ['2.5 m', '3 m'] }
    const points = Object.fromEntries(Object.entries(far).map(([id, at]) => [id, { at }]))
    expect(
      checkOf('ground.jack.free', [{ op: 'replace', path: '/cradle/jacking/points', value: points }]).verdict,
    ).toBe('fail')
  })

  test.each([
    ['two points', { J1: { at: ['0 m', '0 m'] }, J2: { at: ['2 m', '0 m'] } }],
    ['points in one line', { J1: { at: ['0 m', '1 m'] }, J2: { at: ['2 m', '1 m'] }, J3: { at: ['5 m', '1 m'] } }],
  ])('%s hold nothing, and the file is told so', (found, points) => {
    const patch = [{ op: 'replace', path: '/cradle/jacking/points', value: points }] as const
    expect(() => siteModel(patch)).toThrow(/jacking\/points: .*three or more points/)
    expect(() => siteModel(patch)).toThrow(found.split(' ').at(-1))
  })
})
