import { randomUUID } from 'node:crypto'
import type { StoreDatabase } from '../store/database.ts'
import type { Tables } from '../store/tables.ts'
import { hasEnded, type JobDesk, type JobState } from './desk.ts'
import { type JobResults, jobContent } from './results.ts'

/** Jobs that may wait for a hand. */
const MOST_WAITING = 50
/** How often a job that someone follows is looked at, ms. */
const LOOK_EVERY = 300

/**
 * A desk whose jobs lie in the team's database: any process that works on them takes the next one (`hands.ts`), and they outlive this one.
 */
export function queuedDesk({ tables }: StoreDatabase, results: JobResults): JobDesk {
  const stateOf = async (id: string): Promise<JobState | undefined> => {
    const [row] = await tables.selectFrom('job').selectAll().where('id', '=', id).execute()
    return row && stateIn(row, results)
  }
  const following = new Set<NodeJS.Timeout>()
  return {
    start: async (project, revision, request) => {
      const waiting = await tables.selectFrom('job').select('id').where('state', '=', 'waiting').execute()
      if (waiting.length >= MOST_WAITING) return undefined
      const content = jobContent(project, request)
      const state = (await results.of(content)) === undefined ? 'waiting' : 'done'
      const none = { progress: '', problems: '', worker: '', tries: 0, cancelled: 0, heard: 0 }
      const about = { id: randomUUID(), content, request: JSON.stringify(request), revision }
      const row = { ...about, ...none, state, at: new Date().toISOString() } as const
      await tables.insertInto('job').values(row).execute()
      return stateIn(row, results)
    },
    stateOf,
    cancel: async (id) => {
      const asked = await tables.updateTable('job').set({ cancelled: 1 }).where('id', '=', id).executeTakeFirst()
      const nobodys = tables.updateTable('job').set({ state: 'cancelled' }).where('id', '=', id)
      await nobodys.where('state', '=', 'waiting').execute()
      return asked.numUpdatedRows > 0n
    },
    watch: (id, listener) => {
      let told = ''
      const look = async (): Promise<void> => {
        const state = await stateOf(id)
        const text = JSON.stringify(state)
        if (state !== undefined && text !== told) listener(state)
        told = text
        if (state === undefined || hasEnded(state)) release()
      }
      const timer = setInterval(() => look().catch((error) => console.error(error)), LOOK_EVERY)
      const release = (): void => {
        clearInterval(timer)
        following.delete(timer)
      }
      following.add(timer)
      return release
    },
    close: async () => {
      for (const timer of following) clearInterval(timer)
    },
  }
}

async function stateIn(row: Tables['job'], results: JobResults): Promise<JobState> {
  const { id, request, revision, state, progress, problems, content } = row
  return {
    id,
    request: JSON.parse(request),
    revision,
    state,
    ...(progress !== '' && { progress: JSON.parse(progress) }),
    ...(problems !== '' && { problems: JSON.parse(problems) }),
    ...(state === 'done' && { result: await results.of(content) }),
  }
}
