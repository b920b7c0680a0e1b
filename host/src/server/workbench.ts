import { existsSync, readFileSync } from 'node:fs'
import { userInfo } from 'node:os'
import { join } from 'node:path'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { accounts } from '../accounts/accounts.ts'
import { type JobDesk, jobDesk } from '../jobs/desk.ts'
import { workOnJobs } from '../jobs/hands.ts'
import { queuedDesk } from '../jobs/queue.ts'
import { jobResults } from '../jobs/results.ts'
import { placeIn } from '../store/place.ts'
import { openStore, type Store } from '../store/store.ts'
import { api } from './api.ts'
import { asking } from './asking.ts'
import { begun } from './begin.ts'
import { gate } from './gate.ts'
import { type Listening, type ListenOptions, listen } from './listen.ts'
import { liveProject } from './live.ts'
import { builtPage, isPageBuilt } from './page.ts'
import { server } from './server.ts'

/** What the workbench is to be opened on. */
export interface Wanted {
  /** Imported into the store first; without one an empty store begins with the demo. */
  file?: string
  /** An empty store begins with an empty project; a store that holds one is left as it is, and this is refused. */
  empty?: boolean
  /** TCP port on the loopback address; 0 takes a free one. */
  port: number
  /** Folder that keeps the project. */
  data: string
  /** Address beyond this machine to listen on: only with accounts, and over TLS. */
  host?: string | undefined
  /** Files of certificate chain and key, PEM. */
  cert?: string | undefined
  key?: string | undefined
  /** Names under which it is reached. */
  names?: readonly string[] | undefined
}

/** Jobs that a team's server works on at once, beside those of other processes. */
const HANDS = 2

/** Opens the workbench until the program is told to end; its address, or what keeps it from opening. */
export async function openWorkbench(wanted: Wanted): Promise<{ address: string } | { problems: readonly Problem[] }> {
  if (!isPageBuilt()) return refusal(builtPage, 'no built page', 'the page that "npm run build" makes')
  const { data } = wanted
  const store = await openStore(placeIn(data))
  const results = jobResults(store.database)
  const isShared = store.database.engine === 'postgres'
  const meshFolder = join(data, 'meshes')
  const desk = isShared ? queuedDesk(store.database, results) : jobDesk(results)
  const opened = await openedOn({ store, desk, meshFolder }, wanted)
  if ('problems' in opened) {
    await store.close()
    return opened
  }
  const hands = isShared ? workOnJobs(store, { meshFolder, hands: HANDS }) : undefined
  for (const signal of ['SIGINT', 'SIGTERM'] as const) {
    process.once(signal, () => {
      void Promise.all([desk.close(), hands?.close(), opened.close()]).then(() => store.close())
    })
  }
  return { address: opened.address }
}

interface Kept {
  store: Store
  desk: JobDesk
  meshFolder: string
}

async function openedOn(
  { store, desk, meshFolder }: Kept,
  wanted: Wanted,
): Promise<Listening | { problems: readonly Problem[] }> {
  const { file, empty = false, port, data } = wanted
  const clock = () => new Date()
  const keyboard = userName()
  // Who has signed in; on a server without accounts whoever sits at it.
  const here = {
    get user() {
      return asking.getStore()?.name ?? keyboard
    },
    clock,
  }
  const opening = await openingOf(wanted, store)
  if ('problems' in opening) return opening
  const problems = await begun(store, { file, empty, data }, here)
  if (problems.length > 0) return { problems }
  const live = liveProject(store, meshFolder)
  const { names, tls } = opening
  const secure = tls !== undefined
  const entrance = gate({ database: store.database, clock, secure })
  const app = server({ page: builtPage, api: api(live, here, desk), gate: entrance, names, secure })
  const listening = await listen(app, port, opening).catch(portProblem)
  // Derived at once, and not only when a page asks: its first view then waits for nothing.
  if (!('problems' in listening)) setTimeout(() => live.now().catch((error) => console.error(error)), 0)
  return listening
}

type Opening = ListenOptions & { names: readonly string[] }

/** How far a server is opened: beyond this machine only to those who sign in, and only where nobody can listen in. */
async function openingOf(
  { host, cert, key, names = [] }: Wanted,
  { database }: Store,
): Promise<Opening | { problems: readonly Problem[] }> {
  const isHere = host === undefined || ['127.0.0.1', '::1', 'localhost'].includes(host)
  if ((cert === undefined) !== (key === undefined))
    return refusal('--cert', 'one of two files', 'both --cert and --key')
  if (!isHere && (await accounts(database)).length === 0)
    return refusal(
      '--host',
      `${host}, and no account`,
      'an account first, such as: account "A. Engineer" --role approver',
    )
  if (!isHere && cert === undefined)
    return refusal('--host', `${host}, and no certificate`, 'a certificate, with --cert and --key')
  const files = [cert, key].flatMap((path) => (path === undefined ? [] : [path]))
  const missing = files.find((path) => !existsSync(path))
  if (missing !== undefined) return refusal('--cert', `no file "${missing}"`, 'a PEM file')
  const [chain, secret] = files.map((path) => readFileSync(path, 'utf8'))
  const tls = chain === undefined || secret === undefined ? undefined : { cert: chain, key: secret }
  return { host, tls, names: isHere ? names : [...names, host] }
}

function portProblem(error: NodeJS.ErrnoException): { problems: readonly Problem[] } {
  if (error.code !== 'EADDRINUSE' && error.code !== 'EACCES') throw error
  return refusal('--port', 'a port that another program holds', 'a free port, or 0 for any')
}

function userName(): string {
  try {
    return userInfo().username
  } catch {
    return 'unknown' // An account without a name, as in some containers.
  }
}

const refusal = (pointer: string, found: string, expected: string): { problems: readonly Problem[] } => ({
  problems: [{ pointer, found, expected }],
})
