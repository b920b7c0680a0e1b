import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Operation, Patch } from '../working/patch.ts'
import { checkOf, groundOf, site } from './ground.fixture.ts'

const PILES = site.shaft.wall.piles
const RADIUS = 6.8
const LOW = -20
const put = (path: string, value: unknown): Operation => ({ op: 'add', path, value })
const m = (value: number) => `${value} m`

/** All piles where they were set out, plumb but for what `lean` says, m at the lower level: along the ring, and outwards. */
function surveyed(lean: (pile: number) => readonly [along: number, out: number], count = PILES): Patch {
  const piles = Array.from({ length: count }, (_, i) => {
    const bearing = (2 * Math.PI * (i + 0.3)) / PILES
    const [c, s] = [Math.cos(bearing), Math.sin(bearing)]
    const [along, out] = lean(i)
    const low = [(RADIUS + out) * c - along * s, (RADIUS + out) * s + along * c]
    return [`P${i + 1}`, { head: [m(RADIUS * c), m(RADIUS * s)], low: low.map(m), lowAt: m(LOW) }] as const
  })
  return [put('/shaft/wall/asBuilt', Object.fromEntries(piles))]
}

const plumb = () => [0, 0] as const
const thickness = (patch: Patch) => checkOf('ground.overlap.thickness', patch).capacity.value as number

test('plumb piles keep the lens of their setting out: D 1.2 m, 53 on a circle of 13.6 m', () => {
  const s = 13.6 * Math.sin(Math.PI / 53)
  expect(thickness(surveyed(plumb))).toBeCloseTo(Math.sqrt(1.44 - s * s), 9)
  expect(thickness(surveyed(plumb))).toBeGreaterThan(thickness([]))
})

test('one pile that leans along the ring opens the joint behind it, in proportion to depth', () => {
  // the base, 19.5 m down, is 0.975 of the way to the lower point
  const lean = (i: number) => [i === 7 ? 0.1 : 0, 0] as const
  const s = 13.6 * Math.sin(Math.PI / 53)
  const half = Math.PI / 53
  const d = 0.1 * 0.975
  const apart = Math.hypot(s + d * Math.cos(half), d * Math.sin(half))
  expect(checkOf('ground.overlap.thickness', surveyed(lean)).title).toContain('-19.5')
  expect(thickness(surveyed(lean))).toBeCloseTo(Math.sqrt(1.44 - apart * apart), 6)
})

test('one pile that leans inwards takes its lean off the band that its joints share and twice off the clear bore', () => {
  const lean = (i: number) => [0, i === 20 ? -0.3 : 0] as const
  const slab = 18 / 20
  expect(checkOf('ground.bore.clear', surveyed(lean)).capacity.value).toBeCloseTo(12.4 - 0.2 - 2 * 0.3 * slab, 9)
  expect(thickness(surveyed(lean))).toBeLessThanOrEqual(1.2 - 0.3 * 0.975 + 1e-9)
})

test('the worst lean is named and held against the tolerance', () => {
  const patch = surveyed((i) => [i === 7 ? 0.06 : 0.01, 0])
  const check = checkOf('ground.wall.verticality', patch)
  expect([check.subject.id, check.verdict]).toEqual(['P8', 'fail'])
  expect(check.demand.value).toBeCloseTo(0.06 / 20, 9)
})

test('until every pile is surveyed the tolerances stand, and the check says how many are', () => {
  const some = surveyed(plumb, PILES - 1)
  expect(thickness(some)).toBe(thickness([]))
  const said = checkOf('ground.overlap.thickness', some).assumptions.join(' ')
  expect(said).toContain('52 of 53 piles are surveyed: tolerances stand until all are.')
})

test('a pile that leans within the tolerance never leaves less than the tolerances do', () => {
  const v = site.shaft.wall.verticality
  const least = thickness([])
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }), { minLength: PILES, maxLength: PILES }),
      (turns) => {
        const patch = surveyed((i) => [Math.cos(turns[i] as number) * v * 20, Math.sin(turns[i] as number) * v * 20])
        return thickness(patch) >= least - 1e-9
      },
    ),
    { numRuns: 20 },
  )
})

test('a lower point above the collar is refused', () => {
  const pile = { head: ['6.8 m', '0 m'], low: ['6.8 m', '0 m'], lowAt: '1 m' }
  expect(() => groundOf([put('/shaft/wall/asBuilt', { P1: pile })])).toThrow('/shaft/wall/asBuilt/P1/lowAt')
})

// 24 panels, 1.2 m thick, their middles set out on a circle of 13.6 m
const PANELS = 24
const panelled: Patch = [
  put('/shaft/wall/kind', 'slurry panels'),
  put('/shaft/wall/piles', PANELS),
  put('/shaft/wall/thickness', '1.2 m'),
  put('/shaft/wall/jointOverlap', '0.15 m'),
]
const MIDDLE = 6.8

