import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { carriedBy, momentOf, onBed, type Pressed } from './bed.ts'
import { lineLoad } from './cradle.formulas.ts'
import { type SlideNumbers, slidePlaces } from './slide.ts'

const metres = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const most = (bed: Pressed[] | undefined): number => Math.max(...(bed ?? []).flatMap((p) => [p.atFrom, p.atTo]))
const sum = (bed: readonly Pressed[], of: (p: Pressed) => number): number => bed.reduce((all, p) => all + of(p), 0)

describe('a rigid body on an even bed', () => {
  test('on one stretch presses as w(1 + 6e/L) within the middle third, and on 3(L/2 - e) beyond it', () => {
    for (const e of [0, 0.5, 1, 2.5, 3.5, 4.9]) {
      const exact = lineLoad.value({ W: 1000, L: 10, e })
      expect(most(onBed(1000, 5 + e, [[0, 10]])) / exact).toBeCloseTo(1, 9)
      expect(most(onBed(1000, 5 - e, [[0, 10]])) / exact).toBeCloseTo(1, 9)
    }
    const [bears] = onBed(1000, 8.5, [[0, 10]]) as [Pressed]
    expect(bears.to - bears.from).toBeCloseTo(3 * 1.5, 9)
  })

  test('tips where its centre of gravity is beyond all that bears', () => {
    expect(onBed(1000, 10.5, [[0, 10]])).toBeUndefined()
    expect(onBed(1000, -0.5, [[0, 10]])).toBeUndefined()
  })

  test('forces and moments close, and nothing pulls, over a gap of any width', () => {
    let lifted = 0
    fc.assert(
      fc.property(metres(1, 12), metres(0, 3), metres(1, 12), metres(0.05, 0.95), (behind, gap, ahead, share) => {
        const x = share * (behind + gap + ahead)
        const bed = onBed(1000, x, [[0, behind], [behind + gap, behind + gap + ahead]]) // biome-ignore format: stretches
        if (bed === undefined) return false
        if (sum(bed, (p) => p.to - p.from) < behind + ahead - 1e-9) lifted++
        expect(sum(bed, carriedBy)).toBeCloseTo(1000, 6)
        expect(sum(bed, (p) => momentOf(p, x))).toBeCloseTo(0, 6)
        return bed.every((p) => p.atFrom >= 0 && p.atTo >= 0)
      }),
    )
    expect(lifted).toBeGreaterThan(10)
  })

  test('agrees with a bed of many cells of which those that would pull are let go', () => {
    fc.assert(
      fc.property(metres(1, 12), metres(0, 3), metres(1, 12), metres(0.1, 0.9), (behind, gap, ahead, share) => {
        const x = share * (behind + gap + ahead)
        const stretches = [[0, behind], [behind + gap, behind + gap + ahead]] as const // biome-ignore format: stretches
        return Math.abs(most(onBed(1000, x, stretches)) / mostOfCells(1000, x, stretches) - 1) < 0.02
      }),
      { numRuns: 40 },
    )
  })
})

/** Largest load per metre with the bed cut into cells: another road to the same. */
function mostOfCells(W: number, x: number, stretches: readonly (readonly [number, number])[]): number {
  const width = 0.002
  const cells = stretches.flatMap(([from, to]) =>
    Array.from({ length: Math.round((to - from) / width) }, (_, i) => from + (i + 0.5) * width - x),
  )
  let [a, b] = [0, 0]
  let bearing = cells
  for (let round = 0; round < 60; round++) {
    const A = bearing.length * width
    const S = bearing.reduce((s, u) => s + u * width, 0)
    const I = bearing.reduce((s, u) => s + u * u * width, 0)
    const det = A * I - S * S
    ;[a, b] = [(W * I) / det, (-W * S) / det]
    bearing = cells.filter((u) => a + b * u > 0)
  }
  return Math.max(...bearing.map((u) => a + b * u))
}

describe('a machine on its way in', () => {
  const way = { W: 10e6, x: -1, from: -6, to: 4, edge: -8 }

  test('comes to lie on ever more of the cradle, which carries all of it at last', () => {
    const places = slidePlaces(way)
    const carried = places.map((p) => p?.carried ?? Number.NaN)
    expect(carried.every((c, i) => i === 0 || c >= (carried[i - 1] as number) - 1)).toBe(true)
    expect(places.at(-1)).toMatchObject({ short: 0, contact: 10, what: 'home' })
    expect(carried.at(-1)).toBeCloseTo(10e6, -4)
    expect(places.at(-1)?.along).toBeCloseTo(1e6, -4)
  })

  test('weighs twice as much, presses twice as much', () => {
    const [one, two] = [slidePlaces(way), slidePlaces({ ...way, W: 20e6 })]
    expect(two).toHaveLength(one.length)
    one.forEach((p, i) => {
      expect((two[i]?.along ?? Number.NaN) / (p?.along ?? Number.NaN)).toBeCloseTo(2, 9)
    })
  })

  test('is pressed most by the same load however many places of its way are looked at', () => {
    const governing = (numbers: SlideNumbers, places: number): number =>
      Math.max(...slidePlaces(numbers, places).map((p) => p?.along ?? Number.POSITIVE_INFINITY))
    let between = 0
    const one = fc.record({ from: metres(-8, -4), to: metres(2, 6), gap: metres(0, 3), share: metres(0.3, 0.8) })
    fc.assert(
      fc.property(one, ({ from, to, gap, share }) => {
        const numbers = { W: 10e6, x: from + share * (to - from), from, to, edge: from - gap }
        const many = governing(numbers, 80)
        if (many === Number.POSITIVE_INFINITY) return governing(numbers, 10) === many
        const most = governing(numbers, 40)
        const worst = slidePlaces(numbers).find((p) => p?.along === most)
        if (worst !== undefined && worst.contact > 0 && worst.short > 0) between++
        // a stretch shorter than a micrometre counts as none: that is all that is left of the steps
        for (const largest of [governing(numbers, 10), governing(numbers, 20), most])
          expect(largest / many).toBeCloseTo(1, 4)
        return true
      }),
      { numRuns: 25 },
    )
    expect(between).toBeGreaterThan(0)
  })

  test('takes at its first touch what it takes a hair later: the limit of ever shorter contact', () => {
    const touch = slidePlaces(way)[0]
    expect(touch).toMatchObject({ contact: 0, carried: 0 })
    const hair = slidePlaces(way, 1e4).find((p) => (p?.contact ?? 0) > 0)
    expect(hair?.contact).toBeCloseTo(1e-3, 9)
    expect((hair?.along ?? 0) / (touch?.along ?? 1)).toBeCloseTo(1, 2)
  })

  test('tips where its centre of gravity comes over the gap before the front has reached the cradle', () => {
    const heavyFront = { W: 10e6, x: 2.5, from: -6, to: 4, edge: -8 }
    expect(slidePlaces(heavyFront)[0]).toBeUndefined()
    expect(slidePlaces({ ...heavyFront, x: 1.9 })[0]).toBeDefined()
  })
})
