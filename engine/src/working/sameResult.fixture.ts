/**
 * Where two results differ first, as a path; undefined when they are equal in content. Functions are not compared. A pair met
 * before is not walked again: results share their inputs, and walking every way to them would not end in time.
 */
export function firstDifference(a: unknown, b: unknown): string | undefined {
  return differenceAt(a, b, '', new Map())
}

type Met = Map<object, Set<object>>

function differenceAt(a: unknown, b: unknown, path: string, met: Met): string | undefined {
  if (Object.is(a, b) || (a === 0 && b === 0)) return undefined
  if (typeof a === 'function' && typeof b === 'function') return undefined
  if (typeof a !== 'object' || typeof b !== 'object' || a === null || b === null) return `${path}: ${a} is not ${b}`
  if (isMet(a, b, met)) return undefined
  const [inA, inB] = [entriesOf(a), entriesOf(b)]
  if (inA.size !== inB.size) return `${path}: ${inA.size} entries, not ${inB.size}`
  for (const [key, value] of inA) {
    const found = inB.has(key)
      ? differenceAt(value, inB.get(key), `${path}/${String(key)}`, met)
      : `${path}: no ${String(key)}`
    if (found !== undefined) return found
  }
  return undefined
}

function isMet(a: object, b: object, met: Met): boolean {
  const others = met.get(a) ?? new Set()
  if (others.has(b)) return true
  met.set(a, others.add(b))
  return false
}

function entriesOf(value: object): ReadonlyMap<unknown, unknown> {
  if (value instanceof Map) return value
  if (value instanceof Set) return new Map([...value].map((item) => [item, true]))
  return new Map(Object.entries(value))
}
