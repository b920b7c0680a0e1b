import type { Problem } from '@shieldwright/engine/working/problem.ts'
import type { Context } from 'hono'
import { storeFault } from '../store/storeFault.ts'

/** An error that came up: of the store, such as a full disk, told as what it is; else this program's own. */
export function faultAnswer(error: Error, context: Context): Response {
  console.error(error)
  const fault = storeFault(error)
  if (fault === undefined) return context.json({ problems: [broken] }, 500)
  return context.json({ problems: [fault.problem] }, fault.isFull ? 507 : 503)
}

const broken: Problem = {
  pointer: '',
  found: 'a fault of this program, told on its standard error',
  expected: 'an answer',
}
