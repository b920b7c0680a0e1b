import { type Answer, type Found, found, type Residual, stated } from './answer.ts'

/** Capacity of a count of faults. */
export const NONE = stated('1', 0, 'none allowed')

/**
 * A count of faults. A fault that is sure stays one whatever else is unknown; with none found, a missing input or shapes
 * that disagree leave the count open.
 */
export function faultsFound(
  value: number,
  method: string,
  inputs: Readonly<Record<string, Answer>>,
  residuals: readonly Residual[] = [],
  note?: string,
): Found<'1'> {
  const sure = value > 0
  const kept = sure
    ? Object.fromEntries(Object.entries(inputs).filter(([, input]) => input.value !== undefined))
    : inputs
  return found({
    unit: '1',
    value,
    method,
    inputs: kept,
    residuals: sure ? [] : residuals,
    ...(note === undefined ? {} : { note }),
  })
}
