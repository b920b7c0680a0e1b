import { instantOf } from '@shieldwright/engine'
import type { MeasureResult, StillResult } from '@shieldwright/engine/risk/index.ts'
import { countVerdicts } from '@shieldwright/engine/working/check.ts'
import { showNumber, type UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import type { Command } from 'commander'
import { type JobProject, startJob } from '../../jobs/job.ts'
import type { SimulateRequest, SimulateResult } from '../../jobs/kinds.ts'
import { simulationJson } from '../../jobs/view.ts'
import { readProjectFile } from '../../project/readProject.ts'
import { type Answer, type Common, printAnswer } from '../answer.ts'
import { checksTable } from '../checkView.ts'
import { projectCommand, wholeNumber } from '../command.ts'
import { watched } from '../progress.ts'
import { table } from '../table.ts'

interface Options extends Common {
  runs: number
  seed: number
  measures?: boolean
  byList?: boolean
}

export const runsOption = wholeNumber(2, 1_000_000, 10_000)
export const seedOption = wholeNumber(0, 2_147_483_647, 1)

/** `risk FILE`: restart and cost under uncertainty, and what drives them. */
export const riskCommand = (): Command =>
  projectCommand('risk', 'restart and cost under uncertainty, and what drives them')
    .option('--runs <n>', 'runs of the simulation', runsOption, 10_000)
    .option('--seed <n>', 'the same seed gives the same result', seedOption, 1)
    .option('--measures', 'what each mitigation and each acceleration buys, one simulation more for each')
    .option('--by-list', 'also the restart were the site to decide anew whenever something ends')
    .action(async (file: string, options: Options) => {
      const read = await readProjectFile(file)
      printAnswer('problems' in read ? read : await riskAnswer(read, options), options)
    })

async function riskAnswer(
  project: JobProject,
  { runs, seed, measures, byList, units = 'SI' }: Options,
): Promise<Answer> {
  const outcome = await simulated(project, { runs, seed, measures, byList })
  if (!('result' in outcome)) return outcome
  const { result } = outcome
  const counts = countVerdicts(result.checks)
  return { json: simulationJson(result), text: () => riskText(result, units), counts }
}

/** Simulates with a bar on standard error. */
export const simulated = (project: JobProject, asked: Omit<SimulateRequest, 'kind'>) =>
  watched(`${asked.runs} runs`, (progress) => startJob<'simulate'>(project, { kind: 'simulate', ...asked }, progress))

const DAY = 86_400
const HOUR = 3600

function riskText(result: SimulateResult, units: UnitSystem): string {
  const { simulation, origin, breakthrough, whatIfs, checks } = result
  const { restart, cost, drivers, runs, seed, method, open, stuck, lost, notes, error } = simulation
  const day = (seconds: number) => instantOf(origin, seconds)?.slice(0, 10) ?? 'open'
  const decimal = { align: 'decimal' } as const
  const rows = (['p10', 'p50', 'p80', 'p90', 'mean'] as const).map((name) => [
    name === 'mean' ? 'mean' : name.toUpperCase(),
    day(restart[name]),
    showNumber(error[name] / DAY, 1),
    showNumber(cost[name], 0),
  ])
  const told = [
    `one more day costs ${showNumber(simulation.day.p50, 0)} at the P50 restart, ${showNumber(simulation.day.p80, 0)} at the P80`,
    ...simulation.merges
      .slice(0, 3)
      .map(
        ({ id, paths, bias }) =>
          `${id} waits for the latest of ${paths}: ${showNumber(bias / DAY, 1)} days beyond the mean`,
      ),
    `waiting for wind ${showNumber(simulation.windWait / HOUR, 0)} h, false starts ${showNumber(simulation.falseStarts, 1)}, on average of a run`,
    `${runs} runs from seed ${seed}; ${method}`,
    ...notes,
    ...(simulation.listed === undefined
      ? []
      : [
          `were the site to decide anew whenever something ends: P50 ${day(simulation.listed.p50)}, P80 ${day(simulation.listed.p80)}`,
        ]),
    ...open.map((pointer) => `open: ${pointer} is not given`),
    ...stuck.map((id) => `no window for the wind within two years in some run: ${id}`),
    ...lost.map((id) => `risk ${id} touches no activity of the programme`),
    'A forecast from stated assumptions; never a reason to shorten a hold point.',
  ]
  return [
    table(
      [
        { title: '' },
        { title: 'restart' },
        { title: 'standard error, days', ...decimal },
        { title: 'cost', ...decimal },
      ],
      rows,
    ),
    table(
      [{ title: 'driver' }, { title: 'name' }, { title: 'share', ...decimal }],
      drivers.slice(0, 15).map((d) => [d.id, d.name, showNumber(d.share, 3)]),
    ),
    measuresTable(whatIfs?.measures ?? []),
    stillTable(whatIfs?.still ?? []),
    checksTable(checks, units),
    breakthrough === undefined
      ? ''
      : breakthrough.reaches
          .map(
            ({ to, reached }) => `drive to ${showNumber(to, 0)} m: P50 ${day(reached.p50)}, P80 ${day(reached.p80)}\n`,
          )
          .join(''),
    `${told.join('\n')}\n`,
  ].join('\n')
}

function measuresTable(measures: readonly MeasureResult[]): string {
  const decimal = { align: 'decimal' } as const
  const columns = [
    { title: 'measure' },
    { title: 'what' },
    { title: 'price', ...decimal },
    { title: 'days of P50', ...decimal },
    { title: 'days of P80', ...decimal },
    { title: '± days', ...decimal },
    { title: 'price of a day', ...decimal },
    { title: 'mean cost', ...decimal },
  ]
  const rows = measures.map((m) => [
    m.id,
    m.name,
    showNumber(m.price, 0),
    showNumber(m.savedP50, 1),
    showNumber(m.savedP80, 1),
    showNumber(m.errorP80, 1),
    m.perDay === undefined ? '' : showNumber(m.perDay, 0),
    showNumber(m.costChange, 0),
  ])
  return table(columns, rows)
}

/** What each of the largest drivers costs: the restart were it held still. */
function stillTable(still: readonly StillResult[]): string {
  const decimal = { align: 'decimal' } as const
  const columns = [
    { title: 'held still' },
    { title: 'what' },
    { title: 'days of P50', ...decimal },
    { title: 'days of P80', ...decimal },
    { title: '± days', ...decimal },
  ]
  const rows = still.map((s) => [
    s.id,
    s.name,
    showNumber(s.savedP50, 1),
    showNumber(s.savedP80, 1),
    showNumber(s.errorP80, 1),
  ])
  return table(columns, rows)
}
