import { mkdtempSync } from 'node:fs'
import { Agent, request } from 'node:http'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { model } from '../engine/src/model/index.ts'
import { freshMemory } from '../engine/src/working/memory.ts'
import { applyPatch, type Patch } from '../engine/src/working/patch.ts'
import { api } from '../host/src/server/api.ts'
import { gate } from '../host/src/server/gate.ts'
import { listen } from '../host/src/server/listen.ts'
import { liveProject } from '../host/src/server/live.ts'
import { server } from '../host/src/server/server.ts'
import { openStore } from '../host/src/store/store.ts'
import { type Line, reported } from './line.ts'
import { atLeast, LEAST_EDITS } from './store.ts'

const said = { by: 'bench', why: 'one edit', at: '2031-11-03T00:00:00Z' }
const here = { user: said.by, clock: () => new Date(said.at) }

type EditOf = (n: number) => Patch

const title: EditOf = (n) => [{ op: 'replace', path: '/about/title', value: `Edit ${n}` }]
const mass: EditOf = (n) => [{ op: 'replace', path: '/parts/CH-HUB/mass/value', value: `${36 + (n % 1000) / 1000} t` }]

/**
 * One writer over HTTP who waits for each answer before the next is sent: every edit goes through the gate, is held against the
 * whole project, written to SQLite and synced (write-ahead log, synchronous = FULL) before it is answered. Then what a part of
 * that takes by itself, on the clock and of the processor, the writer's own share included.
 */
export async function waitingLines(demo: object, edits = 500): Promise<Line[]> {
  const folder = mkdtempSync(join(tmpdir(), 'waiting-'))
  const store = await openStore(join(folder, 'project.sqlite'))
  await store.append({ on: 0, patch: [{ op: 'add', path: '', value: demo }], ...said })
  const entrance = gate({ database: store.database, clock: () => new Date(), secure: false })
  const app = server({ page: folder, api: api(liveProject(store, folder), here), gate: entrance })
  const { address, close } = await listen(app, 0)
  const writer = writerOn(address)
  let revision = 1
  const kept = async (edit: EditOf): Promise<void> => {
    const body = { revision, patch: edit(revision), why: said.why }
    revision = ((await writer.sent('POST', '/api/change', body)) as { revision: number }).revision
  }
  const appended = async (): Promise<void> => {
    await store.append({ on: revision, patch: mass(revision), ...said })
    revision++
  }
  await effortOf(edits / 10, () => kept(mass)) // The first are slow: code is read.
  const [titled, weighed] = [await effortOf(edits, () => kept(title)), await effortOf(edits, () => kept(mass))]
  const asked = await effortOf(edits, () => writer.sent('GET', '/api/log?after=1000000'))
  const written = await effortOf(edits, appended)
  const read = await effortOf(edits, readAgain(demo))
  const all = (await store.current()).revision
  writer.close()
  await close()
  await store.close()
  return [
    atLeast('edits a second over HTTP, one writer who waits: a title', 1000 / titled.ms, LEAST_EDITS),
    reported('  a mass', 1000 / weighed.ms, ''),
    ...[weighed, asked, read, written].flatMap(({ ms, processor }, i) => [
      reported(`  ${PARTS[i]}`, ms, 'ms'),
      reported('    of it the processor', processor, 'ms'),
    ]),
    { ...reported('  edits kept, of those sent', all - revision, ''), limit: '0 lost', holds: all === revision },
  ]
}

const PARTS = [
  'an edit of a mass',
  'asked and answered through the gate, nothing kept',
  'held against the whole project',
  'written and synced',
]

/** Milliseconds on the clock and of the processor that one takes of so many, each after the one before. */
async function effortOf(times: number, done: () => unknown): Promise<{ ms: number; processor: number }> {
  const [start, before] = [performance.now(), process.cpuUsage()]
  for (let i = 0; i < times; i++) await done()
  const { user, system } = process.cpuUsage(before)
  return { ms: (performance.now() - start) / times, processor: (user + system) / 1000 / times }
}

/** Reads the project again with one more mass, as the server does before it keeps one. */
function readAgain(demo: object): () => void {
  const [memory, meshes] = [freshMemory(), new Map()]
  let [document, n]: [unknown, number] = [demo, 0]
  model(document, memory, meshes)
  return () => {
    const patched = applyPatch(document, mass(n++))
    if ('problems' in patched || model(patched.document, memory, meshes).problems.length > 0) throw new Error('refused')
    document = patched.document
  }
}

/** One connection that is kept, and a request on it. */
function writerOn(address: string) {
  const agent = new Agent({ keepAlive: true, maxSockets: 1 })
  const sent = (method: string, path: string, body?: object): Promise<unknown> =>
    new Promise((resolve, reject) => {
      const text = body === undefined ? '' : JSON.stringify(body)
      const headers = { 'content-type': 'application/json', 'content-length': Buffer.byteLength(text) }
      const asked = request(address + path, { agent, method, headers }, (answer) => {
        const parts: Buffer[] = []
        answer.on('data', (part: Buffer) => parts.push(part))
        answer.on('end', () => {
          const said = Buffer.concat(parts).toString()
          if (answer.statusCode === 200) resolve(JSON.parse(said))
          else reject(new Error(said))
        })
      })
      asked.on('error', reject)
      asked.end(text)
    })
  return { sent, close: () => agent.destroy() }
}
