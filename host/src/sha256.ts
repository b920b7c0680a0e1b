import { createHash } from 'node:crypto'

/** SHA-256 of bytes, or of a text as UTF-8, in hexadecimal: 64 small letters and digits. */
export const sha256 = (content: Uint8Array | string): string => createHash('sha256').update(content).digest('hex')
