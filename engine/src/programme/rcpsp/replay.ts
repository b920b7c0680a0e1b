import { type Item, type Literal, literalsOf, type Model, type Shares } from './model.ts'
import type { Line } from './prove.ts'

/** What a replay of a proof came to. */
export interface Replay {
  lines: number
  /** Number of the first line that does not follow from those before it; undefined when all do. */
  broken?: number
  /** Whether the lines together leave no better solution than the last. */
  closed: boolean
}

/** Bounds by view, as in the trail, but without history. */
type Bounds = Int32Array

/**
 * Checks a proof line by line, with none of the code that found it: suppose that what was learnt is false, follow lags, clauses
 * and the use of every resource at every instant until something contradicts, and the line holds (reverse unit propagation). A
 * solution must keep everything; after it only less will do. Shares must be no more than the whole in every set of items that resources
 * and lags let run together; from then on no span may have to hold more than the whole times its length. Slow, for small models.
 *
 * Source: E. Goldberg, Y. Novikov, DATE 2003 (from memory).
 */
export function replay(model: Model, lines: readonly Line[]): Replay {
  const clauses: Literal[][] = model.clauses.map((c) => [...c])
  const all: Shares[] = []
  const root = new Int32Array(2 * model.least.length)
  model.least.forEach((least, v) => {
    root[2 * v] = least
    root[2 * v + 1] = -(model.most[v] as number)
  })
  for (const [at, line] of lines.entries()) {
    if ('solution' in line) {
      const fixed = root.slice()
      if (!line.solution.every((value, v) => set(fixed, 2 * v, value) && set(fixed, 2 * v + 1, -value)))
        return { lines: lines.length, broken: at, closed: false }
      if (contradicts(model, clauses, all, fixed)) return { lines: lines.length, broken: at, closed: false }
      set(root, 2 * model.objective + 1, 1 - (line.solution[model.objective] as number))
      continue
    }
    if ('shares' in line) {
      if (!isWithinWhole(model, line.shares)) return { lines: lines.length, broken: at, closed: false }
      all.push(line.shares)
      continue
    }
    const clause = literalsOf(line.learnt)
    const supposed = root.slice()
    const room = clause.every(([view, value]) => set(supposed, view ^ 1, 1 - value))
    if (room && !contradicts(model, clauses, all, supposed)) return { lines: lines.length, broken: at, closed: false }
    clauses.push(clause)
  }
  return { lines: lines.length, closed: contradicts(model, clauses, all, root.slice()) }
}

/** Raises a bound. @returns false when the opposite one leaves no room */
function set(bounds: Bounds, view: number, value: number): boolean {
  if (value > (bounds[view] as number)) bounds[view] = value
  return (bounds[view] as number) <= -(bounds[view ^ 1] as number)
}

/** Follows everything round and round until nothing moves or something contradicts. */
function contradicts(model: Model, clauses: readonly Literal[][], all: readonly Shares[], bounds: Bounds): boolean {
  for (let v = 0; v < model.least.length; v++)
    if ((bounds[2 * v] as number) > -(bounds[2 * v + 1] as number)) return true
  for (;;) {
    const before = bounds.slice()
    if (!lagsHold(model, bounds) || !clausesHold(clauses, bounds)) return true
    if (!resourcesHold(model, bounds) || !stocksHold(model, bounds)) return true
    if (before.every((b, view) => b === bounds[view])) return !all.every((shares) => spansHold(shares, bounds))
  }
}

/** Every set that can run together, one by one. */
function isWithinWhole({ resources, arcs }: Model, { whole, items }: Shares): boolean {
  const tied = new Set(arcs.flatMap(({ from, to, when }) => (when === undefined ? [`${from} ${to}`] : [])))
  const isTied = (a: number, b: number): boolean => tied.has(`${2 * a} ${2 * b}`) || tied.has(`${2 * b} ${2 * a}`)
  const isRoom = (set: readonly number[]): boolean =>
    resources.every(({ capacity, items: users }) => {
      const needOf = (start: number): number => users.find((u: Item) => u.start === start)?.need ?? 0
      return set.reduce((sum, start) => sum + needOf(start), 0) <= capacity
    })
  const extend = (set: readonly number[], share: number, from: number): boolean =>
    share <= whole &&
    items.slice(from).every(({ start, share: more }, k) => {
      const next = [...set, start]
      return !isRoom(next) || set.some((s) => isTied(s, start)) || extend(next, share + more, from + k + 1)
    })
  return extend([], 0, 0)
}

