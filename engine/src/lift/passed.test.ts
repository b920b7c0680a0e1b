import { expect, test } from 'vitest'
import type { Check } from '../working/check.ts'
import { type Document, liftsOf, outcome } from './small.fixture.ts'

const rows = (...pairs: number[]) =>
  pairs.flatMap((r, i) => (i % 2 === 0 ? [{ radius: `${r} m`, rated: `${pairs[i + 1]} t` }] : []))

/** The small project's tower changed to a crane at (20, 10): 22.4 m from the shaft and from the bay, 20 m from between them. */
const onCrane =
  (change: (d: Document) => void = () => {}) =>
  (d: Document): void => {
    const { tower } = d.systems
    Object.assign(tower, { kind: 'crawler crane', standings: [['20 m', '10 m']], slewSpeed: '30 deg/min', luffSpeed: '4 m/min' }) // biome-ignore format: one crane
    delete d.lifts.turn
    for (const hook of Object.values(tower.hooks) as Document[]) {
      delete hook.rated
      hook.charts = { main: { rows: rows(10, 90, 24, 60) } }
    }
    change(d)
  }
const rangeOf = (of: { checks: readonly Check[] }, hook = 'main'): Check =>
  of.checks.find(({ id }) => id === `lift.crane.chart-range/out/${hook}`) as Check
const range = (change?: (d: Document) => void, hook?: string): Check => rangeOf(outcome('out', onCrane(change)), hook)

/** The piece between two cranes, one at each side: the second at (−20, 10). */
const shared = (change: (d: Document) => void = () => {}) =>
  outcome(
    'out',
    onCrane((d) => {
      const legs = (points: string[]) => ({ legs: points.map((to) => ({ item: 'sling', to })) })
      d.systems.second = { ...structuredClone(d.systems.tower), name: 'Second crane', standings: [['-20 m', '10 m']] }
      d.lifts.out.rigging = legs(['a', 'd'])
      d.lifts.out.tail = { system: 'second', hook: 'tail', rigging: legs(['b', 'c']) }
      change(d)
    }),
  )

test('a piece on one hook that comes nearer than the first row of the chart is refused', () => {
  expect(range().verdict).toBe('pass')
  const near = range((d) => {
    d.lifts.out.landing = ['12 m', '10 m', '0 m']
  })
  expect(near.verdict).toBe('fail')
  expect(near.reasons[0]).toMatch(
    /a radius of 8.0 m: the chart runs from 10.0 m to 24.0 m; keep the load 2.0 m farther/,
  )
})

test('so is a shared piece, by the crane that it comes too near to and by no other', () => {
  const far = shared()
  expect([rangeOf(far).verdict, rangeOf(far, 'tail').verdict]).toEqual(['pass', 'pass'])
  // on its arc about the first crane, 22.4 m out, the piece comes as far as x = −2.4; the points of the second hang 1.2 m beyond
  // that, 16.4 m from it, and 21.3 m at both ends of the arc
  const first = (radius: string) => (d: Document) => {
    d.systems.second.hooks.tail.charts.main.rows[0].radius = radius
  }
  const near = shared(first('17 m'))
  expect([rangeOf(near).verdict, rangeOf(near, 'tail').verdict]).toEqual(['pass', 'fail'])
  expect(near.checks.find(({ id }) => id === 'lift.hook.use/out/tail')?.verdict).toBe('fail')
  expect(rangeOf(shared(first('16 m')), 'tail').verdict).toBe('pass')
})

test('the trailer beside the bay that takes the piece is where its crane has to reach', () => {
  const trailer = (at: string) =>
    outcome(
      'out',
      onCrane((d) => {
        const size = { payload: '40 t', selfMass: '12 t', platform: ['12 m', '2.6 m'] }
        d.transports = { trailer: { kind: 'trailer', ...size, at: [at, '20 m', '1 m'], takes: ['block'], to: ['B1'] } }
      }),
    ).radius?.value as number
  expect(trailer('1 m')).toBeCloseTo(Math.hypot(20, 10), 1)
  expect(trailer('-4 m')).toBeCloseTo(26, 9)
})

test('a crane with one standing stands there, whether its lift says so or not', () => {
  const said = outcome('out', onCrane((d) => { d.lifts.out.standing = 0 })) // biome-ignore format: one lift
  const unsaid = outcome('out', onCrane())
  expect(unsaid.radius?.value).toBe(said.radius?.value)
  expect(unsaid.zone).toEqual(said.zone)
  expect(unsaid.checks.map(({ id, verdict }) => [id, verdict])).toEqual(
    said.checks.map(({ id, verdict }) => [id, verdict]),
  )
})

