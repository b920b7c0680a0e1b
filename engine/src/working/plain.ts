import { pointerOf } from './pointer.ts'
import { foundText, type Problem } from './problem.ts'

/** Names that would reach an object's own machinery instead of its data. */
const FORBIDDEN: ReadonlySet<string> = new Set(['__proto__', 'constructor', 'prototype'])

export const isForbidden = (name: string): boolean => FORBIDDEN.has(name)

/** Objects and lists within each other, at most. A project needs nine. */
export const DEEPEST = 64

/**
 * The first thing in a value that JSON could not hold, or that would reach beyond its data: a name of an object's own
 * machinery, nesting beyond `DEEPEST`, anything but objects, lists, texts, finite numbers, truth values and null.
 * Undefined when all of it is plain. Walks without recursion: the value may come from anywhere.
 */
export function unplainPart(value: unknown): unknown {
  const left: (readonly [unknown, depth: number])[] = [[value, 0]]
  for (let next = left.pop(); next !== undefined; next = left.pop()) {
    const [part, depth] = next
    if (part === null || typeof part === 'string' || typeof part === 'boolean') continue
    if (typeof part === 'number' && Number.isFinite(part)) continue
    if (typeof part !== 'object' || !isPlainObject(part)) return part ?? 'nothing'
    if (depth >= DEEPEST) return 'deep nesting'
    for (const [name, inner] of Object.entries(part)) {
      if (isForbidden(name)) return name
      left.push([inner, depth + 1])
    }
  }
  return undefined
}

function isPlainObject(value: object): boolean {
  const prototype: unknown = Object.getPrototypeOf(value)
  return Array.isArray(value) || prototype === Object.prototype || prototype === null
}

/** True for a text with half a character, which no encoding of text can hold: it would be kept as another one, and nobody told. */
export const hasHalfCharacter = (text: string): boolean => /\p{Surrogate}/u.test(text)

/**
 * The first text or name in a value that has half a character, and where; undefined where all of it is whole. Walks
 * without recursion, as `unplainPart` does.
 */
export function brokenText(value: unknown): Problem | undefined {
  const left: Part[] = [{ value }]
  for (let part = left.pop(); part !== undefined; part = left.pop()) {
    const { value, name } = part
    const text = [name, value].find((words) => typeof words === 'string' && hasHalfCharacter(words))
    if (text !== undefined)
      return { pointer: pointerOf(...namesTo(part)), found: `half a character in ${foundText(text)}`, expected: WHOLE }
    if (typeof value !== 'object' || value === null) continue
    for (const [name, inner] of Object.entries(value)) left.push({ value: inner, name, in: part })
  }
  return undefined
}

const WHOLE = 'whole characters, as they are typed'

/** A value, under which name, and in what: names are only put together where one is to be told. */
interface Part {
  value: unknown
  name?: string
  in?: Part
}

function namesTo(part: Part): string[] {
  const names: string[] = []
  for (let at: Part | undefined = part; at?.name !== undefined; at = at.in) names.unshift(at.name)
  return names
}
