import type { Vec3 } from '../numeric/vector.ts'
import { foundText } from '../working/problem.ts'
import { type Corners, fileProblem, MOST_TRIANGLES, type Triangles, tooMany } from './triangles.ts'

const AT_ONCE = 32_768

/** Bytes of plain text, one character each: the format knows no others. */
function textOf(bytes: Uint8Array): string {
  const pieces: string[] = []
  for (let at = 0; at < bytes.length; at += AT_ONCE) {
    pieces.push(String.fromCharCode(...bytes.subarray(at, at + AT_ONCE)))
  }
  return pieces.join('')
}

/** Words of the format, and how many follow each. */
const GRAMMAR: ReadonlyMap<string, number> = new Map([
  ['solid', 0],
  ['facet', 4],
  ['outer', 1],
  ['vertex', 3],
  ['endloop', 0],
  ['endfacet', 0],
  ['endsolid', 0],
])

/**
 * Triangles of a text STL: `solid … facet normal … outer loop, three times vertex x y z, endloop endfacet … endsolid`. Words
 * in any case; a solid's name runs to the end of its line and is passed over; several solids in one file count as one.
 */
export function asciiTriangles(bytes: Uint8Array, name: string): Triangles {
  const words = wordsOf(textOf(bytes))
  const triangles: Corners[] = []
  let corners: Vec3[] = []
  let open = false
  for (const { word, line } of words) {
    const due = GRAMMAR.get(word)
    if (due === undefined)
      return open && words.next().done ? cutShort(name) : refused(name, line, foundText(word), WORDS)
    const after = take(words, due)
    if (after.length < due) return cutShort(name)
    if (word === 'vertex') corners.push(after.map(Number) as unknown as Vec3)
    if (word === 'endloop') {
      if (corners.length !== 3) return refused(name, line, `${corners.length} vertices`, 'three vertices in a loop')
      if (triangles.push(corners as unknown as Corners) > MOST_TRIANGLES) return tooMany(name, triangles.length)
      corners = []
    }
    open = word === 'solid' || (open && word !== 'endsolid')
  }
  return open || corners.length > 0 ? cutShort(name) : { triangles }
}

const WORDS = 'facet, outer loop, vertex, endloop or endfacet'

interface Word {
  word: string
  line: number
}

function* wordsOf(text: string): Generator<Word, undefined> {
  for (const [i, line] of text.split(/\r\n?|\n/).entries()) {
    for (const word of line.toLowerCase().match(/\S+/g) ?? []) {
      yield { word, line: i + 1 }
      if (word === 'solid' || word === 'endsolid') break
    }
  }
}

function take(words: Generator<Word, undefined>, count: number): string[] {
  const taken: string[] = []
  while (taken.length < count) {
    const next = words.next()
    if (next.done) break
    taken.push(next.value.word)
  }
  return taken
}

const cutShort = (name: string): Triangles => fileProblem(name, 'text that ends before "endsolid"', 'the whole file')

const refused = (name: string, line: number, found: string, expected: string): Triangles =>
  fileProblem(`${name}, line ${line}`, found, expected)
