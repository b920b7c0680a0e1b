import { isAlias, isMap, isScalar, isSeq, Lexer, type Node, type Pair, parseDocument, type YAMLMap } from 'yaml'
import { DEEPEST } from '../working/plain.ts'
import type { Problem } from '../working/problem.ts'
import type { TextResult } from './text.ts'
import { addFault, type Faults, nameFault, noFaults, reported, textProblem } from './textPlace.ts'

/** Signs and words of a YAML text, more than three times what the largest project seen needs. JSON is not so bounded. */
const MOST_TOKENS = 400_000
/** Values after every alias is written out. */
const MOST_VALUES = 1_000_000

/**
 * Data from YAML 1.2 text, core schema. Aliases are allowed and counted as if written out, so that a small text cannot
 * stand for a huge one; tags of other schemas are refused.
 */
export function readYaml(text: string): TextResult {
  const tooMuch = lexedProblem(text)
  if (tooMuch !== undefined) return { problems: [tooMuch] }
  // Names given twice are found below, by a set: the parser compares every pair of names.
  const document = parseDocument(text, { uniqueKeys: false, prettyErrors: false, logLevel: 'error' })
  const faults = noFaults()
  for (const { pos, message } of [...document.errors, ...document.warnings])
    addFault(faults, text, pos[0], lowerFirst(message), 'YAML 1.2')
  if (faults.listed.length > 0) return { problems: reported(faults) }
  const { value } = readNode({ text, faults, anchored: new Map() }, document.contents, 0)
  return faults.listed.length > 0 ? { problems: reported(faults) } : { document: value, problems: [] }
}

const lowerFirst = (message: string): string => message.charAt(0).toLowerCase() + message.slice(1)

/** Looks over the text sign by sign, before anything is built from it. */
function lexedProblem(text: string): Problem | undefined {
  const depth: Depth = { flow: 0, indents: [], atStart: true, indent: 0, inLine: 0 }
  let tokens = 0
  let at = 0
  for (const token of new Lexer().lex(text)) {
    if (++tokens > MOST_TOKENS)
      return textProblem(text, at, `more than ${MOST_TOKENS} signs and words`, 'a smaller file, or the same as JSON')
    if (depthAfter(depth, token) > DEEPEST) return textProblem(text, at, 'deep nesting', SHALLOW)
    if (!isMark(token)) at += token.length
  }
  return undefined
}

const SHALLOW = `at most ${DEEPEST} maps and lists within each other`

/** Marks that the lexer puts between the tokens and that are not in the text. */
const isMark = (token: string): boolean => token.length === 1 && '\u0002\u0018\u001f\ufeff'.includes(token)

/** How deep a place is: brackets open around it, and indentation that has grown from line to line. */
interface Depth {
  flow: number
  indents: number[]
  atStart: boolean
  indent: number
  /** Dashes and question marks that open lists and maps within one line. */
  inLine: number
}

function depthAfter(depth: Depth, token: string): number {
  if (token === '[' || token === '{') depth.flow++
  if (token === ']' || token === '}') depth.flow--
  if (token.includes('\n')) Object.assign(depth, { atStart: true, indent: 0, inLine: 0 })
  else if (depth.atStart && token.trim() === '') depth.indent = token.length
  else if (depth.atStart && !isMark(token) && !token.startsWith('#')) startLine(depth)
  if (token === '-' || token === '?') depth.inLine++
  return depth.flow + depth.indents.length + depth.inLine
}

function startLine(depth: Depth): void {
  depth.atStart = false
  while ((depth.indents.at(-1) ?? -1) >= depth.indent) depth.indents.pop()
  depth.indents.push(depth.indent)
}

interface Reader {
  text: string
  faults: Faults
  /** What each anchor stands for, once it has been read in full. */
  anchored: Map<string, Sized>
}

interface Sized {
  value: unknown
  /** Values in it and levels of it, aliases written out. */
  size: number
  height: number
}

const one = (value: unknown): Sized => ({ value, size: 1, height: 0 })

function refuse(reader: Reader, node: Node | null, found: string, expected: string): Sized {
  addFault(reader.faults, reader.text, node?.range?.[0] ?? 0, found, expected)
  return one(null)
}

function readNode(reader: Reader, node: Node | null, depth: number): Sized {
  if (node === null) return one(null)
  const anchor = 'anchor' in node ? node.anchor : undefined
  // An alias means the latest anchor of its name; one that is still open would hold itself.
  if (anchor !== undefined) reader.anchored.delete(anchor)
  const value = readBare(reader, node, depth)
  if (anchor !== undefined) reader.anchored.set(anchor, value)
  return depth + value.height > DEEPEST ? refuse(reader, node, 'deep nesting', SHALLOW) : value
}

function readBare(reader: Reader, node: Node, depth: number): Sized {
  if (isScalar(node)) return one(node.value)
  if (isAlias(node))
    return (
      reader.anchored.get(node.source) ??
      refuse(reader, node, `the alias "*${node.source}"`, 'an alias of something written in full before it')
    )
  if (depth >= DEEPEST) return refuse(reader, node, 'deep nesting', SHALLOW)
  return isMap(node) ? mapOf(reader, node, depth) : listOf(reader, node, depth)
}

function listOf(reader: Reader, node: Node, depth: number): Sized {
  const list: unknown[] = []
  const all = { value: list, size: 1, height: 0 }
  for (const item of isSeq(node) ? node.items : []) {
    list.push(taken(all, readNode(reader, item as Node | null, depth + 1)))
    if (all.size > MOST_VALUES) return tooMany(reader, node)
  }
  return all
}

function mapOf(reader: Reader, node: YAMLMap, depth: number): Sized {
  const object: Record<string, unknown> = {}
  const all = { value: object, size: 1, height: 0 }
  for (const pair of node.items as Pair<Node, Node | null>[]) {
    const name = nameOf(reader, pair.key, object)
    const value = taken(all, readNode(reader, pair.value, depth + 1))
    if (name !== undefined) object[name] = value
    if (all.size > MOST_VALUES) return tooMany(reader, node)
  }
  return all
}

function taken(all: Sized, inner: Sized): unknown {
  all.size += inner.size
  all.height = Math.max(all.height, inner.height + 1)
  return inner.value
}

const tooMany = (reader: Reader, node: Node): Sized =>
  refuse(reader, node, `more than ${MOST_VALUES} values once aliases are written out`, 'a smaller file')

function nameOf(reader: Reader, key: Node | null, object: object): string | undefined {
  if (!isScalar(key) || (typeof key.value !== 'string' && typeof key.value !== 'number')) {
    refuse(reader, key, 'a name that is not a word', 'a word before the colon')
    return undefined
  }
  const name = typeof key.value === 'string' ? key.value : (key.source ?? String(key.value))
  const fault = nameFault(name, Object.hasOwn(object, name))
  if (fault === undefined) return name
  refuse(reader, key, fault.found, fault.expected)
  return undefined
}
