import type { Settings } from '../model/index.ts'
import type { Vec3 } from '../numeric/vector.ts'
import { type Answer, found, given, sumOf, type Term } from '../working/answer.ts'
import type { Lump } from './lump.ts'
import type { MassBasis } from './part.ts'
import type { Axis } from './rollup.ts'
import { allowanceOn } from './set.formulas.ts'

/** How uncertainties combine: figures that err on their own, or all together. */
export type Combine = Settings['uncertainty']

/** Both rules: figures that err on their own (root sum of squares), and figures that all err together (plain sum). */
export function uncertaintiesOf(lumps: readonly Lump[]): { independent: Answer<'kg'>; correlated: Answer<'kg'> } {
  const parts = termsOf(lumps, 'uncertainty')
  return { independent: rootSumOfSquares(parts), correlated: sumOf('uncertainties, all erring together', 'kg', parts) }
}

/** √Σu² of independent standard uncertainties. */
export function rootSumOfSquares(parts: readonly Term<'kg'>[]): Answer<'kg'> {
  const values = parts.map((t) => t.answer.value ?? 0)
  const value = Math.hypot(...values)
  const squares = values.reduce((sum, u) => sum + u * u, 0)
  return found({
    unit: 'kg',
    value,
    method: 'uncertainties, each erring on its own: √Σu²',
    inputs: Object.fromEntries(parts.map((t) => [t.label, t.answer])),
    residuals: [{ title: 'u² − Σu²', value: value ** 2 - squares, unit: 'kg2', tolerance: 1e-9 * squares }],
  })
}

/** Allowance of each term by its basis; a basis without one in the settings leaves the sum open. */
export function allowanceOf(lumps: readonly Lump[], allowance: Settings['allowance']): Answer<'kg'> {
  return sumOf(
    'allowance by basis',
    'kg',
    lumps.map((l) => ({
      label: `${l.label} (${l.basis})`,
      answer: allowanceOn.show({ a: allowanceFor(l.basis, allowance), m: l.mass }),
    })),
  )
}

export const allowanceFor = (basis: MassBasis, allowance: Settings['allowance']): Answer<'1'> =>
  allowance[basis] ?? given('1', `/settings/allowance/${basis}`, undefined)

/** How far each term's uncertainty moves the centre: ∂c/∂m = (c_i − c)/M times u_i. */
export function shiftsOf(lumps: readonly Lump[], axis: Axis, centre: Vec3, total: number): number[] {
  return lumps.map((l) => (total > 0 ? ((l.cog[axis] - centre[axis]) / total) * (l.uncertainty.value ?? 0) : 0))
}

/** Errors that all go one way may cancel here, so that the plain sum takes each with its worse sign. */
export const combined = (shifts: readonly number[], rule: Combine): number =>
  rule === 'independent' ? Math.hypot(...shifts) : shifts.reduce((sum, s) => sum + Math.abs(s), 0)

/** The shift along one machine axis with what it rests on. */
export function shiftAnswer(
  lumps: readonly Lump[],
  centre: Answer<'m'>,
  net: Answer<'kg'>,
  shifts: readonly number[],
  combine: Combine,
): Answer<'m'> {
  return found({
    unit: 'm',
    value: combined(shifts, combine),
    method:
      combine === 'independent'
        ? 'uncertainty of the centre of gravity: √Σ((c_i − c)/M · u_i)²'
        : 'uncertainty of the centre of gravity: Σ |(c_i − c)/M · u_i|',
    inputs: { centre, net, ...Object.fromEntries(lumps.map((l) => [l.label, l.uncertainty])) },
    residuals: [shiftResidual(combined(shifts, combine), shifts, combine)],
    note: 'the places of the parts are taken as they are drawn: only their masses are uncertain',
  })
}

function shiftResidual(shift: number, shifts: readonly number[], combine: Combine) {
  const squares = shifts.reduce((sum, s) => sum + s * s, 0)
  return combine === 'independent'
    ? { title: 's² − Σs²', value: shift ** 2 - squares, unit: 'm2' as const, tolerance: 1e-9 * squares }
    : { title: 's − Σ|s|', value: shift - combined(shifts, combine), unit: 'm' as const, tolerance: 0 }
}

/** Terms of a sum over lumps. */
export const termsOf = (lumps: readonly Lump[], what: 'mass' | 'uncertainty'): Term<'kg'>[] =>
  lumps.map((lump) => ({ label: lump.label, answer: lump[what] }))
