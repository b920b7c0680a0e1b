import { sha256 } from '../sha256.ts'

/** SHA-256, in hexadecimal, over a document's canonical text: names sorted, no space between. The order of names is no content. */
export const contentHash = (document: unknown): string => sha256(canonicalText(document))

/** JSON text that is the same for the same content. */
export function canonicalText(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonicalText).join(',')}]`
  if (typeof value !== 'object' || value === null) return JSON.stringify(value) ?? 'null'
  const entries = Object.entries(value).filter(([, inner]) => inner !== undefined)
  const sorted = entries.sort(([a], [b]) => (a < b ? -1 : 1))
  return `{${sorted.map(([name, inner]) => `${JSON.stringify(name)}:${canonicalText(inner)}`).join(',')}}`
}
