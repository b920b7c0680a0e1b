import type { Stages } from '@shieldwright/engine'
import { appointmentsOf, TABLE_NAMES, type TableName, tableOf } from '@shieldwright/engine/report/tables/index.ts'
import type { UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import { csvOf } from './csv.ts'
import { calendarOf } from './ical.ts'
import { xlsxOf } from './xlsx.ts'

/** How files are issued. */
export interface ExchangeIssue {
  units: UnitSystem
  /** Instant of issue, ISO 8601 in UTC. */
  at: string
  /** Rises with every issue. */
  sequence: number
  /** Weeks of the look-ahead. */
  weeks?: number | undefined
}

/** One table as CSV. */
export const csvFile = (stages: Stages, name: TableName, { units, weeks }: ExchangeIssue): string =>
  csvOf(tableOf(stages, name, { weeks }), units)

/** One table, or all of them, as a workbook. */
export const workbook = (
  stages: Stages,
  { units, weeks }: ExchangeIssue,
  names: readonly TableName[] = TABLE_NAMES,
): Promise<Uint8Array> =>
  xlsxOf(
    names.map((name) => tableOf(stages, name, { weeks })),
    units,
  )

/** The plan's dates as iCalendar. */
export const calendarFile = (stages: Stages, { at, sequence }: ExchangeIssue): string =>
  calendarOf(appointmentsOf(stages), { title: stages.model.project.about.title, at, sequence })
