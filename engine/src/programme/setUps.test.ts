import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { ALWAYS } from './calendar.ts'
import { proveExact } from './exact.ts'
import { resourceFlow, withHandOvers } from './flow.ts'
import { planOf, quickPlan } from './improve.ts'
import { type Network, networkOf } from './network.ts'
import { earlyDates, finishes } from './passes.ts'
import { modelOf, programmeFor, programmeOf, task } from './programme.fixture.ts'
import { improvePlan } from './proposal.ts'
import { violations } from './residual.ts'
import { latestPlan, serialPlan } from './serial.ts'
import { byEnumeration } from './shifts.fixture.ts'
import { chain } from './small.fixture.ts'

interface Job {
  work: number
  kind: number
  after: readonly number[]
}

/** Jobs on one hoist that is set up between two kinds of work. */
function hoist(jobs: readonly Job[], time: readonly (readonly number[])[]): Network {
  const activities = Object.fromEntries(
    jobs.map(({ work, after }, i) => [
      `J${i}`,
      { ...chain(`J${i}`, ...after.map((p) => `J${p}`)), work: [work, work, work] as const, needs: { hoist: 1 } },
    ]),
  )
  const kindOf = Object.fromEntries(jobs.flatMap(({ kind }, i) => (kind < 0 ? [] : [[`J${i}`, kind]])))
  const made = networkOf({
    activities,
    calendars: new Map([['always', ALWAYS]]),
    resources: { hoist: { capacity: 1 } },
    setUps: { hoist: { kindOf, time } },
  })
  return made.network as Network
}

const job = (work: number, kind: number, ...after: number[]): Job => ({ work, kind, after })
const FOUR = [
  [0, 4],
  [3, 0],
]

const jobsOf = fc
  .array(fc.record({ work: fc.integer({ min: 1, max: 6 }), kind: fc.integer({ min: -1, max: 1 }), p: fc.nat(4) }), {
    minLength: 2,
    maxLength: 5,
  })
  .map((all) => all.map(({ work, kind, p }, i) => job(work, kind, ...(p > 0 && p <= i ? [i - p] : []))))
const timesOf = fc.tuple(fc.nat(5), fc.nat(5)).map(([there, back]) => [
  [0, there],
  [back, 0],
])

describe('a hoist that is set up between kinds of work', () => {
  test('is set up once when like work goes together: 2 + 2, four for the change, 3 + 3', () => {
    const network = hoist([job(2, 0), job(3, 1), job(2, 0), job(3, 1)], FOUR)
    const inTurn = planOf(network, serialPlan(network, Int32Array.from([0, 1, 2, 3])))
    // the third goes back before the second only where it fits: it does not
    expect(inTurn.end).toBe(2 + 4 + 3 + 3 + 2 + 4 + 3)
    expect(quickPlan(network).end).toBe(13)
    const proof = proveExact(network, { plan: inTurn, bound: 0, effort: 5000 })
    expect(proof.closed).toBe(true)
    expect(proof.plan.end).toBe(13)
    expect(proof.bound).toBeGreaterThanOrEqual(12)
  })

  test('keeps its set-up while it does work of no kind', () => {
    const network = hoist([job(2, 0), job(1, -1, 0), job(3, 1, 1)], FOUR)
    expect(quickPlan(network).end).toBe(2 + 4 + 3)
  })

  test('no plan forward or backward comes closer than the set-up, recounted from the dates alone', () => {
    let apart = 0
    fc.assert(
      fc.property(jobsOf, timesOf, (jobs, time) => {
        const network = hoist(jobs, time)
        const plan = quickPlan(network)
        expect(violations(network, plan.dates)).toEqual([])
        const back = latestPlan(network, Int32Array.from(network.order).reverse(), plan.end + 100, plan.end + 100)
        expect(violations(network, back)).toEqual([])
        apart += Number(jobs.some(({ kind }) => kind === 0) && jobs.some(({ kind }) => kind === 1))
      }),
      { numRuns: 300, seed: 5 },
    )
    expect(apart).toBeGreaterThan(100)
  })

  test('the proof agrees with every order tried', () => {
    fc.assert(
      fc.property(jobsOf, timesOf, (jobs, time) => {
        const network = hoist(jobs, time)
        const best = byEnumeration(network)
        const found = proveExact(network, { plan: quickPlan(network), bound: 0, effort: 50_000 })
        expect(found.closed).toBe(true)
        // what is less than a second earlier is the same plan
        expect(found.plan.end).toBe(best)
        expect(found.bound).toBeGreaterThanOrEqual(best - 1)
        expect(found.bound).toBeLessThanOrEqual(best)
      }),
      { numRuns: 150, seed: 7 },
    )
  })

  test('as links of the plan its hand-overs keep the set-up whatever the durations', () => {
    fc.assert(
      fc.property(
        jobsOf,
        timesOf,
        fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 5, maxLength: 5 }),
        (jobs, time, other) => {
          const network = hoist(jobs, time)
          const bound = withHandOvers(network, resourceFlow(network, quickPlan(network).dates))
          const work = Float64Array.from(jobs, (_, i) => other[i] as number)
          const changed = { ...bound, work }
          const dates = earlyDates(changed)
          expect(violations({ ...network, work }, dates).filter(({ what }) => what.includes('set-up'))).toEqual([])
          expect(finishes(changed, dates).end).toBeGreaterThan(0)
        },
      ),
      { numRuns: 200, seed: 9 },
    )
  })
})

