/** One JSON document for standard output: what is unknown or not finite is null, and the text ends in a newline. */
export function jsonText(value: unknown): string {
  return `${JSON.stringify(value, plain, 2)}\n`
}

function plain(_key: string, value: unknown): unknown {
  if (value === undefined) return null
  return typeof value === 'number' && !Number.isFinite(value) ? null : value
}
