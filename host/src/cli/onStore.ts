import { existsSync } from 'node:fs'
import { userInfo } from 'node:os'
import { join } from 'node:path'
import type { Command } from 'commander'
import { type Live, liveProject } from '../server/live.ts'
import { placeIn } from '../store/place.ts'
import { openStore } from '../store/store.ts'
import { broughtUp } from '../store/upward.ts'
import { type Answer, type Common, printAnswer, usageProblem } from './answer.ts'
import { command } from './command.ts'

/** Options of a command that works on the store. */
export interface StoreOptions extends Common {
  data: string
}

/** Who is at the keyboard, and when. */
export interface Act {
  by: string
  at: string
}

/** A command that works on the project that a data folder, or `DATABASE_URL`, keeps. */
export const storeCommand = (name: string, description: string): Command =>
  command(name, description).option('--data <dir>', 'folder that keeps the project', 'data')

/** Opens the store, hands its project on, prints what comes back and closes it. An empty store is refused. */
export async function onStore<O extends StoreOptions>(
  options: O,
  answer: (live: Live, act: Act) => Promise<Answer>,
): Promise<void> {
  const place = placeIn(options.data)
  // A mistyped folder is not made, nor a store in it.
  if ('file' in place && !existsSync(place.file)) return printAnswer(noProject(options.data), options)
  const store = await openStore(place)
  try {
    const { revision } = await store.current()
    const live = liveProject(store, join(options.data, 'meshes'))
    const act = { by: userInfo().username, at: new Date().toISOString() }
    const notice = await broughtUp(store, act)
    if (notice !== undefined) process.stderr.write(`${notice}\n`)
    printAnswer(revision === 0 ? noProject(options.data) : await answer(live, act), options)
  } finally {
    await store.close()
  }
}

const noProject = (data: string): Answer =>
  usageProblem('--data', `"${data}", which keeps no project`, 'a folder in which "serve" has begun one', '--data data')
