import type { Answer } from '../../working/answer.ts'
import type { Check, Verdict } from '../../working/check.ts'
import { showQuantity } from '../../working/quantity.ts'
import type { SiUnit } from '../../working/unit.ts'
import { type Column, headingRow, type Row, type TableRow, tableRows } from '../paper/rows.ts'
import { degreesText, lengthText, lengthUnit, levelText } from '../sheet/figures.ts'
import { wallRadius } from '../views/shaft.ts'
import type { SiteSubject } from './subject.ts'

const number = (title: string, share: number): Column => ({ title, share, align: 'end', tabular: true })
const words = (title: string, share: number): Column => ({ title, share })

type Known = Pick<Answer, 'value'> | undefined

/** Layers of the ground with the values that the checks read; one that is not given is a dash. */
export function layerTable({ stages, units }: SiteSubject, width: number): Row[] {
  const layers = Object.entries(stages.model.project.ground?.layers ?? {})
  if (layers.length === 0) return []
  const shown = (q: Known, unit: SiUnit): string => (q?.value === undefined ? '–' : showQuantity(q.value, unit, units))
  const rows = layers.map(
    ([id, l]): TableRow => ({
      cells: [
        `${id} ${l.name}`,
        levelText(l.top.value as number, units),
        levelText(l.bottom.value as number, units),
        shown(l.unitWeight, 'N/m3'),
        l.phi?.value === undefined ? '–' : degreesText(l.phi.value),
        shown(l.undrained ?? l.cohesion, 'Pa'),
        shown(l.young, 'Pa'),
      ],
    }),
  )
  return [
    headingRow('Layers', width, `levels in ${lengthUnit(units)}; strength undrained, else cohesion`),
    ...tableRows(
      [
        words('Layer', 36),
        number('top', 14),
        number('bottom', 15),
        number('unit weight', 20),
        number('φ', 11),
        number('strength', 18),
        number('E', 22),
      ],
      rows,
      width,
    ),
  ]
}

/** Heads of the water, at rest and drawn down. */
export function waterTable({ stages, units }: SiteSubject, width: number): Row[] {
  const water = Object.entries(stages.model.project.ground?.water ?? {})
  if (water.length === 0) return []
  const level = (q: Known): string => (q?.value === undefined ? '–' : levelText(q.value, units))
  const rows = water.map(
    ([id, w]): TableRow => ({
      cells: [
        id,
        w.layers.join(', '),
        level(w.head),
        w.tide?.value === undefined ? '–' : `±${lengthText(w.tide.value, units)}`,
        level(w.drawnDown),
      ],
    }),
  )
  return [
    headingRow('Water', width, lengthUnit(units)),
    ...tableRows(
      [words('Water', 16), words('in', 26), number('head', 18), number('tide', 18), number('drawn down', 22)],
      rows,
      width,
    ),
  ]
}

/** The shaft in words: how it is built, and its levels. */
export function shaftTable({ stages, units }: SiteSubject, width: number): Row[] {
  const { shaft, cradle, machine } = stages.model.project
  if (shaft === undefined) return []
  const { wall } = shaft
  const length = (q: Known): string => (q?.value === undefined ? 'open' : lengthText(q.value, units))
  const facts: [string, string][] = [
    [
      'wall',
      [
        wall.kind,
        ...(wall.piles === undefined ? [] : [`${wall.piles}`]),
        ...(wall.pileDiameter === undefined ? [] : [`of Ø ${length(wall.pileDiameter)}`]),
      ].join(', '),
    ],
    ['clear and outer diameter', `${length(shaft.clearDiameter)}, ${lengthText(2 * wallRadius(shaft), units)}`],
    ['base slab, thick', length(shaft.slabThickness)],
    ...(cradle === undefined
      ? []
      : ([['cradle, thick at the invert', length(cradle.thickness)]] as [string, string][])),
    ...(machine?.shieldDiameter === undefined
      ? []
      : ([['shield, diameter', length(machine.shieldDiameter)]] as [string, string][])),
    ...Object.entries(shaft.eyes).map(([id, e]): [string, string] => [
      `eye ${id}`,
      `Ø ${length(e.diameter)}, centre ${levelText(e.centre.value as number, units)}`,
    ]),
  ]
  return [
    headingRow('Shaft', width, lengthUnit(units)),
    ...tableRows(
      [words('', 44), words('', 56)],
      facts.map((cells): TableRow => ({ cells })),
      width,
    ),
  ]
}

/** Of the cradle and of the tunnel that the machine leaves behind it. */
const CARRYING = /^ground\.(cradle|jack|rings|restart|drive-in)\./

/** What carries the machine in the shaft, raised on its jacks and as it leaves; of many alike the one used most. */
export const carryingTable = (subject: SiteSubject, width: number): Row[] =>
  checkRows(
    subject,
    'Cradle, jacks, last rings, restart',
    subject.stages.ground.checks.filter((c) => CARRYING.test(c.kind)),
    width,
  )

/** What the towers press on, and whether a storm lifts or moves them; cranes on their mats and on the ground. */
export const machineTable = (subject: SiteSubject, width: number): Row[] =>
  checkRows(
    subject,
    'Towers and cranes on the ground',
    subject.stages.ground.checks.filter((c) => MACHINES.test(c.kind)),
    width,
  )

const MACHINES = /^ground\.(tower|crane|platform)\./

/** Less than this, a plain number such as a chance would be next to nothing in three decimals. */
const SMALL_NUMBER = 0.01

/** What a check holds against what, with its unit. */
export function checkFigure(value: number | undefined, unit: SiUnit, units: SiteSubject['units']): string {
  if (value === undefined) return 'open'
  if (unit === '1' && value !== 0 && Math.abs(value) < SMALL_NUMBER) return value.toPrecision(2)
  return showQuantity(value, unit, units)
}

/** Checks with what is and what may be; of each kind the one used most. */
export function checkRows({ units }: SiteSubject, title: string, checks: readonly Check[], width: number): Row[] {
  if (checks.length === 0) return []
  const shown = (q: Known, unit: SiUnit): string => checkFigure(q?.value, unit, units)
  const rows = worstOfEach(checks).map(
    (c): TableRow => ({
      cells: [c.title, shown(c.demand, c.unit), shown(c.capacity, c.unit), c.verdict],
      under: c.id,
    }),
  )
  return [
    headingRow(title, width, 'of each kind the one used most'),
    ...tableRows([words('', 52), number('is', 18), number('may be', 18), words('', 12)], rows, width),
  ]
}

/** The worse the verdict the further to the front; of alike, the one used more. */
const RANK: readonly Verdict[] = ['fail', 'open', 'near', 'pass']

/** Of two checks the worse. */
export function worseCheck(a: Check, b: Check): Check {
  const rank = RANK.indexOf(b.verdict) - RANK.indexOf(a.verdict)
  return rank < 0 || (rank === 0 && (b.utilisation ?? 0) > (a.utilisation ?? 0)) ? b : a
}

function worstOfEach(checks: readonly Check[]): Check[] {
  const worst = new Map<string, Check>()
  for (const c of checks) worst.set(c.kind, worseCheck(worst.get(c.kind) ?? c, c))
  return [...worst.values()]
}
