/** (view, value): the view is at least the value. View 2i is variable i, view 2i + 1 its negative. */
export type Literal = readonly [view: number, value: number]

/** Literals from pairs of numbers, as clauses and lessons keep them. */
export function literalsOf(numbers: readonly number[]): Literal[] {
  const found: Literal[] = []
  for (let i = 0; i < numbers.length; i += 2) found.push([numbers[i] as number, numbers[i + 1] as number])
  return found
}

/** One view pushes another: to ≥ from + weight, or to ≥ up(from); only when a literal holds, if one is named. */
export interface Arc {
  from: number
  to: number
  weight: number
  /** Never falls as its argument rises. */
  up?: ((value: number) => number) | undefined
  when?: Literal | undefined
}

/** One view pushed by two together: to ≥ a + b. */
export interface Join {
  a: number
  b: number
  to: number
}

/** What holds units of a resource from the start until end + offset; only while a 0-1 variable is 1, if one is named. */
export interface Item {
  start: number
  end: number
  offset: number
  need: number
  /** Variable; −1: always. */
  when: number
}

export interface Resource {
  capacity: number
  items: readonly Item[]
}

/** A stock that is used up: of each group of 0-1 variables one is 1, and takes its amount. */
export interface Stock {
  capacity: number
  groups: readonly (readonly { variable: number; amount: number }[])[]
}

/** Jobs that can run together never have more than the whole between them: what follows from needs and links alone. */
export interface Shares {
  whole: number
  items: readonly { start: number; duration: number; share: number }[]
}

/** What the exact engine works on: whole-number variables and what binds them; one of them is to become least. */
export interface Model {
  least: number[]
  most: number[]
  arcs: Arc[]
  joins: Join[]
  clauses: Literal[][]
  resources: Resource[]
  stocks: Stock[]
  /** Variables that search fixes in turn, smallest first. */
  starts: number[]
  /** 0-1 variables that search sets to 1 first. */
  choices: number[]
  /** 0-1 variables that are 1 when one start comes before the other of two that exclude each other. */
  firsts: { variable: number; a: number; b: number }[]
  objective: number
}

export const emptyModel = (): Model => ({
  least: [],
  most: [],
  arcs: [],
  joins: [],
  clauses: [],
  resources: [],
  stocks: [],
  starts: [],
  choices: [],
  firsts: [],
  objective: 0,
})

export function variable(model: Model, least: number, most: number): number {
  model.most.push(most)
  return model.least.push(least) - 1
}

/** b ≥ a + lag between two variables, in both directions. A negative lag from b to a is a maximal lag from a to b. */
export function lagBetween(model: Model, a: number, b: number, lag: number, when?: Literal): void {
  model.arcs.push({ from: 2 * a, to: 2 * b, weight: lag, when })
  model.arcs.push({ from: 2 * b + 1, to: 2 * a + 1, weight: lag, when })
}

/** b ≥ up(a) and a ≤ down(b): the largest a with up(a) ≤ b. */
export function mapBetween(
  model: Model,
  a: number,
  b: number,
  up: (value: number) => number,
  down: (value: number) => number,
): void {
  model.arcs.push({ from: 2 * a, to: 2 * b, weight: 0, up })
  model.arcs.push({ from: 2 * b + 1, to: 2 * a + 1, weight: 0, up: (negative) => -down(-negative) })
}

/** end = start + length, all three variable. */
export function sumOf(model: Model, start: number, length: number, end: number): void {
  const [s, l, e] = [2 * start, 2 * length, 2 * end]
  model.joins.push({ a: s, b: l, to: e }, { a: e, b: l + 1, to: s }, { a: e, b: s + 1, to: l })
  model.joins.push({ a: s + 1, b: l + 1, to: e + 1 }, { a: e + 1, b: l, to: s + 1 }, { a: e + 1, b: s, to: l + 1 })
}

/** Of two that exclude each other, one is first: a 0-1 variable that is 1 when a is. */
export function eitherFirst(
  model: Model,
  a: { start: number; end: number; offset: number },
  b: { start: number; end: number; offset: number },
  gap: { ab: number; ba: number },
): number {
  const first = variable(model, 0, 1)
  model.firsts.push({ variable: first, a: a.start, b: b.start })
  lagBetween(model, a.end, b.start, a.offset + gap.ab, [2 * first, 1])
  lagBetween(model, b.end, a.start, b.offset + gap.ba, [2 * first + 1, 0])
  return first
}

/** A solution of which only starts are known, with who is first of two that exclude each other. */
export function withFirsts({ firsts }: Model, starts: readonly number[]): readonly number[] {
  const solution = [...starts]
  for (const { variable: first, a, b } of firsts)
    solution[first] = (starts[a] as number) < (starts[b] as number) ? 1 : 0
  return solution
}
