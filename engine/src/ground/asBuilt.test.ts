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

/** The same piles with points between: where along the ring and outwards each stands at the levels given, from the top down. */
function surveyedAtMore(
  course: (pile: number) => readonly (readonly [z: number, along: number, out: number])[],
  head: (pile: number) => readonly [along: number, out: number] = plumb,
): Patch {
  const piles = Array.from({ length: PILES }, (_, i) => {
    const bearing = (2 * Math.PI * (i + 0.3)) / PILES
    const [c, s] = [Math.cos(bearing), Math.sin(bearing)]
    const at = (along: number, out: number) => [m((RADIUS + out) * c - along * s), m((RADIUS + out) * s + along * c)]
    const points = course(i).map(([z, along, out]) => ({ at: at(along, out), z: m(z) }))
    const low = points.at(-1) as (typeof points)[number]
    return [`P${i + 1}`, { head: at(...head(i)), low: low.at, lowAt: low.z, between: points.slice(0, -1) }] as const
  })
  return [put('/shaft/wall/asBuilt', Object.fromEntries(piles))]
}

const figures = (patch: Patch) => [
  thickness(patch),
  checkOf('ground.bore.clear', patch).capacity.value as number,
  checkOf('ground.overlap.closed', patch).demand.value as number,
  checkOf('ground.wall.verticality', patch).demand.value as number,
  checkOf('ground.ring.stress', patch).demand.value as number,
]

test('further points on the line between head and foot change nothing', () => {
  const shares = fc.uniqueArray(fc.integer({ min: 1, max: 99 }), { minLength: 1, maxLength: 4 })
  const lean = fc.array(fc.double({ min: -0.05, max: 0.05, noNaN: true }), {
    minLength: 2 * PILES,
    maxLength: 2 * PILES,
  })
  fc.assert(
    fc.property(shares, lean, (at, leans) => {
      const of = (i: number) => [leans[2 * i] as number, leans[2 * i + 1] as number] as const
      const two = surveyed((i) => of(i))
      const more = surveyedAtMore((i) =>
        [...at.sort((a, b) => a - b), 100].map((share) => {
          const [along, out] = of(i)
          return [(LOW * share) / 100, (along * share) / 100, (out * share) / 100] as const
        }),
      )
      const [a, b] = [figures(two), figures(more)]
      for (const [k, value] of a.entries()) expect(b[k]).toBeCloseTo(value, 7)
    }),
    { numRuns: 8 },
  )
})

test('a pile that bows out between a plumb head and foot parts the ring where it bows, and nowhere else', () => {
  const bowed = surveyedAtMore((i) => (i === 7 ? [[-9, 0.36, 0], [LOW, 0, 0]] : [[LOW, 0, 0]])) // biome-ignore format: points
  const s = 13.6 * Math.sin(Math.PI / 53)
  const half = Math.PI / 53
  const apart = Math.hypot(s + 0.36 * Math.cos(half), 0.36 * Math.sin(half))
  // 9 m down, where no layer ends and no level of the pressure stands
  const stress = checkOf('ground.ring.stress', bowed)
  expect(stress.title).toContain('z -9.0 m')
  const closed = checkOf('ground.overlap.closed', bowed)
  expect(closed.demand.value).toBeCloseTo(apart, 9)
  expect(closed.capacity.value).toBe(1.2)
})

test('a pile that bows into the shaft takes it off the clear bore where it bows, though it stands in place at the slab', () => {
  const bowed = surveyedAtMore((i) => (i === 7 ? [[-9, 0, -0.25], [LOW, 0, 0]] : [[LOW, 0, 0]])) // biome-ignore format: points
  expect(checkOf('ground.bore.clear', bowed).capacity.value).toBeCloseTo(12.4 - 0.2 - 2 * 0.25, 9)
})

