import { expect, test } from 'vitest'
import { missingUnder } from '../working/answer.ts'
import type { Check } from '../working/check.ts'
import { onFloats } from './feet.fixture.ts'
import { hangFromLines, type LinedLoad } from './lines.ts'
import { type Document, outcome } from './small.fixture.ts'

/** The block lifted level by two hooks, each with two slings to one end; 0.3 m of it nearer to the main hook. */
const shared = (change: (d: Document) => void = () => {}) =>
  outcome('out', (d) => {
    const legs = (points: string[]) => ({ legs: points.map((to) => ({ item: 'sling', to })) })
    d.lifts.out.rigging = legs(['a', 'd'])
    d.lifts.out.tail = { hook: 'tail', rigging: legs(['b', 'c']) }
    d.parts.block.solids[0].centre[0] = '0.3 m'
    change(d)
  })

const demandOf = (out: ReturnType<typeof shared>, id: string): number =>
  out.checks.find((c) => c.id === id)?.demand.value as number

test('two hooks share a level piece by the lever, each with its own rigging', () => {
  const out = shared()
  // points at ±1.2 m, centre of gravity at +0.3 m: 1.5 / 2.4 of 21.24 t (with all slings), and two slings each
  const load = 21_000 + 4 * 60
  expect(demandOf(out, 'lift.hook.use/out/main') / (load * (1.5 / 2.4) + 120)).toBeCloseTo(1, 2)
  expect(demandOf(out, 'lift.hook.use/out/tail') / (load * (0.9 / 2.4) + 120)).toBeCloseTo(1, 2)
})

test('the worst share is no smaller than the planned one', () => {
  const out = shared()
  for (const hook of ['main', 'tail'])
    expect(demandOf(out, `lift.turn.worst-share/out/${hook}`)).toBeGreaterThan(
      demandOf(out, `lift.hook.use/out/${hook}`),
    )
})

test('a hook of too small a rating fails by its own share, not by the whole piece', () => {
  const out = shared((d) => {
    d.systems.tower.hooks.tail.rated = '6 t'
  })
  const verdict = (id: string) => out.checks.find((c) => c.id === id)?.verdict
  expect(verdict('lift.hook.use/out/tail')).toBe('fail')
  expect(verdict('lift.hook.use/out/main')).toBe('pass')
})

/** The tail hook on a machine of its own. */
const twoMachines = (change: (d: Document) => void = () => {}) =>
  shared((d) => {
    d.systems.tower.hooks.main.traverse = '1 m/min'
    d.systems.second = { ...structuredClone(d.systems.tower), name: 'second tower' }
    d.lifts.out.tail.system = 'second'
    delete d.settings.criticalUse
    change(d)
  })
const capacityOf = (out: ReturnType<typeof shared>, id: string): number =>
  out.checks.find((c) => c.id === id)?.capacity.value as number

test('two machines that share a load are each rated a fifth above their share, or as the project says', () => {
  const rated = 40_000
  for (const hook of ['main', 'tail'])
    expect(
      capacityOf(
        shared((d) => delete d.settings.criticalUse),
        `lift.hook.use/out/${hook}`,
      ),
    ).toBe(rated)
  expect(capacityOf(twoMachines(), 'lift.hook.use/out/main')).toBeCloseTo(rated / 1.2, 6)
  const stricter = twoMachines((d) => {
    d.systems.tower.tandem = 0.75
  })
  expect(capacityOf(stricter, 'lift.hook.use/out/main')).toBeCloseTo(rated * 0.75, 6)
})

test('two machines are asked how they keep to their shares, two hooks of one machine are not', () => {
  const arranged = (out: ReturnType<typeof shared>) => out.checks.find((c) => c.kind === 'lift.class.arranged')
  const missing = (out: ReturnType<typeof shared>) => missingUnder((arranged(out) as Check).demand)
  expect(missing(twoMachines())).toEqual(['/lifts/out/arranged/sharing'])
  expect(arranged(shared())?.verdict).toBe('pass')
  const said = twoMachines((d) => {
    d.lifts.out.arranged.sharing = 'level read at both ends, loads read on both'
  })
  expect(arranged(said)?.verdict).toBe('pass')
})

/** The same from two cranes on floats, 8 m and 9 m from their hooks. */
const twoCranes = (change: (d: Document) => void = () => {}) =>
  twoMachines((d) => {
    onFloats(d)
    d.systems.second = { ...structuredClone(d.systems.tower), name: 'second crane' }
    d.lifts.out.tail.radius = '9 m'
    change(d)
  })
const verdictOf = (out: ReturnType<typeof shared>, id: string) => out.checks.find((c) => c.id === id)?.verdict

test('each of two cranes bears on its feet its own share, and together they bear the piece and all that hangs', () => {
  const out = twoCranes()
  const [main, tail] = [out.underHead.value as number, out.second?.underHead.value as number]
  // points at ±1.2 m, centre of gravity at +0.3 m; the worst shares add up to a little more than the piece
  expect(main).toBeGreaterThan(tail)
  const together = out.hookLoad.value as number
  expect(main + tail).toBeGreaterThan(together)
  expect(main + tail).toBeLessThan(1.3 * together + 6_000)
  expect(out.second?.feet?.feet.map((f) => f.label)).toEqual(['worst float'])
  expect(out.second?.radius.value).toBe(9)
})

