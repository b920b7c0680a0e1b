import fc from 'fast-check'
import { derivative, evaluate, parse } from 'mathjs'
import { expect, test } from 'vitest'
import { type Dual, dual, type Expression, readExpression, symbolsOf } from './expression.ts'
import { printExpression } from './print.ts'
import { evaluator } from './program.ts'

const value = (text: string, values: Record<string, number> = {}): number => evaluator(readExpression(text))(values)

test.each([
  ['1 + 2 * 3', 7],
  ['(1 + 2) * 3', 9],
  ['2 ^ 3 ^ 2', 512],
  ['-2 ^ 2', -4],
  ['(-2) ^ 2', 4],
  ['2 ^ -1', 0.5],
  ['10 - 4 - 3', 3],
  ['12 / 4 / 3', 1],
  ['1.5e3 + .5', 1500.5],
  ['min(3, 1, 2)', 1],
  ['max(3, 1, 2)', 3],
  ['if(1 < 2, 10, 20)', 10],
  ['if(2 <= 1, 10, 20)', 20],
  ['1 == 1 and 2 > 3', 0],
  ['1 == 1 or 2 > 3', 1],
  ['sqrt(16) + abs(-3)', 7],
  ['ceil(1.2) * floor(1.8)', 2],
  ['atan2(1, 1)', Math.PI / 4],
  ['ln(exp(2)) + log10(1000)', 5],
  ['2 * pi', 2 * Math.PI],
])('%s is %d', (text, expected) => {
  expect(value(text)).toBeCloseTo(expected, 12)
})

test.each([
  ['', 'unexpected "end"'],
  ['1 +', 'unexpected "end"'],
  ['(1', 'expected ")"'],
  ['1 2', '"2" was not expected'],
  ['a b', '"b" was not expected'],
  ['min()', 'unexpected ")"'],
  ['3 $ 4', 'cannot read from'],
  ['constructor(1)', 'function "constructor" with 1 arguments is not known'],
  ['sqrt(1, 2)', 'function "sqrt" with 2 arguments is not known'],
  ['if(1, 2)', 'function "if" with 2 arguments is not known'],
])('"%s" is refused: %s', (text, message) => {
  expect(() => value(text)).toThrow(message)
})

/** Random expressions in a, b and c, as text in our grammar and in mathjs's. */
const leaf = fc.oneof(
  fc.constantFrom('a', 'b', 'c', 'pi'),
  fc.integer({ min: 0, max: 20 }).map(String),
  fc.double({ min: 0.01, max: 20, noNaN: true }).map((x) => x.toPrecision(4)),
)
const smooth = fc.letrec<{ tree: string }>((tie) => ({
  tree: fc.oneof(
    { maxDepth: 4, withCrossShrink: true },
    leaf,
    fc.tuple(tie('tree'), fc.constantFrom('+', '-', '*', '/'), tie('tree')).map(([l, o, r]) => `(${l} ${o} ${r})`),
    fc.tuple(tie('tree'), fc.constantFrom('+', '-', '*', '/'), leaf).map(([l, o, r]) => `${l} ${o} ${r}`),
    fc.tuple(tie('tree'), fc.constantFrom('2', '3', '0.5', '-1')).map(([b, e]) => `(${b}) ^ ${e}`),
    tie('tree').map((t) => `-(${t})`),
    fc
      .tuple(fc.constantFrom('sqrt', 'sin', 'cos', 'tan', 'atan', 'exp', 'log10', 'abs'), tie('tree'))
      .map(([f, t]) => `${f}(${t})`),
  ),
})).tree

/** Quarters: no value so small or so near another that rounding decides. */
const quarter = (least: number, most: number) => fc.integer({ min: 4 * least, max: 4 * most }).map((n) => n / 4)
const inputs = fc.record({ a: quarter(0.25, 5), b: quarter(-5, 5), c: quarter(0.5, 2) }, { noNullPrototype: true })

/** Whether a change of the inputs in their ninth figure leaves a number as it is to seven: else rounding is compared. */
const isSteady = (f: (values: Record<string, number>) => number, values: Record<string, number>): boolean =>
  [1 + 1e-9, 1 - 1e-9].every((k) =>
    near(f(values), f(Object.fromEntries(Object.entries(values).map(([s, v]) => [s, v * k]))), 1e-7),
  )

const near = (x: number, y: number, relative: number): boolean =>
  Math.abs(x - y) <= relative * Math.max(1, Math.abs(x), Math.abs(y))

test('random expressions have the value that mathjs gives them', () => {
  const met = { real: 0, none: 0 }
  fc.assert(
    fc.property(smooth, inputs, (text, values) => {
      const theirs = evaluate(text, values) as unknown
      const ours = value(text, values)
      // Beyond the real numbers mathjs answers with a complex one; we answer with none.
      const real = typeof theirs === 'number' && Number.isFinite(theirs) && isSteady((v) => value(text, v), values)
      met[real ? 'real' : 'none']++
      if (real) expect(near(ours, theirs as number, 1e-9), `${text}: ${ours} and ${theirs}`).toBe(true)
    }),
    { numRuns: 3000 },
  )
  expect(met.real).toBeGreaterThan(1000)
})

test('the root of a negative number is none, never a complex one', () => {
  for (const text of ['sqrt(-1)', '(-1) ^ 0.5', 'ln(-1)', 'asin(2)', 'acos(-2)']) expect(value(text)).toBeNaN()
})

const relations = fc
  .tuple(leaf, fc.constantFrom('<', '<=', '>', '>=', '=='), leaf, fc.constantFrom('and', 'or'), leaf, leaf)
  .map(([a, o, b, joined, c, d]) => `${a} ${o} ${b} ${joined} ${c} < ${d}`)

