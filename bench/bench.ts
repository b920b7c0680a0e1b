import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { type Derivation, derive, startDerivation, tryChange } from '../engine/src/index.ts'
import { lift } from '../engine/src/lift/index.ts'
import { simulate } from '../engine/src/risk/index.ts'
import { freshMemory } from '../engine/src/working/memory.ts'
import { table } from '../host/src/cli/table.ts'
import { demoProject } from '../host/src/project/demo.ts'
import { readDocument } from '../host/src/project/readDocument.ts'
import { chromiumPath } from '../scripts/chromium.mjs'
import { pageBuilt } from '../scripts/page.mjs'
import { fuzzLines } from './fuzz.ts'
import { groundLines } from './ground.ts'
import { grownProject } from './grown.ts'
import { instanceLines } from './instances.ts'
import { killedLines } from './killed.ts'
import { largeProject } from './large.ts'
import { type Line, markOf, reported, timeAtMost } from './line.ts'
import { pageLines, scriptLines } from './page.ts'
import { riggingLines } from './rigging.ts'
import { scenarioLines } from './scenarios.ts'
import { sceneLines } from './scene.ts'
import { soakLines } from './soak.ts'
import { storeLines } from './store.ts'
import { stripLines } from './strip.ts'
import { growthExponent, timed, timedOnProcessor, total } from './timed.ts'
import { waitingLines } from './waiting.ts'

/** One edited mass computes at least so many times fewer results than the whole. */
const LEAST_SAVING = 10

const RUNS = 10_000

const read = readDocument(demoProject)
if ('problems' in read) throw new Error(read.problems.map((p) => p.pointer).join())
const demo = read.document as { parts: Record<string, { mass?: { value: string } }> }
const demoParts = demo as Parameters<typeof largeProject>[0]
const lines = [
  ...firstLines(),
  ...growthLines(),
  ...wholeLines(),
  ...editLines(),
  ...liftLines(),
  ...groundLines(demo),
  ...scaleLines(),
  ...riggingLines(),
  ...sceneLines(demo),
  ...simulationLines(),
  ...(await scenarioLines(demo)),
  ...instanceLines(),
  ...(await linesInBrowser()),
  ...stripLines(demo),
  ...(await storeLines(demo)),
  ...(await waitingLines(demo)),
  ...(await killedLines()),
  ...(await soakLines(demo)),
  ...(await fuzzLines()),
]
const columns = [{ title: 'measure' }, { title: 'value', align: 'decimal' }, { title: 'limit' }, { title: '' }] as const
const rows = lines.map((l) => [l.what, l.value, l.limit ?? '', markOf(l)])
process.stdout.write(table(columns, rows))
process.exitCode = lines.every((l) => l.holds || l.isTime) ? 0 : 1

/** The demo derived by a program that has just begun: most of it is the reading of code. */
function firstLines(): Line[] {
  return [timeAtMost('demo derived afresh, the first time', timed(1, () => startDerivation(demo)).milliseconds, 2300)]
}

/** Each mass of the demo made half a percent heavier, to all verdicts. */
function editLines(): Line[] {
  const from = startDerivation(demo)
  const times = Object.entries(demo.parts).flatMap(([part, { mass }]) => {
    if (mass === undefined) return []
    const [value, unit] = mass.value.split(' ')
    const heavier = `${1.005 * Number(value)} ${unit}`
    const patch = [{ op: 'replace', path: `/parts/${part}/mass/value`, value: heavier }] as const
    return [{ part, ms: timed(3, () => tryChange(from, patch)).milliseconds }]
  })
  const inOrder = times.sort((a, b) => a.ms - b.ms)
  const [median, most] = [inOrder[inOrder.length >> 1], inOrder.at(-1)]
  return [
    timeAtMost(`one mass edited, the median of ${times.length}`, median?.ms ?? Number.NaN, 50),
    timeAtMost(`one mass edited, the longest: ${most?.part}`, most?.ms ?? Number.NaN, 50),
  ]
}

