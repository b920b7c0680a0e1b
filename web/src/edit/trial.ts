import { meetingPlaces, touchedBy, touchedPlaces } from '@shieldwright/engine/working/inverse.ts'
import { applyPatch, type Operation, type Patch, patchBetween } from '@shieldwright/engine/working/patch.ts'
import { at } from '@shieldwright/engine/working/pointer.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { NO_PREVIEW } from '../engine/noPreview.ts'
import type { LoggedChange } from '../host.ts'
import type { Clash, Conflict, Edit, Trial } from '../state.ts'

const MOST_NAMED = 3

/** All edits in one sentence. */
export function wordsOf(edits: readonly Edit[]): string {
  const named = edits.slice(0, MOST_NAMED).map((e) => e.what)
  const more = edits.length - named.length
  return named.join('; ') + (more > 0 ? `; and ${more} more` : '')
}

/** The edits of a trial on a project: those that no longer change anything are left out. */
export function trialOn(kept: unknown, document: unknown, edits: readonly Edit[], earlier: Trial | undefined): Trial {
  const patch = patchBetween(kept, document)
  const standing = edits.filter((edit) => patch.some(({ path }) => meetingPlaces([path], [edit.pointer]).length > 0))
  return {
    patch,
    edits: standing,
    what: wordsOf(standing),
    why: earlier?.why ?? '',
    document,
    preview: earlier?.preview ?? NO_PREVIEW,
    pending: true,
  }
}

/** A further edit on top of a trial, or what keeps it from being made. */
export function withFurther(
  kept: unknown,
  trial: Trial | undefined,
  patch: Patch,
  what: string,
  block?: string,
): { trial: Trial } | { problems: readonly Problem[] } {
  const base = trial?.document ?? kept
  const patched = applyPatch(base, patch)
  if ('problems' in patched) return patched
  const pointer = block ?? patch[0]?.path ?? ''
  const first = trial?.edits.find((edit) => edit.pointer === pointer)
  const before = first === undefined || block !== undefined ? at(base, pointer) : first.before
  const edit: Edit = { pointer, what, before, ...(block === undefined ? {} : { isBlock: true }) }
  const others = (trial?.edits ?? []).filter((e) => e.pointer !== pointer)
  return { trial: trialOn(kept, patched.document, [...others, edit], trial) }
}

/** A trial without some of its edits: what stood there before them stands there again. */
export function withoutEdits(kept: unknown, trial: Trial, gone: readonly Edit[]): Trial | undefined {
  const document = gone.reduce((current, { pointer, before }) => {
    const back: Operation =
      before === undefined ? { op: 'remove', path: pointer } : { op: 'add', path: pointer, value: before }
    const restored = applyPatch(current, [
      before !== undefined && at(current, pointer) !== undefined ? ({ ...back, op: 'replace' } as Operation) : back,
    ])
    return 'problems' in restored ? current : restored.document
  }, trial.document)
  const left = trialOn(
    kept,
    document,
    trial.edits.filter((e) => !gone.includes(e)),
    trial,
  )
  return left.patch.length === 0 ? undefined : left
}

/** Edits whose own text is what is wrong: a problem names their very place, or a place in a block. */
export const editsAtFault = (trial: Trial, problems: readonly Problem[]): Edit[] =>
  trial.edits.filter((edit) =>
    edit.isBlock === true
      ? problems.some((p) => p.pointer.startsWith(`${edit.pointer}/`))
      : problems.some((p) => p.pointer === edit.pointer) && typeof at(trial.document, edit.pointer) !== 'object',
  )

/**
 * A trial moved onto a project that others changed under it.
 *
 * @param kept the project the trial was made on
 * @returns the trial on the changed project, or the places that both changed
 */
export function movedOnto(
  kept: unknown,
  trial: Trial,
  changed: readonly LoggedChange[],
): { trial: Trial } | { conflict: Conflict } {
  const theirs = changed.reduce((document, { patch }) => after(document, patch), kept)
  const mine = touchedPlaces(kept, trial.patch)
  const places = changed.reduce<{ document: unknown; meet: string[] }>(
    ({ document, meet }, { patch }) => ({
      document: after(document, patch),
      meet: [...meet, ...meetingPlaces(mine, touchedPlaces(document, patch))],
    }),
    { document: kept, meet: [] },
  ).meet
  const patched = applyPatch(theirs, trial.patch)
  if (places.length === 0 && 'document' in patched)
    return { trial: trialOn(theirs, patched.document, trial.edits, trial) }
  return { conflict: conflictOf(kept, theirs, trial, changed, [...new Set(places)]) }
}

const after = (document: unknown, patch: Patch): unknown => {
  const patched = applyPatch(document, patch)
  if ('problems' in patched) throw new Error(`a kept change does not fit at ${patched.problems[0]?.pointer}`)
  return patched.document
}

function conflictOf(
  kept: unknown,
  theirs: unknown,
  edit: Trial,
  changed: readonly LoggedChange[],
  places: readonly string[],
): Conflict {
  const touched = touchedBy(kept, edit.patch)
  const clashes = touched
    .filter((t) => places.includes(t.pointer))
    .map((t): Clash => ({ pointer: t.pointer, before: t.before, mine: t.after, theirs: at(theirs, t.pointer) }))
  return { edit, clashes, changed: changed.map(({ patch: _patch, ...entry }) => entry), problems: [] }
}
