import fc from 'fast-check'
import { expect, test } from 'vitest'
import { freshMemory } from '../working/memory.ts'
import { at } from '../working/pointer.ts'
import { smallDocument } from './document.fixture.ts'
import { model } from './model.ts'

/** Every pointer of a plain document. */
function pointersOf(value: unknown, pointer = ''): string[] {
  if (typeof value !== 'object' || value === null) return [pointer]
  return [pointer, ...Object.entries(value).flatMap(([key, inner]) => pointersOf(inner, `${pointer}/${key}`))]
}

/** The document with something else at one place. */
function withInstead(document: unknown, pointer: string, instead: unknown): unknown {
  if (pointer === '') return instead
  const copy = structuredClone(document)
  const cut = pointer.lastIndexOf('/')
  const parent = at(copy, pointer.slice(0, cut)) as Record<string, unknown>
  parent[pointer.slice(cut + 1)] = instead
  return copy
}

/** A problem stands in the file, or names a field that should. */
const standsIn = (document: unknown, pointer: string): boolean =>
  pointer === '' || at(document, pointer.slice(0, pointer.lastIndexOf('/'))) !== undefined

test('any JSON at all gives problems with a place, or a model, never a fall', () => {
  fc.assert(
    fc.property(fc.jsonValue(), (document) => {
      const { model: read, problems } = model(document, freshMemory())
      expect(read === undefined).toBe(problems.length > 0)
      for (const { pointer } of problems) expect(typeof pointer).toBe('string')
    }),
    { numRuns: 500 },
  )
})

test('any JSON in any place of a good project gives a model, or problems that say where', () => {
  const document = smallDocument()
  const met = { good: 0, bad: 0 }
  fc.assert(
    fc.property(fc.constantFrom(...pointersOf(document)), fc.jsonValue({ maxDepth: 3 }), (pointer, instead) => {
      const changed = withInstead(document, pointer, instead)
      const { model: read, problems } = model(changed, freshMemory())
      met[read === undefined ? 'bad' : 'good']++
      expect(read === undefined).toBe(problems.length > 0)
      for (const problem of problems) {
        expect(standsIn(changed, problem.pointer), `${problem.pointer} of ${JSON.stringify(instead)}`).toBe(true)
        expect(problem.expected).not.toBe('')
        expect(problem.expected).not.toMatch(/Invalid|undefined/)
      }
    }),
    { numRuns: 2000 },
  )
  expect(met.bad).toBeGreaterThan(1000)
})

test('anything left out of a good project gives a model, or problems that say where', () => {
  const document = smallDocument()
  for (const pointer of pointersOf(document).filter((p) => p !== '')) {
    const { model: read, problems } = model(withInstead(document, pointer, undefined), freshMemory())
    expect(read === undefined, pointer).toBe(problems.length > 0)
    for (const problem of problems) expect(problem.expected, pointer).not.toMatch(/Invalid|undefined/)
  }
})

test('reading a document leaves it as it was, and gives the same again', () => {
  const document = smallDocument()
  const before = structuredClone(document)
  const first = model(document, freshMemory())
  expect(document).toEqual(before)
  expect(model(document, freshMemory()).model?.project).toEqual(first.model?.project)
})
