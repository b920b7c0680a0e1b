import { mkdtempSync } from 'node:fs'
import { get } from 'node:http'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setFlagsFromString } from 'node:v8'
import { runInNewContext } from 'node:vm'
import { api } from '../host/src/server/api.ts'
import { listen } from '../host/src/server/listen.ts'
import { liveProject } from '../host/src/server/live.ts'
import { server } from '../host/src/server/server.ts'
import { openStore } from '../host/src/store/store.ts'
import { type Line, reported } from './line.ts'

/** What memory after the last round may come to, of what it was after the first. */
const MOST_GROWTH = 1.1

/** How long the soak goes on: so many edits in each round, while so many pages are open. */
export interface SoakSizes {
  pages: number
  rounds: number
  edits: number
}

const here = { user: 'bench', clock: () => new Date('2031-11-03T00:00:00Z') }

/** Edits of masses pushed to open pages by a server: every page hears of every edit once and in order, and memory stays flat. */
export async function soakLines(
  demo: object,
  { pages, rounds, edits }: SoakSizes = { pages: 50, rounds: 5, edits: 300 },
): Promise<Line[]> {
  const folder = mkdtempSync(join(tmpdir(), 'soak-'))
  const store = await openStore(join(folder, 'project.sqlite'))
  await store.append({ on: 0, patch: [{ op: 'add', path: '', value: demo }], by: 'bench', why: 'begun', at: '' })
  const live = liveProject(store, folder)
  const { address, close } = await listen(server({ page: folder, api: api(live, here) }), 0)
  const open = await Promise.all(Array.from({ length: pages }, () => openPage(`${address}/api/changes?after=1`)))
  const used: number[] = []
  for (let round = 0; round < rounds; round++) {
    for (let i = 0; i < edits; i++) await edited(address, 1 + round * edits + i)
    await heard(open, 1 + (round + 1) * edits)
    await live.now()
    used.push(heapUsed())
  }
  for (const page of open) page.close()
  await close()
  await store.close()
  const [first = Number.NaN, last = Number.NaN] = [used[0], used.at(-1)]
  const missed = open.filter(({ inOrder }) => !inOrder()).length
  return [
    reported(`edits pushed to each of ${pages} open pages`, rounds * edits, ''),
    { ...reported('pages that missed one, or heard one twice', missed, ''), limit: '0', holds: missed === 0 },
    reported('memory of server and pages after the first round', first / 2 ** 20, 'MiB'),
    {
      ...reported('after the last, as part of it', last / first, ''),
      limit: `at most ${MOST_GROWTH}`,
      holds: last / first <= MOST_GROWTH,
    },
  ]
}

interface Page {
  last: () => number
  inOrder: () => boolean
  close: () => void
}

/** An open page: it follows the changes, and keeps nothing of them but the number of the last. */
function openPage(address: string): Promise<Page> {
  return new Promise((resolve, reject) => {
    let [last, ordered, rest] = [1, true, '']
    const asked = get(address, { agent: false }, (answer) => {
      answer.setEncoding('utf8')
      answer.on('data', (text: string) => {
        const lines = (rest + text).split('\n')
        rest = lines.pop() ?? ''
        for (const line of lines) {
          if (line.startsWith('event: joined'))
            resolve({ last: () => last, inOrder: () => ordered, close: () => asked.destroy() })
          if (!line.startsWith('id: ')) continue
          const revision = Number(line.slice(4))
          ordered &&= revision === last + 1
          last = revision
        }
      })
      answer.on('error', () => undefined) // The end of the soak.
    })
    asked.once('error', reject)
  })
}

/** The mass of one part as no edit before it left it, kept over the API as a page does. */
async function edited(address: string, revision: number): Promise<void> {
  const patch = [{ op: 'replace', path: '/parts/CH-HUB/mass/value', value: `${36 + (revision % 1000) / 1000} t` }]
  const answer = await fetch(`${address}/api/change`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ revision, patch, why: 'weighed again' }),
  })
  if (!answer.ok) throw new Error(await answer.text())
  await answer.arrayBuffer()
}

async function heard(open: readonly Page[], revision: number): Promise<void> {
  const until = performance.now() + 60_000
  while (open.some(({ last }) => last() < revision) && performance.now() < until)
    await new Promise((resolve) => setTimeout(resolve, 20))
}

/** Bytes that are held on to, once all else is given back. */
function heapUsed(): number {
  setFlagsFromString('--expose-gc')
  const collect = runInNewContext('gc') as () => void
  collect()
  collect()
  const { heapUsed, arrayBuffers } = process.memoryUsage()
  return heapUsed + arrayBuffers
}
