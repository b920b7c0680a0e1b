import { type Derivation, moveDerivation, startDerivation, tryChange } from '@shieldwright/engine'
import type { Patch } from '@shieldwright/engine/working/patch.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { readMeshes } from '../project/readMeshes.ts'
import type { LogEntry, Store } from '../store/store.ts'

/** The project as it is kept, with what follows from it. */
export interface Now {
  revision: number
  derivation: Derivation
}

/** A change asked for: on which revision, what, by whom and why. */
export interface Asked {
  revision: number
  patch: Patch
  by: string
  why: string
  at: string
}

export type Changed = Now | { behind: readonly LogEntry[]; revision: number } | { problems: readonly Problem[] }

/** The one project that a server holds: its log, and the derivation of its latest revision. */
export interface Live {
  now(): Promise<Now>
  /** Keeps a change if it makes a sound project and nobody came first. */
  change(asked: Asked): Promise<Changed>
  logAfter: Store['logAfter']
}

/**
 * Derives the store's document, and again only what changes of it.
 *
 * @param meshFolder where the store keeps meshes by content hash
 */
export function liveProject(store: Store, meshFolder: string): Live {
  let held: Now | undefined
  const now = async (): Promise<Now> => {
    const { revision, document } = await store.current()
    if (held?.revision === revision) return held
    const read = readMeshes(document, meshFolder)
    const meshes = 'problems' in read ? new Map() : read.meshes
    const derivation =
      held === undefined ? startDerivation(document, meshes) : moveDerivation(held.derivation, document, meshes)
    held = { revision, derivation }
    return held
  }
  const change = async (asked: Asked): Promise<Changed> => {
    const before = await now()
    if (before.revision !== asked.revision) {
      return { behind: await store.logAfter(asked.revision), revision: before.revision }
    }
    const { derivation, problems } = tryChange(before.derivation, asked.patch)
    if (derivation === undefined) return { problems }
    if (derivation.derived.stages === undefined) return { problems: derivation.derived.problems }
    const kept = await store.append({ ...asked, on: asked.revision })
    if ('problems' in kept || 'behind' in kept) return kept
    held = { revision: kept.revision, derivation }
    return held
  }
  return { now, change, logAfter: store.logAfter }
}
