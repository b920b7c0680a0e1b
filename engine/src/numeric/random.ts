import { xoroshiro128plusFromState } from 'pure-rand/generator/xoroshiro128plus'

/** A stream of numbers from a seed: the same seed and name give the same numbers, on every machine. */
export interface Stream {
  /** Uniform in (0, 1): never the ends. */
  uniform(): number
  /** Whole number from 0 up to but without `below`. */
  below(below: number): number
}

const TWO_32 = 4_294_967_296

/** Finaliser that turns any 32 bits into 32 well mixed ones (A. Appleby, MurmurHash3, public domain; from memory). */
export function mixed(bits: number): number {
  let x = bits | 0
  x = Math.imul(x ^ (x >>> 16), 0x85ebca6b)
  x = Math.imul(x ^ (x >>> 13), 0xc2b2ae35)
  return (x ^ (x >>> 16)) >>> 0
}

/** 32 bits of a text (FNV-1a over its code units) and a seed. */
export function hashOf(text: string, seed: number): number {
  let h = 0x811c9dc5 ^ mixed(seed)
  for (let i = 0; i < text.length; i++) h = Math.imul(h ^ text.charCodeAt(i), 0x01000193)
  return mixed(h)
}

/**
 * A stream of its own for each name, so that a change to one input leaves the numbers of every other as they were (common
 * random numbers). Generator: xoroshiro128+ of pure-rand.
 */
export function stream(seed: number, name: string): Stream {
  const first = hashOf(name, seed)
  const state = [1, 2, 3, 4].map((i) => mixed(first + Math.imul(i, 0x9e3779b9)) | 0)
  const generator = xoroshiro128plusFromState(state)
  const uniform = (): number => ((generator.next() >>> 0) + 0.5) / TWO_32
  return { uniform, below: (below) => Math.floor(uniform() * below) }
}

/** Uniform in (0, 1) that belongs to a place: the same key and index give the same number, in whatever order they are asked. */
export const uniformAt = (key: number, index: number): number => (mixed(mixed(index + 0x9e3779b9) ^ key) + 0.5) / TWO_32
