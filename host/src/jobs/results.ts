import { ENGINE_VERSION } from '@shieldwright/engine/version.ts'
import { sql } from 'kysely'
import { contentHash } from '../project/contentHash.ts'
import { isTaken, type StoreDatabase } from '../store/database.ts'
import type { JobProject } from './job.ts'
import type { JobRequest } from './kinds.ts'

/** Results of jobs, each by what it was made of: the same again is answered at once. */
export interface JobResults {
  /** The result as the API tells it; undefined where it has not been made. */
  of(content: string): Promise<unknown>
  keep(content: string, result: unknown): Promise<void>
}

/** Results that are kept, and their bytes together; the oldest are let go, for each can be made again. */
const MOST_KEPT = 200
const MOST_BYTES = 256 * 1024 * 1024

/** What the result of a job hangs from: the engine, what was asked, and the projects; meshes and photographs are named in them by their content. */
export const jobContent = ({ document, before, attached }: JobProject, request: JobRequest): string =>
  contentHash({
    engine: ENGINE_VERSION,
    request,
    document,
    before: before?.document,
    attached: attached && [...attached.files],
  })

/** Results beside a project's log. */
export function jobResults({ tables }: StoreDatabase): JobResults {
  return {
    of: async (content) => {
      const [row] = await tables.selectFrom('job_result').select('result').where('content', '=', content).execute()
      return row && (JSON.parse(row.result) as unknown)
    },
    keep: async (content, result) => {
      const row = { content, at: new Date().toISOString(), result: JSON.stringify(result) }
      try {
        await tables.insertInto('job_result').values(row).execute()
      } catch (error) {
        if (!isTaken(error)) throw error // Two made the same: it is the same.
      }
      const size = sql<number>`octet_length(result)`.as('size')
      const latest = await tables.selectFrom('job_result').select(['content', size]).orderBy('at', 'desc').execute()
      const old = tooMany(latest)
      if (old.length > 0) await tables.deleteFrom('job_result').where('content', 'in', old).execute()
    },
  }
}

/** Those that go, of results with the latest first; the latest always stays. */
function tooMany(latest: readonly { content: string; size: number }[]): string[] {
  let bytes = 0
  const old = latest.filter(({ size }, i) => {
    bytes += Number(size)
    return i > 0 && (i >= MOST_KEPT || bytes > MOST_BYTES)
  })
  return old.map(({ content }) => content)
}