/** A chart over the rear alone, with the carrier facing away from the shaft: the shaft lies 26.6° to one side of straight behind. */
const overRear =
  (change: (d: Document) => void = () => {}) =>
  (d: Document): void => {
    d.systems.tower.hooks.main.charts.main.sector = ['140 deg', '220 deg']
    d.systems.tower.headings = ['0 deg']
    d.lifts.out.setUp = { slew: ['140 deg', '220 deg'] }
    change(d)
  }

test('a chart over the rear holds while the hook stays over the rear, and rates nothing once its moves take it over the side', () => {
  expect(range(overRear()).verdict).toBe('pass')
  const aside = range(
    overRear((d) => {
      d.lifts.out.landing = ['20 m', '30 m', '0 m']
    }),
  )
  expect(aside.verdict).toBe('fail')
  expect(aside.reasons[0]).toMatch(/no chart holds at a slew of 90°/)
})

test('a slew that is stated is open while the heading of the carrier is not: nobody can say over what it swings', () => {
  const unsaid = range(
    overRear((d) => {
      delete d.systems.tower.headings
    }),
  )
  expect(unsaid.verdict).toBe('open')
  expect(unsaid.reasons).toEqual(['/systems/tower/headings/0 is not given'])
  // over the whole circle it is all the same
  const round = range(
    overRear((d) => {
      delete d.systems.tower.headings
      d.systems.tower.hooks.main.charts.main.sector = ['0 deg', '360 deg']
    }),
  )
  expect(round.verdict).toBe('pass')
})

test('with a boom fitted a chart that names none leaves the use of the hook open, and says how to mend it', () => {
  const boomed = (boom?: string) =>
    outcome(
      'out',
      onCrane((d) => {
        d.systems.tower.setUp = { boom: '42 m' }
        if (boom !== undefined) d.systems.tower.hooks.main.charts.main.boom = boom
      }),
    )
  const use = (of: ReturnType<typeof boomed>) => of.checks.find(({ id }) => id === 'lift.hook.use/out/main') as Check
  expect(use(boomed()).verdict).toBe('open')
  expect(use(boomed()).reasons).toEqual(['/systems/tower/hooks/main/charts/main/boom is not given'])
  expect(rangeOf(boomed()).assumptions.join()).toMatch(/main does not say its boom: state under charts/)
  expect(use(boomed('42 m')).verdict).toBe('pass')
})

test('a second hook of one crane is on the boom that the lift says is fitted', () => {
  const onOne = (change: (d: Document) => void = () => {}) =>
    outcome(
      'out',
      onCrane((d) => {
        const legs = (points: string[]) => ({ legs: points.map((to) => ({ item: 'sling', to })) })
        d.lifts.out.rigging = legs(['a', 'd'])
        d.lifts.out.tail = { hook: 'tail', rigging: legs(['b', 'c']) }
        d.systems.tower.setUp = { boom: '30 m' }
        d.lifts.out.setUp = { boom: '42 m' }
        for (const hook of ['main', 'tail'])
          d.systems.tower.hooks[hook].charts = {
            short: { boom: '30 m', rows: rows(10, 90, 24, 60) },
            long: { boom: '42 m', rows: rows(10, 50, 24, 30) },
          }
        change(d)
      }),
    )
  expect(onOne().charts.map(({ gross }) => gross.value)).toEqual([30_000, 30_000])
})

test('a hook with a rating of its own and a chart is held to the lower of both', () => {
  const rated = (own: string) =>
    outcome('out', onCrane((d) => { d.systems.tower.hooks.main.rated = own })).rated.value // biome-ignore format: one lift
  expect(rated('50 t')).toBe(50_000)
  expect(rated('80 t')).toBe(60_000)
})

test('both hooks of one machine are held together with their blocks where the rating is that above them', () => {
  const together = (point: string) =>
    liftsOf((d) => {
      for (const hook of Object.values(d.systems.tower.hooks) as Document[]) hook.basis.point = point
    }).lifts.turn?.checks.find(({ id }) => id === 'lift.hook.both/turn')?.demand.value as number
  expect(together('above the block') - together('below the block')).toBeCloseTo(2000, 6)
})

test('what a chart leaves for load and rigging is less the rope as well, in a deep shaft', () => {
  const left = (roped: boolean) =>
    outcome(
      'out',
      onCrane((d) => {
        const { main } = d.systems.tower.hooks
        main.basis.point = 'above the block'
        main.lowest = '-10 m'
        if (roped) main.rope = { parts: 8, perLength: '5 kg/m' }
      }),
    ).charts[0]?.net.value as number
  expect(left(false) - left(true)).toBeCloseTo(8 * (18 + 10) * 5, 6)
})
