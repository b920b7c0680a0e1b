import { type Derivation, type Stages, type WhatIf, whatIf } from '@shieldwright/engine'
import { atRows, type CellProblem, intakeOf, type SheetKind } from '@shieldwright/engine/model/intake/index.ts'
import type { Operation } from '@shieldwright/engine/working/patch.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { readTable } from './readTable.ts'

/** A table and how it is taken. */
export interface TableFile {
  bytes: Uint8Array
  /** For messages. */
  name: string
  of: SheetKind
  /** Sheet of a workbook; the first otherwise. */
  sheet?: string | undefined
  /** Moves the data date as well: progress is known up to it. */
  dataDate?: string | undefined
}

/** What a table would change. Nothing has been changed. */
export interface Taken {
  patch: readonly Operation[]
  taken: number
  same: number
  /** Rows that are refused, and what the project says of the rest. */
  refused: readonly (CellProblem | Problem)[]
  /** What follows from the patch; absent where it cannot be applied. */
  follows?: WhatIf
}

/** A table read, held against the project, and tried: a preview with every row that is refused. */
export async function takeIn(
  derivation: Derivation,
  stages: Stages,
  { bytes, name, of, sheet, dataDate }: TableFile,
): Promise<Taken | { problems: readonly Problem[] }> {
  const read = await readTable(bytes, name, sheet)
  if ('problems' in read) return read
  const { document } = derivation
  const intake = intakeOf({
    of,
    ...read,
    document,
    project: stages.model.project,
    activities: new Set(Object.keys(stages.programme.activities)),
  })
  const patch = [...dataDateMoved(document, dataDate), ...intake.patch]
  const { taken, same, refused } = intake
  if (patch.length === 0) return { patch, taken, same, refused }
  const tried = whatIf(derivation, patch)
  if (tried.whatIf === undefined)
    return { patch: [], taken: 0, same, refused: [...refused, ...atRows(tried.problems, intake, 'row')] }
  return { patch, taken, same, refused, follows: tried.whatIf }
}

function dataDateMoved(document: unknown, dataDate: string | undefined): Operation[] {
  const programme = (document as { programme?: { dataDate?: unknown } }).programme
  if (dataDate === undefined || programme?.dataDate === dataDate) return []
  const op = programme?.dataDate === undefined ? 'add' : 'replace'
  return [{ op, path: '/programme/dataDate', value: dataDate }]
}