/** Every lift of the demo worked afresh on what stands to the left of it. */
function liftLines(): Line[] {
  const { stages } = derive(demo)
  if (stages === undefined) throw new Error('the demo has no lifts')
  const { model, mass, strip } = stages
  const { value, milliseconds } = timed(3, () => lift(model, mass, strip, freshMemory()))
  return [
    reported('lifts of the demo', Object.keys(value.lifts).length, ''),
    timeAtMost('all of them, with ways and clearances', milliseconds, 2000),
  ]
}

/** The demo derived afresh, and again after one mass is edited. Times are reported, counts of work are held to. */
function wholeLines(): Line[] {
  const cold = timed(3, () => startDerivation(demo))
  const part = Object.keys(demo.parts).find((id) => demo.parts[id]?.mass !== undefined)
  const patch = [{ op: 'replace', path: `/parts/${part}/mass/value`, value: '37 t' }] as const
  const edit = timed(5, () => tryChange(cold.value, patch))
  const [all, again] = [cold.value.memory.computed, edit.value.derivation?.memory.computed ?? {}]
  const saving = total(all) / total(again)
  return [
    timeAtMost('demo derived afresh', cold.milliseconds, 1600),
    reported('results computed afresh', total(all), ''),
    timeAtMost('one mass edited', edit.milliseconds, 50),
    reported('results computed again', total(again), ''),
    {
      ...reported('times fewer results', saving, ''),
      limit: `at least ${LEAST_SAVING}`,
      holds: saving >= LEAST_SAVING,
    },
    ...Object.entries(again).map(([family, n]) => reported(`  ${family}, of ${all[family]}`, n, '')),
  ]
}

/** Masses and their checks, with eight times the parts. */
function growthLines(): Line[] {
  const [small, large] = [60, 480].map((n) => {
    const grown = grownProject(demo, n)
    return timed(5, () => derive(grown)).milliseconds
  }) as [number, number]
  return [
    reported('masses of 60 part entries', small, 'ms'),
    reported('masses of 480 part entries', large, 'ms'),
    reported('growth exponent of time', growthExponent(small, large, 8), ''),
  ]
}

/** The whole line on a project of many parts and services, and one mass of it edited. */
function scaleLines(): Line[] {
  const [small, large] = [250, 1000].map((entries) => {
    const begun = timed(1, () => startDerivation(largeProject(demoParts, entries, 5 * entries)))
    const patch = [{ op: 'replace', path: '/parts/CH-HUB/mass/value', value: '37 t' }] as const
    return { begun, edit: timed(3, () => tryChange(begun.value, patch)).milliseconds }
  }) as [Grown, Grown]
  return [
    reported('1,000 parts and 5,000 services derived afresh', large.begun.milliseconds, 'ms'),
    reported(
      'growth exponent from a quarter of them',
      growthExponent(small.begun.milliseconds, large.begun.milliseconds, 4),
      '',
    ),
    reported('one of those masses edited', large.edit, 'ms'),
  ]
}

interface Grown {
  begun: { value: Derivation; milliseconds: number }
  edit: number
}

/** The page in a browser, on the demo and on a large project; where no browser is found, that is said. */
async function linesInBrowser(): Promise<Line[]> {
  if (chromiumPath() === undefined) return [{ what: 'the page in a browser', value: 'no Chromium found', holds: true }]
  if (!pageBuilt()) throw new Error('the page did not build')
  const file = join(mkdtempSync(join(tmpdir(), 'bench-')), 'large.json')
  writeFileSync(file, JSON.stringify(largeProject(demoParts, 1000, 5000)))
  return [...scriptLines(), ...(await pageLines('demo')), ...(await pageLines('1,000 parts', file))]
}

/** The restart simulated on the demo: the runs are held to, and reported with how many the processor makes in a second of its time. */
function simulationLines(): Line[] {
  const { stages } = derive(demo)
  if (stages === undefined) throw new Error('the demo has no stages to simulate')
  const ask = { runs: RUNS, seed: 1 }
  const { value, seconds } = timedOnProcessor(3, () => simulate(stages.programme, stages.lift, stages.model, ask))
  const made = value.result?.runs ?? 0
  return [
    { ...reported('simulated restarts', made, ''), limit: String(RUNS), holds: made === RUNS },
    reported('in a second of processor time', made / seconds, ''),
  ]
}
