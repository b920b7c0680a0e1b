import { existsSync } from 'node:fs'
import { userInfo } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import type { Command } from 'commander'
import { demoProject } from '../../project/demo.ts'
import { importProject } from '../../project/importProject.ts'
import { api } from '../../server/api.ts'
import { listen } from '../../server/listen.ts'
import { liveProject } from '../../server/live.ts'
import { server } from '../../server/server.ts'
import { openStore } from '../../store/store.ts'
import { type Answer, type Common, printAnswer, usageProblem } from '../answer.ts'
import { command, wholeNumber } from '../command.ts'

const builtPage = fileURLToPath(new URL('../../../../web/dist', import.meta.url))

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
  if (!existsSync(builtPage)) return usageProblem(builtPage, 'no built page', 'the page that "npm run build" makes')
  const store = await openStore(join(data, 'project.sqlite'))
  const meshFolder = join(data, 'meshes')
  const here = { user: userName(), clock: () => new Date() }
  const problems = await imported(file)
  if (problems.length > 0) return { problems }
  const app = server({ page: builtPage, api: api(liveProject(store, meshFolder), here) })
  const opened = await listen(app, port).catch(portProblem)
  if ('problems' in opened) {
    await store.close()
    return opened
  }
  return { json: { address: opened.address }, text: () => `Workbench: ${opened.address}\n` }

  async function imported(given: string | undefined): Promise<readonly Problem[]> {
    const isEmpty = (await store.current()).revision === 0
    const source = given ?? (isEmpty ? demoProject : undefined)
    return source === undefined ? [] : importProject(store, source, meshFolder, here)
  }
}

function portProblem(error: NodeJS.ErrnoException) {
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
