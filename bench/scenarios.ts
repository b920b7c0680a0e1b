import type { Patch } from '../engine/src/working/patch.ts'
import { startJob } from '../host/src/jobs/job.ts'
import { atMost, type Line, reported, timeAtMost } from './line.ts'

const RUNS = 2000
/** On an ordinary machine of two cores, ms. */
const LONGEST = 30_000

const replace = (path: string, value: unknown): Patch => [{ op: 'replace', path, value }]
const EVERY_DAY = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun']

/** What a site would look at beside the plan: calendars, crews, places, weights, ground, wind, luck, dates. */
const branches: Readonly<Record<string, Patch>> = {
  'lifts every day': replace('/programme/calendars/lift/days', EVERY_DAY),
  'shaft floor for three': replace('/programme/resources/SHF/capacity', 3),
  'two welders more': replace('/programme/resources/WEL/capacity', 8),
  'a third rigging crew': replace('/programme/resources/RIG/capacity', 3),
  'a heavier hub': replace('/parts/CH-HUB/mass/value', '40.2 t'),
  'a bay that bears less': replace('/bays/B1/allowable', '180 kPa'),
  'more gusts': replace('/climate/gustFactor', 1.5),
  'a tighter eye': replace('/risks/RK02/probability', 0.07),
  'damages that cost more': replace('/programme/damagesPerDay', 90_000),
  'a start later by two weeks': replace('/programme/start', '2031-11-17'),
}

/** The demo and ten branches of it side by side, as the page has it done: a job of the host, in a thread beside the server's. */
export async function scenarioLines(demo: object): Promise<Line[]> {
  const scenarios = Object.fromEntries(
    Object.entries(branches).map(([name, patch], i) => [`branch-${i + 1}`, { name, patch }]),
  )
  const project = { document: { ...demo, scenarios }, meshes: new Map() }
  const [began, worked] = [performance.now(), process.cpuUsage()]
  const outcome = await startJob<'scenarios'>(project, { kind: 'scenarios', runs: RUNS, seed: 1 }).outcome
  const took = performance.now() - began
  const { user, system } = process.cpuUsage(worked)
  if (!('result' in outcome)) throw new Error('the scenarios of the bench make no table')
  const { rows, work } = outcome.result
  const of = Object.keys(branches).length
  return [
    timeAtMost(`${of} scenarios beside the demo, ${RUNS} runs each, from nothing`, took, LONGEST),
    {
      ...reported('  scenarios with verdicts and chances', rows.length - 1, ''),
      limit: String(of),
      holds: rows.length === of + 1,
    },
    atMost('  results worked again for all of them, against those of the demo', work.again / work.whole, '', 1),
    reported('  plans made anew', work.plans, ''),
    atMost('  simulations, that of the demo among them', work.simulations, '', of),
    reported('  processor time, all threads', (user + system) / 1e6, 's'),
  ]
}
