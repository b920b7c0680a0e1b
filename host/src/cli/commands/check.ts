import type { Stages } from '@shieldwright/engine'
import { type Check, countVerdicts } from '@shieldwright/engine/working/check.ts'
import { nearestId } from '@shieldwright/engine/working/problem.ts'
import type { UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import type { Command } from 'commander'
import { type Answer, type Common, usageProblem } from '../answer.ts'
import { checkJson, checksTable, countsText, reasonsText } from '../checkView.ts'
import { onStages, projectCommand } from '../command.ts'
import { workingText, workingTree } from '../workingText.ts'

interface Options extends Common {
  stage?: string
  working?: string
  all?: boolean
}

/** `check FILE`: every check of every stage. */
export const checkCommand = (): Command =>
  projectCommand('check', 'every check, with its working')
    .option('--stage <stage>', 'only the checks of one stage')
    .option('--all', 'list the checks that pass as well')
    .option('--working <check>', 'the working of one check down to its inputs')
    .action(onStages(checkAnswer))

export function checkAnswer(
  { checks }: Pick<Stages, 'checks'>,
  { stage, working, all, units = 'SI' }: Options,
): Answer {
  if (working !== undefined) return oneWorking(checks, working, units)
  const wanted = stage === undefined ? checks : checks.filter((c) => c.stage === stage)
  const counts = countVerdicts(wanted)
  return {
    json: { counts, checks: wanted.map((c) => checkJson(c, units)) },
    text: () =>
      `${checksTable(all ? wanted : wanted.filter((c) => c.verdict !== 'pass'), units)}\n${reasonsText(wanted)}\n${countsText(counts)}`,
    counts,
  }
}

function oneWorking(checks: readonly Check[], id: string, units: UnitSystem): Answer {
  const check = checks.find((c) => c.id === id)
  if (check === undefined) {
    const near = nearestId(
      id,
      checks.map((c) => c.id),
    )
    return usageProblem('--working', `"${id}"`, 'the id of a check, as "check --json" lists them', near)
  }
  const working = { demand: workingTree(check.demand, units), capacity: workingTree(check.capacity, units) }
  return {
    json: { ...checkJson(check, units), working },
    text: () => workingText(check, units),
    counts: countVerdicts([check]),
  }
}
