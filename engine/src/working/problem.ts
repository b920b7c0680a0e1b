/** What is wrong with an input: where, what was found, what is due, and an example. Text is made at the edge. */
export interface Problem {
  pointer: string
  found: string
  expected: string
  example?: string
}

const LONGEST = 60

/** A found value for a message: short, on one line. */
export function foundText(value: unknown): string {
  if (value === undefined) return 'nothing'
  const text =
    typeof value === 'object' && value !== null
      ? Array.isArray(value)
        ? `a list of ${value.length}`
        : 'an object'
      : JSON.stringify(value)
  return text.length > LONGEST ? `${text.slice(0, LONGEST)}…` : text
}

/** One line for a person: "/parts/head/mass: found 412, expected a mass with its unit, such as "412 t"". */
export function problemText({ pointer, found, expected, example }: Problem): string {
  return `${pointer === '' ? '(whole file)' : pointer}: found ${found}, expected ${expected}${example === undefined ? '' : `, such as "${example}"`}`
}

/** The nearest of the known ids, when one is near enough to be what was meant. */
export function nearestId(id: string, known: Iterable<string>): string | undefined {
  let best: string | undefined
  let least = Math.max(2, Math.floor(id.length / 3)) + 1
  for (const candidate of known) {
    if (Math.abs(candidate.length - id.length) >= least) continue
    const distance = editDistance(id.toLowerCase(), candidate.toLowerCase())
    if (distance < least) [best, least] = [candidate, distance]
  }
  return best
}

function editDistance(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, j) => j)
  for (let i = 1; i <= a.length; i++) {
    const next = [i]
    for (let j = 1; j <= b.length; j++) {
      const replaced = (row[j - 1] as number) + Number(a[i - 1] !== b[j - 1])
      next.push(Math.min(replaced, (row[j] as number) + 1, (next[j - 1] as number) + 1))
    }
    row = next
  }
  return row[b.length] as number
}
