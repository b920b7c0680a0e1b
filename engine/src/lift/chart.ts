import { type Answer, found, type Given, leastOf } from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import { betweenRows } from './chart.formulas.ts'

/** A row of a chart. */
export interface ChartRow {
  radius: Given<'m'>
  rated: Given<'kg'>
}

/** How the maker lets a chart be read between its rows. */
export type Between = 'next larger radius' | 'linear'

/** A chart for one boom, counterweight and sector; what it does not name it holds for any of. */
export interface Chart {
  id: string
  boom?: Given<'m'> | undefined
  counterweight?: Given<'kg'> | undefined
  sector?: readonly [Given<'rad'>, Given<'rad'>] | undefined
  between: Between
  rows: readonly ChartRow[]
}

/** What is fitted, and the slews passed; of slews that are not stated, all that the charts hold for. */
export interface Fitted {
  boom?: Answer<'m'> | undefined
  counterweight?: Answer<'kg'> | undefined
  slew?: readonly [Answer<'rad'>, Answer<'rad'>] | undefined
}

/** A chart read: the rated load, how it was read, and what lies outside its range with what would cure it. */
export interface Reading {
  rated: Answer<'kg'>
  radius: Answer<'m'>
  /** The chart and row, in words. */
  how: string
  outside: readonly string[]
  /** What the reading rests on, for a check of its range. */
  inputs: Readonly<Record<string, Answer>>
}

const metres = (value: number): string => `${value.toFixed(1)} m`
const tonnes = (value: number): string => `${(value / 1000).toFixed(1)} t`
const degrees = (value: number): string => `${Math.round((value * 180) / Math.PI)}°`

/**
 * Rated load from the charts of a crane: the next longer boom listed, the next lighter counterweight listed, every sector
 * passed, and in each the row of the next larger radius, or a straight line where the chart permits one. Beyond the first
 * and the last row nothing is rated, and no sector holds outside itself.
 *
 * Source: lower value between rows unless the maker permits interpolation (quiz of a crane safety body, read).
 */
export function readCharts(charts: readonly Chart[], fitted: Fitted, radius: Answer<'m'>, at: string): Reading {
  const unstated = unstatedOf(charts, fitted, at)
  const inputs: Record<string, Answer> = { radius, ...unstated }
  if (radius.value === undefined || Object.values(unstated).some((a) => a.value === undefined))
    return { rated: unread(inputs), radius, how: 'not read', outside: [], inputs }
  const boom = fittedBoom(charts, fitted)
  const weight = fittedWeight(boom.charts, fitted)
  const sector = passedSectors(weight.charts, fitted)
  const readings = sector.charts.map((chart) => ({ chart, ...readRows(chart, radius) }))
  const within = readings.filter((r) => r.outside === undefined)
  const used = sector.enough === 'any' && within.length > 0 ? [bestOf(within)] : readings
  const beyond = used.flatMap((r) =>
    r.outside === undefined ? [] : [r.outside + elsewhere(charts, radius.value as number)],
  )
  const outside = [...boom.outside, ...weight.outside, ...sector.outside, ...new Set(beyond)]
  const how = used.map(({ chart, how: row }) => `${nameOf(chart)}: ${row}`).join('; ')
  return {
    rated: outside.length > 0 || used.length === 0 ? unread(inputs, 0) : lowest(used),
    radius,
    how: how === '' ? 'no chart holds' : how,
    outside,
    inputs,
  }
}

type Used = RowReading & { chart: Chart }

const bestOf = (readings: readonly Used[]): Used =>
  readings.reduce((a, b) => ((b.rated.value ?? 0) > (a.rated.value ?? 0) ? b : a))

function lowest(used: readonly Used[]): Answer<'kg'> {
  const terms = used.map((r) => ({ label: nameOf(r.chart), answer: r.rated }))
  return terms.length === 1
    ? (terms[0] as (typeof terms)[number]).answer
    : leastOf('Rated load, the lowest of the sectors passed', 'kg', terms)
}

/** What the charts tell apart and nobody has said of the crane. */
function unstatedOf(charts: readonly Chart[], { boom, counterweight }: Fitted, at: string): Record<string, Answer> {
  const tell = (of: (chart: Chart) => unknown): boolean => charts.some((chart) => of(chart) !== undefined)
  return {
    ...(tell((c) => c.boom)
      ? { boom: boom ?? { kind: 'given', unit: 'm', pointer: `${at}/boom`, value: undefined } }
      : {}),
    ...(tell((c) => c.counterweight)
      ? {
          counterweight: counterweight ?? {
            kind: 'given',
            unit: 'kg',
            pointer: `${at}/counterweight`,
            value: undefined,
          },
        }
      : {}),
  }
}

