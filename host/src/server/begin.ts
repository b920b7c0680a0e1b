import { join } from 'node:path'
import { emptyProject } from '@shieldwright/engine/model/empty.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { demoProject } from '../project/demo.ts'
import { importProject } from '../project/importProject.ts'
import type { Store } from '../store/store.ts'
import type { Here } from './api.ts'

/** What a store is to begin with. */
export interface Beginning {
  /** Imported into whatever is there. */
  file?: string
  /** An empty project instead of the demo; refused where a project is kept. */
  empty?: boolean
  /** Folder that keeps the project. */
  data: string
}

/**
 * Makes sure that a store holds a project: a file's, an empty one or the demo. What is kept already is only ever added to.
 *
 * @returns what keeps it from being begun so; empty when it holds a project
 */
export async function begun(
  store: Store,
  { file, empty = false, data }: Beginning,
  here: Here,
): Promise<readonly Problem[]> {
  const holdsNone = (await store.current()).revision === 0
  if (empty && file !== undefined) return refusal(`the file ${file} beside it`, 'either a file or --empty')
  if (empty && !holdsNone)
    return refusal(
      `a project kept in ${data}`,
      'a folder that keeps none, such as --data new-recovery; nothing was changed',
    )
  if (empty) return begunEmpty(store, here)
  const source = file ?? (holdsNone ? demoProject : undefined)
  return source === undefined ? [] : importProject(store, source, join(data, 'meshes'), here)
}

async function begunEmpty(store: Store, { user, clock }: Here): Promise<readonly Problem[]> {
  const patch = [{ op: 'add', path: '', value: emptyProject() }] as const
  const kept = await store.append({ on: 0, patch, by: user, why: 'began an empty project', at: clock().toISOString() })
  return 'behind' in kept ? refusal('a project that another program has just begun', 'an empty store') : []
}

const refusal = (found: string, expected: string): Problem[] => [{ pointer: '--empty', found, expected }]
