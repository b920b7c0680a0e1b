import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { lineLoad } from './cradle.formulas.ts'
import { onBed, slidePlaces } from './slide.ts'

const most = (bed: ReturnType<typeof onBed>): number => Math.max(...(bed ?? []).map(({ p }) => p))

describe('a rigid body on an even bed', () => {
  test('on one stretch presses as w(1 + 6e/L) within the middle third, and on 3(L/2 - e) beyond it', () => {
    for (const e of [0, 0.5, 1, 2.5, 3.5]) {
      const exact = lineLoad.value({ W: 1000, L: 10, e })
      expect(most(onBed(1000, 5 + e, [[0, 10]])) / exact).toBeCloseTo(1, 1)
    }
  })

  test('tips where its centre of gravity is beyond all that bears', () => {
    expect(onBed(1000, 10.5, [[0, 10]])).toBeUndefined()
  })

  test('forces and moments close, and nothing pulls, over a gap of any width', () => {
    const metres = (min: number, max: number) => fc.double({ min, max, noNaN: true })
    fc.assert(
      fc.property(metres(1, 12), metres(0, 3), metres(1, 12), metres(0.2, 0.8), (behind, gap, ahead, share) => {
        const x = share * (behind + gap + ahead)
        const bed = onBed(1000, x, [[0, behind], [behind + gap, behind + gap + ahead]]) // biome-ignore format: stretches
        if (bed === undefined) return true
        const force = bed.reduce((sum, { p, width }) => sum + p * width, 0)
        const moment = bed.reduce((sum, { p, width, at }) => sum + p * width * (at - x), 0)
        return Math.abs(force - 1000) < 1 && Math.abs(moment) < 5 && bed.every(({ p }) => p >= 0)
      }),
    )
  })
})

describe('a machine on its way in', () => {
  const way = { W: 10e6, x: -1, from: -6, to: 4, edge: -8 }

  test('comes to lie on ever more of the cradle, which carries all of it at last', () => {
    const places = slidePlaces(way)
    const carried = places.map((p) => p?.carried ?? Number.NaN)
    expect(carried.every((c, i) => i === 0 || c >= (carried[i - 1] as number) - 1)).toBe(true)
    expect(places.at(-1)).toMatchObject({ short: 0, contact: 10 })
    expect(carried.at(-1)).toBeCloseTo(10e6, -4)
    expect(places.at(-1)?.along).toBeCloseTo(1e6, -4)
  })

  test('weighs twice as much, presses twice as much', () => {
    const [one, two] = [slidePlaces(way), slidePlaces({ ...way, W: 20e6 })]
    one.forEach((p, i) => {
      expect((two[i]?.along ?? Number.NaN) / (p?.along ?? Number.NaN)).toBeCloseTo(2, 9)
    })
  })
})
