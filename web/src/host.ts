import type { Touched } from '@shieldwright/engine/working/inverse.ts'
import type { Patch } from '@shieldwright/engine/working/patch.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import type { Summary } from './engine/protocol.ts'

export type Kept = { document: unknown; revision: number } | { problems: readonly Problem[] }

/** A change as the host's log holds it. */
export interface LoggedChange {
  revision: number
  /** ISO 8601, UTC. */
  at: string
  by: string
  why: string
  patch: Patch
}

/** A change with what takes it back, and what it found and left at the places it touched. */
export interface ReversibleChange extends LoggedChange {
  /** Absent where the whole project was replaced. */
  inverse?: Patch
  touched?: readonly Touched[]
}

/** What the page asks of its host. */
export interface Host {
  readKept: () => Promise<Kept>
  /** What the host derived of the kept project, to be shown while this page's own engine is at its first derivation. */
  readSummary?: () => Promise<{ revision: number; summary: Summary } | undefined>
  sendChange: (revision: number, patch: Patch, why: string) => Promise<Sent>
  /** Changes after a revision, with what takes them back; and under which name this page makes its own. */
  readLog: (after: number) => Promise<{ changes: readonly ReversibleChange[]; you: string }>
  /** Follows the log from a revision on until released. */
  follow: (after: () => number, told: Told) => () => void
}

/** What a page that follows the log is told. */
export interface Told {
  /** The connection stands; which engine the host runs. */
  joined: (host: { revision: number; engine: string }) => void
  change: (change: LoggedChange) => void
  lost: () => void
}

export type Sent =
  /** Kept, on top of what others had kept meanwhile and it did not meet. */
  | { revision: number; under: readonly LoggedChange[] }
  /** Others changed the same places first, or both changes together are no project. */
  | { changed: readonly LoggedChange[]; problems: readonly Problem[] }
  | { problems: readonly Problem[]; changed?: undefined }

const refusal = (found: string, expected: string): { problems: readonly Problem[] } => ({
  problems: [{ pointer: '', found, expected }],
})

/** The host over HTTP, and server-sent events for what others change. */
export const host: Host = {
  readKept: async () => {
    const response = await fetch('/api/project')
    return response.ok ? response.json() : refusal(`answer ${response.status} from the host`, 'a project')
  },
  readSummary: async () => {
    const response = await fetch('/api/summary')
    const answer = response.ok ? await response.json() : undefined
    return answer?.summary === undefined ? undefined : answer
  },
  sendChange: async (revision, patch, why) => {
    const response = await post('/api/change', { revision, patch, why })
    if (response === undefined) return refusal('no answer from the host', 'the change to be kept; nothing was')
    const answer = await response.json()
    if (response.ok) return { revision: answer.revision, under: answer.under ?? [] }
    if (response.status === 409) return { changed: answer.changed, problems: answer.problems ?? [] }
    return answer.problems === undefined ? refusal(`answer ${response.status}`, 'the change to be kept') : answer
  },
  readLog: async (after) => {
    const response = await fetch(`/api/log?after=${after}&values=yes`)
    return response.ok ? response.json() : { changes: [], you: '' }
  },
  follow,
}

/** A patch and its answer; undefined when the host is not reached. */
const post = (path: string, body: unknown): Promise<Response | undefined> =>
  fetch(path, { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }).catch(
    () => undefined,
  )

const AGAIN_AFTER = 1000

function follow(after: () => number, told: Told): () => void {
  let source: EventSource | undefined
  let again: ReturnType<typeof setTimeout> | undefined
  const open = (): void => {
    source = new EventSource(`/api/changes?after=${after()}`)
    source.addEventListener('joined', ({ data }) => told.joined(JSON.parse(data)))
    source.addEventListener('change', ({ data }) => told.change(JSON.parse(data)))
    source.onerror = () => {
      // The browser would join where it left; a new one joins where the page is now.
      source?.close()
      told.lost()
      again = setTimeout(open, AGAIN_AFTER)
    }
  }
  open()
  return () => {
    source?.close()
    clearTimeout(again)
  }
}
