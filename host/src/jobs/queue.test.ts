import { type ChildProcess, spawn } from 'node:child_process'
import { once } from 'node:events'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type Postgres, startPostgres } from '../../../scripts/postgres.mjs'
import { openStore, type Store } from '../store/store.ts'
import { ending, hasEnded, type JobDesk, type JobState } from './desk.ts'
import { type Hands, workOnJobs } from './hands.ts'
import { startJob } from './job.ts'
import type { JobRequest } from './kinds.ts'
import { queuedDesk } from './queue.ts'
import { jobResults } from './results.ts'
import { isBook } from './view.ts'

const project = {
  schemaVersion: 1,
  about: { title: 'One activity' },
  programme: {
    start: '2031-11-03',
    restart: 'A',
    calendars: { days: { days: ['Mon', 'Tue', 'Wed'], shifts: [['07:00', '17:00']], hoursPerDay: 10 } },
    activities: { A: { name: 'Resume', calendar: 'days', days: [1, 2, 6] } },
  },
}
const held = { document: project, meshes: new Map() }
const LEASE = 1500

let server: Postgres
let places = 0
beforeAll(async () => {
  server = await startPostgres()
})
afterAll(() => server?.stop())

test('a worker that is killed in the middle loses no job: another process takes it up, and each is done once', async () => {
  const { store, desk, place } = await opened()
  const ids: string[] = []
  for (let seed = 1; seed <= 3; seed++) ids.push(await asked(desk, { kind: 'simulate', runs: 300_000, seed }))
  const killed = worker(place)
  await until(desk, ids[0] ?? '', ({ state }) => state !== 'waiting')
  killed.kill('SIGKILL')
  await once(killed, 'exit')
  // on a busy machine the first may have ended by now: what counts is the job that was in hand
  const jobs = store.database.tables.selectFrom('job')
  const inHand = await jobs.select('id').where('state', '=', 'running').execute()
  expect(inHand).toHaveLength(1)
  const others = [worker(place), worker(place)]
  const ends = await Promise.all(ids.map((id) => until(desk, id, hasEnded)))
  for (const other of others) other.kill('SIGKILL')
  expect(ends.map(({ state }) => state)).toEqual(['done', 'done', 'done'])
  expect(ends.map(({ result }) => (result as { seed: number }).seed)).toEqual([1, 2, 3])
  const rows = await jobs.select(['id', 'tries']).execute()
  expect(Object.fromEntries(rows.map(({ id, tries }) => [id, tries]))).toEqual(
    Object.fromEntries(ids.map((id) => [id, id === inHand[0]?.id ? 2 : 1])),
  )
  await store.close()
})

test('what was made before is answered at once, and by no worker', async () => {
  const { store, desk } = await opened()
  const request = { kind: 'simulate', runs: 200, seed: 5 } as const
  const hands = workOnJobs(store, { meshFolder: 'none', hands: 1, lease: LEASE })
  const made = await until(desk, await asked(desk, request), hasEnded)
  await hands.close()
  const again = await desk.start(held, 1, request)
  expect(again).toMatchObject({ state: 'done', result: made.result })
  const other = { ...project, about: { title: 'Another project' } }
  expect(await desk.start({ ...held, document: other }, 1, request)).toMatchObject({ state: 'waiting' })
  await store.close()
})

test('a job is cancelled while it waits and while it is worked on', async () => {
  const { store, desk } = await opened()
  const long = { kind: 'simulate', runs: 1_000_000 } as const
  const [one, two] = [await asked(desk, { ...long, seed: 1 }), await asked(desk, { ...long, seed: 2 })]
  expect(await desk.cancel(two)).toBe(true)
  expect(await desk.stateOf(two)).toMatchObject({ state: 'cancelled' })
  const hands = workOnJobs(store, { meshFolder: 'none', hands: 1, lease: LEASE })
  await until(desk, one, ({ state }) => state === 'running')
  await desk.cancel(one)
  expect(await until(desk, one, hasEnded)).toMatchObject({ state: 'cancelled' })
  expect(await desk.cancel('nothing')).toBe(false)
  await closed(hands, store)
})

test('a book of the queue is the one that a thread makes of the same two revisions', async () => {
  const { store, desk } = await opened()
  const longer = {
    ...project,
    programme: { ...project.programme, activities: { A: { ...project.programme.activities.A, days: [2, 3, 6] } } },
  }
  const patch = [{ op: 'replace', path: '', value: longer }] as const
  await store.append({ on: 1, patch, by: 'x', why: 'x', at: '2031-11-03T01:00:00Z' })
  const request = {
    ...{ kind: 'book', letter: 'B', date: '2031-11-03', revision: '2', units: 'SI', runs: 60, seed: 1 },
    since: { name: 'issue A', revision: 1 },
  } as const satisfies JobRequest
  const both = { document: longer, meshes: new Map(), before: held }
  const here = await ending(startJob(both, request))
  const hands = workOnJobs(store, { meshFolder: 'none', hands: 1, lease: LEASE })
  const made = await until(desk, (await desk.start(both, 2, request))?.id ?? '', hasEnded)
  expect(isBook(made.result)).toBe(true)
  expect(made.result).toEqual(here.result)
  const first = await ending(startJob({ ...both, before: undefined }, request))
  expect(made.result).not.toEqual(first.result)
  await closed(hands, store)
})

test('a process that is told to end gives back what it works on', async () => {
  const { store, desk } = await opened()
  const id = await asked(desk, { kind: 'simulate', runs: 1_000_000, seed: 3 })
  const hands = workOnJobs(store, { meshFolder: 'none', hands: 1, lease: LEASE })
  await until(desk, id, ({ state }) => state === 'running')
  await hands.close()
  expect(await desk.stateOf(id)).toMatchObject({ state: 'waiting' })
  await store.close()
})

async function opened() {
  const place = { url: server.url, project: `jobs_${++places}` }
  const store = await openStore(place)
  const patch = [{ op: 'add', path: '', value: project }] as const
  await store.append({ on: 0, patch, by: 'x', why: 'x', at: '2031-11-03T00:00:00Z' })
  return { place, store, desk: queuedDesk(store.database, jobResults(store.database)) }
}

async function asked(desk: JobDesk, request: JobRequest): Promise<string> {
  const state = await desk.start(held, 1, request)
  expect(state).toMatchObject({ state: 'waiting' })
  return state?.id ?? ''
}

function worker(place: object): ChildProcess {
  const script = fileURLToPath(new URL('./worker.fixture.ts', import.meta.url))
  const words = ['--import', 'tsx', script, JSON.stringify(place), String(LEASE)]
  return spawn(process.execPath, words, { stdio: ['ignore', 'ignore', 'inherit'] })
}

/** Follows a job; what it last came to is said when it does not get there. */
async function until(desk: JobDesk, id: string, is: (state: JobState) => boolean): Promise<JobState> {
  return new Promise((resolve, reject) => {
    let last = ''
    const release = desk.watch(id, (state) => {
      last = `${state.state} ${JSON.stringify(state.progress)}`
      if (is(state)) end(() => resolve(state))
    })
    const late = setTimeout(() => end(() => reject(new Error(`a job is not there after 110 s: ${last}`))), 110_000)
    const end = (settle: () => void): void => {
      clearTimeout(late)
      release()
      settle()
    }
  })
}

async function closed(hands: Hands, store: Store): Promise<void> {
  await hands.close()
  await store.close()
}
