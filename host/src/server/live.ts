import { type Derivation, type Meshes, moveDerivation, startDerivation } from '@shieldwright/engine'
import { model } from '@shieldwright/engine/model/index.ts'
import { meshesNamed } from '@shieldwright/engine/model/meshesNamed.ts'
import {
  inversePatch,
  meetingPlaces,
  type Touched,
  touchedBy,
  touchedPlaces,
} from '@shieldwright/engine/working/inverse.ts'
import { freshMemory, sameContent } from '@shieldwright/engine/working/memory.ts'
import { applyPatch, type Patch } from '@shieldwright/engine/working/patch.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { readMeshes } from '../project/readMeshes.ts'
import type { Kept, LogEntry, Store } from '../store/store.ts'
import { upward } from '../store/upward.ts'

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

export type Changed =
  /** Kept, on top of changes that others had kept meanwhile and that it did not meet. */
  | { revision: number; under: readonly LogEntry[]; same?: undefined; behind?: undefined; problems?: undefined }
  /** Already so: the log is left as it is, at its latest revision. */
  | { revision: number; under: readonly LogEntry[]; same: true; behind?: undefined; problems?: undefined }
  /** Others changed the same places first; or nobody did, and both changes together are no project. */
  | { behind: readonly LogEntry[]; revision: number; problems: readonly Problem[] }
  | { problems: readonly Problem[]; behind?: undefined }

/** The one project that a server holds: its log, and the derivation of its latest revision. */
export interface Live {
  /** The latest document; nothing is derived for it. */
  kept(): Promise<Kept>
  now(): Promise<Now>
  /** The project as it stood, with its meshes; undefined for a revision that is not there. Nothing is derived for it. */
  projectAt(revision: number): Promise<{ document: unknown; meshes: Meshes } | undefined>
  /** What followed from the project as it stood; undefined for a revision that is not there. The present is left as it is. */
  derivedAt(revision: number): Promise<Derivation | undefined>
  /**
   * Keeps a change if it makes a sound project. One that was made on an older revision is kept on top of what came since,
   * unless it meets it in a place. One that changes nothing is no revision.
   */
  change(asked: Asked): Promise<Changed>
  logAfter: Store['logAfter']
  /** The log with what takes each change back. */
  reversibleAfter(revision: number): Promise<ReversibleEntry[]>
  /** What the project lies in, for what is kept beside its changes. */
  readonly store: Store
  /** Told after every change kept here, until released. */
  watch(told: () => void): () => void
}

/** A change with what takes it back and what it touched; both absent where the whole project was replaced. */
export interface ReversibleEntry extends LogEntry {
  inverse?: Patch
  touched?: readonly Touched[]
}

/**
 * Derives the store's document when it is asked for, and again only what changed of it since.
 *
 * @param meshFolder where the store keeps meshes by content hash
 */
export function liveProject(store: Store, meshFolder: string): Live {
  let held: Now | undefined
  const reading = freshMemory()
  const meshesOf = meshShelf(meshFolder)
  const now = async (): Promise<Now> => {
    const { revision, document } = await store.current()
    if (held?.revision === revision) return held
    const meshes = await meshesOf(document)
    const derivation =
      held === undefined ? startDerivation(document, meshes) : moveDerivation(held.derivation, document, meshes)
    held = { revision, derivation }
    return held
  }
  const projectAt = async (revision: number) => {
    const document = upward(await store.at(revision))
    if (document === undefined) return undefined
    return { document, meshes: (await readMeshes(document, meshFolder, held?.derivation.meshes)).meshes }
  }
  const derivedAt = async (revision: number): Promise<Derivation | undefined> => {
    const latest = await now()
    if (revision === latest.revision) return latest.derivation
    const project = await projectAt(revision)
    if (project === undefined) return undefined
    const { document, meshes } = project
    return moveDerivation({ ...latest.derivation, memory: latest.derivation.memory.fork() }, document, meshes)
  }
  const watchers = new Set<() => void>()
  const isSound: Sound = async (document) => model(document, reading, await meshesOf(document)).problems
  const change = async (asked: Asked): Promise<Changed> => {
    const kept = await changedIn(store, asked, isSound)
    if (kept.problems === undefined && kept.same === undefined) for (const told of watchers) told()
    return kept
  }
  return {
    kept: store.current,
    now,
    projectAt,
    derivedAt,
    store,
    change,
    logAfter: store.logAfter,
    reversibleAfter: (revision) => reversible(store, revision),
    watch: (told) => {
      watchers.add(told)
      return () => watchers.delete(told)
    },
  }
}