test('the second machine stands on a base, a load test, a wind limit and brakes of its own', () => {
  const well = twoCranes()
  const [base, tested, wind, holds] = [
    'lift.crane.base/out/second',
    'lift.system.load-test/out/second',
    'lift.wind.allowable/out',
    'lift.failure.holds/out',
  ] as const
  const ids = well.checks.map((c) => c.id)
  expect(ids.filter((id, i) => ids.indexOf(id) !== i)).toEqual([])
  for (const id of [base, tested]) expect(verdictOf(well, id), id).toBe('pass')
  const far = twoCranes((d) => {
    d.lifts.out.tail.radius = '25 m'
  })
  expect([verdictOf(far, base), verdictOf(far, 'lift.crane.base/out')]).toEqual(['fail', 'pass'])
  const untested = twoCranes((d) => {
    delete d.systems.second.tested
  })
  expect([verdictOf(untested, tested), verdictOf(untested, 'lift.system.load-test/out')]).toEqual(['open', 'pass'])
  const lets = twoMachines((d) => {
    d.systems.second.standby.holds = false
  })
  expect([verdictOf(twoMachines(), holds), verdictOf(lets, holds)]).toEqual(['pass', 'fail'])
  // what is known to let the load down fails, whatever else is not known
  const unsaid = twoMachines((d) => {
    d.systems.second.standby.holds = false
    delete d.systems.tower.standby
  })
  expect(verdictOf(unsaid, holds)).toBe('fail')
  const calm = twoCranes((d) => {
    d.systems.second.wind.service = '5 m/s'
    delete d.lifts.out.stopWind
  })
  expect(calm.allowableWind.value).toBeLessThan(well.allowableWind.value as number)
  expect(calm.allowableWind.value).toBeLessThanOrEqual(5)
  expect(verdictOf(calm, wind)).toBe('pass')
  const late = twoMachines((d) => {
    d.systems.second.standby.unit = '40 h'
  })
  const slowest = (out: typeof late) =>
    Math.max(...out.refuges.filter((r) => r.failure === 'jack or winch').map((r) => r.time.value as number))
  expect(slowest(late) - slowest(twoMachines())).toBeCloseTo(36 * 3600, 3)
})

test('hooks that two machines call the same are told apart, check by check', () => {
  const ids = twoMachines((d) => {
    d.lifts.out.tail.hook = 'main'
  }).checks.map((c) => c.id)
  expect(ids).toContain('lift.hook.use/out/tower.main')
  expect(ids).toContain('lift.hook.use/out/second.main')
  expect(ids.filter((id, i) => ids.indexOf(id) !== i)).toEqual([])
})

test('two hooks of one machine are held to what they may carry together', () => {
  const out = shared()
  expect(demandOf(out, 'lift.hook.both/out') / (21_000 + 4 * 60 + 240)).toBeCloseTo(1, 2)
})

/** Four plumb lines of EA = E·0.785 d² and 10 m, one short; after a marine guideline's figures for skew load. */
const fourPlumb = (short: number): LinedLoad => ({
  lines: (
    [
      [4, 3],
      [-4, 3],
      [-4, -3],
      [4, -3],
    ] as const
  ).map(([x, y], i) => ({
    anchor: [x, y, 10] as const,
    to: [x, y, 0] as const,
    length: 10 - (i === 0 ? short : 0),
    stiffness: 8e10 * 0.785 * 0.064 ** 2,
  })),
  weight: 1e6,
  cog: [0, 0, -1],
})

test('one of four plumb lines short by 9.7 mm loads its diagonal by a quarter more', () => {
  const { tensions } = hangFromLines(fourPlumb(0.009719))
  expect((tensions[0] as number) / 250_000).toBeCloseTo(1.25, 2)
  expect((tensions[2] as number) / 250_000).toBeCloseTo(1.25, 2)
})

test('the same step does four times the harm with a quarter of the line left', () => {
  const near = fourPlumb(0)
  const quarter: LinedLoad = {
    ...near,
    lines: near.lines.map((l, i) => ({
      ...l,
      anchor: [l.anchor[0], l.anchor[1], 2.5],
      length: 2.5 - (i === 0 ? 0.002 : 0),
    })),
  }
  const rise = (t: readonly number[]) => (t[0] as number) - 250_000
  expect(rise(hangFromLines(quarter).tensions) / rise(hangFromLines(fourPlumb(0.002)).tensions)).toBeCloseTo(4, 1)
})

test('the second hook has to reach over its own points, wherever the piece goes', () => {
  const reach = (out: ReturnType<typeof shared>, of: string) =>
    out.checks.find((c) => c.id === `lift.hook.reach/out${of}`)
  const short = shared((d) => {
    // its points hang 1.2 m west of the axis
    d.systems.tower.hooks.tail.travel = ['-1 m', '5 m']
  })
  expect([reach(short, '')?.verdict, reach(short, '/tail')?.verdict]).toEqual(['pass', 'fail'])
  const shortRunway = twoMachines((d) => {
    d.systems.second.runway = ['-10 m', '15 m']
  })
  expect([reach(shortRunway, '')?.verdict, reach(shortRunway, '/tail')?.verdict]).toEqual(['pass', 'fail'])
  const unsaid = twoMachines((d) => delete d.systems.second.hooks.tail.travel)
  expect(reach(unsaid, '/tail')?.verdict).toBe('open')
})

test('a lift that no step carries out has no way, so that nobody knows what its hook has to reach', () => {
  const lost = shared((d) => {
    delete d.steps.S1.lift
  })
  expect(lost.checks.find((c) => c.id === 'lift.hook.reach/out')?.verdict).toBe('open')
})
