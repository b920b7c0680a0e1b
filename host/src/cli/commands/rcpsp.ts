import { readFileSync } from 'node:fs'
import { boundWords, evidenceFaults, networkOfInstance, readInstance } from '@shieldwright/engine/programme/index.ts'
import type { Command } from 'commander'
import { startJob } from '../../jobs/job.ts'
import { writeWhole } from '../../project/writeWhole.ts'
import { type Answer, type Common, printAnswer, usageProblem } from '../answer.ts'
import { command, wholeNumber } from '../command.ts'
import { jsonText } from '../json.ts'
import { watched } from '../progress.ts'
import { seedOption } from './risk.ts'

interface Options extends Common {
  seconds: number
  effort?: number
  seed: number
  out?: string
}

/** `rcpsp INSTANCE.sm`: the programme's solver on an open benchmark instance. */
export const rcpspCommand = (): Command =>
  command('rcpsp', "the programme's solver on a benchmark instance in PSPLIB form")
    .argument('<instance>', 'file ending in .sm')
    .option('--seconds <n>', 'wall clock after which the best schedule known is taken', wholeNumber(1, 86_400, 60), 60)
    .option(
      '--effort <n>',
      'conflicts of the side that proves, and as much of the side that improves, instead of seconds: the same answer anywhere',
      wholeNumber(1, 1_000_000_000, 20_000),
    )
    .option('--seed <n>', 'seed of the search', seedOption, 1)
    .option('--out <file>', 'write the JSON there as well')
    .action(async (file: string, options: Options) => printAnswer(await rcpspAnswer(file, options), options))

async function rcpspAnswer(file: string, { seconds, effort, seed, out }: Options): Promise<Answer> {
  const text = textOf(file)
  if (text === undefined)
    return usageProblem(file, 'nothing that can be read', 'a benchmark instance, such as "j301_1.sm"')
  const { instance, problems } = readInstance(text)
  if (instance === undefined) return { problems }
  const nothing = { document: undefined, meshes: new Map() }
  const outcome = await watched('schedule', (progress) =>
    startJob<'instance'>(
      nothing,
      { kind: 'instance', instance, seconds, seed, ...(effort === undefined ? {} : { effort }) },
      progress,
    ),
  )
  if (!('result' in outcome)) return outcome
  const { result } = outcome
  const faults = evidenceFaults(networkOfInstance(instance), result.evidence)
  const json = {
    ...result,
    evidenceFaults: faults,
    starts: Object.fromEntries(result.starts.map((at, i) => [i + 1, at])),
  }
  if (out !== undefined) writeWhole(out, jsonText(json))
  const { makespan, bound, boundBy, proven } = result
  const quality = proven ? 'proven least' : `bound ${bound} by ${boundBy}`
  const recounted = faults.length === 0 ? 'recounted, and holds' : faults.join('; ')
  const evidence = `without search: ${boundWords(result.evidence)} (${recounted})`
  return { json, text: () => `makespan ${makespan}, ${quality}, after ${result.seconds.toFixed(2)} s\n${evidence}\n` }
}

function textOf(file: string): string | undefined {
  try {
    return readFileSync(file, 'utf8')
  } catch {
    return undefined
  }
}
