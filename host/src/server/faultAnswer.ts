import { type Problem, problemText } from '@shieldwright/engine/working/problem.ts'
import type { Context } from 'hono'
import { storeFault } from '../store/storeFault.ts'

/** An error that came up: of who asks or of the store, such as a full disk, told as what it is; else this program's own. */
export function faultAnswer(error: Error, context: Context): Response {
  // Nobody is there to be answered.
  if (error.message === 'aborted') return context.json({ problems: [cutShort] }, 400)
  const fault = storeFault(error)
  console.error(fault === undefined ? error : `${problemText(fault.problem)}: ${error.message}`)
  if (fault === undefined) return context.json({ problems: [broken] }, 500)
  return context.json({ problems: [fault.problem] }, fault.isFull ? 507 : 503)
}

const cutShort: Problem = { pointer: '', found: 'a request that was cut short', expected: 'all of it' }

const broken: Problem = {
  pointer: '',
  found: 'a fault of this program, told on its standard error',
  expected: 'an answer',
}