/** What of each job must be in a span wherever it goes: the least of all its starts, one by one. */
function spansHold({ whole, items }: Shares, bounds: Bounds): boolean {
  const windows = items.map(({ start, duration, share }) => {
    const [first, last] = [bounds[2 * start] as number, -(bounds[2 * start + 1] as number)]
    return { starts: Array.from({ length: last - first + 1 }, (_, k) => first + k), duration, share }
  })
  const begins = windows.map(({ starts }) => starts[0] as number)
  const ends = windows.map(({ starts, duration }) => (starts.at(-1) as number) + duration)
  return begins.every((begin) =>
    ends.every((to) => {
      const least = windows.map(({ starts, duration, share }) => {
        const parts = starts.map((s) => Math.max(0, Math.min(s + duration, to) - Math.max(s, begin)))
        return share * Math.min(...parts)
      })
      return least.reduce((sum, part) => sum + part, 0) <= whole * Math.max(0, to - begin)
    }),
  )
}

const holds = (bounds: Bounds, [view, value]: Literal): boolean => (bounds[view] as number) >= value
const fails = (bounds: Bounds, [view, value]: Literal): boolean => (bounds[view ^ 1] as number) >= 1 - value

function lagsHold({ arcs, joins }: Model, bounds: Bounds): boolean {
  for (const { from, to, weight, up, when } of arcs) {
    const value =
      up === undefined
        ? (bounds[from] as number) + weight
        : Math.max(-(1 << 30), Math.min(1 << 30, up(bounds[from] as number)))
    if (when === undefined || holds(bounds, when)) {
      if (!set(bounds, to, value)) return false
    } else if (value > -(bounds[to ^ 1] as number) && !set(bounds, when[0] ^ 1, 1 - when[1])) return false
  }
  return joins.every(({ a, b, to }) => set(bounds, to, (bounds[a] as number) + (bounds[b] as number)))
}

function clausesHold(clauses: readonly Literal[][], bounds: Bounds): boolean {
  return clauses.every((clause) => {
    if (clause.some((l) => holds(bounds, l))) return true
    const open = clause.filter((l) => !fails(bounds, l))
    return open.length > 1 || (open.length === 1 && set(bounds, open[0]?.[0] as number, open[0]?.[1] as number))
  })
}

/** Use at every instant from what must run then; what does not fit beside the rest may neither be running nor be chosen. */
function resourcesHold({ resources }: Model, bounds: Bounds): boolean {
  return resources.every(({ capacity, items }) => {
    const from = (i: (typeof items)[number]): number => -(bounds[2 * i.start + 1] as number)
    const to = (i: (typeof items)[number]): number => (bounds[2 * i.end] as number) + i.offset
    const chosen = (i: (typeof items)[number]): boolean => i.when < 0 || bounds[2 * i.when] === 1
    const runs = (i: (typeof items)[number], at: number): boolean => chosen(i) && from(i) <= at && at < to(i)
    const first = Math.min(...items.map((i) => bounds[2 * i.start] as number))
    const last = Math.max(...items.map((i) => -(bounds[2 * i.end + 1] as number) + i.offset))
    for (let at = first; at < last; at++) {
      const use = items.reduce((n, i) => n + (runs(i, at) ? i.need : 0), 0)
      if (use > capacity) return false
      for (const i of items) {
        if (runs(i, at) || use + i.need <= capacity) continue
        if (!chosen(i)) {
          if (from(i) <= at && at < to(i) && !set(bounds, 2 * i.when + 1, 0)) return false
        } else if (to(i) > at && !set(bounds, 2 * i.start, at + 1)) return false
        else if (from(i) <= at && !set(bounds, 2 * i.end + 1, i.offset - at)) return false
      }
    }
    return true
  })
}

function stocksHold({ stocks }: Model, bounds: Bounds): boolean {
  return stocks.every(({ capacity, groups }) => {
    const least = groups.map((g) =>
      Math.min(...g.map(({ variable: v, amount }) => (bounds[2 * v + 1] === 0 ? 1e9 : amount))),
    )
    const sum = least.reduce((a, b) => a + b, 0)
    if (sum > capacity) return false
    return groups.every((g, k) =>
      g.every(
        ({ variable: v, amount }) => sum - (least[k] as number) + amount <= capacity || set(bounds, 2 * v + 1, 0),
      ),
    )
  })
}