test('random comparisons hold when mathjs says so', () => {
  fc.assert(
    fc.property(relations, inputs, (text, values) => {
      expect(value(text, values), text).toBe(Number(evaluate(text, values)))
    }),
    { numRuns: 500 },
  )
})

function slope(tree: Expression, values: Record<string, number>, of: string): number {
  const duals: Record<string, Dual> = Object.fromEntries(
    Object.entries(values).map(([symbol, v]) => [symbol, { value: v, slopes: [Number(symbol === of)] }]),
  )
  return dual(tree, duals, 1).slopes[0] as number
}

/** Without its simplifying, which turns √(x²) into x; none where it gives up, on powers of negative numbers. */
function theirSlope(text: string, values: Record<string, number>): unknown {
  try {
    return derivative(parse(text), 'a', { simplify: false }).evaluate(values)
  } catch {
    return undefined
  }
}

test('slopes of random smooth expressions agree with the derivative that mathjs finds', () => {
  let compared = 0
  fc.assert(
    fc.property(
      smooth.filter((t) => /\ba\b/.test(t)),
      inputs,
      (text, values) => {
        const tree = readExpression(text)
        const theirs = theirSlope(text, values)
        const ours = slope(tree, values, 'a')
        const comparable =
          typeof theirs === 'number' &&
          Number.isFinite(theirs) &&
          Number.isFinite(value(text, values)) &&
          isSteady((v) => slope(tree, v, 'a'), values)
        if (!comparable) return
        compared++
        expect(near(ours, theirs, 1e-6), `${text} at ${JSON.stringify(values)}: ${ours} and ${theirs}`).toBe(true)
      },
    ),
    { numRuns: 1000 },
  )
  expect(compared).toBeGreaterThan(250)
})

test.each([
  'min(a, b, c) * a',
  'max(a^2, 3 * b, c)',
  'if(a > b, a^2 + b, sin(a) * b)',
  'a * atan2(b, c) + atan2(a, 2)',
  'asin(c / 3) + acos(a / 6)',
  'ln(a) * exp(-a / 3)',
  'abs(b) * a',
  'a ^ c',
])('slopes of %s agree with finite differences', (text) => {
  const tree = readExpression(text)
  const run = evaluator(tree)
  fc.assert(
    fc.property(inputs, (values) => {
      for (const symbol of symbolsOf(tree)) {
        const at = (d: number): number => run({ ...values, [symbol]: (values[symbol as 'a'] as number) + d })
        const [left, right] = [(at(0) - at(-1e-6)) / 1e-6, (at(1e-6) - at(0)) / 1e-6]
        // On a corner of min, max, if or abs the two sides differ: there is no one slope.
        if (Math.abs(left - right) > 1e-3 * Math.max(1, Math.abs(left))) continue
        expect(near(slope(tree, values, symbol), (left + right) / 2, 1e-4), `${text}, ${symbol}`).toBe(true)
      }
    }),
  )
})

test('a slope does not turn to nothing where a term has none', () => {
  expect(slope(readExpression('x + 0 * sqrt(y)'), { x: 1, y: 0 }, 'x')).toBe(1)
  expect(slope(readExpression('y ^ 2 + x'), { x: 1, y: 0 }, 'x')).toBe(1)
})

test('symbols of an expression are its names, constants left out', () => {
  expect([...symbolsOf(readExpression('if(W > 0, W * sin(beta) + pi, min(x_1, 2))'))]).toEqual(['W', 'beta', 'x_1'])
})

/** A printed expression in our grammar again. */
const asRead = (printed: string): string =>
  printed
    .replace(/ · /g, ' * ')
    .replace(/−/g, '-')
    .replace(/√\(/g, 'sqrt(')
    .replace(/π/g, 'pi')
    .replace(/≤/g, '<=')
    .replace(/≥/g, '>=')

test('what is printed reads back to the same value: brackets stand where they are needed, and only there', () => {
  let compared = 0
  fc.assert(
    fc.property(
      smooth.filter((t) => !t.includes('abs')),
      inputs,
      (text, values) => {
        const tree = readExpression(text)
        const back = readExpression(asRead(printExpression(tree, (s) => s)))
        const [before, after] = [evaluator(tree)(values), evaluator(back)(values)]
        if (!Number.isFinite(before)) return
        compared++
        expect(near(before, after, 1e-9), `${text} printed as ${printExpression(tree)}`).toBe(true)
      },
    ),
    { numRuns: 2000 },
  )
  expect(compared).toBeGreaterThan(500)
})

test.each([
  ['a - (b - c)', 'a − (b − c)'],
  ['a - b - c', 'a − b − c'],
  ['a / (b * c)', 'a / (b · c)'],
  ['a * (b + c)', 'a · (b + c)'],
  ['(a + b) + c', 'a + b + c'],
  ['-a ^ 2', '−a^2'],
  ['(-a) ^ 2', '(−a)^2'],
  ['(a ^ b) ^ c', '(a^b)^c'],
  ['a ^ b ^ c', 'a^b^c'],
  ['a < (b < c)', 'a < (b < c)'],
  ['(a or b) and c', '(a or b) and c'],
  ['abs(a - b) <= 2 * pi', '|a − b| ≤ 2 · π'],
  ['sqrt(rho / gamma_w)', '√(ρ / γ_w)'],
  ['if(a > 0, a, 0)', '(a if a > 0, else 0)'],
])('%s is printed as %s', (text, printed) => {
  expect(printExpression(readExpression(text))).toBe(printed)
})
