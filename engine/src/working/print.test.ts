import { expect, test } from 'vitest'
import { readExpression } from './expression.ts'
import { mathmlOf, mathmlSymbol, symbolText } from './print.ts'

const mathml = (text: string): string => mathmlOf(readExpression(text)).replace(/<mrow>|<\/mrow>/g, '')

test.each([
  ['sigma_v', 'σ_v'],
  ['beta', 'β'],
  ['Delta_T', 'Δ_T'],
  ['W', 'W'],
  ['T_max_1', 'T_max_1'],
  ['betax', 'betax'],
])('%s is written %s', (name, text) => {
  expect(symbolText(name)).toBe(text)
})

test('an index stands low', () => {
  expect(mathmlSymbol('sigma_v')).toBe('<msub><mi>σ</mi><mi>v</mi></msub>')
  expect(mathmlSymbol('W')).toBe('<mi>W</mi>')
})

test.each([
  ['a / b', '<mfrac><mi>a</mi><mi>b</mi></mfrac>'],
  ['a ^ 2', '<msup><mi>a</mi><mn>2</mn></msup>'],
  ['sqrt(a)', '<msqrt><mi>a</mi></msqrt>'],
  ['abs(a)', '<mo>|</mo><mi>a</mi><mo>|</mo>'],
  ['a * (b + c)', '<mi>a</mi><mo>·</mo><mo>(</mo><mi>b</mi><mo>+</mo><mi>c</mi><mo>)</mo>'],
  ['a - (b - c)', '<mi>a</mi><mo>−</mo><mo>(</mo><mi>b</mi><mo>−</mo><mi>c</mi><mo>)</mo>'],
  ['-a', '<mo>−</mo><mi>a</mi>'],
  ['a < b', '<mi>a</mi><mo>&lt;</mo><mi>b</mi>'],
  ['2 * pi', '<mn>2</mn><mo>·</mo><mi>π</mi>'],
])('%s in MathML', (text, expected) => {
  expect(mathml(text)).toBe(expected)
})

test('MathML is well formed, whatever the expression', () => {
  for (const text of [
    'if(a > 0 and b < 1, min(a, b)^2, -sqrt(abs(c / (a + b))))',
    '(a ^ b) ^ -c',
    'atan2(a, b) or a == b',
  ]) {
    const open: string[] = []
    for (const [, slash, name] of mathmlOf(readExpression(text)).matchAll(/<(\/?)([a-z]+)>/g)) {
      if (slash === '') open.push(name as string)
      else expect(open.pop()).toBe(name)
    }
    expect(open).toEqual([])
  }
})

test('a number in place of a symbol is a number in MathML, and cannot break out of it', () => {
  expect(mathmlOf(readExpression('a'), () => '<script>')).toBe('<mn>&lt;script&gt;</mn>')
})
