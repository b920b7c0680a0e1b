import { userInfo } from 'node:os'
import { join } from 'node:path'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { type JobDesk, jobDesk } from '../jobs/desk.ts'
import { placeIn } from '../store/place.ts'
import { openStore, type Store } from '../store/store.ts'
import { api } from './api.ts'
import { begun } from './begin.ts'
import { type Listening, listen } from './listen.ts'
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
}

/** Opens the workbench until the program is told to end; its address, or what keeps it from opening. */
export async function openWorkbench({
  file,
  empty = false,
  port,
  data,
}: Wanted): Promise<{ address: string } | { problems: readonly Problem[] }> {
  if (!isPageBuilt()) return refusal(builtPage, 'no built page', 'the page that "npm run build" makes')
  const store = await openStore(placeIn(data))
  const desk = jobDesk()
  const opened = await openedOn({ store, desk, meshFolder: join(data, 'meshes') }, { file, empty, port, data })
  if ('problems' in opened) {
    await store.close()
    return opened
  }
  for (const signal of ['SIGINT', 'SIGTERM'] as const) {
    process.once(signal, () => {
      desk.cancelAll()
      void opened.close().then(() => store.close())
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
  { file, empty = false, port, data }: Wanted,
): Promise<Listening | { problems: readonly Problem[] }> {
  const here = { user: userName(), clock: () => new Date() }
  const problems = await begun(store, { file, empty, data }, here)
  if (problems.length > 0) return { problems }
  const live = liveProject(store, meshFolder)
  const listening = await listen(server({ page: builtPage, api: api(live, here, desk) }), port).catch(portProblem)
  // Derived at once, and not only when a page asks: its first view then waits for nothing.
  if (!('problems' in listening)) setTimeout(() => live.now().catch((error) => console.error(error)), 0)
  return listening
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