const unread = (inputs: Record<string, Answer>, value?: number): Answer<'kg'> =>
  found({
    unit: 'kg',
    value,
    method: 'crane chart, read within its range only; outside it nothing is rated',
    inputs,
    residuals: [],
    ...(value === 0 ? { note: 'outside the range of the chart' } : {}),
  })

interface Chosen {
  charts: readonly Chart[]
  outside: readonly string[]
}

/** Charts of the next longer boom that is listed. */
function fittedBoom(charts: readonly Chart[], { boom }: Fitted): Chosen {
  const listed = listedOf(charts, (c) => c.boom?.value)
  if (listed.length === 0 || boom?.value === undefined) return { charts, outside: [] }
  const next = listed.find((length) => length >= (boom.value as number) - 1e-9)
  if (next !== undefined) return { charts: charts.filter((c) => same(c.boom?.value, next)), outside: [] }
  const longest = listed.at(-1) as number
  return {
    charts: [],
    outside: [
      `a boom of ${metres(boom.value)} is longer than any charted; the longest is ${metres(longest)}: fit that or a shorter one`,
    ],
  }
}

/** Charts of the next lighter counterweight that is listed. */
function fittedWeight(charts: readonly Chart[], { counterweight }: Fitted): Chosen {
  const listed = listedOf(charts, (c) => c.counterweight?.value)
  if (listed.length === 0 || counterweight?.value === undefined) return { charts, outside: [] }
  const next = listed.findLast((mass) => mass <= (counterweight.value as number) + 1e-6)
  if (next !== undefined) return { charts: charts.filter((c) => same(c.counterweight?.value, next)), outside: [] }
  const least = listed[0] as number
  return {
    charts: [],
    outside: [
      `a counterweight of ${tonnes(counterweight.value)} is less than any charted; the least is ${tonnes(least)}: fit that or more`,
    ],
  }
}

const same = (listed: number | undefined, chosen: number): boolean => listed === undefined || listed === chosen

const listedOf = (charts: readonly Chart[], of: (chart: Chart) => number | undefined): number[] =>
  [...new Set(charts.flatMap((c) => of(c) ?? []))].sort((a, b) => a - b)

const TURN = 2 * Math.PI
const CLOSE = 1e-9

/**
 * Charts that hold for the slew passed: any of those that hold for the whole of it, else all of the sectors that it passes
 * together; an arc that none holds for is outside.
 */
function passedSectors(charts: readonly Chart[], { slew }: Fitted): Chosen & { enough: 'any' | 'all' } {
  if (charts.length === 0 || charts.every((c) => c.sector === undefined)) return { charts, outside: [], enough: 'any' }
  const [from, to] = slew === undefined ? [0, TURN] : [slew[0].value as number, slew[1].value as number]
  const arcs = charts.flatMap((chart) => arcsOf(chart).map((arc) => ({ chart, arc })))
  const [low, high] = [Math.min(from, to), Math.max(from, to)]
  const whole = arcs.filter(({ arc }) => arc[0] <= low + CLOSE && arc[1] >= high - CLOSE)
  if (whole.length > 0) return { charts: [...new Set(whole.map(({ chart }) => chart))], outside: [], enough: 'any' }
  const passed = arcs.filter(({ arc }) => arc[0] < high - CLOSE && arc[1] > low + CLOSE)
  const gap = gapIn(
    passed.map(({ arc }) => arc),
    low,
    high,
  )
  const cure = `turn the carrier, or keep the slew (setUp/slew) within ${sectorsText(charts)}`
  return {
    charts: [...new Set(passed.map(({ chart }) => chart))],
    outside: gap === undefined ? [] : [`no chart holds at a slew of ${degrees(gap)} from straight ahead: ${cure}`],
    enough: 'all',
  }
}

/** A sector three times over, so that an arc across straight behind is met. */
function arcsOf({ sector }: Chart): (readonly [number, number])[] {
  if (sector === undefined) return [[-Infinity, Infinity]]
  const from = sector[0].value as number
  const to = sector[1].value as number
  const end = to >= from ? to : to + TURN
  return [-TURN, 0, TURN].map((turn) => [from + turn, end + turn] as const)
}

