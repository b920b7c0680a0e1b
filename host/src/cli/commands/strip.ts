import type { Stages } from '@shieldwright/engine'
import { mass } from '@shieldwright/engine/mass/index.ts'
import { idsMeant, model } from '@shieldwright/engine/model/index.ts'
import { type FoundOrder, type StepFailure, type StripStep, verifyOrder } from '@shieldwright/engine/strip/index.ts'
import { countVerdicts } from '@shieldwright/engine/working/check.ts'
import { freshMemory } from '@shieldwright/engine/working/memory.ts'
import { nearestId, type Problem } from '@shieldwright/engine/working/problem.ts'
import { showQuantity, type UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import type { Command } from 'commander'
import { startJob } from '../../jobs/job.ts'
import { orderJson, stepJson } from '../../jobs/view.ts'
import { readOrderFile } from '../../project/readOrder.ts'
import { type ProjectFile, readProjectFile } from '../../project/readProject.ts'
import { type Answer, type Common, printAnswer } from '../answer.ts'
import { checkJson, countsText, reasonsText } from '../checkView.ts'
import { derivationOf, idList, projectCommand, wholeNumber } from '../command.ts'
import { watched } from '../progress.ts'
import { table } from '../table.ts'

interface Options extends Common {
  target?: readonly string[]
  order?: string
  adopted?: boolean
  effort?: number
}

/** `strip FILE`: an order that reaches the targets; or an order verified, the file's own or one written beside it. */
export const stripCommand = (): Command =>
  projectCommand('strip', 'the order of taking apart: found, or verified step by step')
    .option('--target <ids>', 'parts to be reached, between commas; otherwise those of the file', idList)
    .option('--order <file>', 'verify the order in this file: a list of {piece, parts, moves}')
    .option('--adopted', 'verify the order that the project adopts')
    .option('--effort <n>', 'states the search may look into', wholeNumber(1, 10_000_000, 20_000))
    .action(async (file: string, options: Options) => printAnswer(await stripAnswer(file, options), options))

async function stripAnswer(file: string, options: Options): Promise<Answer> {
  if (options.order !== undefined) return writtenAnswer(file, options.order, options)
  if (options.adopted) {
    const derived = await derivationOf(file)
    return 'problems' in derived ? derived : adoptedAnswer(derived.stages, options)
  }
  const read = await readProjectFile(file)
  return 'problems' in read ? read : foundAnswer(read, options)
}

async function foundAnswer(project: ProjectFile, { target, effort, units = 'SI' }: Options): Promise<Answer> {
  const unknown = target === undefined ? [] : unknownParts(project, target)
  if (unknown.length > 0) return { problems: unknown }
  const outcome = await watched('order', (progress) =>
    startJob<'order'>(project, { kind: 'order', targets: target, effort }, progress),
  )
  if (!('result' in outcome)) return outcome
  const { result } = outcome
  return {
    json: orderJson(result),
    text: () => foundText(result.found, units),
    failed: !result.found.feasible,
  }
}

function unknownParts({ document, meshes }: ProjectFile, target: readonly string[]): Problem[] {
  const read = model(document, freshMemory(), meshes)
  if (read.model === undefined) return [...read.problems]
  const { instances } = read.model
  return target
    .filter((id) => idsMeant(instances, id).length === 0)
    .map((id) => {
      const example = nearestId(id, [...instances.ofEntry.keys(), ...instances.byId.keys()])
      return { pointer: '--target', found: `"${id}"`, expected: 'the id of a part', ...(example && { example }) }
    })
}

function foundText({ feasible, order, cost, bound, proven, moveSpace, stuck }: FoundOrder, units: UnitSystem): string {
  const hours = (seconds: number) => showQuantity(seconds, 's', units)
  const quality = proven ? 'proven least' : `no order for less than ${hours(bound)} is ruled out`
  return [
    stepsTable(order, units),
    feasible ? `cost ${hours(cost)}, ${quality}` : 'no order reaches the targets',
    ...stuck.map((s) => `${s.id} cannot be done: ${s.unmet.map((clause) => clause.join(' or ')).join('; ')}`),
    `looked among ${moveSpace}`,
    '',
  ].join('\n')
}

async function writtenAnswer(file: string, orderFile: string, { units = 'SI' }: Options): Promise<Answer> {
  const project = await readProjectFile(file)
  if ('problems' in project) return project
  const written = readOrderFile(orderFile)
  if ('problems' in written) return written
  const memory = freshMemory()
  const read = model(project.document, memory, project.meshes)
  if (read.model === undefined) return { problems: read.problems }
  const { feasible, failures, steps } = verifyOrder(read.model, mass(read.model, memory), written.order, memory)
  return {
    json: { feasible, failures, order: steps.map(stepJson) },
    text: () => `${stepsTable(steps, units)}\n${failuresText(failures)}${feasible ? 'The order can be done.\n' : ''}`,
    failed: !feasible,
  }
}

export function adoptedAnswer({ strip }: Pick<Stages, 'strip'>, { units = 'SI' }: Common): Answer {
  const counts = countVerdicts(strip.checks)
  return {
    json: {
      feasible: strip.feasible,
      order: strip.steps.map(stepJson),
      failures: strip.failures,
      checks: strip.checks.map((c) => checkJson(c, units)),
    },
    text: () =>
      `${stepsTable(strip.steps, units)}\n${failuresText(strip.failures)}${reasonsText(strip.checks)}\n${countsText(counts)}`,
    counts,
    failed: !strip.feasible,
  }
}

export function stepsTable(steps: readonly StripStep[], units: UnitSystem): string {
  const decimal = { align: 'decimal' } as const
  const columns = [
    { title: 'step' },
    { title: 'piece' },
    { title: 'parts', ...decimal },
    { title: 'moves', ...decimal },
    { title: 'joints', ...decimal },
    { title: 'services', ...decimal },
    { title: 'least gap', ...decimal },
    { title: 'to' },
    { title: '' },
  ]
  const rows = steps.map((s) => [
    s.step,
    s.piece,
    String(s.parts.length),
    String(s.moves.length),
    String(s.joints.length),
    String(s.services.length),
    s.clearance === undefined ? '' : showQuantity(s.clearance.gap, 'm', units),
    s.clearance?.to ?? '',
    s.failures.length === 0 ? '' : 'cannot be done',
  ])
  return table(columns, rows)
}

/** `step S06, piece "ring-left": …; in the way: …` */
export function failuresText(failures: readonly StepFailure[]): string {
  return failures
    .map(({ step, piece, reason, blockers }) => {
      const way = blockers.length === 0 ? '' : `; in the way: ${blockers.join(', ')}`
      return `step ${step}, piece "${piece}": ${reason}${way}\n`
    })
    .join('')
}
