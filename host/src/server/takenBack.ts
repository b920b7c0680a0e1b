import type { Changed, Live } from './live.ts'

/**
 * Takes a change back by a change of its own: what it touched is as it was before, unless others have changed it since.
 *
 * @param revision the change; the latest where none is named
 */
export async function takenBack(live: Live, by: string, at: string, revision?: number): Promise<Changed> {
  const head = (await live.kept()).revision
  const taken = revision ?? head
  const [entry] = taken >= 1 && taken <= head ? await live.reversibleAfter(taken - 1) : []
  if (entry?.inverse === undefined)
    return {
      problems: [
        {
          pointer: 'revision',
          found: String(taken),
          expected: 'a change that is kept, other than one of the whole project',
        },
      ],
    }
  return live.change({ revision: taken, patch: entry.inverse, by, why: `took back revision ${taken}`, at })
}
