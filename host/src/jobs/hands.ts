import { randomUUID } from 'node:crypto'
import { sql } from 'kysely'
import { readMeshes } from '../project/readMeshes.ts'
import { picturesInStore } from '../report/attachedPictures.ts'
import type { Store } from '../store/store.ts'
import type { Tables } from '../store/tables.ts'
import { upward } from '../store/upward.ts'
import { ending } from './desk.ts'
import { type JobProject, type Progress, type Running, startJob } from './job.ts'
import type { JobRequest } from './kinds.ts'
import { jobResults } from './results.ts'

/** How a process works on the jobs of a team's database. */
export interface HandsOptions {
  /** Where meshes lie by content hash. */
  meshFolder: string
  /** Jobs at once. */
  hands: number
  /** A worker that is not heard of for so long is taken for dead, and its job taken up by another, ms. */
  lease?: number
}

/** Hands at work. */
export interface Hands {
  /** Gives back what is being worked on, for others to take up, and ends. */
  close(): Promise<void>
}

const LEASE = 15_000
/** A job that has brought down so many workers is given up. */
const MOST_TRIES = 3
const LOOK_EVERY = 300

/**
 * Takes jobs from the team's database, one at a time for each hand, and works on them. A job is one worker's for as long as that is heard of: of a worker
 * that was killed the job is taken up by another. PostgreSQL only.
 */
export function workOnJobs(store: Store, options: HandsOptions): Hands {
  const place: Place = { store, worker: randomUUID(), lease: LEASE, ...options, isClosing: false, atWork: new Set() }
  const all = Array.from({ length: options.hands }, () => hand(place))
  return {
    close: async () => {
      place.isClosing = true
      for (const job of place.atWork) job.cancel()
      await Promise.all(all)
    },
  }
}

interface Place extends Required<HandsOptions> {
  store: Store
  worker: string
  isClosing: boolean
  atWork: Set<Running>
}

type Row = Tables['job']

async function hand(place: Place): Promise<void> {
  while (!place.isClosing) {
    try {
      const row = await taken(place)
      if (row === undefined) await pause(LOOK_EVERY)
      else await done(place, row)
    } catch (error) {
      console.error(error) // Such as a database that restarts: the job is taken up again when its lease has run out.
      await pause(LOOK_EVERY)
    }
  }
}

const pause = (ms: number): Promise<void> => new Promise((resolve) => setTimeout(resolve, ms))

/** Milliseconds by the database's clock, which all workers share. */
const now = sql<number>`(extract(epoch from clock_timestamp()) * 1000)::bigint`

/** The job that has waited longest, or whose worker is not heard of; nobody else gets it. */
async function taken({ store, worker, lease }: Place): Promise<Row | undefined> {
  const { rows } = await sql<Row>`
    update job set state = 'running', worker = ${worker}, heard = ${now}, tries = tries + 1
    where id = (
      select id from job
      where state = 'waiting' or (state = 'running' and heard < ${now} - ${lease}::bigint)
      order by at, id limit 1 for update skip locked
    ) returning *`.execute(store.database.tables)
  return rows[0]
}

async function done(place: Place, row: Row): Promise<void> {
  if (row.tries > MOST_TRIES) return ended(place, row, { state: 'broken' })
  const request = JSON.parse(row.request) as JobRequest
  let progress: Progress | undefined
  const job: Running = startJob(await projectOf(place, row.revision, request), request, (told) => {
    progress = told
  })
  place.atWork.add(job)
  const beat = setInterval(() => void heard(place, row, job, progress), place.lease / 5)
  const end = await ending(job)
  clearInterval(beat)
  place.atWork.delete(job)
  const isGivenBack = place.isClosing && end.state === 'cancelled'
  if (isGivenBack) return ended(place, row, { state: 'waiting', worker: '', tries: row.tries - 1 })
  if (end.state === 'done') await jobResults(place.store.database).keep(row.content, end.result)
  await ended(place, row, { state: end.state, problems: end.problems ? JSON.stringify(end.problems) : '' })
}

/** The project at a revision; of a book with the one that it is compared with, and their photographs. */
async function projectOf(place: Place, revision: number, request: JobRequest): Promise<JobProject> {
  const now = await projectAt(place, revision)
  if (request.kind !== 'book') return now
  const earlier = request.since?.revision
  const before = earlier === undefined ? undefined : await projectAt(place, earlier)
  return { ...now, before, attached: await picturesInStore([now.document, before?.document], place.store.database) }
}

async function projectAt({ store, meshFolder }: Place, revision: number): Promise<JobProject> {
  const document = upward(await store.at(revision))
  const { meshes } = await readMeshes(document, meshFolder)
  return { document, meshes }
}

/** Tells that this worker lives and how far it has come; stops where the job is to stop, or is another's by now. */
async function heard(place: Place, row: Row, job: Running, progress: Progress | undefined): Promise<void> {
  try {
    const mine = await place.store.database.tables
      .updateTable('job')
      .set({ heard: now, ...(progress && { progress: JSON.stringify(progress) }) })
      .where('id', '=', row.id)
      .where('worker', '=', place.worker)
      .where('tries', '=', row.tries)
      .returning('cancelled')
      .execute()
    if (mine[0]?.cancelled !== 0) job.cancel()
  } catch (error) {
    console.error(error) // The next one may get through; else the lease runs out.
  }
}

async function ended({ store, worker }: Place, { id, tries }: Row, end: Partial<Row>): Promise<void> {
  const mine = store.database.tables.updateTable('job').set(end).where('id', '=', id).where('worker', '=', worker)
  await mine.where('tries', '=', tries).execute()
}
