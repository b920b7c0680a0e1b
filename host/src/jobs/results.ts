import { ENGINE_VERSION } from '@shieldwright/engine/version.ts'
import { contentHash } from '../project/contentHash.ts'
import { isTaken, type StoreDatabase } from '../store/database.ts'
import type { JobRequest } from './kinds.ts'

/** Results of jobs, each by what it was made of: the same again is answered at once. */
export interface JobResults {
  /** The result as the API tells it; undefined where it has not been made. */
  of(content: string): Promise<unknown>
  keep(content: string, result: unknown): Promise<void>
}

/** Results that are kept; the oldest are let go, for each can be made again. */
const MOST_KEPT = 200

/** What the result of a job hangs from: the engine, what was asked, and the project; meshes are named in it by their content. */
export const jobContent = (document: unknown, request: JobRequest): string =>
  contentHash({ engine: ENGINE_VERSION, request, document })

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
      const latest = tables.selectFrom('job_result').select('content').orderBy('at', 'desc').limit(MOST_KEPT)
      await tables.deleteFrom('job_result').where('content', 'not in', latest).execute()
    },
  }
}