const CRANE = { crane: { name: 'Crane', kind: 'plant', capacity: 1 } }
const always = (days: number, more = {}) => task({ calendar: 'always', days: [days, days, days], ...more })
const SET_UP = {
  gear: {
    what: 'frame or slings on the hook',
    resource: 'crane',
    kinds: { frame: { activities: ['A', 'C'] }, slings: { activities: ['B'] } },
    times: [
      { from: 'frame', to: 'slings', time: '12 h' },
      { from: 'slings', to: 'frame', time: '1 d' },
    ],
  },
}
const held = { needs: { crane: 1 } }

describe('in a project file', () => {
  test('a set-up takes its time between kinds, and the plan puts like work together', () => {
    const activities = {
      A: always(1, held),
      B: always(1, held),
      C: always(1, held),
      R: always(0, { after: [{ to: 'A' }, { to: 'B' }, { to: 'C' }] }),
    }
    const of = (setUps: unknown) =>
      programmeFor({ programme: programmeOf({ resources: CRANE, activities, setUps, restart: 'R' }) })
    expect(of({}).restart).toBe(3 * 86_400)
    expect(of(SET_UP).restart).toBeGreaterThanOrEqual(3.5 * 86_400)
    const proposal = improvePlan(of(SET_UP), { effort: 200, seed: 1 })
    expect(proposal).toMatchObject({ restart: 3.5 * 86_400, proven: true })
  })

  test('a set-up of what there are two of, an unknown kind, and two set-ups of one thing are refused', () => {
    const said = (resources: unknown, setUps: unknown) => () =>
      programmeFor({
        programme: programmeOf({
          resources,
          activities: { A: always(1, held), B: always(1, held), C: always(1, held) },
          setUps,
        }),
      })
    expect(said({ crane: { ...CRANE.crane, capacity: 2 } }, SET_UP)).toThrow(/of which there are 2/)
    expect(said(CRANE, { a: SET_UP.gear, b: SET_UP.gear })).toThrow(/one set-up for a resource/)
    expect(said(CRANE, { gear: { ...SET_UP.gear, times: [{ from: 'frame', to: 'chains', time: '1 h' }] } })).toThrow(
      /a kind of this set-up/,
    )
  })
})

describe('another way to do an activity', () => {
  const ways = {
    nights: { what: 'day and night', of: { activities: ['A', 'B'] }, work: 1, calendar: 'always', fixedCost: 900 },
  }
  const activities = {
    A: task({ days: [4, 4, 4] }),
    B: task({ days: [1, 1, 1] }),
    R: task({ calendar: 'always', days: [0, 0, 0], after: [{ to: 'A' }, { to: 'B' }] }),
  }
  const project = (more = {}) => programmeOf({ activities, ways, restart: 'R', ...more })

  test('adopted in its adjustment, takes that way’s hours and cost: 48 h of work day and night are two days', () => {
    const adopted = programmeFor({
      programme: project({ adjustments: { A: { reason: 'nights agreed', way: 'nights' } } }),
    })
    expect(adopted.restart).toBe(2 * 86_400)
    expect(adopted.activities.A?.fixedCost).toBe(900)
  })

  test('is proposed where it brings the restart forward, and only there; the patch gives what it promised', () => {
    const standing = programmeFor({ programme: project() })
    const typed = modelOf({ programme: project() }).project.programme
    const proposal = improvePlan(standing, { effort: 500, seed: 1, typed })
    expect(proposal?.ways.map(({ activity, way }) => [activity, way])).toEqual([['A', 'nights']])
    const adopted = programmeFor({
      programme: project({ adjustments: { A: { reason: 'proposed', way: 'nights' } }, sequence: proposal?.sequence }),
    })
    expect(adopted.restart).toBe(proposal?.restart)
    expect(proposal?.patch.map(({ path }) => path)).toEqual(['/programme/adjustments/A', '/programme/sequence'])
  })

  test('for an activity that it is not for is listed as what no longer fits; one that is not there is refused', () => {
    const misfit = programmeFor({ programme: project({ adjustments: { R: { reason: 'by mistake', way: 'nights' } } }) })
    expect(misfit.questions?.flatMap(({ offenders }) => offenders.map(({ text }) => text)).join()).toContain(
      'which is not for it',
    )
    expect(() =>
      programmeFor({ programme: project({ adjustments: { A: { reason: 'x', way: 'weekends' } } }) }),
    ).toThrow(/a way/)
  })
})
