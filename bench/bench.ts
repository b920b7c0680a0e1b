import { derive, startDerivation, tryChange } from '../engine/src/index.ts'
import { simulate } from '../engine/src/risk/index.ts'
import { table } from '../host/src/cli/table.ts'
import { demoProject } from '../host/src/project/demo.ts'
import { readDocument } from '../host/src/project/readDocument.ts'
import { grownProject } from './grown.ts'
import { growthExponent, timed, total } from './timed.ts'

/** One line of the bench: a measure, what it came to, and the limit it must keep, if it has one. */
interface Line {
  what: string
  value: string
  limit?: string
  holds: boolean
}

/** One edited mass computes at least so many times fewer results than the whole. */
const LEAST_SAVING = 10

const RUNS = 10_000

const read = readDocument(demoProject)
if ('problems' in read) throw new Error(read.problems.map((p) => p.pointer).join())
const demo = read.document as { parts: Record<string, { mass?: unknown }> }
const lines = [...growthLines(), ...wholeLines(), ...simulationLines()]
const columns = [{ title: 'measure' }, { title: 'value', align: 'decimal' }, { title: 'limit' }, { title: '' }] as const
const rows = lines.map((l) => [l.what, l.value, l.limit ?? '', l.holds ? '' : 'BROKEN'])
process.stdout.write(table(columns, rows))
process.exitCode = lines.every((l) => l.holds) ? 0 : 1

/** The demo derived afresh, and again after one mass is edited. Times are reported, counts of work are held to. */
function wholeLines(): Line[] {
  const cold = timed(3, () => startDerivation(demo))
  const part = Object.keys(demo.parts).find((id) => demo.parts[id]?.mass !== undefined)
  const patch = [{ op: 'replace', path: `/parts/${part}/mass/value`, value: '37 t' }] as const
  const edit = timed(5, () => tryChange(cold.value, patch))
  const [all, again] = [cold.value.memory.computed, edit.value.derivation?.memory.computed ?? {}]
  const saving = total(all) / total(again)
  return [
    reported('demo derived afresh', cold.milliseconds, 'ms'),
    reported('results computed afresh', total(all), ''),
    reported('one mass edited', edit.milliseconds, 'ms'),
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

/** The restart simulated on the demo: the runs are held to, the time is reported. */
function simulationLines(): Line[] {
  const { stages } = derive(demo)
  if (stages === undefined) throw new Error('the demo has no stages to simulate')
  const ask = { runs: RUNS, seed: 1 }
  const { value, milliseconds } = timed(1, () => simulate(stages.programme, stages.lift, stages.model, ask))
  const made = value.result?.runs ?? 0
  return [
    { ...reported('simulated restarts', made, ''), limit: String(RUNS), holds: made === RUNS },
    reported('time of them', milliseconds / 1000, 's'),
  ]
}

function reported(what: string, value: number, unit: string): Line {
  return { what, value: `${Number(value.toPrecision(4))} ${unit}`.trim(), holds: true }
}
