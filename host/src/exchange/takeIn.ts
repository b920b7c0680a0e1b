import { type Derivation, type Stages, type WhatIf, whatIf } from '@shieldwright/engine'
import {
  atRows,
  type CellProblem,
  type IntakeInput,
  intakeOf,
  type SheetKind,
} from '@shieldwright/engine/model/intake/index.ts'
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
  const { activities } = stages.programme
  const input = { of, ...read, document, project: stages.model.project, activities: new Set(Object.keys(activities)) }
  return tried(derivation, input, dataDateMoved(document, dataDate), [])
}

/** The good rows tried; those that the project refuses are left out with what it says, and the rest is tried again. */
function tried(
  derivation: Derivation,
  input: IntakeInput,
  moved: readonly Operation[],
  before: readonly Problem[],
): Taken {
  const intake = intakeOf(input)
  const { taken, same } = intake
  const patch = [...moved, ...intake.patch]
  const refused = [...intake.refused, ...before]
  if (patch.length === 0) return { patch, taken, same, refused }
  const result = whatIf(derivation, patch)
  if (result.whatIf !== undefined) return { patch, taken, same, refused, follows: result.whatIf }
  const said = atRows(result.problems, intake, 'row')
  const faulty = new Set(said.flatMap((problem) => ('row' in problem ? [problem.row as number] : [])))
  // what no row brings about is no row's fault: then nothing is taken
  if (faulty.size === 0) return { patch: [], taken: 0, same, refused: [...refused, ...said] }
  const rows = input.rows.filter(({ row }) => !faulty.has(row))
  return tried(derivation, { ...input, rows }, moved, [...before, ...said])
}

export function dataDateMoved(document: unknown, dataDate: string | undefined): Operation[] {
  const programme = (document as { programme?: { dataDate?: unknown } }).programme
  if (dataDate === undefined || programme?.dataDate === dataDate) return []
  const op = programme?.dataDate === undefined ? 'add' : 'replace'
  return [{ op, path: '/programme/dataDate', value: dataDate }]
}
