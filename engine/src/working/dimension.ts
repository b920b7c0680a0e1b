import type { Expression, Operator } from './expression.ts'
import { type Dimension, sameDimension } from './unit.ts'

const NONE: Dimension = [0, 0, 0, 0, 0]
const scaled = (d: Dimension, k: number): Dimension => d.map((x) => x * k) as unknown as Dimension
const plus = (a: Dimension, b: Dimension, k: number): Dimension =>
  a.map((x, i) => x + k * (b[i] as number)) as unknown as Dimension
const isNone = (d: Dimension): boolean => sameDimension(d, NONE)
/** Zero fits any dimension: `max(0, x)`, `x > 0`. */
const isZero = (t: Expression): boolean => t.kind === 'number' && t.value === 0

/**
 * Dimension of an expression, given those of its symbols.
 * Throws when lengths are added to masses, or a function of a plain number is given a dimension.
 */
export function dimensionOfExpression(tree: Expression, of: (symbol: string) => Dimension): Dimension {
  const go = (t: Expression): Dimension => {
    switch (t.kind) {
      case 'number':
        return NONE
      case 'symbol':
        return t.name === 'pi' ? NONE : of(t.name)
      case 'negate':
        return go(t.of)
      case 'binary':
        return ofBinary(t.operator, t.left, t.right, go)
      case 'call':
        return ofCall(t.name, t.of, go)
      default:
        return t satisfies never
    }
  }
  return go(tree)
}

type Go = (t: Expression) => Dimension

function alike(terms: Expression[], go: Go, what: string): Dimension {
  const known = terms.filter((t) => !isZero(t)).map(go)
  const first = known[0] ?? NONE
  if (!known.every((d) => sameDimension(d, first))) throw new Error(`dimensions differ in ${what}`)
  return first
}

function ofBinary(operator: Operator, left: Expression, right: Expression, go: Go): Dimension {
  switch (operator) {
    case '+':
    case '-':
      return alike([left, right], go, `"${operator}"`)
    case '*':
      return plus(go(left), go(right), 1)
    case '/':
      return plus(go(left), go(right), -1)
    case '^': {
      const base = go(left)
      if (isNone(base) && isNone(go(right))) return NONE
      const power = constantOf(right)
      if (power === undefined) throw new Error('a power of something with a dimension must be a plain number')
      return scaled(base, power)
    }
    case 'and':
    case 'or':
      go(left)
      go(right)
      return NONE
    default:
      alike([left, right], go, `"${operator}"`)
      return NONE
  }
}

function constantOf(t: Expression): number | undefined {
  if (t.kind === 'number') return t.value
  if (t.kind === 'negate') {
    const inner = constantOf(t.of)
    return inner === undefined ? undefined : -inner
  }
  if (t.kind !== 'binary' || t.operator !== '/') return undefined
  const [a, b] = [constantOf(t.left), constantOf(t.right)]
  return a === undefined || b === undefined ? undefined : a / b
}

function ofCall(name: string, of: Expression[], go: Go): Dimension {
  if (name === 'min' || name === 'max') return alike(of, go, name)
  if (name === 'if') {
    go(of[0] as Expression)
    return alike(of.slice(1), go, 'the two branches of if')
  }
  if (name === 'atan2') {
    alike(of, go, 'atan2')
    return NONE
  }
  const inner = go(of[0] as Expression)
  if (name === 'sqrt') return scaled(inner, 0.5)
  if (name === 'abs') return inner
  if (!isNone(inner)) throw new Error(`${name} takes a plain number or an angle`)
  return NONE
}
