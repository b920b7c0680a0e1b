import { MessageChannel, type MessagePort, receiveMessageOnPort, Worker } from 'node:worker_threads'
import { type Luck, type LuckOptions, type Simulated, simulateLuck } from '@shieldwright/engine/risk/luck.ts'
import type { BegunSimulation } from '@shieldwright/engine/scenarios.ts'

/** What goes into a thread that simulates; `beat` rises while it works, `stop` becomes 1 when it is to end. */
export interface SimulationBegin {
  port: MessagePort
  beat: SharedArrayBuffer
  stop: SharedArrayBuffer
}

/** One simulation for whoever takes it first: the word of its claim says who has. */
export interface SimulationOrder {
  number: number
  luck: Luck
  options: Pick<LuckOptions, 'runs' | 'seed'>
  claim: SharedArrayBuffer
}

export type SimulationAnswer = { number: number } & ({ simulated: Simulated } | { broken: string })

/** Nobody has it; a thread works on it; a thread has made it; the thread that asks for it makes it itself. */
export const [FREE, TAKEN, MADE, OWN] = [0, 1, 2, 3] as const

const script = new URL('../../bin/simulation.mjs', import.meta.url)

/** Milliseconds between looks, should a wake-up be missed; and after which a thread without a beat counts as broken. */
const LOOK_EVERY = 500
const SILENT_FOR = 300_000

/**
 * Simulations in threads beside this one, each begun in turn with the next of them. Whoever waits for one that no thread has
 * come to makes it itself, so that none is idle; a simulation is the same wherever it is made.
 *
 * @param threads beside this one; they start at once, and end with this one
 */
export function simulationsBeside(threads: number, options: LuckOptions, stop: SharedArrayBuffer) {
  const others = Array.from({ length: threads }, () => otherThread(stop))
  let begun = 0
  return (luck: Luck): BegunSimulation => {
    const number = begun++
    const other = others[number % others.length] as OtherThread
    const claim = new SharedArrayBuffer(4)
    const { runs, seed } = options
    other.port.postMessage({ number, luck, options: { runs, seed }, claim } satisfies SimulationOrder)
    const word = new Int32Array(claim)
    let made: Simulated | undefined
    return {
      isEnded: () => made !== undefined || Atomics.load(word, 0) === MADE,
      end: () => {
        made ??=
          Atomics.compareExchange(word, 0, FREE, OWN) === FREE
            ? simulateLuck(luck, options)
            : madeBy(other, number, word)
        return made
      },
    }
  }
}

interface OtherThread {
  port: MessagePort
  beat: Int32Array
  /** Answers that came while another was waited for. */
  answers: Map<number, SimulationAnswer>
}

function otherThread(stop: SharedArrayBuffer): OtherThread {
  const { port1, port2 } = new MessageChannel()
  const beat = new SharedArrayBuffer(4)
  const begin: SimulationBegin = { port: port2, beat, stop }
  const worker = new Worker(script, { workerData: begin, transferList: [port2] })
  // the job ends without it
  worker.unref()
  port1.unref()
  return { port: port1, beat: new Int32Array(beat), answers: new Map() }
}

/** The thread that waits sleeps meanwhile, so that a job stays one plain function. */
function madeBy(other: OtherThread, number: number, word: Int32Array): Simulated {
  let [silent, beat] = [0, -1]
  while (Atomics.load(word, 0) !== MADE) {
    const now = Atomics.load(other.beat, 0)
    silent = now === beat ? silent + LOOK_EVERY : 0
    beat = now
    if (silent >= SILENT_FOR) throw new Error('a thread that simulates does not answer')
    Atomics.wait(word, 0, TAKEN, LOOK_EVERY)
  }
  return takenFrom(other, number)
}

function takenFrom({ port, answers }: OtherThread, number: number): Simulated {
  for (let received = receiveMessageOnPort(port); received; received = receiveMessageOnPort(port)) {
    const answer = received.message as SimulationAnswer
    answers.set(answer.number, answer)
  }
  const answer = answers.get(number)
  if (answer === undefined) throw new Error('a thread that simulates made nothing')
  if ('broken' in answer) throw new Error(`a thread that simulates broke: ${answer.broken}`)
  return answer.simulated
}