function panels(lean: (panel: number) => readonly [along: number, out: number], count = PANELS): Patch {
  const all = Array.from({ length: count }, (_, i) => {
    const bearing = (2 * Math.PI * (i + 0.3)) / PANELS
    const [c, s] = [Math.cos(bearing), Math.sin(bearing)]
    const at = ([along, out]: readonly [number, number]) => [m((MIDDLE + out) * c - along * s), m((MIDDLE + out) * s + along * c)] // biome-ignore format: a place
    return [`E${i + 1}`, { head: at([0, 0]), low: at(lean(i)), lowAt: m(LOW) }] as const
  })
  return [...panelled, put('/shaft/wall/asBuilt', Object.fromEntries(all))]
}

const clear = (patch: Patch) => checkOf('ground.bore.clear', patch).capacity.value as number

test('panels that stand flush keep the whole ring; all leaning in alike take nothing off it, and twice that off the bore', () => {
  const plumbRing = thickness(panels(() => plumb()))
  expect(plumbRing).toBeGreaterThan(thickness(panelled))
  // straight panels: the ring that fits inside the corners, a + b - a/cos(pi/n), a = 6.8 - 0.6
  expect(plumbRing).toBeCloseTo(6.2 + 1.2 - 6.2 / Math.cos(Math.PI / PANELS), 9)
  expect(thickness(panels(() => [0, -0.2]))).toBeCloseTo(plumbRing, 9)
  expect(clear(panels(() => plumb())) - clear(panels(() => [0, -0.2]))).toBeCloseTo(2 * 0.2 * (18 / 20), 9)
})

test('the bore that panels leave is that of their setting out, less lining and lean: 13.6 - 1.2 - 2 · 0.1', () => {
  expect(clear(panels(() => plumb()))).toBeCloseTo(12.2, 9)
  const unset = [...panelled, { op: 'remove', path: '/shaft/wall/ringDiameter' } as const]
  expect(checkOf('ground.bore.clear', unset).verdict).toBe('open')
})

test('one panel that leans out takes the step at its joints off the ring, and is named by what it is', () => {
  const one = panels((i) => [0, i === 3 ? 0.1 : 0])
  expect(thickness(panels(() => plumb())) - thickness(one)).toBeCloseTo(0.1 * 0.975, 9)
  expect(checkOf('ground.wall.verticality', one).subject.name).toBe('Panel E4')
  expect(checkOf('ground.overlap.thickness', one).assumptions.join(' ')).toContain('All 24 panels as surveyed')
})

test('a panel that leans along the wall opens the joint behind it and neither steps nor narrows the bore', () => {
  const one = panels((i) => [i === 3 ? 0.1 : 0, 0])
  const closed = checkOf('ground.overlap.closed', one)
  // the toe, 24 m down; it moves square to its own bearing, half an angle off the joint
  expect(closed.demand.value).toBeCloseTo(((0.1 * 24) / 20) * Math.cos(Math.PI / PANELS), 9)
  expect(closed.verdict).toBe('pass')
  expect(
    checkOf(
      'ground.overlap.closed',
      panels((i) => [i === 3 ? 0.13 : 0, 0]),
    ).verdict,
  ).toBe('fail')
  expect(thickness(one)).toBeCloseTo(thickness(panels(() => plumb())), 9)
  expect(clear(one)).toBeCloseTo(clear(panels(() => plumb())), 9)
})

test('panels that all lean in press together: no joint opens', () => {
  expect(
    checkOf(
      'ground.overlap.closed',
      panels(() => [0, -0.2]),
    ).demand.value,
  ).toBe(0)
})

test('by the tolerances two panels part by twice their deviation at the toe; what closes the joint is open until somebody says', () => {
  const closed = checkOf('ground.overlap.closed', panelled)
  expect(closed.demand.value).toBeCloseTo(2 * (0.02 + 0.002 * 24), 9)
  expect(closed.capacity.value).toBe(0.15)
  const unsaid = checkOf('ground.overlap.closed', panelled.slice(0, -1))
  expect(unsaid.verdict).toBe('open')
})

test('a panel that leans within the tolerance never leaves less, nor opens more, than the tolerances do', () => {
  const v = site.shaft.wall.verticality
  const [least, most] = [thickness(panelled), checkOf('ground.overlap.closed', panelled).demand.value as number]
  const turns = fc.array(fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }), { minLength: PANELS, maxLength: PANELS })
  fc.assert(
    fc.property(turns, (all) => {
      const patch = panels((i) => [Math.cos(all[i] as number) * v * 20, Math.sin(all[i] as number) * v * 20])
      const opened = checkOf('ground.overlap.closed', patch).demand.value as number
      return thickness(patch) >= least - 1e-9 && opened <= most + 1e-9
    }),
    { numRuns: 20 },
  )
})

test('until every panel is surveyed the tolerances stand', () => {
  expect(thickness(panels(() => plumb(), PANELS - 1))).toBe(thickness(panelled))
})
