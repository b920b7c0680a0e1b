/** Text of a file by its mark; UTF-8 without one. Bytes that are none of these are named, never guessed. */
export function decoded(bytes: Uint8Array): string | { found: string } {
  const [a, b] = bytes
  const encoding = a === 0xff && b === 0xfe ? 'utf-16le' : a === 0xfe && b === 0xff ? 'utf-16be' : 'utf-8'
  const text = tried(encoding, bytes)
  if (text === undefined) return { found: `bytes that are no ${encoding.toUpperCase()}${placeOf(encoding, bytes)}` }
  return text.includes('\0') ? { found: 'bytes of zero: no text, or UTF-16 without its mark' } : text
}

function tried(encoding: string, bytes: Uint8Array): string | undefined {
  try {
    return new TextDecoder(encoding, { fatal: true }).decode(bytes)
  } catch {
    return undefined
  }
}

/** Line of the first byte that UTF-8 does not have. */
function placeOf(encoding: string, bytes: Uint8Array): string {
  if (encoding !== 'utf-8') return ''
  const text = new TextDecoder('utf-8').decode(bytes)
  return ` in line ${text.slice(0, text.indexOf('\uFFFD')).split('\n').length}`
}
