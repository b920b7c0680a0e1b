import { ENGINE_VERSION } from '@shieldwright/engine/version.ts'
import type { Context } from 'hono'
import { streamSSE } from 'hono/streaming'
import { asking } from './asking.ts'
import type { Live } from './live.ts'

/** Another process may keep changes in the same store: it is looked at again after so long, ms. */
const LOOK_AGAIN = 2000

/**
 * Changes as they are kept, as server-sent events: `joined` with the revision and the engine of this host, then a `change`
 * with its patch for each revision after the one that is asked for. It ends with the session of who follows.
 */
export function changesFollowed(context: Context, live: Live, after: number) {
  const isStillAllowed = asking.getStore()?.isSignedIn ?? (async () => true)
  return streamSSE(context, async (stream) => {
    let wake = (): void => undefined
    const release = live.watch(() => wake())
    stream.onAbort(() => {
      release()
      wake()
    })
    const { revision } = await live.kept()
    await stream.writeSSE({ event: 'joined', data: JSON.stringify({ revision, engine: ENGINE_VERSION }) })
    let last = after
    while (!stream.aborted && (await isStillAllowed())) {
      const woken = soonerOf(LOOK_AGAIN, (now) => {
        wake = now
      })
      for (const entry of await live.logAfter(last)) {
        await stream.writeSSE({ event: 'change', id: String(entry.revision), data: JSON.stringify(entry) })
        last = entry.revision
      }
      await woken
    }
    release()
  })
}

/** Ends after so many ms, or when it is told to. */
function soonerOf(ms: number, onReady: (now: () => void) => void): Promise<void> {
  return new Promise((resolve) => {
    const timer = setTimeout(resolve, ms)
    onReady(() => {
      clearTimeout(timer)
      resolve()
    })
  })
}
