import type { Patch } from '@shieldwright/engine/working/patch.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'

export type Kept = { document: unknown; revision: number } | { problems: readonly Problem[] }

/** The project as the host keeps it. */
export async function readKept(): Promise<Kept> {
  const response = await fetch('/api/project')
  if (!response.ok)
    return { problems: [{ pointer: '', found: `answer ${response.status} from the host`, expected: 'a project' }] }
  return response.json()
}

export type Sent = { revision: number } | { problems: readonly Problem[] }

/** Sends a change on top of the revision it was made on; the host refuses when something changed under it. */
export async function sendChange(revision: number, patch: Patch, why: string): Promise<Sent> {
  const response = await fetch('/api/change', {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ revision, patch, why }),
  })
  const answer = await response.json()
  if (response.ok) return answer
  if (response.status === 409)
    return {
      problems: [
        { pointer: '', found: 'a newer revision', expected: 'your edit on top of it; reload to see what changed' },
      ],
    }
  return {
    problems: answer.problems ?? [
      { pointer: '', found: `answer ${response.status}`, expected: 'the change to be kept' },
    ],
  }
}
