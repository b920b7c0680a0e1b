import type { Allowance } from '../../lift/index.ts'
import { showNumber, type UnitSystem } from '../../working/quantity.ts'
import { degreesText, figure, OPEN } from './figures.ts'
import type { SheetSubject } from './subject.ts'

/** One allowance between net mass and design load, as it is printed. */
export interface SheetAllowance {
  title: string
  value: string
  /** How it enters hook, rigging, beams and ground. */
  enters: readonly [hook: string, rigging: string, beams: string, ground: string]
  clause: string
  note: string
}

export const allowancesOn = ({ outcome }: SheetSubject, units: UnitSystem): SheetAllowance[] =>
  outcome.allowances.map((a) => ({
    title: a.title,
    value: valueText(a, units),
    enters: [a.enters.hook, a.enters.rigging, a.enters.beams, a.enters.ground].map(
      entryWord,
    ) as unknown as SheetAllowance['enters'],
    clause: `${a.clause.basis}: ${a.clause.text}`,
    note: a.note,
  }))

function valueText({ value }: Allowance, units: UnitSystem): string {
  if (value.value === undefined) return OPEN
  if (value.unit === '1') return `\u00d7 ${showNumber(value.value, 2)}`
  if (value.unit === 'rad') return degreesText(value.value)
  return figure(value, units).text
}

const entryWord = (entry: Allowance['enters']['hook']): string => (entry === 'not used' ? '–' : entry)
