import { type Derived, derive } from './derive.ts'
import type { Mesh } from './numeric/mesh.ts'
import { type Fork, freshMemory, type Memory } from './working/memory.ts'
import { applyPatch, type Patch } from './working/patch.ts'
import type { Problem } from './working/problem.ts'

/** Closed meshes that lie beside a document, by content hash. */
export type Meshes = ReadonlyMap<string, Mesh>

/** A project with what was derived from it and what it takes to derive the next change cheaply. */
export interface Derivation {
  readonly document: unknown
  readonly meshes: Meshes
  readonly derived: Derived
  readonly memory: Memory
}

export type Changed =
  | { derivation: Derivation; problems: readonly [] }
  | { derivation?: undefined; problems: readonly Problem[] }

/** A derivation in a memory of its own, which may be thrown away or kept. */
export interface Tried extends Derivation {
  readonly memory: Fork
}

/** The first derivation of a document. */
export function startDerivation(document: unknown, meshes: Meshes = new Map()): Derivation {
  const memory = freshMemory()
  return { document, meshes, derived: derive(document, memory, meshes), memory }
}

/** The derivation after a patch; what the patch does not touch is not computed again. The memory passes on. */
export function changeDerivation(from: Derivation, patch: Patch): Changed {
  return change(from, patch, from.memory)
}

/** A derivation after a patch that may be thrown away: `from` and its memory stay as they are. */
export function tryChange(
  from: Derivation,
  patch: Patch,
): { derivation: Tried; problems: readonly [] } | Extract<Changed, { derivation?: undefined }> {
  const memory = from.memory.fork()
  const changed = change(from, patch, memory)
  return changed.derivation === undefined
    ? changed
    : { derivation: { ...changed.derivation, memory }, problems: changed.problems }
}

/** A change that was tried is kept as it is: nothing is computed again, and the memory it was tried over passes on. */
export const keepTried = (tried: Tried): Derivation => ({ ...tried, memory: tried.memory.keep() })

/** The derivation of another document, computing again only what differs in identity. The memory passes on. */
export function moveDerivation(from: Derivation, document: unknown, meshes: Meshes = from.meshes): Derivation {
  return { document, meshes, derived: derive(document, from.memory, meshes), memory: from.memory }
}

function change(from: Derivation, patch: Patch, memory: Memory): Changed {
  const patched = applyPatch(from.document, patch)
  if ('problems' in patched) return { problems: patched.problems }
  const { document } = patched
  const { meshes } = from
  return { derivation: { document, meshes, derived: derive(document, memory, meshes), memory }, problems: [] }
}
