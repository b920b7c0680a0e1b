import { SCHEMA_VERSION } from '@shieldwright/engine/model/schema/version.ts'
import { type Patch, patchBetween } from '@shieldwright/engine/working/patch.ts'
import type { Store } from './store.ts'

/** What a document of one schema version is in the next, by the version that it is brought from. */
export interface Upward {
  steps: Readonly<Record<number, (document: Readonly<Record<string, unknown>>) => Readonly<Record<string, unknown>>>>
  /** The version that this program reads. */
  to: number
}

/** No step yet: version 1 is the first. One that has gone out is never changed, for old logs are read through it. */
export const UPWARD: Upward = { steps: {}, to: SCHEMA_VERSION }

/**
 * A document as this program reads it. One of this version or of none that it knows comes back as it is, for the model to
 * say what is wrong with it.
 */
export function upward(document: unknown, { steps, to }: Upward = UPWARD): unknown {
  const { schemaVersion: from } = (document ?? {}) as { schemaVersion?: unknown }
  if (typeof from !== 'number' || from >= to) return document
  let now = document as Readonly<Record<string, unknown>>
  for (let version = from; version < to; version++) {
    const step = Object.hasOwn(steps, version) ? steps[version] : undefined
    if (step === undefined) return document
    now = { ...step(now), schemaVersion: version + 1 }
  }
  return now
}

/**
 * Brings the latest revision of a log to the schema version of this program, by a change of its own that can be read like
 * any other. What was kept before stays as it was written, and is read through the same steps.
 *
 * @returns what was done, in words; undefined where there was nothing to do
 */
export async function broughtUp(
  store: Store,
  { by, at }: { by: string; at: string },
  way: Upward = UPWARD,
): Promise<string | undefined> {
  const { revision, document } = await store.current()
  const now = upward(document, way)
  if (now === document) return undefined
  const { schemaVersion } = document as { schemaVersion: number }
  const why = `brought from schema version ${schemaVersion} to ${way.to}`
  const patch: Patch = patchBetween(document, now)
  const kept = await store.append({ on: revision, patch, by, why, at })
  if ('behind' in kept) return broughtUp(store, { by, at }, way) // Another process came first: look again.
  if ('problems' in kept) throw new Error(`the steps to schema version ${way.to} do not make a change`)
  return `the project was ${why}, as revision ${kept.revision}; earlier revisions are as they were written`
}
