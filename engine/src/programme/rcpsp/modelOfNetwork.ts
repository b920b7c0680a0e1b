import { ancestorsOf } from '../bound.ts'
import { addWork, type Calendar, finishAt, startAt, subtractWork, unbrokenFrom, unbrokenUntil } from '../calendar.ts'
import { FF, FS, inOnePiece, lagged, type Network, SS } from '../network.ts'
import { setUpBetween } from '../setUps.ts'
import {
  eitherFirst,
  emptyModel,
  type Item,
  lagBetween,
  type Model,
  mapBetween,
  type Resource,
  variable,
} from './model.ts'

/** A network as a model, and which activity starts at which of its variables. */
export interface NetworkModel {
  model: Model
  /** Activities that lead to the restart, or all, and the variable at which each starts. */
  activities: readonly number[]
  starts: readonly number[]
}

/** Where the start and the end of an activity stand: the end is a variable of its own when breaks may come between. */
interface Placed {
  start: number
  end: number
  offset: number
}

/** Pairs that exclude each other get a variable for which is first, up to so many. */
const MOST_PAIRS = 2000

/**
 * What must be so in any plan that restarts by a time, in whole seconds: calendars as holes among the starts and as what stands
 * between a start and an end, links of all four kinds with their lags, resources held from start to finish. Durations and lags
 * are rounded down, so that whatever is ruled out here is ruled out there.
 */
export function modelOfNetwork(network: Network, restart: number): NetworkModel {
  const model = emptyModel()
  const leading = network.restart < 0 ? null : ancestorsOf(network, network.restart)
  const activities = Array.from(network.order).filter((i) => leading?.has(i) ?? true)
  const placed = new Map<number, Placed>()
  for (const i of activities) placed.set(i, place(model, network, i))
  for (const i of activities) linked(model, network, placed, i)
  model.objective = variable(model, 0, Math.floor(restart))
  for (const i of network.restart < 0 ? activities : [network.restart]) {
    const { end, offset } = placed.get(i) as Placed
    lagBetween(model, end, model.objective, offset)
  }
  model.resources = network.resources.map((_, k) => resourceOf(network, placed, k))
  const gap = setUpsBetween(network, placed)
  for (const [a, b] of excluding(model.resources).slice(0, MOST_PAIRS))
    eitherFirst(model, a, b, { ab: gap(a.start, b.start), ba: gap(b.start, a.start) })
  const starts = activities.map((i) => placed.get(i)?.start as number)
  model.starts = [...starts]
  return { model, activities, starts }
}

/** Past any calendar; what leads to the restart may itself end after it, under links other than finish-to-start. */
const FAR = (1 << 30) - 1

function place(model: Model, network: Network, i: number): Placed {
  const start = variable(model, Math.floor(network.notBefore[i] as number), FAR)
  const offset = Math.floor(network.work[i] as number)
  const calendar = network.calendar[i] as Calendar
  if (calendar.always || offset <= 0) return { start, end: start, offset: Math.max(0, offset) }
  if (inOnePiece(network, i)) {
    const before = (x: number): number => unbrokenUntil(calendar, x + offset, offset)
    holes(model, start, (x) => unbrokenFrom(calendar, x, offset), before)
    return { start, end: start, offset }
  }
  holes(
    model,
    start,
    (x) => startAt(calendar, x),
    (x) => finishAt(calendar, x + 1) - 1,
  )
  const end = variable(model, 0, FAR)
  const up = (x: number): number => Math.floor(addWork(calendar, x, offset))
  mapBetween(model, start, end, up, (x) => Math.ceil(subtractWork(calendar, x, offset)))
  return { start, end, offset: 0 }
}

/** Starts at which work cannot begin are leapt over, from both sides. */
function holes(model: Model, start: number, up: (x: number) => number, down: (x: number) => number): void {
  model.arcs.push({ from: 2 * start, to: 2 * start, weight: 0, up: (x) => Math.floor(up(x)) })
  model.arcs.push({ from: 2 * start + 1, to: 2 * start + 1, weight: 0, up: (x) => -Math.ceil(down(-x)) })
}

function linked(model: Model, network: Network, placed: ReadonlyMap<number, Placed>, i: number): void {
  const { first, other, type, lag, calendar } = network.before
  const to = placed.get(i) as Placed
  for (let k = first[i] as number; k < (first[i + 1] as number); k++) {
    const from = placed.get(other[k] as number) as Placed
    const kind = type[k] as number
    const [a, after] = kind === FS || kind === FF ? [from.end, from.offset] : [from.start, 0]
    // to a finish: the rounding of the duration must not make the link stricter
    const before = kind === FS || kind === SS ? 0 : to.end === to.start ? Math.ceil(network.work[i] as number) : 0
    const b = kind === FS || kind === SS ? to.start : to.end
    const by = lag[k] as number
    const on = calendar[k]
    if (on === undefined || by === 0) lagBetween(model, a, b, after + Math.floor(by) - before)
    else {
      const up = (x: number): number => Math.floor(lagged(x + after, by, on)) - before
      mapBetween(model, a, b, up, (x) => Math.ceil(lagged(x + before, -by, on)) - after + 1)
    }
  }
}

/** Longest set-up from one activity to another over all resources, whole seconds, by the variables at which they start. */
function setUpsBetween({ setUps }: Network, placed: ReadonlyMap<number, Placed>) {
  const activity = new Map([...placed].map(([i, { start }]) => [start, i]))
  return (from: number, to: number): number => {
    const [a, b] = [activity.get(from) as number, activity.get(to) as number]
    return Math.floor(Math.max(0, ...setUps.map((setUp) => setUpBetween(setUp, a, b))))
  }
}

const FINEST = 1000

function resourceOf(network: Network, placed: ReadonlyMap<number, Placed>, k: number): Resource {
  const { first, resource, amount } = network.needs
  const capacity = network.capacity[k] as number
  const items: Item[] = []
  for (const [i, at] of placed) {
    for (let n = first[i] as number; n < (first[i + 1] as number); n++) {
      if (resource[n] !== k || (network.work[i] as number) < 1) continue
      const need = Math.floor(Math.min(amount[n] as number, capacity) * FINEST)
      if (need > 0) items.push({ ...at, need, when: -1 })
    }
  }
  return { capacity: Math.ceil(capacity * FINEST), items }
}

/** Pairs of items that cannot run together on some resource. */
function excluding(resources: readonly Resource[]): [Item, Item][] {
  const pairs = new Map<string, [Item, Item]>()
  for (const { capacity, items } of resources) {
    items.forEach((a, i) => {
      for (const b of items.slice(i + 1)) {
        if (a.need + b.need > capacity && a.start !== b.start) pairs.set(`${a.start} ${b.start}`, [a, b])
      }
    })
  }
  return [...pairs.values()]
}
