import { type Derivation, type Stages, startDerivation } from '@shieldwright/engine'
import { Command, InvalidArgumentError, Option } from 'commander'
import { readProjectFile } from '../project/readProject.ts'
import { type Answer, type Common, printAnswer, type Refusal } from './answer.ts'

/** A command with the options that all have. */
export function command(name: string, description: string): Command {
  return new Command(name)
    .description(description)
    .option('--json', 'print one JSON document, in SI, and nothing else on standard output')
    .option('--strict', 'exit with 3 when no check fails and some are open')
    .addOption(new Option('--units <system>', 'units for reading').choices(['SI', 'US']).default('SI'))
}

/** A command that reads a project file. */
export const projectCommand = (name: string, description: string): Command =>
  command(name, description).argument('<file>', 'project file, JSON or YAML')

/** An action of a project command: derives the file, hands the stages on, prints what comes back. */
export function onStages<O extends Common>(answer: (stages: Stages, options: O) => Answer | Promise<Answer>) {
  return onDerivation<O>((_, stages, options) => answer(stages, options))
}

/** The same with the derivation itself, for what changes it or runs on. */
export function onDerivation<O extends Common>(
  answer: (derivation: Derivation, stages: Stages, options: O, file: string) => Answer | Promise<Answer>,
) {
  return async (file: string, options: O): Promise<void> => {
    const read = await derivationOf(file)
    if ('problems' in read) return printAnswer(read, options)
    printAnswer(await answer(read.derivation, read.stages, options, file), options)
  }
}

export type Derived = { derivation: Derivation; stages: Stages }

/** The derivation of a project file, or every problem that keeps it from being one. */
export async function derivationOf(file: string): Promise<Derived | Refusal> {
  const read = await readProjectFile(file)
  if ('problems' in read) return read
  const derivation = startDerivation(read.document, read.meshes)
  const { stages, problems } = derivation.derived
  return stages === undefined ? { problems } : { derivation, stages }
}

/** Reads an option as a whole number from `least` to `most`. */
export const wholeNumber =
  (least: number, most: number, example: number) =>
  (text: string): number => {
    const number = Number(text)
    if (/^\d+$/.test(text) && number >= least && number <= most) return number
    throw new InvalidArgumentError(`expected a whole number from ${least} to ${most}, such as ${example}.`)
  }

/** Reads an option as ids between commas. */
export const idList = (text: string): string[] =>
  text
    .split(',')
    .map((id) => id.trim())
    .filter((id) => id !== '')