/** First slew of an arc that nothing covers. */
function gapIn(arcs: readonly (readonly [number, number])[], from: number, to: number): number | undefined {
  let at = from
  for (;;) {
    const reach = Math.max(...arcs.filter((arc) => arc[0] <= at + CLOSE).map((arc) => arc[1]), -Infinity)
    if (reach >= to - CLOSE) return undefined
    if (reach <= at + CLOSE) return at
    at = reach
  }
}

const sectorsText = (charts: readonly Chart[]): string =>
  charts
    .flatMap(({ sector }) =>
      sector === undefined ? [] : [`${degrees(sector[0].value as number)} to ${degrees(sector[1].value as number)}`],
    )
    .join(', ')

interface RowReading {
  rated: Answer<'kg'>
  how: string
  outside?: string
}

/** One chart at a radius. */
function readRows({ rows: listed, between, id }: Chart, radius: Answer<'m'>): RowReading {
  const rows = [...listed].sort((a, b) => (a.radius.value as number) - (b.radius.value as number))
  const r = radius.value as number
  const after = rows.find((row) => (row.radius.value as number) >= r)
  const [first, last] = [rows[0], rows.at(-1)]
  if (first === undefined || last === undefined)
    return { rated: nothing(radius), how: 'no rows', outside: `chart ${id} has no rows` }
  const [least, most] = [first.radius.value as number, last.radius.value as number]
  const range = `the chart runs from ${metres(least)} to ${metres(most)}`
  if (r < least)
    return {
      rated: nothing(radius),
      how: 'below its first row',
      outside: `a radius of ${metres(r)}: ${range}; keep the load ${metres(least - r)} farther out`,
    }
  if (after === undefined)
    return {
      rated: nothing(radius),
      how: 'beyond its last row',
      outside: `a radius of ${metres(r)}: ${range}; stand ${metres(r - most)} nearer`,
    }
  const before = rows.findLast((row) => (row.radius.value as number) < r)
  if (between === 'linear' && before !== undefined)
    return {
      rated: betweenRows.show({
        r: radius,
        r_1: before.radius,
        R_1: before.rated,
        r_2: after.radius,
        R_2: after.rated,
      }),
      how: `straight line between ${metres(before.radius.value as number)} and ${metres(after.radius.value as number)}, which the chart permits`,
    }
  return { rated: ofRow(after, radius), how: `row of ${metres(after.radius.value as number)}` }
}

const ofRow = (row: ChartRow, radius: Answer<'m'>): Answer<'kg'> =>
  found({
    unit: 'kg',
    value: row.rated.value,
    method: 'crane chart: row of the next larger radius',
    inputs: { radius, 'radius of the row': row.radius, 'rated load of the row': row.rated },
    residuals: [],
  })

const nothing = (radius: Answer<'m'>): Answer<'kg'> => unread({ radius }, 0)

/** Which other chart of the crane reaches this radius. */
function elsewhere(charts: readonly Chart[], radius: number): string {
  const reach = charts.filter(({ rows }) => {
    const radii = rows.map((row) => row.radius.value as number)
    return radii.length > 0 && radius >= Math.min(...radii) && radius <= Math.max(...radii)
  })
  return reach.length === 0 ? '' : `, or set up as charted in ${reach.map(nameOf).join(' or ')}`
}

const nameOf = ({ id, boom, counterweight, sector }: Chart): string => {
  const parts = [
    ...(boom?.value === undefined ? [] : [`boom ${metres(boom.value)}`]),
    ...(counterweight?.value === undefined ? [] : [`counterweight ${tonnes(counterweight.value)}`]),
    ...(sector === undefined
      ? []
      : [`slew ${degrees(sector[0].value as number)} to ${degrees(sector[1].value as number)}`]),
  ]
  return parts.length === 0 ? id : parts.join(', ')
}

/** The chart of a hook that has one, or all that it has by boom, counterweight and sector. */
export function chartsOf(hook: {
  chart?: readonly ChartRow[] | undefined
  between?: Between | undefined
  charts: Readonly<Record<string, Omit<Chart, 'id'>>>
}): Chart[] {
  const several = Object.entries(hook.charts).map(([id, chart]) => ({ ...chart, id }))
  const one =
    hook.chart === undefined ? [] : [{ id: 'chart', between: hook.between ?? 'next larger radius', rows: hook.chart }]
  return [...one, ...several] as Chart[]
}

/** Where what is fitted should stand. */
export const setUpAt = (systemAt: string): string => systemAt + pointerOf('setUp')
