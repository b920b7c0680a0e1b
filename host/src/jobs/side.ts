import { MessageChannel, type MessagePort, receiveMessageOnPort, Worker } from 'node:worker_threads'
import type { Far, News, SideOrder } from '@shieldwright/engine/programme/index.ts'

/** What goes into the thread of a side; the word `told` rises with each answer, `stop` becomes 1 when it is to end. */
export interface SideBegin {
  order: SideOrder
  port: MessagePort
  told: SharedArrayBuffer
  stop: SharedArrayBuffer
}

/** One stretch of work, with what the other side knows. */
export interface Stretch {
  effort: number
  news: News
}

export type SideAnswer = { news: News } | { broken: string }

const script = new URL('../../bin/side.mjs', import.meta.url)

/** Milliseconds between looks at the port, should a wake-up be missed; and after which a silent thread counts as broken. */
const LOOK_EVERY = 500
const SILENT_FOR = 300_000

/**
 * The side that improves, in a thread of its own that begins with the first stretch. The thread that waits sleeps meanwhile, so
 * that a job stays one plain function; what is exchanged, and when, is the same as in one thread.
 *
 * @throws when the other thread breaks
 */
export function inThread(order: SideOrder, stop: SharedArrayBuffer): Far {
  const told = new SharedArrayBuffer(4)
  let port: MessagePort | undefined
  return {
    begin: (effort, news) => {
      port ??= started(order, told, stop)
      port.postMessage({ effort, news } satisfies Stretch)
    },
    end: () => {
      if (port === undefined) throw new Error('a side ends what it has not begun')
      return answerOf(port, new Int32Array(told))
    },
  }
}

function started(order: SideOrder, told: SharedArrayBuffer, stop: SharedArrayBuffer): MessagePort {
  const { port1, port2 } = new MessageChannel()
  const begin: SideBegin = { order, port: port2, told, stop }
  const worker = new Worker(script, { workerData: begin, transferList: [port2] })
  // the job ends without it
  worker.unref()
  port1.unref()
  return port1
}

function answerOf(port: MessagePort, told: Int32Array): News {
  for (let waited = 0; waited < SILENT_FOR; waited += LOOK_EVERY) {
    const seen = Atomics.load(told, 0)
    const received = receiveMessageOnPort(port)
    if (received !== undefined) {
      const answer = received.message as SideAnswer
      if ('broken' in answer) throw new Error(`the side that improves broke: ${answer.broken}`)
      return answer.news
    }
    Atomics.wait(told, 0, seen, LOOK_EVERY)
  }
  throw new Error('the side that improves does not answer')
}
