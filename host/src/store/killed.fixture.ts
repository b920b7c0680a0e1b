import { spawn } from 'node:child_process'
import { fileURLToPath } from 'node:url'
import type { Place } from './place.ts'
import { openStore } from './store.ts'

/** What a writer that was killed had acknowledged last, and what is wrong with what it left behind. */
export interface Killed {
  acknowledged: number
  fault?: string | undefined
}

/**
 * Starts a writer on a place, kills it outright so long after its first acknowledged change, and looks at what it left: all that it acknowledged is there,
 * every change whole, the log without a gap, and the document the same over every snapshot.
 *
 * @param wait ms
 */
export async function killedWriter(place: Place, wait: number): Promise<Killed> {
  const acknowledged = await lastAcknowledged(place, wait)
  const store = await openStore(place)
  try {
    const { revision, document } = await store.current()
    if (revision < acknowledged) return { acknowledged, fault: `${revision} kept of ${acknowledged} acknowledged` }
    const least = Math.max(1, revision - 45)
    for (let at = least; at <= revision; at++)
      if (!isWhole(await store.at(at), at)) return { acknowledged, fault: `revision ${at} is not whole` }
    if (!isWhole(document, revision)) return { acknowledged, fault: 'the document is not whole' }
    for (let after = 0; after < revision; after += 1000) {
      const gap = (await store.logAfter(after, 1000)).findIndex((entry, i) => entry.revision !== after + i + 1)
      if (gap >= 0) return { acknowledged, fault: `a gap in the log after ${after + gap}` }
    }
    return { acknowledged }
  } finally {
    await store.close()
  }
}

const isWhole = (document: unknown, revision: number): boolean => {
  const { n, half } = document as { n: number; half: number }
  return n === revision && half === n / 2
}

function lastAcknowledged(place: Place, wait: number): Promise<number> {
  const writer = fileURLToPath(new URL('./writer.fixture.ts', import.meta.url))
  const words = ['--import', 'tsx', writer, JSON.stringify(place)]
  const child = spawn(process.execPath, words, { stdio: ['ignore', 'pipe', 'inherit'] })
  return new Promise((resolve) => {
    let said = ''
    let last = 0
    child.stdout.on('data', (text: Buffer) => {
      if (said === '' && last === 0) setTimeout(() => child.kill('SIGKILL'), wait)
      const lines = (said + text.toString()).split('\n')
      said = lines.pop() ?? '' // A number that was cut off was not told.
      for (const line of lines) last = Math.max(last, Number(line))
    })
    child.once('close', () => resolve(last))
  })
}
