import { DEEPEST } from '../working/plain.ts'
import type { TextResult } from './text.ts'
import { addFault, type Faults, nameFault, noFaults, reported, textProblem } from './textPlace.ts'

/** A place where the text cannot be read on. */
interface Stop {
  at: number
  expected: string
}

interface Reader {
  text: string
  at: number
  faults: Faults
  stop?: Stop
}

/**
 * Data from JSON text (RFC 8259). Read here and not by `JSON.parse`, which is silent about a name given twice, keeps
 * `__proto__`, and knows no line and column.
 */
export function readJson(text: string): TextResult {
  const reader: Reader = { text, at: 0, faults: noFaults() }
  const document = readValue(reader, 0)
  if (reader.stop === undefined && skipSpace(reader) < text.length) halt(reader, 'the end of the file')
  const { stop, faults } = reader
  const problems = reported(faults)
  if (stop !== undefined) problems.push(textProblem(text, stop.at, foundAt(text, stop.at), stop.expected))
  return problems.length > 0 ? { problems } : { document, problems: [] }
}

const foundAt = (text: string, at: number): string =>
  at >= text.length ? 'the end of the text' : JSON.stringify(String.fromCodePoint(text.codePointAt(at) as number))

function halt(reader: Reader, expected: string, at = reader.at): undefined {
  reader.stop ??= { at, expected }
}

const SPACE = /[ \t\n\r]*/y

function skipSpace(reader: Reader): number {
  SPACE.lastIndex = reader.at
  SPACE.test(reader.text)
  reader.at = SPACE.lastIndex
  return reader.at
}

function take(reader: Reader, character: string): boolean {
  skipSpace(reader)
  if (reader.text[reader.at] !== character) return false
  reader.at++
  return true
}

function readValue(reader: Reader, depth: number): unknown {
  if (depth > DEEPEST) return halt(reader, `at most ${DEEPEST} objects and lists within each other`)
  const { text } = reader
  const next = text[skipSpace(reader)]
  if (next === '{') return readObject(reader, depth)
  if (next === '[') return readList(reader, depth)
  if (next === '"') return readString(reader)
  return readWord(reader)
}

const WORDS: readonly (readonly [string, unknown])[] = [
  ['true', true],
  ['false', false],
  ['null', null],
]
const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y

function readWord(reader: Reader): unknown {
  const word = WORDS.find(([name]) => reader.text.startsWith(name, reader.at))
  if (word !== undefined) {
    reader.at += word[0].length
    return word[1]
  }
  NUMBER.lastIndex = reader.at
  const number = NUMBER.exec(reader.text)
  if (number === null)
    return halt(reader, 'a value: an object, a list, a text in double quotes, a number, true, false or null')
  reader.at = NUMBER.lastIndex
  return Number(number[0])
}

/** Read by its quotes, not by one expression: a very long text would exhaust that. */
function readString(reader: Reader): string | undefined {
  const { text, at } = reader
  let end = at + 1
  let plain = true
  for (; end < text.length && text[end] !== '"'; end++) {
    if (text[end] === '\\') {
      plain = false
      end++
    } else if (text.charCodeAt(end) < 0x20)
      return halt(reader, 'the closing quote of the text before the line ends', end)
  }
  if (end >= text.length)
    return halt(reader, `the closing quote of the text that begins here: ${text.slice(at, at + 20)}`, text.length)
  reader.at = end + 1
  if (plain) return text.slice(at + 1, end)
  return unescaped(reader, text.slice(at, end + 1), at)
}

function unescaped(reader: Reader, quoted: string, at: number): string | undefined {
  try {
    return JSON.parse(quoted) as string
  } catch {
    const bad = quoted.search(/\\(?!["\\/bfnrt]|u[0-9a-fA-F]{4})/)
    return halt(reader, 'an escape that JSON knows, such as \\n or \\u00b0', at + Math.max(0, bad))
  }
}

function readList(reader: Reader, depth: number): unknown[] {
  const list: unknown[] = []
  reader.at++
  if (take(reader, ']')) return list
  do list.push(readValue(reader, depth + 1))
  while (reader.stop === undefined && take(reader, ','))
  if (reader.stop === undefined && !take(reader, ']')) halt(reader, '"," or "]"')
  return list
}

function readObject(reader: Reader, depth: number): Record<string, unknown> {
  const object: Record<string, unknown> = {}
  reader.at++
  if (take(reader, '}')) return object
  do readMember(reader, object, depth)
  while (reader.stop === undefined && take(reader, ','))
  if (reader.stop === undefined && !take(reader, '}')) halt(reader, '"," or "}"')
  return object
}

function readMember(reader: Reader, object: Record<string, unknown>, depth: number): void {
  const at = skipSpace(reader)
  const name = reader.text[at] === '"' ? readString(reader) : halt(reader, 'a name in double quotes')
  if (name !== undefined && !take(reader, ':')) halt(reader, '":" after the name')
  if (name === undefined || reader.stop !== undefined) return
  const fault = nameFault(name, Object.hasOwn(object, name))
  if (fault !== undefined) addFault(reader.faults, reader.text, at, fault.found, fault.expected)
  const value = readValue(reader, depth + 1)
  if (fault === undefined) object[name] = value
}
