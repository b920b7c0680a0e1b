import { describe, expect, test } from 'vitest'
import { startDerivation } from './derivation.ts'
import { compareScenarios } from './scenarios.ts'

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
