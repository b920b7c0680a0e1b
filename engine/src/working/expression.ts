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

const FUNCTIONS: Readonly<Record<string, Function1>> = {
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

/** The number of an expression, from its symbols' values as they are kept. */
export type Evaluate<V = Readonly<Record<string, number>>> = (values: V) => number

/** Names with a fixed value in every expression. */
export const CONSTANTS: Readonly<Record<string, number>> = { pi: Math.PI }

/** Closure over the tree, of values by name; allowed under a strict content security policy. */
export const evaluator = (tree: Expression): Evaluate =>
  evaluatorOver(
    tree,
    (name): Evaluate =>
      (values) =>
        values[name] as number,
  )

/** The same of values in a row: a symbol's place in it is known before, which makes it many times faster. */
export const evaluatorOfRow = (tree: Expression, symbols: readonly string[]): Evaluate<readonly number[]> =>
  evaluatorOver(tree, (name) => {
    const place = symbols.indexOf(name)
    return (values) => values[place] as number
  })

/** @param reading what gives a symbol's value, by its name */
function evaluatorOver<V>(tree: Expression, reading: (name: string) => Evaluate<V>): Evaluate<V> {
  const go = (t: Expression): Evaluate<V> => evaluatorOver(t, reading)
  switch (tree.kind) {
    case 'number':
    case 'symbol': {
      const constant = constantOf(tree)
      return constant === undefined ? reading((tree as { name: string }).name) : () => constant
    }
    case 'negate': {
      const of = go(tree.of)
      return (values) => -of(values)
    }
    case 'binary':
      return evaluateWithConstant(tree, go) ?? evaluateBinary(tree.operator, go(tree.left), go(tree.right))
    case 'call':
      return evaluateCall(tree.name, tree.of.map(go))
    default:
      return tree satisfies never
  }
}

/** The value of a part that no symbol enters; undefined where one does. */
function constantOf(tree: Expression): number | undefined {
  if (tree.kind === 'number') return tree.value
  if (tree.kind === 'symbol') return CONSTANTS[tree.name]
  if (tree.kind !== 'binary') return undefined
  const [a, b] = [constantOf(tree.left), constantOf(tree.right)]
  return a === undefined || b === undefined
    ? undefined
    : evaluateBinary<undefined>(
        tree.operator,
        () => a,
        () => b,
      )(undefined)
}

/** Arithmetic with a number on one side, which most of it is: one call less for each. Undefined where both sides have symbols. */
function evaluateWithConstant<V>(
  { operator, left, right }: Extract<Expression, { kind: 'binary' }>,
  go: (t: Expression) => Evaluate<V>,
): Evaluate<V> | undefined {
  const [first, second] = [constantOf(left), constantOf(right)]
  if (first !== undefined && second !== undefined) {
    const both = constantOf({ kind: 'binary', operator, left, right }) as number
    return () => both
  }
  if (first !== undefined) return evaluateAfter(first, operator, go(right))
  return second === undefined ? undefined : evaluateBefore(go(left), operator, second)
}

function evaluateAfter<V>(a: number, operator: Operator, b: Evaluate<V>): Evaluate<V> | undefined {
  if (operator === '+') return (v) => a + b(v)
  if (operator === '-') return (v) => a - b(v)
  if (operator === '*') return (v) => a * b(v)
  if (operator === '/') return (v) => a / b(v)
  return undefined
}

function evaluateBefore<V>(a: Evaluate<V>, operator: Operator, b: number): Evaluate<V> | undefined {
  if (operator === '+') return (v) => a(v) + b
  if (operator === '-') return (v) => a(v) - b
  if (operator === '*') return (v) => a(v) * b
  if (operator === '/') return (v) => a(v) / b
  if (operator === '^' && b === 2) return (v) => square(a(v))
  return undefined
}

const square = (x: number): number => x * x

function evaluateBinary<V>(operator: Operator, a: Evaluate<V>, b: Evaluate<V>): Evaluate<V> {
  switch (operator) {
    case '+':
      return (v) => a(v) + b(v)
    case '-':
      return (v) => a(v) - b(v)
    case '*':
      return (v) => a(v) * b(v)
    case '/':
      return (v) => a(v) / b(v)
    case '^':
      return (v) => raised(a(v), b(v))
    case '<':
      return (v) => Number(a(v) < b(v))
    case '<=':
      return (v) => Number(a(v) <= b(v))
    case '>':
      return (v) => Number(a(v) > b(v))
    case '>=':
      return (v) => Number(a(v) >= b(v))
    case '==':
      return (v) => Number(a(v) === b(v))
    case 'and':
      return (v) => Number(a(v) !== 0 && b(v) !== 0)
    case 'or':
      return (v) => Number(a(v) !== 0 || b(v) !== 0)
    default:
      return operator satisfies never
  }
}

/** A square is a product, which is exact to the last digit, and much faster than a power. */
const raised = (x: number, power: number): number => (power === 2 ? square(x) : x ** power)

function evaluateCall<V>(name: string, of: Evaluate<V>[]): Evaluate<V> {
  const [a, b, c] = of as [Evaluate<V>, Evaluate<V>, Evaluate<V>]
  if (name === 'min' && of.length === 2) return (v) => Math.min(a(v), b(v))
  if (name === 'max' && of.length === 2) return (v) => Math.max(a(v), b(v))
  if (name === 'min') return (v: V) => Math.min(...of.map((f) => f(v)))
  if (name === 'max') return (v: V) => Math.max(...of.map((f) => f(v)))
  if (name === 'atan2' && of.length === 2) return (v) => Math.atan2(a(v), b(v))
  if (name === 'if' && of.length === 3) return (v) => (a(v) !== 0 ? b(v) : c(v))
  const known = Object.hasOwn(FUNCTIONS, name) ? FUNCTIONS[name] : undefined
  if (known === undefined || of.length !== 1)
    throw new Error(`function "${name}" with ${of.length} arguments is not known`)
  const { value } = known
  return (v) => value(a(v))
}

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
  const value = evaluateBinary<Readonly<Record<string, number>>>(
    operator,
    (v) => v.a as number,
    (v) => v.b as number,
  )({ a: a.value, b: b.value })
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
