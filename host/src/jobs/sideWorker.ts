import { workerData } from 'node:worker_threads'
import { improverOf } from '@shieldwright/engine/programme/index.ts'
import type { SideAnswer, SideBegin, Stretch } from './side.ts'

const { order, port, told, stop } = workerData as SideBegin
const word = new Int32Array(told)
const flag = new Int32Array(stop)
const side = improverOf(order, () => Atomics.load(flag, 0) === 0)

port.on('message', (stretch: Stretch) => {
  port.postMessage(answerTo(stretch))
  Atomics.add(word, 0, 1)
  Atomics.notify(word, 0)
})

function answerTo({ effort, news }: Stretch): SideAnswer {
  try {
    side.tell(news)
    return { news: side.go(effort) }
  } catch (error) {
    return { broken: String(error) }
  }
}
