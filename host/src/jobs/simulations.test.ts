import { type BegunSimulation, compareScenarios, type Stages, startDerivation } from '@shieldwright/engine'
import { type Luck, simulateLuck } from '@shieldwright/engine/risk/luck.ts'
import { expect, test } from 'vitest'
import { type Progress, startJob } from './job.ts'
import { simulationsBeside } from './simulations.ts'

const LONG = 300_000

const days = (d: number) => [d, d + 1, d + 4]
const crews = (count: number) => ({
  name: `${count} crews`,
  patch: [{ op: 'replace', path: '/programme/resources/crew/capacity', value: count }],
})
const longer = (count: number) => ({
  name: `A from ${count} days`,
  patch: [{ op: 'replace', path: '/programme/activities/A/days', value: days(count) }],
})
const project = {
  schemaVersion: 1,
  about: { title: 'Two activities' },
  programme: {
    start: '2031-11-03',
    restart: 'R',
    calendars: { days: { days: ['Mon', 'Tue', 'Wed'], shifts: [['07:00', '17:00']], hoursPerDay: 10 } },
    resources: { crew: { name: 'Crew', kind: 'crew', capacity: 1 } },
    activities: {
      A: { name: 'A', calendar: 'days', days: days(4), needs: { crew: 1 } },
      B: { name: 'B', calendar: 'days', days: days(6), needs: { crew: 1 } },
      R: { name: 'Restart', calendar: 'days', days: [0, 0, 0], after: [{ to: 'A' }, { to: 'B' }] },
    },
  },
  scenarios: {
    two: crews(2),
    wrong: { name: 'Wrong', patch: [{ op: 'replace', path: '/programme/resources/crew/capacity', value: 'two' }] },
    longer: longer(9),
    title: { name: 'Another title', patch: [{ op: 'replace', path: '/about/title', value: 'X' }] },
    longest: longer(12),
  },
}
const held = { document: project, meshes: new Map() }

test(
  'one thread and two give the same table, and so does no thread at all',
  async () => {
    const request = { kind: 'scenarios', runs: 2000, seed: 7 } as const
    const tables = await Promise.all(
      [1, 2, 3].map(async (threads) => {
        const told: Progress[] = []
        const outcome = await startJob<'scenarios'>(held, request, (progress) => told.push(progress), threads).outcome
        for (const { done, of } of told) expect([of, done <= of]).toEqual([5, true])
        return 'result' in outcome ? outcome.result : undefined
      }),
    )
    const here = compareScenarios(startDerivation(project), { runs: 2000, seed: 7 })
    expect(here.rows.map(({ id }) => id)).toEqual([undefined, 'two', 'longer', 'title', 'longest'])
    expect(here.broken.map(({ id }) => id)).toEqual(['wrong'])
    expect(here.work.simulations).toBe(4)
    for (const table of tables) expect(table).toEqual(here)
  },
  LONG,
)

test(
  'a table whose every simulation was made in another thread is the one that this thread makes',
  async () => {
    const options = { runs: 2000, seed: 7 }
    const lucks: Luck[] = []
    const here = compareScenarios(startDerivation(project), {
      ...options,
      begin: (luck) => {
        lucks.push(luck)
        const made = simulateLuck(luck, options)
        return { isEnded: () => true, end: () => made }
      },
    })
    const begin = simulationsBeside(2, options, new SharedArrayBuffer(4))
    const begun = lucks.map(begin)
    while (!begun.every(({ isEnded }) => isEnded())) await new Promise((resolve) => setTimeout(resolve, 50))
    const there = compareScenarios(startDerivation(project), {
      ...options,
      begin: () => begun.shift() as BegunSimulation,
    })
    expect(begun).toEqual([])
    expect(there).toEqual(here)
  },
  LONG,
)

test(
  'a job that is cancelled ends in every thread',
  async () => {
    const request = { kind: 'scenarios', runs: 10_000_000, seed: 7 } as const
    for (const threads of [1, 2]) {
      const job = startJob<'scenarios'>(held, request, () => job.cancel(), threads)
      expect(await job.outcome).toEqual({ cancelled: true })
    }
  },
  LONG,
)

test(
  'a simulation in another thread ends early when it is told to stop, with the runs that it has made',
  async () => {
    const stop = new SharedArrayBuffer(4)
    const stages = startDerivation(project).derived.stages as Stages
    const luck: Luck = { programme: stages.programme, lift: stages.lift, model: stages.model }
    const options = { runs: 10_000_000, seed: 7, shouldContinue: () => true }
    const begun = simulationsBeside(1, options, stop)(luck)
    setTimeout(() => Atomics.store(new Int32Array(stop), 0, 1), 3000)
    while (!begun.isEnded()) await new Promise((resolve) => setTimeout(resolve, 100))
    const made = begun.end()
    expect('runs' in made && made.runs.restart.length).toBeLessThan(options.runs)
  },
  LONG,
)
