import type { Check } from '../working/check.ts'
import { type Document, liftsOf } from './small.fixture.ts'

/** The worst check of a kind in the small project, changed: a failure before an open one, an open one before a pass. */
export function worstOfKind(kind: string, change?: (document: Document) => void): Check {
  const checks = liftsOf(change).checks.filter((c) => c.kind === kind)
  const rank = { fail: 0, open: 1, near: 2, pass: 3 }
  const worst = [...checks].sort((a, b) => rank[a.verdict] - rank[b.verdict])[0]
  if (worst === undefined) throw new Error(`no check of kind ${kind}`)
  return worst
}

/** A change of the small project before it is read. */
export type Change = (document: Document) => void

/** Three cases of a kind of check, as changes of the small project that passes. */
export const kind = ({ id }: { id: string }, fail: Change, open: Change, pass: Change = () => {}) => ({
  [id]: {
    pass: () => worstOfKind(id, pass),
    fail: () => worstOfKind(id, fail),
    open: () => worstOfKind(id, open),
  },
})
