import { type Answer, inputsOf } from '@shieldwright/engine/working/answer.ts'
import type { Check } from '@shieldwright/engine/working/check.ts'
import type { Patch } from '@shieldwright/engine/working/patch.ts'

/** Says of a check whether it rests on what a patch touches; what two checks share is looked into once. */
export function restingOn(patch: Patch): (check: Check) => boolean {
  const paths = patch.map(({ path }) => ({ path, under: `${path}/` }))
  const known = new Map<Answer, boolean>()
  const rests = (answer: Answer): boolean => {
    if (answer.kind === 'given')
      return paths.some(({ path, under }) => answer.pointer === path || answer.pointer.startsWith(under))
    const before = known.get(answer)
    if (before !== undefined) return before
    const found = inputsOf(answer).some(([, input]) => rests(input))
    known.set(answer, found)
    return found
  }
  return ({ demand, capacity }) => rests(demand) || rests(capacity)
}
