import { type Derivation, type Meshes, moveDerivation, startDerivation } from '@shieldwright/engine'
import { model } from '@shieldwright/engine/model/index.ts'
import { freshMemory } from '@shieldwright/engine/working/memory.ts'
import { applyPatch, type Patch } from '@shieldwright/engine/working/patch.ts'
import { readMeshes } from '../project/readMeshes.ts'
import type { Appended, Kept, Store } from '../store/store.ts'

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

/** As the store answers, or every problem that keeps the changed document from being a project. */
export type Changed = Appended

/** The one project that a server holds: its log, and the derivation of its latest revision. */
export interface Live {
  /** The latest document; nothing is derived for it. */
  kept(): Promise<Kept>
  now(): Promise<Now>
  /** Keeps a change if it makes a sound project and nobody came first. */
  change(asked: Asked): Promise<Changed>
  logAfter: Store['logAfter']
}

/**
 * Derives the store's document when it is asked for, and again only what changed of it since.
 *
 * @param meshFolder where the store keeps meshes by content hash
 */
export function liveProject(store: Store, meshFolder: string): Live {
  let held: Now | undefined
  const reading = freshMemory()
  const now = async (): Promise<Now> => {
    const { revision, document } = await store.current()
    if (held?.revision === revision) return held
    const meshes = meshesOf(document, meshFolder)
    const derivation =
      held === undefined ? startDerivation(document, meshes) : moveDerivation(held.derivation, document, meshes)
    held = { revision, derivation }
    return held
  }
  const change = async (asked: Asked): Promise<Changed> => {
    const { revision, document } = await store.current()
    if (revision !== asked.revision) return { behind: await store.logAfter(asked.revision), revision }
    const patched = applyPatch(document, asked.patch)
    if ('problems' in patched) return patched
    const { problems } = model(patched.document, reading, meshesOf(patched.document, meshFolder))
    return problems.length > 0 ? { problems } : store.append({ ...asked, on: revision })
  }
  return { kept: store.current, now, change, logAfter: store.logAfter }
}

/** A mesh that cannot be read is left out: the model then says where it is missing. */
function meshesOf(document: unknown, folder: string): Meshes {
  const read = readMeshes(document, folder)
  return 'problems' in read ? new Map() : read.meshes
}
