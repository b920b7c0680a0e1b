import type { GroundLoad } from '../../ground/index.ts'
import type { Answer } from '../../working/answer.ts'
import { showNumber, shownScale, showQuantity } from '../../working/quantity.ts'
import { SMALL } from '../paper/pen.ts'
import { type Column, headingRow, proseRows, type Row, spaceRow, type TableRow, tableRows } from '../paper/rows.ts'
import { exactFigure, exactUnit, lengthText, lengthUnit, levelText, OPEN } from '../sheet/figures.ts'
import type { SheetStages } from '../sheet/subject.ts'
import { bayDistance, distanceFromCentre } from './distances.ts'
import { bayName, sizeText } from './planBays.ts'
import { planOf } from './planFrame.ts'
import { placeOf } from './planLines.ts'
import { reachesOf } from './reach.ts'
import type { SiteSubject } from './subject.ts'

const number = (title: string, share: number): Column => ({ title, share, align: 'end', tabular: true })
const words = (title: string, share: number): Column => ({ title, share })

/** What stands on the ground at the step: while the piece hangs, and once it is set down. */
export function loadTable(subject: SiteSubject, width: number): Row[] {
  const { step, units } = subject
  if (step === undefined || step.loads.length === 0) return []
  const unit = exactUnit('N', units)
  const rows = togetherByThing(step.loads).map(
    ({ what, on, lifting, down }): TableRow => ({
      cells: [what, on, forceText(lifting, units), forceText(down, units)],
    }),
  )
  return [
    headingRow('What stands there', width, `${step.step}, ${unit}`),
    ...tableRows([words('What', 50), words('On', 16), number('lifting', 18), number('set down', 18)], rows, width),
    ...wallRows(subject, width),
  ]
}

interface Together {
  what: string
  on: string
  lifting?: Answer<'N'>
  down?: Answer<'N'>
}

/** Legs stand twice in the loads, once for each moment. */
function togetherByThing(loads: readonly GroundLoad[]): Together[] {
  const things = new Map<string, Together>()
  for (const load of loads) {
    const key = `${load.what}|${load.on}|${load.kind === 'piece' ? load.id : ''}`
    const thing = things.get(key) ?? { what: load.what, on: load.on }
    things.set(key, {
      ...thing,
      ...(load.when.includes('lifting') ? { lifting: load.force } : {}),
      ...(load.when.includes('set down') ? { down: load.force } : {}),
    })
  }
  return [...things.values()]
}

const forceText = (force: Answer<'N'> | undefined, units: SiteSubject['units']): string =>
  force === undefined ? '–' : exactFigure(force, units).text

function wallRows({ step, stages, units }: SiteSubject, width: number): Row[] {
  const wall = step?.wall
  if (step === undefined || wall === undefined) return []
  const allowed = stages.model.project.shaft?.wall.surcharge
  const governing = stages.ground.governing === step.step ? ' No other step presses more.' : ''
  return [
    spaceRow(1.2),
    ...proseRows(
      `On the shaft's wall, ${wall.when}: ${showQuantity(wall.pressure.value, 'Pa', units)} sideways, of ${showQuantity(allowed?.value, 'Pa', units)} that the wall was designed for.${governing}`,
      width,
      { weight: 700 },
    ),
  ]
}

/** Every bay: where, how large, what it may carry, the most that is set on it, and what is left. */
export function bayTable(subject: SiteSubject, width: number): Row[] {
  const { units, stages } = subject
  const bays = Object.entries(stages.model.project.bays)
  if (bays.length === 0) return []
  const columns = [
    words('Bay', 15),
    words('size', 24),
    number('x', 13),
    number('y', 13),
    number('away', 13),
    number('allowed', 17),
    number('most', 17),
    number('left', 16),
  ]
  const rows = bays.map(([id, bay]): TableRow => {
    const [x, y] = planOf(bay.centre)
    const most = mostOn(stages, id)
    const allowed = bay.allowable.value
    const left = most?.pressure === undefined || allowed === undefined ? undefined : allowed - most.pressure
    const fails = left !== undefined && left < 0
    return {
      cells: [
        bayName(id, bay),
        sizeText(bay, units),
        lengthText(x, units),
        lengthText(y, units),
        lengthText(bayDistance(bay), units),
        pressureText(allowed, units),
        most === undefined ? '–' : pressureText(most.pressure, units),
        most === undefined ? '–' : { words: pressureText(left, units), ...(fails ? { ink: 'fail', weight: 700 } : {}) },
      ],
      ...(bay.construction === undefined
        ? {}
        : {
            under: `${bay.construction}${most === undefined ? '; nothing is set down on it' : `; most by ${most.piece}`}`,
          }),
    }
  })
  return [
    headingRow('Laydown bays', width, `${units === 'SI' ? 'm, kPa' : 'ft, ksf'}, from the shaft's centre`),
    ...tableRows(columns, rows, width),
  ]
}

const PRESSURES = { SI: [1000, 1], US: [47_880.25898, 3] } as const

