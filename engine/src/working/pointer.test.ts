import fc from 'fast-check'
import { expect, test } from 'vitest'
import { at, pointerOf, readPointer } from './pointer.ts'

/** RFC 6901 section 5, its document and its pointers; from memory. */
const RFC = {
  foo: ['bar', 'baz'],
  '': 0,
  'a/b': 1,
  'c%d': 2,
  'e^f': 3,
  'g|h': 4,
  'i\\j': 5,
  'k"l': 6,
  ' ': 7,
  'm~n': 8,
}

test.each([
  ['', RFC],
  ['/foo', ['bar', 'baz']],
  ['/foo/0', 'bar'],
  ['/', 0],
  ['/a~1b', 1],
  ['/c%d', 2],
  ['/e^f', 3],
  ['/g|h', 4],
  ['/i\\j', 5],
  ['/k"l', 6],
  ['/ ', 7],
  ['/m~0n', 8],
])('"%s" points as RFC 6901 says', (pointer, value) => {
  expect(at(RFC, pointer)).toEqual(value)
})

test('"~01" is "~1", not "/"', () => {
  expect(readPointer('/~01')).toEqual(['~1'])
})

test.each(['foo', '/~', '/~2', '#/foo'])('"%s" is no pointer', (text) => {
  expect(readPointer(text)).toBeUndefined()
  expect(at(RFC, text)).toBeUndefined()
})

test('only what the document itself holds is seen', () => {
  for (const pointer of ['/constructor', '/__proto__', '/foo/length/x', '/toString', '/foo/9'])
    expect(at(RFC, pointer), pointer).toBeUndefined()
})

test('every path is written and read back', () => {
  fc.assert(
    fc.property(fc.array(fc.string({ unit: 'grapheme' })), (path) => {
      expect(readPointer(pointerOf(...path))).toEqual(path)
    }),
  )
  expect(pointerOf('a/b', 3, '~')).toBe('/a~1b/3/~0')
})
