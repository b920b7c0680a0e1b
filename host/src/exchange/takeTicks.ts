import { type Derivation, type Stages, type WhatIf, whatIf } from '@shieldwright/engine'
import { fileKind } from '@shieldwright/engine/model/fileKind.ts'
import {
  type ListedTick,
  readTicks,
  type Tick,
  type TickedLine,
  type TicksFile,
  ticksIntake,
} from '@shieldwright/engine/model/intake/index.ts'
import { readText } from '@shieldwright/engine/model/text.ts'
import { tickGround } from '@shieldwright/engine/report/on-site/ground.ts'
import type { Operation } from '@shieldwright/engine/working/patch.ts'
import { type Problem, problemText } from '@shieldwright/engine/working/problem.ts'
import { contentHash } from '../project/contentHash.ts'
import { dataDateMoved } from './takeIn.ts'

/** A file of ticks is small: a day of two crews has some hundred lines. */
export const LARGEST_TICKS = 4 * 1024 * 1024

/** How ticks are taken. */
export interface TicksAsked {
  bytes: Uint8Array
  /** What the clock of the host says. */
  now: Date
  /** Moves the data date as well: progress is known up to it. */
  dataDate?: string | undefined
  /** Addresses of lines that have changed since, and are taken all the same. */
  also?: readonly string[] | undefined
}

/** What ticks would change; nothing has been changed. */
export interface TakenTicks {
  patch: readonly Operation[]
  taken: readonly TickedLine[]
  same: readonly TickedLine[]
  listed: readonly ListedTick[]
  noted: readonly Tick[]
  /** What the file was made from; current where the project has not changed since. */
  issue: Pick<TicksFile, 'revision' | 'scope' | 'issued' | 'exported'> & { isCurrent: boolean }
  /** What follows; absent where nothing would change. */
  follows?: WhatIf
}

/** Ticks read, held against the project and tried: a preview of what each line becomes, and every line that is not taken. */
export function takeTicks(
  derivation: Derivation,
  stages: Stages,
  { bytes, now, dataDate, also = [] }: TicksAsked,
): TakenTicks | { problems: readonly Problem[] } {
  const raw = rawOf(bytes)
  if ('problems' in raw) return raw
  const { project } = stages.model
  const read = readTicks(raw.raw, project.about.title)
  if ('problems' in read) return read
  const { file } = read
  const { document } = derivation
  const { revision, scope, issued, exported } = file
  const issue = { revision, scope, issued, exported, isCurrent: file.content === contentHash(document) }
  const input = { ...tickGround(stages), document, now: now.getTime(), dataDate, also: new Set(also) }
  return { ...tried(derivation, { ...input, file }, []), issue }
}

function rawOf(bytes: Uint8Array): { raw: unknown } | { problems: readonly Problem[] } {
  if (bytes.length > LARGEST_TICKS)
    return { problems: [{ pointer: '', found: `${bytes.length} bytes`, expected: `at most ${LARGEST_TICKS} bytes` }] }
  const kind = bytes.length === 0 ? 'an empty file' : fileKind(bytes)
  if (kind !== undefined)
    return {
      problems: [
        {
          pointer: '',
          found: kind,
          expected: 'a file of ticks that an on-site file gave out',
          example: 'ticks-2032-03-08-17-00.json',
        },
      ],
    }
  const text = new TextDecoder().decode(bytes)
  const read = readText(text, 'json')
  return read.document === undefined ? { problems: read.problems } : { raw: read.document }
}

/** The ticks that the project refuses are listed with what it says, and the rest is tried again. */
function tried(
  derivation: Derivation,
  input: Parameters<typeof ticksIntake>[0],
  before: readonly ListedTick[],
): Omit<TakenTicks, 'issue'> {
  const intake = ticksIntake(input)
  const moved = intake.taken.some(({ at }) => at.startsWith('/programme/'))
    ? dataDateMoved(derivation.document, input.dataDate)
    : []
  const patch = [...moved, ...intake.patch]
  const listed = [...before, ...intake.listed]
  const { taken, same, noted } = intake
  if (patch.length === 0) return { patch, taken, same, listed, noted }
  const result = whatIf(derivation, patch)
  if (result.whatIf !== undefined) return { patch, taken, same, listed, noted, follows: result.whatIf }
  const records = new Map(taken.map(({ at, record }) => [at, record]))
  const saidOf = ({ at }: { at: string }): Problem | undefined =>
    result.problems.find(({ pointer }) =>
      [at, records.get(at) ?? at].some(
        (place) => pointer === place || place.startsWith(`${pointer}/`) || pointer.startsWith(`${place}/`),
      ),
    )
  const faulty = input.file.ticks.flatMap((tick) => {
    const said = saidOf(tick)
    return said === undefined ? [] : [{ ...tick, why: problemText(said), canBeTaken: false }]
  })
  // what no tick brings about is no tick's fault: then nothing is taken
  if (faulty.length === 0) {
    const why = result.problems.map(problemText).join('; ')
    const all = input.file.ticks.filter((t) => taken.some(({ at }) => at === t.at))
    return {
      patch: [],
      taken: [],
      same,
      listed: [...listed, ...all.map((t) => ({ ...t, why, canBeTaken: false }))],
      noted,
    }
  }
  const ticks = input.file.ticks.filter((tick) => !faulty.some(({ at }) => at === tick.at))
  return tried(derivation, { ...input, file: { ...input.file, ticks } }, [...before, ...faulty])
}
