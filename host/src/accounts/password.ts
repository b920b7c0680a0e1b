import { randomBytes, type ScryptOptions, scrypt, timingSafeEqual } from 'node:crypto'

/** Work of one hash: 128 MiB and about a third of a second. OWASP Password Storage Cheat Sheet, scrypt (from memory): N = 2^17, r = 8, p = 1. */
const WORK = { N: 2 ** 17, r: 8, p: 1 } as const

/** Least length of a password; no rule about its characters (NIST SP 800-63B §5.1.1, from memory: length, not composition). */
export const SHORTEST_PASSWORD = 12
const LONGEST_PASSWORD = 200

/** What keeps a text from being a password; undefined for nothing. */
export function passwordFault(password: string): string | undefined {
  if (password.length < SHORTEST_PASSWORD) return `${password.length} characters`
  return password.length > LONGEST_PASSWORD ? 'a longer text' : undefined
}

/** A password as it is kept: work, salt and hash, from which it cannot be read back. */
export async function hashedPassword(password: string): Promise<string> {
  const salt = randomBytes(16)
  const hash = await hashOf(password, salt, WORK)
  return ['scrypt', WORK.N, WORK.r, WORK.p, salt.toString('base64'), hash.toString('base64')].join('$')
}

/** True when a password is the one that was kept. Takes as long either way. */
export async function isPassword(password: string, kept: string): Promise<boolean> {
  const [, N, r, p, salt = '', hash = ''] = kept.split('$')
  const work = { N: Number(N), r: Number(r), p: Number(p) }
  const expected = Buffer.from(hash, 'base64')
  const found = await hashOf(password.slice(0, LONGEST_PASSWORD), Buffer.from(salt, 'base64'), work)
  return expected.length === found.length && timingSafeEqual(expected, found)
}

const LENGTH = 32

function hashOf(password: string, salt: Buffer, { N, r, p }: { N: number; r: number; p: number }): Promise<Buffer> {
  const options: ScryptOptions = { N, r, p, maxmem: 256 * N * r }
  return new Promise((resolve, reject) =>
    scrypt(password.normalize('NFKC'), salt, LENGTH, options, (error, hash) => (error ? reject(error) : resolve(hash))),
  )
}
