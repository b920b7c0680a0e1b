import { describe, expect, test } from 'vitest'
import { changeDerivation, startDerivation } from './derivation.ts'
import type { Stages } from './derive.ts'
import { smallProject } from './lift/small.fixture.ts'
import { type SimulationResult, simulatedRuns } from './risk/index.ts'
import { compareScenarios, type ScenarioRow } from './scenarios.ts'
import { instantOf } from './whatif.ts'

const days = (d: number) => [d, d + 1, d + 4]
const small = (scenarios: unknown) => ({
  schemaVersion: 1,
  about: { title: 'Small' },
  programme: {
    start: '2031-11-03',
    restart: 'R',
    calendars: {
      always: {
        days: ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'],
        shifts: [['00:00', '24:00']],
        hoursPerDay: 24,
      },
    },
    resources: { crew: { name: 'Crew', kind: 'crew', capacity: 1, costPerDay: 1000 } },
    activities: {
      A: { name: 'A', calendar: 'always', days: days(4), needs: { crew: 1 } },
      B: { name: 'B', calendar: 'always', days: days(6), needs: { crew: 1 } },
      R: { name: 'Restart', calendar: 'always', days: [0, 0, 0], after: [{ to: 'A' }, { to: 'B' }] },
    },
  },
  scenarios,
})

const compared = (scenarios: unknown, runs = 400) =>
  compareScenarios(startDerivation(small(scenarios)), { runs, seed: 1 })

describe('scenarios of a project', () => {
  test('a second crew: both at a time, so that the restart comes sooner by the shorter of them in every run', () => {
    const { rows, broken } = compared({
      second: { name: 'Second crew', patch: [{ op: 'replace', path: '/programme/resources/crew/capacity', value: 2 }] },
    })
    expect(broken).toEqual([])
    expect(rows.map((r) => r.id)).toEqual([undefined, 'second'])
    const [stands, second] = rows
    expect(Date.parse(second?.chances?.p50 as string)).toBeLessThan(Date.parse(stands?.chances?.p50 as string))
    // A takes 4 to 8 days, and never less than B does in neither
    expect(second?.chances?.saved?.savedP50).toBeGreaterThan(4)
    expect(second?.chances?.saved?.savedP50).toBeLessThan(8)
    expect(stands?.chances?.saved).toBeUndefined()
  })

  test('one that touches nothing that luck acts on has the chances of the project as it stands, to the last second', () => {
    const { rows } = compared({
      title: { name: 'Another title', patch: [{ op: 'replace', path: '/about/title', value: 'X' }] },
    })
    expect(rows[1]?.chances?.p80).toBe(rows[0]?.chances?.p80)
    expect(rows[1]?.moved).toEqual([])
  })

  test('one whose patch makes no project stands apart with what is wrong, and the others are compared all the same', () => {
    const { rows, broken } = compared({
      lost: { name: 'Lost', patch: [{ op: 'replace', path: '/programme/resources/nobody/capacity', value: 2 }] },
      wrong: { name: 'Wrong', patch: [{ op: 'replace', path: '/programme/resources/crew/capacity', value: 'two' }] },
      good: { name: 'Good', patch: [{ op: 'replace', path: '/programme/resources/crew/capacity', value: 2 }] },
    })
    expect(broken.map(({ id }) => id)).toEqual(['lost', 'wrong'])
    for (const { problems } of broken) expect(problems.length).toBeGreaterThan(0)
    expect(rows.map(({ id }) => id)).toEqual([undefined, 'good'])
  })

  test('the project itself is left as it is', () => {
    const derivation = startDerivation(
      small({ second: { name: 'S', patch: [{ op: 'remove', path: '/programme/activities/B/needs' }] } }),
    )
    const before = JSON.stringify(derivation.document)
    const counted = { ...derivation.memory.computed }
    compareScenarios(derivation, { runs: 50, seed: 1 })
    expect(JSON.stringify(derivation.document)).toBe(before)
    expect(derivation.memory.computed).toEqual(counted)
  })
})

