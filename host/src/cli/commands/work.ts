import { join } from 'node:path'
import type { Command } from 'commander'
import { type Answer, type Common, printAnswer, usageProblem } from '../answer.ts'
import { command, wholeNumber } from '../command.ts'

interface Options extends Common {
  data: string
  hands: number
}

/** `work`: adds this machine to those that work on the jobs of a team's database. */
export const workCommand = (): Command =>
  command('work', 'work on the jobs of the database that DATABASE_URL names, beside its server, until told to end')
    .option('--data <dir>', 'folder whose "meshes" the server keeps too', 'data')
    .option('--hands <number>', 'jobs at once', wholeNumber(1, 64, 1), 1)
    .action(async (options: Options) => printAnswer(await working(options), options))

async function working({ data, hands }: Options): Promise<Answer> {
  const { placeIn } = await import('../../store/place.ts')
  const place = placeIn(data)
  if (!('url' in place))
    return usageProblem(
      'DATABASE_URL',
      'nothing',
      'the address of the PostgreSQL database that the server keeps its project in',
      'postgres://user@db.example:5432/recovery',
    )
  const { openStore } = await import('../../store/store.ts')
  const { workOnJobs } = await import('../../jobs/hands.ts')
  const store = await openStore(place)
  const working = workOnJobs(store, { meshFolder: join(data, 'meshes'), hands })
  for (const signal of ['SIGINT', 'SIGTERM'] as const)
    process.once(signal, () => void working.close().then(() => store.close()))
  return { json: { project: place.project, hands }, text: () => `At work on the jobs of "${place.project}".\n` }
}
