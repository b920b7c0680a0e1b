import type { Derivation, Stages } from '@shieldwright/engine'
import type { UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import type { Command } from 'commander'
import { LARGEST_TICKS, type TakenTicks, takeTicks } from '../../exchange/takeTicks.ts'
import type { Live } from '../../server/live.ts'
import type { Answer, Refusal } from '../answer.ts'
import { type Act, onStore, type StoreOptions, storeCommand } from '../onStore.ts'
import { table } from '../table.ts'
import { bytesOf, momentOption } from './import.ts'
import { whatIfText } from './whatif.ts'

interface Options extends StoreOptions {
  keep?: boolean
  dataDate?: string
  also: readonly string[]
}

/** `ticks FILE`: what the ticks of an on-site file would record in the stored project; with `--keep` they are recorded. */
export const ticksCommand = (): Command =>
  storeCommand(
    'ticks',
    'ticks brought back from the site: what each line becomes, and what is not taken; kept with --keep',
  )
    .argument('<file>', 'file of ticks that an on-site file gave out')
    .option('--keep', 'records them in the project, as one change')
    .option('--data-date <date>', 'the date up to which progress is known', momentOption)
    .option('--also <address>', 'takes a line that has changed since all the same; may be given again', listed, [])
    .action((file: string, options: Options) => onStore(options, (live, act) => ticksAnswer(live, act, file, options)))

const listed = (address: string, before: readonly string[]): string[] => [...before, address]

async function ticksAnswer(live: Live, { by, at }: Act, file: string, options: Options): Promise<Answer> {
  const { keep = false, dataDate, also, units = 'SI' } = options
  const { revision, derivation } = await live.now()
  const { stages, problems } = derivation.derived
  if (stages === undefined) return { problems }
  const taken = ticksIn(derivation, stages, file, { now: new Date(at), dataDate, also })
  if ('problems' in taken) return taken
  if (!keep || taken.patch.length === 0) return ticksResult(taken, units)
  const changed = await live.change({ revision, patch: taken.patch, by, at, why: whyOf(taken) })
  if (changed.problems !== undefined)
    return { problems: changed.behind === undefined ? changed.problems : [UNDER, ...changed.problems] }
  return ticksResult(taken, units, changed.revision)
}

const UNDER = {
  pointer: '',
  found: 'a change of the same lines, kept at this moment by another',
  expected: 'the same ticks once more, on top of it',
}

/** The reason that stands in the log. */
export const whyOf = ({ taken, issue: { scope, revision } }: TakenTicks): string =>
  `${taken.length} ticks from site, ${scope}${revision === undefined ? '' : `, file of revision ${revision}`}`.slice(
    0,
    500,
  )

/** Ticks from a file on disk, held against a project. */
export function ticksIn(
  derivation: Derivation,
  stages: Stages,
  file: string,
  asked: { now: Date; dataDate?: string | undefined; also?: readonly string[] },
): TakenTicks | Refusal {
  const read = bytesOf(file, { largest: LARGEST_TICKS, expected: 'a file of ticks', example: 'ticks.json' })
  return 'problems' in read ? read : takeTicks(derivation, stages, { ...read, ...asked })
}

/** The preview in both forms; lines that are not taken are no fault of the file. */
export function ticksResult(taken: TakenTicks, units: UnitSystem, kept?: number): Answer {
  const { follows, ...rest } = taken
  return {
    json: { ...rest, ...follows, kept: kept ?? null },
    text: () =>
      [
        taken.issue.isCurrent
          ? ''
          : `made from revision ${taken.issue.revision ?? 'not stated'}; the project has changed since\n`,
        table(
          ['becomes', 'line', 'by', 'on'].map((title) => ({ title })),
          taken.taken.map((t) => [t.becomes, t.at, t.by, t.on]),
        ),
        taken.listed.map((t) => `not taken  ${t.at}, ticked by ${t.by} on ${t.on}: ${t.why}\n`).join(''),
        taken.noted.map((t) => `noted      ${t.at}, ticked by ${t.by} on ${t.on}\n`).join(''),
        `${taken.taken.length} lines change something, ${taken.same.length} are recorded already, ${taken.listed.length} are not taken, ${taken.noted.length} are notes of a sheet\n`,
        follows === undefined ? '' : whatIfText(follows, units),
        kept === undefined ? '' : `kept as revision ${kept}\n`,
      ].join(''),
  }
}
