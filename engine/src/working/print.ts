import type { Expression, Operator } from './expression.ts'

/** How a symbol is written: its name, or the number that stands in its place. */
export type Write = (symbol: string) => string

const BINDS: Readonly<Record<Operator, number>> = {
  or: 0,
  and: 1,
  '<': 2,
  '<=': 2,
  '>': 2,
  '>=': 2,
  '==': 2,
  '+': 3,
  '-': 3,
  '*': 4,
  '/': 4,
  '^': 6,
}
const SIGN: Readonly<Record<Operator, string>> = {
  or: ' or ',
  and: ' and ',
  '<': ' < ',
  '<=': ' ≤ ',
  '>': ' > ',
  '>=': ' ≥ ',
  '==': ' = ',
  '+': ' + ',
  '-': ' − ',
  '*': ' · ',
  '/': ' / ',
  '^': '^',
}
const NEGATE_BINDS = 5

/** Read from the left: a − (b − c) is not a − b − c, and needs its brackets. */
const ONE_WAY: ReadonlySet<Operator> = new Set(['-', '/', '<', '<=', '>', '>=', '=='])

const GREEK: Readonly<Record<string, string>> = {
  alpha: 'α',
  beta: 'β',
  gamma: 'γ',
  delta: 'δ',
  epsilon: 'ε',
  eta: 'η',
  theta: 'θ',
  kappa: 'κ',
  lambda: 'λ',
  mu: 'μ',
  nu: 'ν',
  xi: 'ξ',
  pi: 'π',
  rho: 'ρ',
  sigma: 'σ',
  tau: 'τ',
  phi: 'φ',
  chi: 'χ',
  psi: 'ψ',
  omega: 'ω',
  Delta: 'Δ',
  Gamma: 'Γ',
  Phi: 'Φ',
  Omega: 'Ω',
  Sigma: 'Σ',
}

/** `sigma_v` → `σ_v`: Greek letters by name, the index after the first underscore. */
export function symbolText(name: string): string {
  const [head, ...index] = name.split('_')
  return [GREEK[head as string] ?? head, ...index].join('_')
}

/** The expression on one line, with each symbol as `write` gives it. */
export function printExpression(tree: Expression, write: Write = symbolText): string {
  return print(tree, write, 0)
}

function print(tree: Expression, write: Write, around: number): string {
  switch (tree.kind) {
    case 'number':
      return String(tree.value)
    case 'symbol':
      return tree.name === 'pi' ? 'π' : write(tree.name)
    case 'negate':
      return bracket(`−${print(tree.of, write, NEGATE_BINDS)}`, NEGATE_BINDS, around)
    case 'call':
      return printCall(
        tree.name,
        tree.of.map((t) => print(t, write, 0)),
      )
    case 'binary': {
      const binds = BINDS[tree.operator]
      const left = print(tree.left, write, tree.operator === '^' ? binds + 1 : binds)
      const right = print(tree.right, write, ONE_WAY.has(tree.operator) ? binds + 1 : binds)
      return bracket(left + SIGN[tree.operator] + right, binds, around)
    }
    default:
      return tree satisfies never
  }
}

const bracket = (text: string, binds: number, around: number): string => (binds < around ? `(${text})` : text)

function printCall(name: string, of: string[]): string {
  if (name === 'sqrt') return `√(${of[0]})`
  if (name === 'abs') return `|${of[0]}|`
  if (name === 'if') return `(${of[1]} if ${of[0]}, else ${of[2]})`
  return `${name}(${of.join(', ')})`
}

/** Presentation MathML (W3C MathML Core) of the expression, without the outer `math` element. */
export function mathmlOf(tree: Expression, write?: Write): string {
  const leaf = (name: string): string => (write === undefined ? mathmlSymbol(name) : `<mn>${escaped(write(name))}</mn>`)
  return mathml(tree, leaf, 0)
}

const escaped = (text: string): string => text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;')

/** A symbol with its index set low: `T_max` → T with index max. */
export function mathmlSymbol(name: string): string {
  const [head, ...index] = symbolText(name).split('_')
  const base = `<mi>${escaped(head as string)}</mi>`
  return index.length === 0 ? base : `<msub>${base}<mi>${escaped(index.join(','))}</mi></msub>`
}

function mathml(tree: Expression, leaf: Write, around: number): string {
  switch (tree.kind) {
    case 'number':
      return `<mn>${tree.value}</mn>`
    case 'symbol':
      return tree.name === 'pi' ? '<mi>π</mi>' : leaf(tree.name)
    case 'negate':
      return fence(`<mo>−</mo>${mathml(tree.of, leaf, NEGATE_BINDS)}`, NEGATE_BINDS, around)
    case 'call':
      return mathmlCall(
        tree.name,
        tree.of.map((t) => mathml(t, leaf, 0)),
      )
    case 'binary':
      return mathmlBinary(tree, leaf, around)
    default:
      return tree satisfies never
  }
}

function mathmlBinary(tree: Extract<Expression, { kind: 'binary' }>, leaf: Write, around: number): string {
  if (tree.operator === '/')
    return `<mfrac>${row(mathml(tree.left, leaf, 0))}${row(mathml(tree.right, leaf, 0))}</mfrac>`
  const binds = BINDS[tree.operator]
  if (tree.operator === '^')
    return `<msup>${row(mathml(tree.left, leaf, binds + 1))}${row(mathml(tree.right, leaf, 0))}</msup>`
  const left = mathml(tree.left, leaf, binds)
  const right = mathml(tree.right, leaf, ONE_WAY.has(tree.operator) ? binds + 1 : binds)
  return fence(`${left}<mo>${escaped(SIGN[tree.operator].trim())}</mo>${right}`, binds, around)
}

const row = (inner: string): string => `<mrow>${inner}</mrow>`
const fence = (inner: string, binds: number, around: number): string =>
  binds < around ? `<mrow><mo>(</mo>${inner}<mo>)</mo></mrow>` : row(inner)

function mathmlCall(name: string, of: string[]): string {
  if (name === 'sqrt') return `<msqrt>${of[0]}</msqrt>`
  if (name === 'abs') return `<mrow><mo>|</mo>${of[0]}<mo>|</mo></mrow>`
  if (name === 'if')
    return `<mrow><mo>(</mo>${of[1]}<mtext> if </mtext>${of[0]}<mtext>, else </mtext>${of[2]}<mo>)</mo></mrow>`
  return `<mrow><mi>${name}</mi><mo>(</mo>${of.join('<mo>,</mo>')}<mo>)</mo></mrow>`
}
