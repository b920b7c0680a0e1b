import { workerData } from 'node:worker_threads'
import { simulateLuck } from '@shieldwright/engine/risk/luck.ts'
import { FREE, MADE, type SimulationAnswer, type SimulationBegin, type SimulationOrder, TAKEN } from './simulations.ts'

const { port, beat, stop } = workerData as SimulationBegin
const alive = new Int32Array(beat)
const flag = new Int32Array(stop)

/** Told that it lives each time that it is asked whether to go on. */
function shouldContinue(): boolean {
  Atomics.add(alive, 0, 1)
  return Atomics.load(flag, 0) === 0
}

port.on('message', ({ number, luck, options, claim }: SimulationOrder) => {
  const word = new Int32Array(claim)
  if (Atomics.compareExchange(word, 0, FREE, TAKEN) !== FREE) return
  port.postMessage(answerOf(number, luck, options))
  Atomics.store(word, 0, MADE)
  Atomics.notify(word, 0)
})

function answerOf(
  number: number,
  luck: SimulationOrder['luck'],
  options: SimulationOrder['options'],
): SimulationAnswer {
  try {
    return { number, simulated: simulateLuck(luck, { ...options, shouldContinue }) }
  } catch (error) {
    return { number, broken: String(error) }
  }
}
