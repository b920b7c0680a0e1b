import fc from 'fast-check'
import { expect, test } from 'vitest'
import { parse, stringify } from 'yaml'
import { problemText } from '../working/problem.ts'
import { readText } from './text.ts'

const told = (text: string, form?: 'json' | 'yaml'): string[] => readText(text, form).problems.map(problemText)
const place = (text: string, form?: 'json' | 'yaml'): string[] =>
  told(text, form).map((t) => t.replace(/^\(whole file\): found /, ''))

test('JSON and YAML of one thing read alike, with or without a byte order mark', () => {
  const data = { a: [1, 2.5, -3e4, true, false, null], ä: { b: 'x "y" \\ \n \u00b0' } }
  for (const text of [JSON.stringify(data), JSON.stringify(data, null, 2), stringify(data), `\uFEFF${stringify(data)}`])
    expect(readText(text)).toEqual({ document: data, problems: [] })
})

test('units, dates and times of a project are texts in YAML', () => {
  expect(readText('a: 12 t\nb: 2031-11-03\nc: 07:00\nd: -29.42 m\ne: 5 %\nf: 1e-9 m/s\n').document).toEqual({
    a: '12 t',
    b: '2031-11-03',
    c: '07:00',
    d: '-29.42 m',
    e: '5 %',
    f: '1e-9 m/s',
  })
})

test.each([
  ['{"a": 1', 'the end of the text at line 1, column 8, expected "," or "}"'],
  [
    '{"a": "12',
    'the end of the text at line 1, column 10, expected the closing quote of the text that begins here: "12',
  ],
  [
    '{\n  "a": tru',
    '"t" at line 2, column 8, expected a value: an object, a list, a text in double quotes, a number, true, false or null',
  ],
  ['{"a": [1, 2', 'the end of the text at line 1, column 12, expected "," or "]"'],
  ['{"a"', 'the end of the text at line 1, column 5, expected ":" after the name'],
  ['{"a": 1,}', '"}" at line 1, column 9, expected a name in double quotes'],
  ["{'a': 1}", `"'" at line 1, column 2, expected a name in double quotes`],
  ['{"a": 01}', '"1" at line 1, column 8, expected "," or "}"'],
  ['{"a": "x\ny"}', '"\\n" at line 1, column 9, expected the closing quote of the text before the line ends'],
  ['{"a": "\\q"}', '"\\\\" at line 1, column 8, expected an escape that JSON knows, such as \\n or \\u00b0'],
  ['{} x', '"x" at line 1, column 4, expected the end of the file'],
  [
    '{"a": NaN}',
    '"N" at line 1, column 7, expected a value: an object, a list, a text in double quotes, a number, true, false or null',
  ],
])('JSON that breaks off or goes wrong is told with its place: %s', (text, expected) => {
  expect(place(text)).toEqual([expected])
})

test.each([
  ['a: [1, 2', 'line 1'],
  ['a: "12', 'line 1'],
  ['a:\n\t- b', 'line 2'],
  ['a: 1\n b: 2', 'line 1, column 4'],
  ['a: *b', 'line 1, column 4'],
])('YAML that breaks off or goes wrong is told with its place: %j', (text, expected) => {
  expect(place(text).length).toBeGreaterThan(0)
  expect(place(text)[0]).toContain(expected)
})

test('a name given twice is told, in JSON and in YAML', () => {
  expect(place('{"parts": {},\n "parts": {}}')).toEqual([
    'the name "parts" a second time at line 2, column 2, expected each name once in an object',
  ])
  expect(place('parts:\n  a: 1\n  b: 2\n  a: 3\n')).toEqual([
    'the name "a" a second time at line 4, column 3, expected each name once in an object',
  ])
})

test.each(['__proto__', 'constructor', 'prototype'])('%s is refused as a name, and nothing is polluted', (name) => {
  for (const text of [`{"a": {"${name}": {"polluted": 1}}}`, `a:\n  ${name}:\n    polluted: 1\n`]) {
    expect(place(text)[0]).toContain(`the name "${name}"`)
    expect(({} as { polluted?: number }).polluted).toBeUndefined()
  }
})

test('control characters and files of another kind are refused', () => {
  expect(place('{"a": "\u0000"}')).toEqual(['the control character U+0000 at line 1, column 8, expected plain text'])
  expect(place('PK\u0003\u0004rest')).toEqual(['the control character U+0003 at line 1, column 3, expected plain text'])
})

test('what YAML allows and a project has no use for is refused', () => {
  expect(told('a: !!js/function x\n').length).toBeGreaterThan(0)
  expect(told('? [a, b]\n: 1\n')[0]).toContain('a name that is not a word')
  expect(told('a: 1\n---\nb: 2\n').length).toBeGreaterThan(0)
  expect(told('<<: 1\n<<: 2\n')[0]).toContain('the name "<<" a second time')
})

test('an alias stands for what it names', () => {
  expect(readText('a: &x [1, 2]\nb: *x\n').document).toEqual({ a: [1, 2], b: [1, 2] })
})

test('an alias of itself, or of what comes later, is refused', () => {
  expect(place('a: &x [*x]')).toEqual([
    'the alias "*x" at line 1, column 8, expected an alias of something written in full before it',
  ])
})

