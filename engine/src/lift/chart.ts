import { type Answer, type Given, given, leastOf } from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import { type Between, type ChartRow, type Passed, type RowReading, readRows, unread } from './chartRows.ts'
import { chartsHolding, isWhole, type Sector } from './sector.ts'

/** A chart for one boom, counterweight and sector, and where it says for which. */
export interface Chart {
  id: string
  at: (field: Told) => string
  boom?: Given<'m'> | undefined
  counterweight?: Given<'kg'> | undefined
  sector?: Sector | undefined
  between: Between
  rows: readonly ChartRow[]
}

/** What charts may be told apart by. */
type Told = 'boom' | 'counterweight' | 'sector'

/** What is fitted, and the slews passed; a slew that is not stated is the whole circle. */
export interface Fitted {
  boom?: Answer<'m'> | undefined
  counterweight?: Answer<'kg'> | undefined
  slew?: Sector<Answer<'rad'>> | undefined
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

/** What the charts of a crane are read for: what is fitted, and where the file says it; the radii passed. */
export interface ReadFor extends Passed {
  fitted: Fitted
  /** Of the set-up. */
  at: string
}

/**
 * Rated load from the charts of a crane: the next longer boom listed, the next lighter counterweight listed, every sector
 * passed, and in each the row of the next larger radius, or a straight line where the chart permits one. Beyond the first
 * and the last row nothing is rated, and no sector holds outside itself. What a chart and the set-up do not both say is open.
 *
 * Source: lower value between rows unless the maker permits interpolation (quiz of a crane safety body, read).
 */
export function readCharts(charts: readonly Chart[], { fitted, radius, nearest, at }: ReadFor): Reading {
  const told = toldOf(charts, fitted, at)
  const inputs: Record<string, Answer> = { radius, ...told }
  if ([radius, ...Object.values(told)].some(({ value }) => value === undefined))
    return { rated: unread(inputs), radius, how: unreadWords(charts, fitted), outside: [], inputs }
  const boom = fittedBoom(charts, fitted)
  const weight = fittedWeight(boom.charts, fitted)
  const sector = passedSectors(weight.charts, fitted)
  const groups = groupsOf(sector.charts.map((chart) => ({ chart, ...readRows(chart, { radius, nearest }) })))
  const within = groups.filter((group) => group.every(({ outside }) => outside === undefined))
  const used = sector.enough === 'any' && within.length > 0 ? bestOf(within) : groups.flat()
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

/** Charts that nothing tells apart hold together: what sets them apart (floats half out, another reeving) is not known here. */
function groupsOf(readings: readonly Used[]): Used[][] {
  const groups = new Map<string, Used[]>()
  for (const reading of readings) {
    const alike = sectorText(reading.chart)
    groups.set(alike, [...(groups.get(alike) ?? []), reading])
  }
  return [...groups.values()]
}

const leastOfGroup = (group: readonly Used[]): number => Math.min(...group.map(({ rated }) => rated.value ?? 0))

const bestOf = (groups: readonly Used[][]): Used[] =>
  groups.reduce((a, b) => (leastOfGroup(b) > leastOfGroup(a) ? b : a))

function lowest(used: readonly Used[]): Answer<'kg'> {
  const terms = used.map((r) => ({ label: nameOf(r.chart), answer: r.rated }))
  return terms.length === 1
    ? (terms[0] as (typeof terms)[number]).answer
    : leastOf('Rated load, the lowest of the charts that hold', 'kg', terms)
}

/** What charts are told apart by, as the crane has it and as each chart has it: what one side says and the other does not is open. */
function toldOf(charts: readonly Chart[], { boom, counterweight, slew }: Fitted, at: string): Record<string, Answer> {
  const tell = (field: Told): boolean => charts.some((chart) => chart[field] !== undefined)
  return {
    ...(tell('boom') ? { boom: boom ?? given('m', `${at}/boom`, undefined) } : {}),
    ...(tell('counterweight') ? { counterweight: counterweight ?? given('kg', `${at}/counterweight`, undefined) } : {}),
    ...(tell('sector') && slew !== undefined ? { 'slew from': slew[0], 'slew to': slew[1] } : {}),
    ...Object.fromEntries(
      unsaidOf(charts, { boom, counterweight, slew }).map(({ chart, field }): [string, Answer] => [
        `${field} of chart ${chart.id}`,
        given(UNITS[field], chart.at(field), undefined),
      ]),
    ),
  }
}

const UNITS = { boom: 'm', counterweight: 'kg', sector: 'rad' } as const

/** What is said to be fitted, and a chart does not say of itself. */
function unsaidOf(charts: readonly Chart[], { boom, counterweight, slew }: Fitted): { chart: Chart; field: Told }[] {
  const asked: Told[] = [
    ...(boom === undefined ? [] : ['boom' as const]),
    ...(counterweight === undefined ? [] : ['counterweight' as const]),
    ...(slew === undefined ? [] : ['sector' as const]),
  ]
  return charts.flatMap((chart) =>
    asked.filter((field) => chart[field] === undefined).map((field) => ({ chart, field })),
  )
}

/** Why charts are not read, and what would cure it. */
function unreadWords(charts: readonly Chart[], fitted: Fitted): string {
  const unsaid = unsaidOf(charts, fitted).map(({ chart, field }) => `${chart.id} does not say its ${field}`)
  return unsaid.length === 0
    ? 'nothing yet'
    : `nothing, for ${unsaid.join(', ')}: state under charts what each of them holds for, as its maker prints it (a chart for the whole circle: 0 deg to 360 deg)`
}

interface Chosen {
  charts: readonly Chart[]
  outside: readonly string[]
}

/** Charts of the next longer boom that is listed. */
function fittedBoom(charts: readonly Chart[], { boom }: Fitted): Chosen {
  const listed = listedOf(charts, (c) => c.boom?.value)
  if (listed.length === 0 || boom?.value === undefined) return { charts, outside: [] }
  const next = listed.find((length) => length >= (boom.value as number) - 1e-9)
  if (next !== undefined) return { charts: charts.filter((c) => c.boom?.value === next), outside: [] }
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
  if (next !== undefined) return { charts: charts.filter((c) => c.counterweight?.value === next), outside: [] }
  const least = listed[0] as number
  return {
    charts: [],
    outside: [
      `a counterweight of ${tonnes(counterweight.value)} is less than any charted; the least is ${tonnes(least)}: fit that or more`,
    ],
  }
}

const listedOf = (charts: readonly Chart[], of: (chart: Chart) => number | undefined): number[] =>
  [...new Set(charts.flatMap((c) => of(c) ?? []))].sort((a, b) => a - b)

/** Charts that hold for the slew passed, and the first arc of it that none holds for. */
function passedSectors(all: readonly Chart[], { slew }: Fitted): Chosen & { enough: 'any' | 'all' } {
  const { charts, enough, gap } = chartsHolding(all, slew)
  const cure = `turn the carrier, or keep the slew (setUp/slew) within a sector of the charts: ${sectorsText(charts)}`
  return {
    charts,
    enough,
    outside: gap === undefined ? [] : [`no chart holds at a slew of ${degrees(gap)} from straight ahead: ${cure}`],
  }
}

function sectorText({ sector }: Chart): string {
  if (sector === undefined) return ''
  return isWhole(sector)
    ? 'all round'
    : `slew ${degrees(sector[0].value as number)} to ${degrees(sector[1].value as number)}`
}

const sectorsText = (charts: readonly Chart[]): string =>
  charts
    .map(sectorText)
    .filter((text) => text !== '')
    .join(', ')

/** Which other chart of the crane reaches this radius. */
function elsewhere(charts: readonly Chart[], radius: number): string {
  const reach = charts.filter(({ rows }) => {
    const radii = rows.map((row) => row.radius.value as number)
    return radii.length > 0 && radius >= Math.min(...radii) && radius <= Math.max(...radii)
  })
  return reach.length === 0 ? '' : `, or set up as charted in ${reach.map(nameOf).join(' or ')}`
}

const nameOf = (chart: Chart): string => {
  const { id, boom, counterweight } = chart
  const parts = [
    ...(boom?.value === undefined ? [] : [`boom ${metres(boom.value)}`]),
    ...(counterweight?.value === undefined ? [] : [`counterweight ${tonnes(counterweight.value)}`]),
    ...(chart.sector === undefined ? [] : [sectorText(chart)]),
  ]
  return parts.length === 0 ? id : parts.join(', ')
}

/** The chart of a hook that has one, or all that it has by boom, counterweight and sector. */
export function chartsOf(
  hook: {
    chart?: readonly ChartRow[] | undefined
    between?: Between | undefined
    charts: Readonly<Record<string, Omit<Chart, 'id' | 'at'>>>
  },
  hookAt: string,
): Chart[] {
  const several = Object.entries(hook.charts).map(
    ([id, chart]): Chart => ({ ...chart, id, at: (field) => hookAt + pointerOf('charts', id, field) }),
  )
  const { chart: rows, between = 'next larger radius' } = hook
  // rows by themselves have no place for what they hold for: as one of several they have
  return rows === undefined ? several : [{ id: 'chart', at: () => `${hookAt}/charts`, between, rows }, ...several]
}
