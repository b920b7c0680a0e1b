import type { Comparison, Tolerance, Value } from './types.ts'
import { isRecord, readWritten, shown, shownValue, type Written } from './value.ts'

const LAST_BITS = 1e-9

/** An expected value beside the one that came, leaf by leaf where it is a list or holds values by name. */
export function compared(name: string, expected: unknown, got: Value, tolerance: Tolerance): Comparison[] {
  if (Array.isArray(expected)) return listCompared(name, expected, got, tolerance)
  if (isRecord(expected)) {
    const inside = isRecord(got) ? (got as Readonly<Record<string, Value>>) : {}
    return Object.entries(expected).flatMap(([key, value]) => compared(`${name}.${key}`, value, inside[key], tolerance))
  }
  const written = readWritten(expected)
  return [written === undefined ? wordCompared(name, expected, got) : numberCompared(name, written, got, tolerance)]
}

function listCompared(name: string, expected: readonly unknown[], got: Value, tolerance: Tolerance): Comparison[] {
  const items: readonly Value[] = Array.isArray(got) ? got : []
  if (items.length !== expected.length) {
    const length = Array.isArray(got) ? `a list of ${items.length}` : shownValue(got)
    return [{ name, expected: `a list of ${expected.length}`, got: length, within: 'its length', holds: false }]
  }
  return expected.flatMap((value, i) => compared(`${name}[${i}]`, value, items[i], tolerance))
}

function wordCompared(name: string, expected: unknown, got: Value): Comparison {
  const [due, came] = [shownValue(expected), shownValue(got)]
  return { name, expected: due, got: came, within: 'the same', holds: due === came }
}

function numberCompared(name: string, expected: Written, got: Value, tolerance: Tolerance): Comparison {
  const allowed = allowedDifference(expected, tolerance)
  const base = { name, expected: shown(expected.si, expected), within: `± ${shown(allowed, expected)}` }
  if (typeof got !== 'number') return { ...base, got: shownValue(got), holds: false }
  const difference = got - expected.si
  return {
    ...base,
    got: shown(got, expected),
    difference: shown(difference, expected),
    ...(expected.si === 0 ? {} : { share: difference / Math.abs(expected.si) }),
    holds: Math.abs(difference) <= allowed,
  }
}

/** Largest difference that still counts as agreement, SI. */
export function allowedDifference(expected: Pick<Written, 'si'>, { relative, absolute }: Tolerance): number {
  const share = readWritten(relative ?? (absolute === undefined ? LAST_BITS : 0))?.si ?? 0
  const fixed = readWritten(absolute ?? 0)?.si ?? 0
  return Math.max(share * Math.abs(expected.si), fixed)
}