test('nine lists of ten aliases each do not become a thousand million values', () => {
  const names = 'abcdefghi'.split('')
  const lines = names.map(
    (name, i) =>
      `${name}: &${name} [${Array(10)
        .fill(i === 0 ? 'x' : `*${names[i - 1]}`)
        .join(',')}]`,
  )
  expect(place(lines.join('\n'))[0]).toMatch(/^more than 1000000 values once aliases are written out/)
})

test('aliases do not build a depth that the text does not show', () => {
  const lines = Array.from({ length: 100 }, (_, i) => `a${i}: &a${i} ${i === 0 ? 'x' : `[[*a${i - 1}]]`}`)
  expect(place(lines.join('\n'))[0]).toMatch(/^deep nesting/)
})

const deep = (open: string, depth: number, close: string): string => open.repeat(depth) + close.repeat(depth)

test('sixty-four levels are read, and a hundred thousand are refused without a fall', () => {
  expect(readText(`{"a":${deep('[', 62, ']')}}`).problems).toEqual([])
  expect(readText(`a: ${deep('[', 62, ']')}`).problems).toEqual([])
  for (const [text, form] of [
    [`{"a":${deep('[', 100_000, ']')}}`, 'json'],
    [deep('{"a":', 100_000, '}'), 'json'],
    ['['.repeat(100_000), 'yaml'],
    ['- '.repeat(100_000), 'yaml'],
    [Array.from({ length: 3000 }, (_, i) => `${' '.repeat(i)}a:`).join('\n'), 'yaml'],
  ] as const)
    expect(told(text, form)).toHaveLength(1)
})

/** A seeded stream of characters: the same garbage every time. */
function garbage(length: number): string {
  let state = 12345
  const pieces = Array.from({ length }, () => {
    state = (Math.imul(state, 1103515245) + 12345) & 0x7fffffff
    const c = (state >> 8) % 97
    return c === 95 ? '\n' : c === 96 ? '\t' : String.fromCharCode(32 + c)
  })
  return pieces.join('')
}

test('ten megabytes of garbage give problems, and not many', () => {
  const text = garbage(10_000_000)
  for (const form of ['json', 'yaml'] as const) {
    const { problems } = readText(text, form)
    expect(problems.length).toBeGreaterThan(0)
    expect(problems.length).toBeLessThanOrEqual(101)
  }
})

test('a file that is too large is refused before it is read', () => {
  expect(told('x'.repeat(33 * 1024 * 1024))[0]).toContain('expected a file of at most 33554432 characters')
})

test('very many signs in YAML are refused; the same as JSON are read', () => {
  const list = JSON.stringify({ a: Array.from({ length: 300_000 }, (_, i) => i) })
  expect(told(list, 'yaml')[0]).toContain('expected a smaller file, or the same as JSON')
  expect(readText(list, 'json').problems).toEqual([])
})

test('two thousand faults are counted, a hundred are told', () => {
  const text = `{${Array(2001).fill('"a": 1').join(',')}}`
  expect(told(text)).toHaveLength(101)
  expect(told(text).at(-1)).toBe('(whole file): found 1900 faults more, expected a text without')
})

const plainNames = fc.string().filter((s) => !['__proto__', 'constructor', 'prototype'].includes(s))
const data = fc.letrec((tie) => ({
  value: fc.oneof(
    { maxDepth: 4 },
    fc.string({ unit: 'grapheme' }),
    fc.integer(),
    fc.double({ noNaN: true, noDefaultInfinity: true }),
    fc.boolean(),
    fc.constant(null),
    tie('list'),
    tie('object'),
  ),
  list: fc.array(tie('value'), { maxLength: 4 }),
  object: fc.dictionary(plainNames, tie('value'), { maxKeys: 4 }),
}))

test('whatever JSON writes is read back, as JSON.parse reads it', () => {
  fc.assert(
    fc.property(fc.dictionary(plainNames, data.value, { maxKeys: 4 }), (object) => {
      const text = JSON.stringify(object)
      // Control characters may stand in JSON as escapes only, so none are in the text.
      expect(readText(text, 'json').document).toEqual(JSON.parse(text))
    }),
  )
})

test('whatever YAML writes is read back, as the YAML library reads it', () => {
  const names = fc.stringMatching(/^[a-z][a-z-]{0,8}$/).filter((s) => s !== 'constructor' && s !== 'prototype')
  const values = fc.oneof(fc.stringMatching(/^[ -~]{0,20}$/), fc.integer(), fc.boolean(), fc.constant(null))
  fc.assert(
    fc.property(fc.dictionary(names, fc.oneof(values, fc.array(values), fc.dictionary(names, values))), (object) => {
      const text = stringify(object)
      expect(readText(text, 'yaml').document).toEqual(parse(text))
    }),
  )
})

test('any text at all gives data or problems, never a fall', () => {
  const signs = fc.constantFrom(...'{}[]":,-?&*!|>%@`#\n\t \\\'~ab01.<'.split(''))
  const text = fc.oneof(fc.string({ unit: 'binary' }), fc.string({ unit: signs, maxLength: 60 }))
  const met = { data: 0, problems: 0 }
  fc.assert(
    fc.property(text, fc.constantFrom('json', 'yaml', undefined), (t, form) => {
      const { problems } = readText(t, form as 'json' | 'yaml' | undefined)
      met[problems.length === 0 ? 'data' : 'problems']++
    }),
    { numRuns: 2000 },
  )
  expect(Math.min(met.data, met.problems)).toBeGreaterThan(100)
})
