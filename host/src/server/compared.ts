import { comparedDerivations, type WhatIf } from '@shieldwright/engine'
import { type Patch, patchBetween } from '@shieldwright/engine/working/patch.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { revisionMeant } from '../store/baselines.ts'
import type { LogEntry } from '../store/store.ts'
import type { Live } from './live.ts'

/** Two revisions side by side. */
export interface ComparedRevisions extends WhatIf {
  from: number
  to: number
  /** What turns one document into the other. */
  patch: Patch
  /** The changes between them. */
  log: readonly Omit<LogEntry, 'patch'>[]
}

/**
 * What differs between two revisions and what follows from it.
 *
 * @param from a revision's number, its name, or "now"
 */
export async function comparedRevisions(
  live: Live,
  from: string,
  to: string,
): Promise<{ compared: ComparedRevisions } | { problems: readonly Problem[] }> {
  const revisions: number[] = []
  for (const [pointer, words] of [
    ['from', from],
    ['to', to],
  ] as const) {
    const revision = await revisionMeant(live.store, words)
    if (revision === undefined)
      return { problems: [{ pointer, found: `"${words.slice(0, 90)}"`, expected: 'a revision, its name, or "now"' }] }
    revisions.push(revision)
  }
  const [first, second] = revisions as [number, number]
  const [before, after] = [await live.derivedAt(first), await live.derivedAt(second)]
  if (before === undefined || after === undefined) throw new Error('a revision that is kept has a document')
  const { whatIf, problems } = comparedDerivations(before, after)
  if (whatIf === undefined) return { problems }
  const [least, most] = [Math.min(first, second), Math.max(first, second)]
  const log = (await live.logAfter(least, most - least)).map(({ patch: _patch, ...entry }) => entry)
  const patch = patchBetween(before.document, after.document)
  return { compared: { from: first, to: second, patch, log, ...whatIf } }
}
