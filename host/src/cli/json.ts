/** A longer document is for programs: indenting it would nearly double it. */
const LONGEST_INDENTED = 200_000

/** One JSON document for standard output: what is unknown or not finite is null, and the text ends in a newline. */
export function jsonText(value: unknown): string {
  const text = JSON.stringify(value, plain)
  return `${text.length > LONGEST_INDENTED ? text : JSON.stringify(value, plain, 2)}\n`
}

function plain(_key: string, value: unknown): unknown {
  if (value === undefined) return null
  return typeof value === 'number' && !Number.isFinite(value) ? null : value
}
