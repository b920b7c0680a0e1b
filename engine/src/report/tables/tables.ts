import type { GroundResult } from '../../ground/index.ts'
import type { LiftResult } from '../../lift/index.ts'
import type { MassResult } from '../../mass/index.ts'
import type { Model, Programme } from '../../model/index.ts'
import { neededBy, type ProgrammeResult } from '../../programme/index.ts'
import type { StripResult } from '../../strip/index.ts'
import { groundTable, loadTable, massTable, orderTable, partTable } from './loadTables.ts'
import { deliveriesTable, lookAheadTable, programmeTable, progressTable, shiftTable } from './programmeTables.ts'
import { serviceTable } from './serviceTable.ts'
import type { Table } from './table.ts'

/** What tables are made from. */
export interface TableStages {
  model: Model
  mass: MassResult
  strip: StripResult
  lift: LiftResult
  ground: GroundResult
  programme: ProgrammeResult
}

export interface Told extends TableStages {
  /** Weeks of the look-ahead; three when absent. */
  weeks?: number | undefined
  /** Activities that wait for a delivery. */
  neededBy: (delivery: Programme['deliveries'][string]) => readonly string[]
}

const MAKERS = {
  programme: programmeTable,
  shift: shiftTable,
  'look-ahead': lookAheadTable,
  progress: progressTable,
  deliveries: deliveriesTable,
  order: orderTable,
  services: serviceTable,
  masses: massTable,
  parts: partTable,
  loads: loadTable,
  'ground-loads': groundTable,
} as const

export type TableName = keyof typeof MAKERS

/** Every table there is, in the order in which a workbook holds them. */
export const TABLE_NAMES = Object.keys(MAKERS) as TableName[]

export const isTableName = (text: string): text is TableName => Object.hasOwn(MAKERS, text)

/** One table of the project, as plain data in SI. */
export function tableOf(stages: TableStages, name: TableName, { weeks }: { weeks?: number | undefined } = {}): Table {
  const all = Object.values(stages.programme.activities)
  const table = MAKERS[name]({
    ...stages,
    weeks,
    neededBy: (delivery) => neededBy(delivery, all).filter((id) => stages.programme.activities[id] !== undefined),
  })
  const zone = stages.model.project.programme?.timeZone
  return zone === undefined ? table : { ...table, zone }
}
