import type { Touched } from '@shieldwright/engine/working/inverse.ts'
import { sameContent } from '@shieldwright/engine/working/memory.ts'
import type { Patch } from '@shieldwright/engine/working/patch.ts'
import { at } from '@shieldwright/engine/working/pointer.ts'

/** An edit of this page that was kept: what does it and what takes it back, and what each left at the places touched. */
export interface KeptEdit {
  revision: number
  what: string
  forward: Patch
  inverse: Patch
  touched: readonly Touched[]
}

/** This page's edits: what undo takes back, latest last, and what redo does again, next last. */
export interface History {
  done: readonly KeptEdit[]
  undone: readonly KeptEdit[]
}

export const NO_HISTORY: History = { done: [], undone: [] }

/** A new edit: there is nothing to redo after it. */
export const withEdit = (history: History, edit: KeptEdit): History => ({ done: [...history.done, edit], undone: [] })

export function afterUndo({ done, undone }: History): History {
  const last = done.at(-1)
  return last === undefined ? { done, undone } : { done: done.slice(0, -1), undone: [...undone, last] }
}

export function afterRedo({ done, undone }: History): History {
  const next = undone.at(-1)
  return next === undefined ? { done, undone } : { done: [...done, next], undone: undone.slice(0, -1) }
}

/** Places of an edit that no longer hold what it left there: someone else has been there since. */
export function movedOn(document: unknown, touched: readonly Touched[], left: 'before' | 'after'): Touched[] {
  return touched.filter((place) => !sameContent(at(document, place.pointer), place[left]))
}

/** The revisions alone: enough to find the edits in the log again after a reload. */
export interface RememberedHistory {
  done: readonly number[]
  undone: readonly number[]
}

export const remembered = ({ done, undone }: History): RememberedHistory => ({
  done: done.map((e) => e.revision),
  undone: undone.map((e) => e.revision),
})

/** The history with its edits as the log tells them; what the log does not reach back to is left out. */
export function recalled(revisions: RememberedHistory, edits: readonly KeptEdit[]): History {
  const byRevision = new Map(edits.map((e) => [e.revision, e]))
  const found = (wanted: readonly number[]): KeptEdit[] =>
    wanted.map((r) => byRevision.get(r)).filter((e) => e !== undefined)
  return { done: found(revisions.done), undone: found(revisions.undone) }
}