describe('what the branches share', () => {
  const ALWAYS = {
    days: ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'],
    shifts: [['06:00', '22:00']],
    hoursPerDay: 16,
  }
  const project = smallProject((d) => {
    d.climate.gustFactor = 1.5
    d.climate.roughness = '0.03 m'
    d.risks = { water: { risk: 'Water', activities: ['A'], probability: 0.4, delayDays: [1, 2, 9], cost: 1e5 } }
    Object.assign(d.programme, {
      calendars: { day: { ...ALWAYS, windLimited: true } },
      restart: 'R',
      activities: {
        // shorter than out and back, so that the wind on the lifts is felt
        A: { name: 'A', calendar: 'day', days: [0.5, 1, 2] },
        R: { name: 'Restart', calendar: 'day', days: [0, 0, 0], after: [{ to: 'A' }, { to: 'S1.back' }] },
      },
      standingCostPerDay: 1e4,
    })
    d.programme.work.spread = [0.5, 2]
    d.programme.work.resumeBefore = ['R']
    d.steps.S1.back = 'back'
    d.lifts.back = { ...d.lifts.out, kind: 'back', as: 'returned' }
  })
  const replace = (path: string, value: unknown) => ({ op: 'replace', path, value }) as const
  const branches = {
    title: replace('/about/title', 'X'),
    bay: replace('/bays/B1/allowable', '90 kPa'),
    lighter: replace('/settings/cogShift', '30 mm'),
    wind: replace('/systems/tower/wind/service', '6 m/s'),
    hook: replace('/systems/tower/hooks/main/highest', '30 m'),
    slower: replace('/systems/tower/hooks/main/speed', '4 m/h'),
    climate: replace('/climate/months/0/scale', '9 m/s'),
    water: replace('/risks/water/probability', 0.9),
    longer: replace('/programme/activities/A/days', days(9)),
    standing: replace('/programme/standingCostPerDay', 2e4),
    later: replace('/programme/start', '2032-01-05'),
    spread: replace('/programme/work/spread', [1, 1]),
    policy: replace('/programme/windPolicy/go', 0.6),
  }
  const options = { runs: 80, seed: 3 }
  const table = compareScenarios(
    startDerivation({
      ...project,
      scenarios: Object.fromEntries(Object.entries(branches).map(([id, op]) => [id, { name: id, patch: [op] }])),
    }),
    options,
  )

  test('each has the chances of a project of its own, whatever it shares with the project as it stands', () => {
    expect(table.broken).toEqual([])
    for (const [id, operation] of Object.entries(branches)) {
      const alone = changeDerivation(startDerivation(project), [operation]).derivation?.derived.stages as Stages
      const { result } = simulatedRuns(alone.programme, alone.lift, alone.model, options) as {
        result: SimulationResult
      }
      const { chances } = table.rows.find((row) => row.id === id) as ScenarioRow
      expect(chances?.p50, id).toBe(instantOf(alone.programme.origin, result.restart.p50))
      expect(chances?.p80, id).toBe(instantOf(alone.programme.origin, result.restart.p80))
      expect(chances?.cost, id).toEqual({ p50: result.cost.p50, p80: result.cost.p80 })
    }
  })

  test('those that change nothing that luck acts on share its runs, and are said to win no day', () => {
    // title, bay and shift of the centre of gravity
    expect(table.work.simulations).toBe(1 + Object.keys(branches).length - 3)
    for (const id of ['title', 'bay', 'lighter'])
      expect(table.rows.find((row) => row.id === id)?.chances?.saved).toMatchObject({ savedP80: 0, errorP80: 0 })
  })

  test('their results are the project’s own but for what a branch touches', () => {
    expect(table.work.again).toBeLessThan(Object.keys(branches).length * 0.5 * table.work.whole)
    // a plan is made anew where durations, calendars or dates are others: slower, longer, later, spread
    expect(table.work.plans).toBe(4)
  })
})
