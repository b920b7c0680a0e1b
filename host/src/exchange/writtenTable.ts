import type { Cell, Column, Table } from '@shieldwright/engine/report/tables/index.ts'
import { shownScale, type UnitSystem } from '@shieldwright/engine/working/quantity.ts'

/** A cell as it is written: numbers in the unit of their heading. */
export type Written = string | number | undefined

/** Digits that are written of a number: more than any input has, fewer than the last bits of a sum. */
const DIGITS = 12

/** A table in the units of a system: one unit for a column, said in its heading, as is the zone of its times. */
export function writtenTable(
  { columns, rows, zone }: Table,
  units: UnitSystem,
): { heading: string[]; rows: Written[][] } {
  const scales = columns.map((column, i) => scaleOf(column, rows, i, units))
  return {
    heading: columns.map(({ title, kind }, i) => {
      const unit = kind === 'moment' ? zone : scales[i]?.label
      return unit ? `${title}, ${unit}` : title
    }),
    rows: rows.map((row) =>
      row.map((cell, i) => (typeof cell === 'number' ? rounded(cell / (scales[i]?.factor ?? 1)) : cell)),
    ),
  }
}

const rounded = (value: number): number => (Number.isFinite(value) ? Number(value.toPrecision(DIGITS)) : value)

function scaleOf({ unit }: Column, rows: readonly (readonly Cell[])[], i: number, units: UnitSystem) {
  if (unit === undefined || unit === '1') return undefined
  const largest = rows.reduce((most, row) => Math.max(most, Math.abs(Number(row[i] ?? 0))), 0)
  return shownScale(largest, unit, units)
}
