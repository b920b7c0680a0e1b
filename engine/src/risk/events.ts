import type { Model, Risk } from '../model/index.ts'
import { hashOf, uniformAt } from '../numeric/random.ts'
import { choleskyOf, normalQuantile, tabledNormalCdf, triangularAt } from '../numeric/statistics.ts'
import { pointerOf } from '../working/pointer.ts'
import type { Measures } from './measure.ts'

const DAY = 86_400

/** One place at which an event may strike: the activity, and the key of its numbers. */
interface Strike {
  activity: number
  key: number
}

/** An event with its chance, its delay and where it strikes. */
export interface EventSource {
  id: string
  name: string
  probability: number
  /** Calendar time: extremes and mode, s. */
  delay: readonly [number, number, number]
  cost: number
  strikes: readonly Strike[]
  /** Its row in the correlated normals; −1 when it stands alone. */
  row: number
}

export interface Events {
  events: readonly EventSource[]
  /** Risks none of whose activities is in the network. */
  lost: readonly string[]
  /** Lower triangle of the correlations, row by row; undefined when they contradict each other. */
  triangle: readonly (readonly number[])[] | undefined
  rows: number
}

/**
 * Events that can strike the network; those whose activities are all unknown are named instead.
 *
 * @param index place of each activity; −1 for one that is done, which nothing strikes any more
 */
export function eventSources(
  { project }: Model,
  index: ReadonlyMap<string, number>,
  seed: number,
  measures: Measures,
): Events {
  const correlated = [...new Set(Object.values(project.correlations).flatMap((c) => c.between))]
  const lost: string[] = []
  const events = Object.entries(project.risks).flatMap(([id, risk]): EventSource[] => {
    const places = struck(risk, index)
    if (!risk.activities.some((activity) => index.has(activity))) lost.push(id)
    if (places.length === 0 || measures.frozen?.includes(id)) return []
    return [
      {
        id,
        name: risk.risk,
        probability: chanceOf(risk, measures.mitigations?.includes(id) ?? false),
        delay: risk.delayDays.map((d) => d * DAY) as unknown as readonly [number, number, number],
        cost: risk.cost,
        strikes: places.map((activity, i) => ({ activity, key: hashOf(`risk ${id} ${i}`, seed) })),
        row: correlated.indexOf(id),
      },
    ]
  })
  const triangle = choleskyOf(correlations(project, correlated))
  return { events, lost, rows: correlated.length, triangle }
}

/** Once in all: the first activity named that is still ahead. Else each of them. */
function struck({ activities, applies }: Risk, index: ReadonlyMap<string, number>): number[] {
  const known = activities.flatMap((id) => index.get(id) ?? []).filter((place) => place >= 0)
  return applies === 'each' ? known : known.slice(0, 1)
}

const chanceOf = ({ probability, mitigation }: Risk, mitigated: boolean): number =>
  (mitigated && mitigation !== undefined ? mitigation.probabilityAfter.value : probability.value) as number

function correlations(project: Model['project'], ids: readonly string[]): number[][] {
  const matrix = ids.map((_, i) => ids.map((__, j) => Number(i === j)))
  for (const { between, r } of Object.values(project.correlations)) {
    const [i, j] = [ids.indexOf(between[0]), ids.indexOf(between[1])]
    ;(matrix[i] as number[])[j] = r
    ;(matrix[j] as number[])[i] = r
  }
  return matrix
}

/** What the events of one run did: delay by activity and by strike; and where correlated ones are mixed. */
export interface Struck {
  delay: Float64Array
  byStrike: Float64Array
  whether: Float64Array
  howLong: Float64Array
}

/** Draws the events of one run; says what they cost. Two numbers belong to each strike and run: whether, and how long. */
export function drawEvents({ events, triangle }: Events, run: number, out: Struck): number {
  out.delay.fill(0)
  const joint = triangle !== undefined && out.whether.length > 0
  if (joint) mix(events, triangle, run, out)
  let [cost, at] = [0, 0]
  for (const { probability, delay, cost: price, strikes, row } of events) {
    for (let s = 0; s < strikes.length; s++, at++) {
      const { activity, key } = strikes[s] as Strike
      const together = joint && s === 0 && row >= 0
      const u = together ? tabledNormalCdf(out.whether[row] as number) : uniformAt(key, 2 * run)
      if (u >= probability) {
        out.byStrike[at] = 0
        continue
      }
      const long = together ? tabledNormalCdf(out.howLong[row] as number) : uniformAt(key, 2 * run + 1)
      const lasts = triangularAt(long, ...delay)
      out.byStrike[at] = lasts
      out.delay[activity] = (out.delay[activity] as number) + lasts
      cost += price
    }
  }
  return cost
}

/** The own normals of correlated events, mixed from the last row up, so that each row still finds its own and those before. */
function mix(
  events: readonly EventSource[],
  triangle: readonly (readonly number[])[],
  run: number,
  { whether, howLong }: Struck,
): void {
  whether.fill(0)
  howLong.fill(0)
  for (const { row, strikes } of events) {
    if (row < 0) continue
    const { key } = strikes[0] as Strike
    whether[row] = normalQuantile(uniformAt(key, 2 * run))
    howLong[row] = normalQuantile(uniformAt(key, 2 * run + 1))
  }
  for (let i = whether.length - 1; i >= 0; i--) {
    const shares = triangle[i] as readonly number[]
    let [w, l] = [0, 0]
    for (let k = 0; k <= i; k++) {
      w += (shares[k] as number) * (whether[k] as number)
      l += (shares[k] as number) * (howLong[k] as number)
    }
    whether[i] = w
    howLong[i] = l
  }
}

/** Address of a risk. */
export const riskPointer = (id: string): string => pointerOf('risks', id)
