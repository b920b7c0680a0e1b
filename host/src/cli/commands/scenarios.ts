import type { ScenarioRow, ScenarioTable } from '@shieldwright/engine'
import { problemText } from '@shieldwright/engine/working/problem.ts'
import { showNumber } from '@shieldwright/engine/working/quantity.ts'
import type { Command } from 'commander'
import { type JobProject, startJob } from '../../jobs/job.ts'
import { readProjectFile } from '../../project/readProject.ts'
import { type Answer, type Common, printAnswer } from '../answer.ts'
import { projectCommand } from '../command.ts'
import { watched } from '../progress.ts'
import { table } from '../table.ts'
import { runsOption, seedOption } from './risk.ts'

interface Options extends Common {
  runs: number
  seed: number
}

/** `scenarios FILE`: the project as it stands and each of its scenarios side by side. */
export const scenariosCommand = (): Command =>
  projectCommand('scenarios', 'the scenarios of a project side by side: verdicts, restart, cost')
    .option('--runs <n>', 'runs of the simulation of each', runsOption, 2000)
    .option('--seed <n>', 'the same seed gives the same table', seedOption, 1)
    .action(async (file: string, options: Options) => {
      const read = await readProjectFile(file)
      printAnswer('problems' in read ? read : await scenariosAnswer(read, options), options)
    })

async function scenariosAnswer(project: JobProject, { runs, seed }: Options): Promise<Answer> {
  const outcome = await watched('scenarios', (progress) =>
    startJob<'scenarios'>(project, { kind: 'scenarios', runs, seed }, progress),
  )
  if (!('result' in outcome)) return outcome
  const { result } = outcome
  const counts = result.rows[0]?.standing.counts
  return { json: result, text: () => scenariosText(result), ...(counts === undefined ? {} : { counts }) }
}

const COLUMNS = [
  { title: 'scenario' },
  { title: 'fail', align: 'decimal' },
  { title: 'open', align: 'decimal' },
  { title: 'verdicts that move', align: 'decimal' },
  { title: 'planned' },
  { title: 'P50' },
  { title: 'P80' },
  { title: 'days won at P80', align: 'decimal' },
  { title: '±', align: 'decimal' },
  { title: 'cost at P80', align: 'decimal' },
] as const

function scenariosText({ rows, broken, runs, seed, work }: ScenarioTable): string {
  return [
    table(COLUMNS, rows.map(rowOf)),
    ...broken.flatMap(({ id, name, problems }) => [
      `${id}, ${name}: makes no project`,
      ...problems.map((p) => `  ${problemText(p)}`),
    ]),
    ...rows.flatMap(({ name, reason }) => (reason === undefined ? [] : [`${name}: ${reason}`])),
    `${runs} runs each from seed ${seed}; all draw their luck from the same streams; simulations made: ${work.simulations}`,
    'A forecast from stated assumptions; never a reason to shorten a hold point.',
    '',
  ].join('\n')
}

function rowOf({ name, standing, moved, chances }: ScenarioRow): string[] {
  const day = (instant: string | null | undefined): string => instant?.slice(0, 10) ?? 'open'
  const { counts, restart } = standing
  return [
    name,
    String(counts.fail),
    String(counts.open),
    String(moved.length),
    day(restart.planned),
    day(chances?.p50),
    day(chances?.p80),
    chances?.saved === undefined ? '' : showNumber(chances.saved.savedP80, 1),
    chances?.saved === undefined ? '' : showNumber(chances.saved.errorP80, 1),
    chances === undefined ? '' : showNumber(chances.cost.p80, 0),
  ]
}
