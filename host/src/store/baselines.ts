import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { isTaken, type StoreDatabase } from './database.ts'
import type { Store } from './store.ts'

/** A revision with a name. */
export interface NamedRevision {
  name: string
  revision: number
  at: string
  by: string
  why: string
}

/** Names of revisions, the oldest first. */
export async function namedRevisions({ tables }: StoreDatabase): Promise<NamedRevision[]> {
  return tables.selectFrom('baseline').selectAll().orderBy('at').orderBy('name').execute()
}

/** What means the latest revision wherever one is named: no name for one, in capitals or not. */
const NOW = 'now'

/** Gives a revision a name for good; what keeps it from having one, or nothing. */
export async function nameRevision({ database, at }: Store, named: NamedRevision): Promise<readonly Problem[]> {
  if (!/^[A-Za-z][\w. -]{0,79}$/.test(named.name) || named.name.toLowerCase() === NOW)
    return [
      {
        pointer: 'name',
        found: `"${named.name.slice(0, 90)}"`,
        expected: `a name that begins with a letter, other than "${NOW}"`,
        example: 'tender',
      },
    ]
  if ((await at(named.revision)) === undefined)
    return [{ pointer: 'revision', found: String(named.revision), expected: 'a revision that is kept' }]
  try {
    await database.tables.insertInto('baseline').values(named).execute()
    return []
  } catch (error) {
    if (!isTaken(error)) throw error
    return [{ pointer: 'name', found: `"${named.name}", which another revision has`, expected: 'a name of its own' }]
  }
}

/** The revision that a number, a name or "now" means; undefined for none. */
export async function revisionMeant({ database, current }: Store, words: string): Promise<number | undefined> {
  const { revision } = await current()
  if (words === NOW) return revision
  if (/^\d+$/.test(words)) return Number(words) >= 1 && Number(words) <= revision ? Number(words) : undefined
  return (await namedRevisions(database)).find(({ name }) => name === words)?.revision
}