/** Kilopascals, or thousands of pounds a square foot. */
function pressureText(value: number | undefined, units: SiteSubject['units']): string {
  const [factor, decimals] = PRESSURES[units]
  return value === undefined ? OPEN : showNumber(value / factor, decimals)
}

/** The piece that presses most on a bay, over all steps; an unknown pressure counts as the most. */
export function mostOn(stages: SheetStages, bay: string): { piece: string; pressure: number | undefined } | undefined {
  const landings = stages.ground.steps.flatMap(({ landing }) => (landing?.bay === bay ? [landing] : []))
  const worst = [...landings].sort(
    (a, b) => (b.pressure.value ?? Number.POSITIVE_INFINITY) - (a.pressure.value ?? Number.POSITIVE_INFINITY),
  )[0]
  return worst === undefined
    ? undefined
    : { piece: stages.model.project.pieces[worst.piece]?.name ?? worst.piece, pressure: worst.pressure.value }
}

/** Standings of cranes and the farthest lift planned from each. */
export function craneTable({ stages, units }: SiteSubject, width: number): Row[] {
  const reaches = reachesOf(stages)
  if (reaches.length === 0) return []
  const columns = [
    words('Crane', 22),
    number('x', 13),
    number('y', 13),
    number('away', 14),
    number('radius', 14),
    number('rated', 16),
    words('', 1),
    words('lift', 33),
  ]
  const rows = reaches.map(
    ({ system, standing, at: [x, y], away, radius, rated, lift }): TableRow => ({
      cells: [
        `${system}, standing ${standing + 1}`,
        lengthText(x, units),
        lengthText(y, units),
        lengthText(away, units),
        lengthText(radius, units),
        showQuantity(rated, 'kg', units),
        '',
        lift,
      ],
    }),
  )
  return [
    headingRow('Cranes: farthest lift planned from each standing', width, lengthUnit(units)),
    ...tableRows(columns, rows, width),
  ]
}

/** Neighbours: what is buried, what hangs over the site, what stands beside it. */
export function neighbourTable({ stages, units }: SiteSubject, outside: readonly string[], width: number): Row[] {
  const all = Object.entries(stages.model.project.utilities)
  if (all.length === 0) return []
  const rows = all.map(([id, u]): TableRow => {
    const away = distanceFromCentre(u)
    return {
      cells: [
        id,
        u.what,
        u.at === undefined ? placeOf(u) : 'beside the site',
        away === undefined ? OPEN : lengthText(away, units),
        u.axis?.value === undefined ? '' : levelText(u.axis.value, units),
      ],
      ...(outside.includes(id) ? { under: 'outside the drawing' } : {}),
    }
  })
  return [
    headingRow('Lines and neighbours', width, `${lengthUnit(units)}, nearest place from the shaft's centre`),
    ...tableRows(
      [words('Id', 10), words('What', 56), words('Lies', 24), number('away', 16), number('axis', 14)],
      rows,
      width,
    ),
  ]
}

/** Instruments: last reading against its levels, what the plan demands, when the trend comes to the next level. */
export function instrumentTable({ stages, units }: SiteSubject, width: number): Row[] {
  const { instruments } = stages.ground
  if (instruments.length === 0) return []
  const rows = instruments.map(({ id, is, readings, at, demands, reached }): TableRow => {
    const scale = shownScale(is.alarm.value as number, is.alarm.unit, units)
    const figure = ({ value }: Answer): string =>
      value === undefined ? OPEN : showNumber(value / scale.factor, scale.decimals)
    const last = readings.at(-1)
    const next = (['alert', 'action', 'alarm'] as const).find((level) => reached[level] !== undefined)
    const said = [
      `${is.what}, ${is.measures}${scale.label === '' ? '' : `, ${scale.label}`}`,
      ...(at === undefined ? [] : [`past ${at}: ${demands ?? 'the plan says nothing'}`]),
      ...(next === undefined ? [] : [`by its trend at ${next} on ${reached[next]}`]),
    ]
    return {
      cells: [
        id,
        last?.on ?? 'never',
        last === undefined
          ? OPEN
          : { words: figure(last.answer), ...(at === undefined ? {} : { ink: 'fail', weight: 700 }) },
        figure(is.alert),
        figure(is.action),
        figure(is.alarm),
      ],
      under: said.join('; '),
    }
  })
  const columns = [
    words('Id', 14),
    words('read on', 26),
    number('reading', 18),
    number('alert', 16),
    number('action', 16),
    number('alarm', 16),
  ]
  return [headingRow('Instruments', width, 'last reading against its levels'), ...tableRows(columns, rows, width)]
}

/** Sentences as a block, each on lines of its own. */
export function noteBlock(title: string, sentences: readonly string[], width: number): Row[] {
  if (sentences.length === 0) return []
  return [headingRow(title, width), ...sentences.flatMap((s) => proseRows(s, width, { size: SMALL, mark: '·' }))]
}

export const blocks = (all: readonly (readonly Row[])[]): Row[] =>
  all.filter((b) => b.length > 0).flatMap((b) => [...b, spaceRow(4)])
