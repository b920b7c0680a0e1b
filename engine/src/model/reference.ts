import { nearestId, type Problem } from '../working/problem.ts'

/** An id in the file that names nothing in it. */
export interface Reference {
  pointer: string
  id: string
  /** What the id should name, and where such things stand. */
  what: string
  known: ReadonlySet<string>
}

export const keys = (collection: Readonly<Record<string, unknown>> | undefined): ReadonlySet<string> =>
  new Set(Object.keys(collection ?? {}))

/** Those of a list that name nothing, each at its place. */
export function list(ids: readonly string[], pointer: string, what: string, known: ReadonlySet<string>): Reference[] {
  return ids.flatMap((id, i) => one(id, `${pointer}/${i}`, what, known))
}

const NONE: Reference[] = []

/** One id, where it is given and names nothing. */
export function one(id: string | undefined, pointer: string, what: string, known: ReadonlySet<string>): Reference[] {
  return id === undefined || known.has(id) ? NONE : [{ pointer, id, what, known }]
}

/** To look for the nearest id costs a walk over all of them. */
const MOST_ADVISED = 200

/** Problems of the references that name nothing, with the nearest id that is there. */
export function dangling(references: readonly Reference[]): Problem[] {
  return references.map(({ pointer, id, what, known }, i) => {
    const near = i < MOST_ADVISED ? nearestId(id, known) : undefined
    return {
      pointer,
      found: JSON.stringify(id),
      expected: `the id of ${what}${near === undefined ? '' : `; did you mean "${near}"?`}`,
    }
  })
}