test('a head that stands in takes it off the clear bore at the collar, however straight the pile comes back', () => {
  const leaning = surveyedAtMore(
    () => [[LOW, 0, 0]],
    (i) => [0, i === 7 ? -0.25 : 0],
  )
  expect(checkOf('ground.bore.clear', leaning).capacity.value).toBeCloseTo(12.4 - 0.2 - 2 * 0.25, 9)
})

test('joints that stand open at the head do not pass because they meet at the toe', () => {
  const apart = surveyedAtMore(
    () => [[-24, 0, 0]],
    (i) => [i === 7 ? 0.5 : 0, 0],
  )
  expect(checkOf('ground.overlap.closed', apart).verdict).toBe('fail')
})

test('where two piles no longer meet the ring has no thickness, and that is what is held against what it needs', () => {
  const parted = surveyedAtMore((i) => (i === 7 ? [[-9, 0.9, 0], [LOW, 0, 0]] : [[LOW, 0, 0]])) // biome-ignore format: points
  const check = checkOf('ground.overlap.thickness', parted)
  expect([check.capacity.value, check.verdict]).toEqual([0, 'fail'])
})

test('below the last point a pile runs on as it ran to it, and may leave that by the tolerance', () => {
  const short = surveyedAtMore((i) => [[-5, 0, 0], [-10, i === 7 ? 0.05 : 0, 0]]) // biome-ignore format: points
  const s = 13.6 * Math.sin(Math.PI / 53)
  const half = Math.PI / 53
  // 0.05 m in 5 m, so 0.19 m at the toe, 24 m down; both neighbours unsurveyed over the last 14 m
  const apart = Math.hypot(s + 0.19 * Math.cos(half), 0.19 * Math.sin(half)) + 2 * 0.002 * 14
  expect(checkOf('ground.overlap.closed', short).demand.value).toBeCloseTo(apart, 9)
  const untold: Patch = [...short, { op: 'remove', path: '/shaft/wall/verticality' }]
  expect(checkOf('ground.overlap.closed', untold).verdict).toBe('open')
})

test('the lean of a bowed pile is that of its worst point, from the head', () => {
  const bowed = surveyedAtMore((i) => (i === 7 ? [[-9, 0.09, 0], [LOW, 0, 0]] : [[LOW, 0, 0]])) // biome-ignore format: points
  expect(checkOf('ground.wall.verticality', bowed).demand.value).toBeCloseTo(0.01, 9)
})

test('points that do not go down, or lie outside the wall, are refused where they stand', () => {
  const at = ['6.8 m', '0 m']
  const pile = (lowAt: string, ...levels: string[]) => [
    put('/shaft/wall/asBuilt', { P1: { head: at, low: at, lowAt, between: levels.map((z) => ({ at, z })) } }),
  ]
  const refusal = (patch: Patch): string => {
    try {
      groundOf(patch)
      return 'taken'
    } catch (error) {
      return String(error)
    }
  }
  expect(refusal(pile('-20 m', '-5 m', '-10 m'))).toBe('taken')
  expect(refusal(pile('-20 m', '-10 m', '-5 m'))).toContain('/shaft/wall/asBuilt/P1/between/1/z')
  expect(refusal(pile('-20 m', '-10 m', '-10 m'))).toContain('/shaft/wall/asBuilt/P1/between/1/z')
  expect(refusal(pile('-20 m', '1 m'))).toContain('/shaft/wall/asBuilt/P1/between/0/z')
  expect(refusal(pile('-20 m', '-22 m'))).toContain('/shaft/wall/asBuilt/P1/lowAt')
  expect(refusal(pile('-26 m'))).toContain('no deeper than the toe')
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
  // the toe, 24 m down; it moves square to its own bearing, half an angle off the joint; the last 4 m of both are not surveyed
  expect(closed.demand.value).toBeCloseTo(((0.1 * 24) / 20) * Math.cos(Math.PI / PANELS) + 2 * 0.002 * 4, 9)
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
