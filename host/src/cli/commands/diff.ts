import { comparedDerivations } from '@shieldwright/engine'
import { type Operation, patchBetween } from '@shieldwright/engine/working/patch.ts'
import { foundText } from '@shieldwright/engine/working/problem.ts'
import type { Command } from 'commander'
import { type Answer, type Common, printAnswer } from '../answer.ts'
import { command, derivationOf } from '../command.ts'
import { whatIfText } from './whatif.ts'

/** `diff FILE FILE`: the JSON Patch from one project file to another, and the checks that change. */
export const diffCommand = (): Command =>
  command('diff', 'the JSON Patch between two project files, and the checks that change')
    .argument('<before>', 'project file')
    .argument('<after>', 'project file')
    .action(async (before: string, after: string, options: Common) =>
      printAnswer(await diffAnswer(before, after, options), options),
    )

export async function diffAnswer(beforeFile: string, afterFile: string, { units = 'SI' }: Common): Promise<Answer> {
  const [from, to] = [await derivationOf(beforeFile), await derivationOf(afterFile)]
  if ('problems' in from) return from
  if ('problems' in to) return to
  const patch = patchBetween(from.derivation.document, to.derivation.document)
  const compared = comparedDerivations(from.derivation, to.derivation)
  if (compared.whatIf === undefined) return { problems: compared.problems }
  const { whatIf } = compared
  return {
    json: { patch, ...whatIf },
    text: () => `${patch.map(operationText).join('')}\n${whatIfText(whatIf, units)}`,
    counts: whatIf.after.counts,
  }
}

/** An operation of a patch in one line. */
export function operationText(operation: Operation): string {
  const value = 'value' in operation ? ` ${foundText(operation.value)}` : ''
  return `${operation.op} ${operation.path}${value}\n`
}
