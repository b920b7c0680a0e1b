import type { Stages } from '@shieldwright/engine'
import { countVerdicts } from '@shieldwright/engine/working/check.ts'
import type { Command } from 'commander'
import type { Answer, Common } from '../answer.ts'
import { checkJson, checksTable, countsText, reasonsText } from '../checkView.ts'
import { onStages, projectCommand } from '../command.ts'

/** `ground FILE`: what every step puts on wall, base, bays and footings. */
export const groundCommand = (): Command =>
  projectCommand('ground', 'wall, base, bays and footings at every step').action(onStages(groundAnswer))

export function groundAnswer({ ground }: Pick<Stages, 'ground'>, { units = 'SI' }: Common): Answer {
  const counts = countVerdicts(ground.checks)
  return {
    json: { checks: ground.checks.map((c) => checkJson(c, units)), steps: [] },
    text: () => `${checksTable(ground.checks, units)}\n${reasonsText(ground.checks)}\n${countsText(counts)}`,
    counts,
  }
}
