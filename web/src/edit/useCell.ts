import { at } from '@shieldwright/engine/working/pointer.ts'
import { useShown } from '../state.ts'
import { cellText, readCell } from './cell.ts'
import { type Field, isCell } from './field.ts'
import { fieldAt, schemaOf, useProjectField } from './schema.ts'
import { writing } from './write.ts'

/** A place of the project file as a cell: its text now, how it is typed, and what became of what was typed. */
export interface CellNow {
  field: Field | undefined
  /** As kept, or as it would be with the edits that are being looked at. */
  text: string
  /** As kept. */
  kept: string
  state: 'kept' | 'tried' | 'refused'
  said: string | undefined
  /** Takes what was typed: it is looked at with the other edits, or refused with what is due. */
  commit: (text: string) => void
  /** Leaves the place as it was. */
  leave: () => void
}

/**
 * @param name what the place is called in a sentence, such as "Cutting head hub, mass of one"
 */
export function useCell(pointer: string, name: string): CellNow {
  const { document, trial, refusedCells } = useShown()
  const project = useProjectField()
  const commit = useCommit()
  const shown = trial?.document ?? document
  const field = fieldAt(project, shown, pointer)
  const refused = refusedCells.get(pointer)
  const [kept, now] = [cellText(at(document, pointer)), cellText(at(shown, pointer))]
  return {
    field,
    kept,
    text: refused?.text ?? now,
    state: refused !== undefined ? 'refused' : kept === now ? 'kept' : 'tried',
    said: refused?.said,
    commit: (text) => commit(pointer, name, field, text),
    leave: () => commit(pointer, name, field, kept),
  }
}

/** Takes what was typed into any place. */
export function useCommit(): (pointer: string, name: string, field: Field | undefined, text: string) => void {
  const { client, document, trial, act } = useShown()
  const shown = trial?.document ?? document
  return async (pointer, name, known, text) => {
    // A quick hand types before the schema has come.
    const field = known ?? fieldAt(await schemaOf(client), shown, pointer)
    if (field === undefined || !isCell(field)) return
    const now = cellText(at(shown, pointer))
    if (text.trim() === now) return act.refuse(pointer, undefined)
    const read = readCell(field, text)
    if ('fault' in read) return act.refuse(pointer, { text, said: `${read.fault} Not kept.` })
    const patch = writing(shown, pointer, 'absent' in read ? undefined : read.value)
    if (patch.length === 0) return act.refuse(pointer, undefined)
    act.refuse(pointer, undefined)
    act.tryOut(patch, `${name}: ${cellText(at(document, pointer)) || 'none'} → ${text.trim() || 'none'}`)
  }
}
