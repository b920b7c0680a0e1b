import type { Given } from '../working/answer.ts'

/** Every input in plain data, in the order met. */
export function givensIn(value: unknown): Given[] {
  if (typeof value !== 'object' || value === null) return []
  if ((value as Given).kind === 'given' && 'pointer' in value) return [value as Given]
  return Object.values(value).flatMap(givensIn)
}
