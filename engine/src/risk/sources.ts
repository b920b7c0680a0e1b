import type { Model, Programme, Risk } from '../model/index.ts'
import { type Stream, stream } from '../numeric/random.ts'
import { choleskyOf, extremesOf, normalCdf, normalQuantile, triangularAt } from '../numeric/statistics.ts'
import type { ProgrammeResult } from '../programme/index.ts'
import { pointerOf } from '../working/pointer.ts'

const DAY = 86_400

/** One place at which an event may strike. */
interface Strike {
  activity: number
  uniforms: Stream
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

/** What changes in a what-if: mitigations and options taken, sources held still. */
export interface Measures {
  mitigations?: readonly string[]
  options?: readonly string[]
  /** Held at their most likely, not happening, or calm: ids of activities or risks, or "wind". */
  frozen?: readonly string[]
}

/** Events that can strike the network; those whose activities are all unknown are named instead. */
export function eventSources(
  { project }: Model,
  index: ReadonlyMap<string, number>,
  seed: number,
  measures: Measures,
): { events: EventSource[]; lost: string[]; rows: string[]; triangle: number[][] | undefined } {
  const correlated = [...new Set(Object.values(project.correlations).flatMap((c) => c.between))]
  const lost: string[] = []
  const events = Object.entries(project.risks).flatMap(([id, risk]): EventSource[] => {
    const places = struck(risk, index)
    if (places.length === 0) lost.push(id)
    if (places.length === 0 || measures.frozen?.includes(id)) return []
    return [
      {
        id,
        name: risk.risk,
        probability: chanceOf(risk, measures.mitigations?.includes(id) ?? false),
        delay: risk.delayDays.map((d) => d * DAY) as unknown as readonly [number, number, number],
        cost: risk.cost,
        strikes: places.map((activity, i) => ({ activity, uniforms: stream(seed, `risk ${id} ${i}`) })),
        row: correlated.indexOf(id),
      },
    ]
  })
  return { events, lost, rows: correlated, triangle: choleskyOf(correlations(project, correlated)) }
}

/** Once in all: the first activity named that is in the network. Else each of them. */
function struck({ activities, applies }: Risk, index: ReadonlyMap<string, number>): number[] {
  const known = activities.flatMap((id) => index.get(id) ?? [])
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

/** Durations: extremes and mode by activity, with what moves them together. */
export interface DurationSource {
  low: Float64Array
  mode: Float64Array
  high: Float64Array
  uniforms: readonly (Stream | undefined)[]
  /** Kind of work of each activity, and the stream that all of a kind share. */
  group: Int32Array
  shared: readonly Stream[]
  correlation: number
  /** Options that shorten an activity: calendar time saved, drawn. */
  saved: readonly { activity: number; days: readonly [number, number, number]; uniforms: Stream }[]
}

/** Three points of every activity; frozen ones and those without spread are not drawn. */
export function durationSource(
  { project }: Model,
  { activities, solved }: ProgrammeResult,
  seed: number,
  measures: Measures,
): DurationSource {
  const ids = solved?.network.ids ?? []
  const of = (id: string) => activities[id] as ProgrammeResult['activities'][string]
  const groups = [...new Set(ids.map((id) => groupOf(of(id))))]
  const still = new Set(measures.frozen ?? [])
  const options = project.programme?.options ?? {}
  // the plan's allowance for wind gives way to the wind itself
  const workOf = (id: string) => (of(id).kind.startsWith('wait') ? NO_WORK : of(id).work)
  const spans = ids.map((id) => spanOf(workOf(id), project.programme?.points ?? 'extremes'))
  return {
    low: Float64Array.from(spans, ([least]) => least),
    mode: Float64Array.from(ids, (id) => workOf(id)[1]),
    high: Float64Array.from(spans, ([, greatest]) => greatest),
    uniforms: ids.map((id) =>
      workOf(id)[2] > workOf(id)[0] && !still.has(id) ? stream(seed, `activity ${id}`) : undefined,
    ),
    group: Int32Array.from(ids, (id) => groups.indexOf(groupOf(of(id)))),
    shared: groups.map((group) => stream(seed, `kind ${group}`)),
    correlation: project.programme?.correlation?.value ?? 0,
    saved: (measures.options ?? []).flatMap((id) => {
      const option = options[id]
      const activity = option === undefined ? undefined : solved?.network.index.get(option.activity)
      return option === undefined || activity === undefined
        ? []
        : [{ activity, days: option.daysSaved, uniforms: stream(seed, `option ${id}`) }]
    }),
  }
}

const NO_WORK = [0, 0, 0] as const

/** Extremes of three points, as they are meant; no work is less than none. */
function spanOf(
  [least, likely, greatest]: readonly [number, number, number],
  points: Programme['points'],
): [number, number] {
  if (points === 'extremes') return [least, greatest]
  const [a, b] = extremesOf(least, likely, greatest)
  return [Math.max(0, a), b]
}

/** Work of one kind: typed activities by their phase, derived ones by what they do. */
const groupOf = ({ kind, phase }: { kind: string; phase: string }): string =>
  kind === 'typed' ? `phase ${phase}` : kind

/** Draws the durations of one run into `work`. Every stream moves on by one draw, drawn from or not. */
export function drawDurations(source: DurationSource, common: Float64Array, work: Float64Array): void {
  const { low, mode, high, uniforms, group, shared, correlation, saved } = source
  const [own, together] = [Math.sqrt(1 - correlation), Math.sqrt(correlation)]
  for (let g = 0; g < shared.length; g++) common[g] = normalQuantile((shared[g] as Stream).uniform())
  for (let i = 0; i < work.length; i++) {
    const drawn = uniforms[i]
    if (drawn === undefined) {
      work[i] = mode[i] as number
      continue
    }
    let u = drawn.uniform()
    if (correlation > 0) u = normalCdf(own * normalQuantile(u) + together * (common[group[i] as number] as number))
    work[i] = triangularAt(u, low[i] as number, mode[i] as number, high[i] as number)
  }
  for (const { activity, days, uniforms: u } of saved) {
    work[activity] = Math.max(0, (work[activity] as number) - triangularAt(u.uniform(), ...days) * DAY)
  }
}

/** Draws of the correlated normals of one run: one for whether, one for how long. */
export interface Pair {
  whether: Float64Array
  howLong: Float64Array
}

/** Two uniforms for each strike of an event. */
type Drawn = readonly (readonly [number, number])[]

/** Draws the events of one run: delay by activity and by event, and what they cost. */
export function drawEvents(
  events: readonly EventSource[],
  triangle: number[][] | undefined,
  normals: Pair,
  out: { delay: Float64Array; byEvent: Float64Array; at: readonly number[][] },
): number {
  out.delay.fill(0)
  let cost = 0
  // first the own draws of those that are correlated, then the triangle mixes them
  const own = events.map(({ strikes }) =>
    strikes.map(({ uniforms }) => [uniforms.uniform(), uniforms.uniform()] as const),
  )
  if (triangle !== undefined && normals.whether.length > 0) mix(events, triangle, own, normals)
  events.forEach((event, e) => {
    event.strikes.forEach(({ activity }, s) => {
      const [mine, mineLong] = (own[e] as Drawn)[s] as readonly [number, number]
      const joint = s === 0 && event.row >= 0 && triangle !== undefined
      const u = joint ? normalCdf(normals.whether[event.row] as number) : mine
      const long = joint ? normalCdf(normals.howLong[event.row] as number) : mineLong
      const delay = u < event.probability ? triangularAt(long, ...event.delay) : 0
      const at = (out.at[e] as number[])[s] as number
      out.byEvent[at] = delay
      out.delay[activity] = (out.delay[activity] as number) + delay
      if (u < event.probability) cost += event.cost
    })
  })
  return cost
}

function mix(
  events: readonly EventSource[],
  triangle: readonly (readonly number[])[],
  own: readonly Drawn[],
  { whether, howLong }: Pair,
): void {
  const [a, b] = [new Float64Array(whether.length), new Float64Array(whether.length)]
  events.forEach(({ row }, e) => {
    if (row < 0) return
    const [u, v] = (own[e] as Drawn)[0] as readonly [number, number]
    a[row] = normalQuantile(u)
    b[row] = normalQuantile(v)
  })
  for (let i = 0; i < whether.length; i++) {
    whether[i] = 0
    howLong[i] = 0
    for (let k = 0; k <= i; k++) {
      const share = triangle[i]?.[k] as number
      whether[i] = (whether[i] as number) + share * (a[k] as number)
      howLong[i] = (howLong[i] as number) + share * (b[k] as number)
    }
  }
}

/** Address of a risk. */
export const riskPointer = (id: string): string => pointerOf('risks', id)