type Sound = (document: unknown) => Promise<readonly Problem[]>

async function changedIn(store: Store, asked: Asked, problemsOf: Sound): Promise<Changed> {
  const known = store.known()
  // Of one who stands on what is known here the log is only asked where it is refused: its key refuses what others came before.
  const { revision, document } = asked.revision === known.revision ? known : await store.current()
  const under = asked.revision < revision ? await store.logAfter(asked.revision, revision - asked.revision) : []
  if (asked.revision > revision || (under.length > 0 && (await meets(store, asked, under))))
    return { behind: under, revision, problems: [] }
  const patched = applyPatch(document, asked.patch)
  if ('document' in patched && sameContent(document, patched.document)) return { revision, under, same: true }
  const problems = 'problems' in patched ? patched.problems : await problemsOf(patched.document)
  if (problems.length > 0 && (await store.current()).revision > revision) return changedIn(store, asked, problemsOf)
  if (problems.length > 0) return under.length > 0 ? { behind: under, revision, problems } : { problems }
  const appended = await store.append({ ...asked, on: revision })
  if ('problems' in appended) return appended
  if ('behind' in appended) return changedIn(store, asked, problemsOf) // Another process came first: look again.
  return { revision: appended.revision, under }
}

/** Whether a change touches a place that later changes touched. */
async function meets(store: Store, { revision, patch }: Asked, later: readonly LogEntry[]): Promise<boolean> {
  const base = await store.at(revision)
  if ('problems' in applyPatch(base, patch)) return true
  const mine = touchedPlaces(base, patch)
  let document = base
  for (const entry of later) {
    if (meetingPlaces(mine, touchedPlaces(document, entry.patch)).length > 0) return true
    document = documentAfter(document, entry.patch)
  }
  return false
}

async function reversible(store: Store, after: number): Promise<ReversibleEntry[]> {
  const entries = await store.logAfter(after)
  let document = await store.at(after)
  return entries.map((entry) => {
    const before = document
    document = documentAfter(document, entry.patch)
    if (entry.patch.some(({ path }) => path === '')) return entry
    return { ...entry, inverse: inversePatch(before, entry.patch), touched: touchedBy(before, entry.patch) }
  })
}

function documentAfter(document: unknown, patch: Patch): unknown {
  const patched = applyPatch(document, patch)
  if ('problems' in patched) throw new Error('the log does not replay')
  return patched.document
}

/**
 * The meshes that a document names. Each is read once, for its name is its content; and as long as the same ones are named
 * the same map comes back. A mesh that cannot be read is left out: the model then says where it is missing.
 */
function meshShelf(folder: string): (document: unknown) => Promise<Meshes> {
  let shelf: Meshes = new Map()
  const reading = freshMemory()
  // Names that were all found: as long as the same ones are named, there is nothing to look for.
  let found: readonly string[] | undefined
  return async (document) => {
    const named = meshesNamed(document, reading)
    if (named === found) return shelf
    const { meshes } = await readMeshes(document, folder, shelf)
    const same = meshes.size === shelf.size && [...meshes.keys()].every((hash) => shelf.has(hash))
    if (!same) shelf = meshes
    found = meshes.size === named.length ? named : undefined
    return shelf
  }
}
