export { type Appointment, appointmentsOf } from './agenda.ts'
export type { Cell, Column, Table } from './table.ts'
export { isTableName, TABLE_NAMES, type TableName, type TableStages, tableOf } from './tables.ts'
