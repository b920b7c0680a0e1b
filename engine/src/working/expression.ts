/**
 * One expression text, read once into a tree. Evaluating, slopes, dimensions and printing are small walkers over the
 * same tree, so that what is shown is what ran.
 */
export type Expression =
  | { kind: 'number'; value: number }
  | { kind: 'symbol'; name: string }
  | { kind: 'call'; name: string; of: Expression[] }
  | { kind: 'binary'; operator: Operator; left: Expression; right: Expression }
  | { kind: 'negate'; of: Expression }

export type Operator = '+' | '-' | '*' | '/' | '^' | '<' | '<=' | '>' | '>=' | '==' | 'and' | 'or'

const TOKEN = /\s*(\d+\.?\d*(?:e[+-]?\d+)?|\.\d+|[A-Za-z_][A-Za-z_0-9']*|<=|>=|==|[-+*/^()<>,])/y

/** Operators by how tightly they bind, loosest first. */
const LEVELS: readonly (readonly Operator[])[] = [['or'], ['and'], ['<', '<=', '>', '>=', '=='], ['+', '-'], ['*', '/']]

/** Reads an expression: numbers, symbols, calls, + − * / ^, comparisons, `and`, `or`. Throws on anything else. */
export function readExpression(text: string): Expression {
  const tokens = tokensOf(text)
  let at = 0
  const take = (token: string): boolean => tokens[at] === token && ++at > 0
  const need = (token: string): void => {
    if (!take(token))
      throw new Error(`expression "${text}": expected "${token}" at token ${at + 1}, found "${tokens[at] ?? 'end'}"`)
  }
  const level = (depth: number): Expression => {
    if (depth === LEVELS.length) return unary()
    let left = level(depth + 1)
    for (;;) {
      const operator = LEVELS[depth]?.find((o) => o === tokens[at])
      if (operator === undefined) return left
      at++
      left = { kind: 'binary', operator, left, right: level(depth + 1) }
    }
  }
  const unary = (): Expression => (take('-') ? { kind: 'negate', of: unary() } : power())
  const power = (): Expression => {
    const base = atom()
    return take('^') ? { kind: 'binary', operator: '^', left: base, right: unary() } : base
  }
  const atom = (): Expression => {
    const token = tokens[at++]
    if (token === '(') {
      const inner = level(0)
      need(')')
      return inner
    }
    if (token !== undefined && /^[\d.]/.test(token)) return { kind: 'number', value: Number(token) }
    if (token === undefined || !/^[A-Za-z_]/.test(token))
      throw new Error(`expression "${text}": unexpected "${token ?? 'end'}"`)
    if (!take('(')) return { kind: 'symbol', name: token }
    const of = [level(0)]
    while (take(',')) of.push(level(0))
    need(')')
    return { kind: 'call', name: token, of }
  }
  const tree = level(0)
  if (at < tokens.length) throw new Error(`expression "${text}": "${tokens[at]}" was not expected`)
  return tree
}

function tokensOf(text: string): string[] {
  const tokens: string[] = []
  TOKEN.lastIndex = 0
  while (TOKEN.lastIndex < text.trimEnd().length) {
    const from = TOKEN.lastIndex
    const match = TOKEN.exec(text)
    if (match === null) throw new Error(`expression "${text}": cannot read from "${text.slice(from)}"`)
    tokens.push(match[1] as string)
  }
  return tokens
}

/** A value with its slopes along each of n directions (forward differentiation). */
export interface Dual {
  value: number
  slopes: readonly number[]
}

interface Function1 {
  value: (x: number) => number
  slope: (x: number) => number
}

/** Functions of one number, with their slopes. */
export const FUNCTIONS: Readonly<Record<string, Function1>> = {
  sqrt: { value: Math.sqrt, slope: (x) => 0.5 / Math.sqrt(x) },
  abs: { value: Math.abs, slope: (x) => Math.sign(x) },
  sin: { value: Math.sin, slope: Math.cos },
  cos: { value: Math.cos, slope: (x) => -Math.sin(x) },
  tan: { value: Math.tan, slope: (x) => 1 / Math.cos(x) ** 2 },
  asin: { value: Math.asin, slope: (x) => 1 / Math.sqrt(1 - x * x) },
  acos: { value: Math.acos, slope: (x) => -1 / Math.sqrt(1 - x * x) },
  atan: { value: Math.atan, slope: (x) => 1 / (1 + x * x) },
  exp: { value: Math.exp, slope: Math.exp },
  ln: { value: Math.log, slope: (x) => 1 / x },
  log10: { value: Math.log10, slope: (x) => 1 / (x * Math.LN10) },
  ceil: { value: Math.ceil, slope: () => 0 },
  floor: { value: Math.floor, slope: () => 0 },
}

/** Names with a fixed value in every expression. */
export const CONSTANTS: Readonly<Record<string, number>> = { pi: Math.PI }

/** What an operator makes of two numbers; a comparison is 1 where it holds, else 0. */
export function operated(operator: Operator, a: number, b: number): number {
  switch (operator) {
    case '+':
      return a + b
    case '-':
      return a - b
    case '*':
      return a * b
    case '/':
      return a / b
    case '^':
      return b === 2 ? square(a) : a ** b
    case '<':
      return Number(a < b)
    case '<=':
      return Number(a <= b)
    case '>':
      return Number(a > b)
    case '>=':
      return Number(a >= b)
    case '==':
      return Number(a === b)
    case 'and':
      return Number(a !== 0 && b !== 0)
    case 'or':
      return Number(a !== 0 || b !== 0)
    default:
      return operator satisfies never
  }
}

/** A square is a product, which is exact to the last digit, and much faster than a power. */
export const square = (x: number): number => x * x

/** Value and slopes in one pass; `values` carries the slope of each symbol. */
export function dual(tree: Expression, values: Readonly<Record<string, Dual>>, n: number): Dual {
  const zero = new Array<number>(n).fill(0)
  const go = (t: Expression): Dual => {
    switch (t.kind) {
      case 'number':
        return { value: t.value, slopes: zero }
      case 'symbol':
        return values[t.name] ?? { value: CONSTANTS[t.name] as number, slopes: zero }
      case 'negate':
        return combine(n, [[go(t.of), -1]], (x) => -(x[0] as number))
      case 'binary':
        return dualBinary(t.operator, go(t.left), go(t.right), n)
      case 'call':
        return dualCall(t.name, t.of.map(go), n)
      default:
        return t satisfies never
    }
  }
  return go(tree)
}

/** Chain rule: a result from terms, each with the partial derivative along it. */
function combine(n: number, terms: readonly (readonly [Dual, number])[], value: (x: number[]) => number): Dual {
  const slopes = Array.from({ length: n }, (_, i) =>
    terms.reduce((s, [d, w]) => s + (d.slopes[i] === 0 ? 0 : w * (d.slopes[i] as number)), 0),
  )
  return { value: value(terms.map(([d]) => d.value)), slopes }
}

function dualBinary(operator: Operator, a: Dual, b: Dual, n: number): Dual {
  const value = operated(operator, a.value, b.value)
  const [da, db] = partials(operator, a.value, b.value)
  return combine(
    n,
    [
      [a, da],
      [b, db],
    ],
    () => value,
  )
}

function partials(operator: Operator, a: number, b: number): readonly [number, number] {
  if (operator === '+') return [1, 1]
  if (operator === '-') return [1, -1]
  if (operator === '*') return [b, a]
  if (operator === '/') return [1 / b, -a / b ** 2]
  if (operator === '^') return [b * a ** (b - 1), a > 0 ? a ** b * Math.log(a) : 0]
  return [0, 0]
}

function dualCall(name: string, of: Dual[], n: number): Dual {
  const [a, b, c] = of as [Dual, Dual, Dual]
  if (name === 'min') return of.reduce((x, y) => (y.value < x.value ? y : x))
  if (name === 'max') return of.reduce((x, y) => (y.value > x.value ? y : x))
  if (name === 'if') return a.value !== 0 ? b : c
  if (name === 'atan2') {
    const r2 = a.value ** 2 + b.value ** 2
    return combine(
      n,
      [
        [a, b.value / r2],
        [b, -a.value / r2],
      ],
      () => Math.atan2(a.value, b.value),
    )
  }
  const f = FUNCTIONS[name] as Function1
  return combine(n, [[a, f.slope(a.value)]], () => f.value(a.value))
}

/** Every symbol of the tree, constants left out. */
export function symbolsOf(tree: Expression): Set<string> {
  const found = new Set<string>()
  const go = (t: Expression): void => {
    if (t.kind === 'symbol' && !(t.name in CONSTANTS)) found.add(t.name)
    if (t.kind === 'call') t.of.forEach(go)
    if (t.kind === 'negate') go(t.of)
    if (t.kind === 'binary') [t.left, t.right].forEach(go)
  }
  go(tree)
  return found
}
