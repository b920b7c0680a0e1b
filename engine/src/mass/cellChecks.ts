import { type Answer, given, knownOr, largestOf, stated, sumOf } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { ceiling, cellMean, cellNet, expanded, massDifference } from './check.formulas.ts'
import { weighedCeiling, weighedCells } from './kinds.ts'
import type { Comparison } from './weighed.ts'
import type { WeighingChecks } from './weighingChecks.ts'

type Cells = NonNullable<Comparison['cells']>

/**
 * The load cells of one weighing, kg: the mass stated for it against the mean of the readings with the load free, and the
 * highest of all readings, free or not, against the ceiling. None without readings; open while none is free.
 */
export function cellChecks(input: WeighingChecks, comparison: Comparison): Check[] {
  const { cells } = comparison
  return cells === undefined ? [] : [meanCheck(input, comparison, cells), ceilingCheck(input, comparison, cells)]
}

function meanCheck({ subject, coverage, near }: WeighingChecks, comparison: Comparison, cells: Cells): Check {
  const { of, measured, measuredUncertainty: u } = comparison
  return check({
    kind: weighedCells,
    subject,
    of,
    demand: massDifference.show({ m1: measured, m2: meanOfFree(cells) }),
    capacity: expanded.show({ k: knownOr(coverage, '1', '/settings/coverage'), u }),
    near,
    cautions: ['Readings taken in motion or in wind scatter: let the load come to rest.'],
    found: ['the mass stated for the weighing does not follow from its readings'],
  })
}

function ceilingCheck({ subject, weightBand, near }: WeighingChecks, comparison: Comparison, cells: Cells): Check {
  const b = knownOr(weightBand, '1', '/settings/weightBand')
  return check({
    kind: weighedCeiling,
    subject,
    of: comparison.of,
    demand: largestOf('highest reading, free or not', 'kg', netTerms(cells.readings, cells)),
    capacity: ceiling.show({ M: comparison.expected, b }),
    near,
    cautions: ['A reading above the ceiling before the load is off its seat: stop, set down, find what still holds.'],
    found: ['a reading passed the ceiling: something still held, or the piece is heavier than planned'],
  })
}

function meanOfFree(cells: Cells): Answer<'kg'> {
  const free = cells.readings.filter((reading) => reading.free)
  // RFC 6901: "-" is the element after the last, the reading that is still to be taken.
  if (free.length === 0) return given('kg', cells.zero.pointer.replace(/zero$/, 'readings/-'), undefined)
  const S = sumOf('net readings with the load free', 'kg', netTerms(free, cells))
  return cellMean.show({ S, n: stated('1', free.length, 'readings with the load free, counted') })
}

const netTerms = (readings: Cells['readings'], cells: Cells) =>
  readings.map((reading) => ({
    label: `reading ${cells.readings.indexOf(reading) + 1}`,
    answer: cellNet.show({ S: hooksOf(reading), Z: cells.zero }),
  }))

const hooksOf = ({ hooks }: Cells['readings'][number]): Answer<'kg'> =>
  sumOf(
    'all hooks',
    'kg',
    Object.entries(hooks).map(([label, answer]) => ({ label, answer })),
  )
