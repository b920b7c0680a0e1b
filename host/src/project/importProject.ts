import { readFileSync } from 'node:fs'
import { basename, dirname, join } from 'node:path'
import { model } from '@shieldwright/engine/model/index.ts'
import { meshesNamed } from '@shieldwright/engine/model/meshesNamed.ts'
import { freshMemory } from '@shieldwright/engine/working/memory.ts'
import { type Operation, patchBetween } from '@shieldwright/engine/working/patch.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import type { Here } from '../server/api.ts'
import type { LogEntry, Store } from '../store/store.ts'
import { meshPath } from './readMeshes.ts'
import { readProjectFile } from './readProject.ts'
import { writeWhole } from './writeWhole.ts'

/**
 * Brings a project file into a store: as its first revision, or as a change to what is there. A file that is no sound
 * project changes nothing; one that says what the store says already adds no revision.
 *
 * @param meshFolder where the store keeps the meshes that the project names
 * @returns what keeps the file from being imported; empty when it was
 */
export async function importProject(
  store: Store,
  file: string,
  meshFolder: string,
  { user, clock }: Here,
): Promise<readonly Problem[]> {
  const read = await readProjectFile(file)
  if ('problems' in read) return read.problems
  const { problems } = model(read.document, freshMemory(), read.meshes)
  if (problems.length > 0) return problems
  const { revision, document } = await store.current()
  const whole: Operation[] = [{ op: 'add', path: '', value: read.document }]
  const patch = revision === 0 ? whole : patchBetween(document, read.document)
  if (patch.length === 0) return []
  for (const hash of meshesNamed(read.document)) {
    const path = meshPath(dirname(file), hash)
    if (path !== undefined) writeWhole(join(meshFolder, basename(path)), readFileSync(path))
  }
  const why = `imported ${basename(file)}`
  const kept = await store.append({ on: revision, patch, by: user, why, at: clock().toISOString() })
  if ('problems' in kept) return kept.problems
  return 'behind' in kept ? [overtaken(file, kept.behind)] : []
}

/** Others came first: nothing of theirs is overwritten by a file that was made without it. */
function overtaken(pointer: string, behind: readonly LogEntry[]): Problem {
  const changes = behind.map(({ revision, by, why }) => `revision ${revision} of ${by}${why && ` (${why})`}`)
  const found = `a project that changed meanwhile: ${changes.join(', ').slice(0, 300)}`
  return { pointer, found, expected: 'the same once more, on top of that; nothing of the file was kept' }
}
