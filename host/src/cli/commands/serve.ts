import { userInfo } from 'node:os'
import { join } from 'node:path'
import type { Command } from 'commander'
import { type JobDesk, jobDesk } from '../../jobs/desk.ts'
import { demoProject } from '../../project/demo.ts'
import { importProject } from '../../project/importProject.ts'
import { api } from '../../server/api.ts'
import { type Listening, listen } from '../../server/listen.ts'
import { liveProject } from '../../server/live.ts'
import { builtPage, isPageBuilt } from '../../server/page.ts'
import { server } from '../../server/server.ts'
import { openStore, type Store } from '../../store/store.ts'
import { type Answer, type Common, printAnswer, type Refusal, usageProblem } from '../answer.ts'
import { command, wholeNumber } from '../command.ts'

interface Options extends Common {
  port: number
  data: string
}

/** `serve [FILE]`: imports FILE into the store and starts the workbench. */
export const serveCommand = (): Command =>
  command('serve', 'start the workbench on the stored project, and print its address')
    .argument('[file]', 'project file to import first; without one an empty store begins with the demo')
    .option('--port <number>', 'TCP port on 127.0.0.1; 0 takes a free one', wholeNumber(0, 65535, 8417), 8417)
    .option('--data <dir>', 'folder that keeps the project', 'data')
    .action(async (file: string | undefined, options: Options) => printAnswer(await served(file, options), options))

async function served(file: string | undefined, { port, data }: Options): Promise<Answer> {
  if (!isPageBuilt()) return usageProblem(builtPage, 'no built page', 'the page that "npm run build" makes')
  const store = await openStore(join(data, 'project.sqlite'))
  const desk = jobDesk()
  const opened = await openedOn({ store, desk, meshFolder: join(data, 'meshes') }, file, port)
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
  return { json: { address: opened.address }, text: () => `Workbench: ${opened.address}\n` }
}

interface Kept {
  store: Store
  desk: JobDesk
  meshFolder: string
}

async function openedOn(
  { store, desk, meshFolder }: Kept,
  file: string | undefined,
  port: number,
): Promise<Listening | Refusal> {
  const here = { user: userName(), clock: () => new Date() }
  const isEmpty = (await store.current()).revision === 0
  const source = file ?? (isEmpty ? demoProject : undefined)
  const problems = source === undefined ? [] : await importProject(store, source, meshFolder, here)
  if (problems.length > 0) return { problems }
  const app = server({ page: builtPage, api: api(liveProject(store, meshFolder), here, desk) })
  return listen(app, port).catch(portProblem)
}

function portProblem(error: NodeJS.ErrnoException): Refusal {
  if (error.code !== 'EADDRINUSE' && error.code !== 'EACCES') throw error
  return usageProblem('--port', 'a port that another program holds', 'a free port, or 0 for any')
}

function userName(): string {
  try {
    return userInfo().username
  } catch {
    return 'unknown' // An account without a name, as in some containers.
  }
}
