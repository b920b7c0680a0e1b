import { type BesideWall, besideWall, type ChartsAt, chartsDown, outside, wallRing } from '../../../ground/index.ts'
import { showNumber, showQuantity } from '../../../working/quantity.ts'
import { lengthText, lengthUnit } from '../../sheet/figures.ts'
import type { SiteSubject } from '../subject.ts'
import { type FigureTable, number, words } from './figures.ts'

type Chart = 'line' | 'point' | 'strip'
export const CHARTS: readonly Chart[] = ['line', 'point', 'strip']

/** A load of the step with its charts down the wall. */
export interface Charted {
  beside: BesideWall
  down: readonly ChartsAt[]
  /** Largest of each, Pa, and how deep below the load, m; undefined where the chart does not go. */
  most: Readonly<Record<Chart, { pressure: number; depth: number } | undefined>>
}

/** The loads of the step shown that have a footprint, the one that presses most as a line first. */
export function charted({ stages, step }: SiteSubject): Charted[] {
  const { shaft } = stages.model.project
  if (shaft === undefined || step === undefined) return []
  const when = step.wall?.when ?? 'lifting'
  const loads = step.loads.filter((l) => outside(l) && l.when.includes(when))
  return besideWall(shaft, wallRing(shaft), loads)
    .map((beside): Charted => {
      const down = chartsDown(beside)
      return {
        beside,
        down,
        most: { line: mostOf(down, 'line'), point: mostOf(down, 'point'), strip: mostOf(down, 'strip') },
      }
    })
    .sort((a, b) => (b.most.line?.pressure ?? 0) - (a.most.line?.pressure ?? 0))
}

function mostOf(down: readonly ChartsAt[], chart: Chart): { pressure: number; depth: number } | undefined {
  return down.reduce<{ pressure: number; depth: number } | undefined>((most, at) => {
    const pressure = at[chart]
    return pressure === undefined || (most !== undefined && most.pressure >= pressure)
      ? most
      : { pressure, depth: at.depth }
  }, undefined)
}

/** The load that is drawn: of those within the charts the one that presses most. */
export const drawnLoad = (subject: SiteSubject): Charted | undefined =>
  charted(subject).find(({ most }) => most.line !== undefined)

/** Every load with a footprint: its distance, its force per metre along the wall, and what each chart makes of it. */
export function chartTable(subject: SiteSubject): FigureTable | undefined {
  const all = charted(subject)
  if (all.length === 0) return undefined
  const { units } = subject
  const like = Math.max(0, ...all.flatMap(({ most }) => CHARTS.map((c) => most[c]?.pressure ?? 0)))
  const heaviest = Math.max(0, ...all.map(({ beside }) => beside.perMetre))
  const drawn = drawnLoad(subject)?.beside.load.id
  const figure = (most: { pressure: number } | undefined): string =>
    most === undefined ? 'outside' : showQuantity(most.pressure, 'Pa', units, like)
  return {
    title: 'Loads as lines along the wall',
    aside: `largest pressure by each chart; distances in ${lengthUnit(units)}; in bold the one drawn`,
    columns: [
      words('what stands there', 30),
      number('from the wall', 13),
      number('m', 9),
      number('per metre', 20),
      number('line', 16),
      number('point', 16),
      number('strip', 16),
    ],
    rows: all.map(({ beside, most }) => ({
      pointer: beside.load.pointer,
      cells: [
        beside.load.what,
        lengthText(beside.middle, units),
        showNumber(beside.middle / beside.height, 2),
        showQuantity(beside.perMetre, 'N/m', units, heaviest),
        figure(most.line),
        figure(most.point),
        figure(most.strip),
      ],
      strong: beside.load.id === drawn,
    })),
  }
}

export const chartNotes = (): string[] => [
  'Each load alone. As a line: its force over its length along the wall, at the distance of its middle, by 0.20 Q n/(H (0.16 + n²)²) up to m = 0.4 and 1.28 Q m² n/(H (m² + n²)²) beyond (Terzaghi 1954; NAVFAC DM 7.02 chapter 3 figure 11, from memory; ground.surcharge.line-chart). As a point: the chart of the same source, read in an open toolbox (ground.surcharge.point-chart). As a strip: elastic, doubled for a wall that does not yield, derived (ground.surcharge.strip). m is distance over height, n depth over height.',
  'The charts are for a straight wall that does not yield, level ground and, for lines and strips, a load without ends: a bound for one that ends. Nearer than a tenth of the height they were never meant to be read: outside. The check ground.wall.surcharge is by the elastic form round the ring, all loads of the step together; the charts are beside it for the ground engineer, G3.',
]
