import { deskOf, type Ground, type Lesson } from './analysis.ts'
import { arcsOf, push } from './arcs.ts'
import { addClause, type Clause, clausesOf, watched } from './clauses.ts'
import { type Cumulative, cumulativeOf, timeTable } from './cumulative.ts'
import { type Energy, energyOf, overfull } from './energy.ts'
import type { Literal, Model, Shares, Stock } from './model.ts'
import { stockUse } from './stock.ts'
import { add, backTo, CLAUSE, closed, isFalse, isTrue, openReason, ROOT, raise, type Trail, trailOf } from './trail.ts'
import { put, turnsOf } from './turns.ts'

/** The state of the exact engine on one model. */
export interface Engine extends Ground {
  model: Model
  cumulatives: readonly Cumulative[]
  stocks: readonly Stock[]
  energies: Energy[]
  /** Whether these are looked at. */
  heedsShares: boolean
  /** Time tables, then stocks, then shares, that each variable touches; and which of them are to be looked at again. */
  touched: readonly number[][]
  stale: Uint8Array
  waiting: number
  /** Literals taken out of the heap since the root, to be put back. */
  taken: number[]
  next: number
}

/** The engine with everything that follows at once from the model; undefined when that is a contradiction. */
export function engineOf(model: Model): Engine | undefined {
  if (model.least.some((least, v) => least > (model.most[v] as number))) return undefined
  const trail = trailOf(model.least, model.most)
  const views = trail.bound.length
  const tables = model.resources.length
  const engine: Engine = {
    model,
    trail,
    arcs: arcsOf(model.arcs, model.joins, trail.bound),
    clauses: clausesOf(trail.bound),
    desk: deskOf(views),
    turns: turnsOf(
      model.least.length,
      Math.max(2, ...model.most.map((m, v) => m - (model.least[v] as number))) + Math.max(...model.least, 0) + 2,
    ),
    cumulatives: model.resources.map(cumulativeOf),
    stocks: model.stocks,
    energies: [],
    heedsShares: true,
    touched: touchedBy(model),
    stale: new Uint8Array(tables + model.stocks.length).fill(1),
    waiting: tables + model.stocks.length,
    taken: [],
    next: 0,
  }
  for (let view = 0; view < views; view++) if (push(trail, engine.arcs, view) >= 0) return undefined
  for (const clause of model.clauses) if (!given(engine, clause)) return undefined
  return propagate(engine) < 0 ? engine : undefined
}

function touchedBy({ least, resources, stocks }: Model): number[][] {
  const touched = least.map(() => new Set<number>())
  resources.forEach(({ items }, k) => {
    for (const { start, end, when } of items) for (const v of [start, end, when]) touched[v]?.add(k)
  })
  stocks.forEach(({ groups }, k) => {
    for (const { variable } of groups.flat()) touched[variable]?.add(resources.length + k)
  })
  return touched.map((set) => [...set])
}

/** Adds a clause at the root: of the model, spread 0, or learnt elsewhere. @returns false when it leaves no room */
export function given({ trail, clauses }: Engine, clause: readonly Literal[], spread = 0): boolean {
  if (clause.some(([view, value]) => isTrue(trail, view, value))) return true
  const open = clause.filter(([view, value]) => !isFalse(trail, view, value))
  if (open.length === 0) return false
  if (open.length > 1) addClause(clauses, Int32Array.from(open.flat()), spread)
  else return raise(trail, open[0]?.[0] as number, open[0]?.[1] as number, ROOT, -1)
  return true
}

/**
 * Follows every bound that rose through lags and clauses, then the time tables and stocks, until nothing moves.
 *
 * @returns place of a conflict in the explanations, or −1
 */
export function propagate(engine: Engine): number {
  const { trail, arcs, clauses } = engine
  for (;;) {
    while (engine.next < trail.length) {
      const entry = engine.next++
      const view = trail.view[entry] as number
      touch(engine, view >> 1)
      const conflict = push(trail, arcs, view)
      if (conflict >= 0) return conflict
      const broken = watched(clauses, trail, view, trail.before[entry] as number)
      if (broken >= 0) return negated(trail, clauses.all[broken] as Clause)
    }
    if (engine.waiting === 0) return -1
    const conflict = look(engine, engine.stale.indexOf(1))
    if (conflict >= 0) return conflict
  }
}

function touch(engine: Engine, variable: number): void {
  const list = engine.touched[variable] as readonly number[]
  for (let i = 0; i < list.length; i++) {
    const k = list[i] as number
    if (engine.stale[k] === 1) continue
    engine.stale[k] = 1
    engine.waiting++
  }
}

function look(engine: Engine, k: number): number {
  engine.stale[k] = 0
  engine.waiting--
  const table = engine.cumulatives[k]
  if (table !== undefined) return timeTable(engine.trail, table)
  const stock = engine.stocks[k - engine.cumulatives.length]
  if (stock !== undefined) return stockUse(engine.trail, stock)
  if (!engine.heedsShares) return -1
  return overfull(engine.trail, engine.energies[k - engine.cumulatives.length - engine.stocks.length] as Energy)
}

/** From here on shares are kept to; at any level, since they hold everywhere. */
export function addShares(engine: Engine, shares: Shares): void {
  const place = engine.stale.length
  engine.energies.push(energyOf(shares))
  const stale = new Uint8Array(place + 1).fill(1, place)
  stale.set(engine.stale)
  engine.stale = stale
  engine.waiting++
  for (const { start } of shares.items) engine.touched[start]?.push(place)
}

function negated(trail: Trail, { literals }: Clause): number {
  openReason(trail, literals.length / 2)
  for (let i = 0; i < literals.length; i += 2) add(trail, (literals[i] as number) ^ 1, 1 - (literals[i + 1] as number))
  return closed(trail)
}

/** Goes back to where the lesson forces something, and lets it. @returns false when that leaves no room at the root */
export function take(engine: Engine, { literals, backLevel, spread }: Lesson): boolean {
  goBack(engine, backLevel)
  const [view, value] = [literals[0] as number, literals[1] as number]
  if (literals.length === 2) return raise(engine.trail, view, value, ROOT, -1)
  return raise(engine.trail, view, value, CLAUSE, addClause(engine.clauses, literals, spread))
}

/** Goes back to a level; every level below the last was left with nothing to follow. */
export function goBack(engine: Engine, level: number): void {
  backTo(engine.trail, level)
  engine.next = engine.trail.length
  engine.stale.fill(0)
  engine.waiting = 0
  for (const id of engine.taken) put(engine.turns, id)
  engine.taken.length = 0
}
