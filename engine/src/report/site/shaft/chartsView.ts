import type { ChartsAt } from '../../../ground/index.ts'
import { showNumber, shownScale, showQuantity } from '../../../working/quantity.ts'
import {
  box,
  line,
  type Mark,
  type PaperBox,
  type PaperPoint,
  type Stroke,
  standFor,
  text,
  textBox,
  textsOf,
  type View,
} from '../../drawing.ts'
import { dimension } from '../../paper/dimension.ts'
import { type Label, labelMarks } from '../../paper/labels.ts'
import { CHAIN, EDGE, FINE, HIDDEN, OUTLINE, SMALL } from '../../paper/pen.ts'
import { onPaper, type Placing } from '../../paper/scale.ts'
import { scaleBar } from '../../paper/scaleBar.ts'
import { lengthText } from '../../sheet/figures.ts'
import { HEADING } from '../../views/head.ts'
import { rectangle } from '../../views/shaft.ts'
import type { Pictured } from '../layout.ts'
import { siteHead } from '../siteHead.ts'
import { type SiteSubject, scaleWords, underHead } from '../subject.ts'
import { CHARTS, type Charted, drawnLoad } from './charts.ts'

/** Beyond the wall and the load, over the ground and under the base, m. */
const WALL = 1.2
const BEYOND = 2
const OVER = 4
const UNDER = 1
const THICK = 1
/** Under the section: the pressure scale and the scale bar, mm. */
const FOOT = 19
const AXIS_WORDS = 12
/** The longest curve takes this much of the width from the wall to the end. */
const LONGEST = 0.7

const LOOK: Readonly<Record<(typeof CHARTS)[number], Stroke>> = { line: OUTLINE, point: HIDDEN, strip: CHAIN }
const WORDS: Readonly<Record<(typeof CHARTS)[number], string>> = {
  line: 'line load',
  point: 'point load',
  strip: 'strip, elastic × 2',
}

/** Wall, ground and the load at its distance, to scale; from the wall's back the pressure against depth by each chart. */
export function chartsPictured(subject: SiteSubject): Pictured {
  const drawn = drawnLoad(subject) as Charted
  const { middle, across, height } = drawn.beside
  const wide = WALL + Math.max(middle + across / 2 + BEYOND, height * 0.6)
  return {
    need: { wide, high: height + OVER + UNDER, padWide: AXIS_WORDS + 2, padHigh: FOOT },
    views: (ratio, room) => [chartsView(subject, drawn, wide, ratio, room)],
  }
}

function chartsView(subject: SiteSubject, drawn: Charted, wide: number, ratio: number, room: PaperBox): View {
  const { beside } = drawn
  // x from the back of the wall, z from the collar
  const placing: Placing = { scale: ratio, of: [-WALL, OVER], at: [room.left + AXIS_WORDS, room.top + HEADING] }
  const [right, bottom] = onPaper(placing, [wide - WALL, -beside.height - UNDER])
  const window = { left: room.left + AXIS_WORDS, right, top: room.top + HEADING, bottom }
  const title = 'A load of the step by the charts'
  const marks = [...groundMarks(drawn, placing, window), ...curves(subject, drawn, placing, window)]
  return {
    kind: 'view',
    id: 'site-charts',
    title: `${title}, ${scaleWords(subject, placing)}`,
    scale: ratio,
    marks: [
      ...siteHead(subject, '1', title, underHead(subject, placing, beside.load.what, subject.words), room),
      ...marks,
      ...distances(subject, drawn, placing),
      ...labelMarks(labelsOf(subject, drawn, placing, window), textsOf(marks).map(textBox), window),
      scaleBar(placing, [window.left + 3, bottom + FOOT - 3], 45, subject.units),
    ],
  }
}

function groundMarks({ beside }: Charted, placing: Placing, window: PaperBox): Mark[] {
  const { middle, across, height, level, load } = beside
  const side = rectangle(placing, middle - across / 2, middle + across / 2, -level, -level + THICK)
  const [x] = onPaper(placing, [0, 0])
  const [, surface] = onPaper(placing, [0, 0])
  return [
    box({ left: x, right: window.right, top: surface, bottom: window.bottom }, { fill: 'ground', stroke: FINE }),
    standFor('/shaft/wall', 'the wall', [
      box(rectangle(placing, -WALL, 0, -height, 0), { fill: 'concrete', stroke: FINE }),
    ]),
    standFor(load.pointer, load.what, [box(side, { fill: 'steel', stroke: EDGE })]),
    box(window, { stroke: FINE }),
  ]
}

/** Pressure outwards from the back of the wall, its scale under the section. */
function curves({ units }: SiteSubject, drawn: Charted, placing: Placing, window: PaperBox): Mark[] {
  const { beside, down, most } = drawn
  const largest = Math.max(...CHARTS.map((c) => most[c]?.pressure ?? 0))
  const scale = shownScale(largest, 'Pa', units)
  const { ticks, decimals } = ticksTo(largest / scale.factor)
  const [zero] = onPaper(placing, [0, 0])
  const x = (pressure: number): number => zero + (pressure / largest) * LONGEST * (window.right - zero)
  const point = (at: ChartsAt, pressure: number): PaperPoint => [
    x(pressure),
    onPaper(placing, [0, -beside.level - at.depth])[1],
  ]
  return [
    ...CHARTS.flatMap((chart): Mark[] => {
      const points = down.flatMap((at) => (at[chart] === undefined ? [] : [point(at, at[chart])]))
      return points.length < 2 ? [] : [line(points, LOOK[chart])]
    }),
    ...ticks.map((v) => line([[x(v * scale.factor), window.bottom], [x(v * scale.factor), window.bottom + 1.4]], FINE)), // biome-ignore format: two ends
    ...ticks.map((v) =>
      text([x(v * scale.factor), window.bottom + 4.4], showNumber(v, decimals), {
        size: SMALL,
        anchor: 'middle',
        tabular: true,
      }),
    ),
    text([window.right, window.bottom + 7.6], `sideways on the wall, ${scale.label}`, {
      size: SMALL,
      anchor: 'end',
      ink: 'quiet',
    }),
  ]
}

/** Four to eight round figures from nothing to the most. */
function ticksTo(most: number): { ticks: number[]; decimals: number } {
  const power = 10 ** Math.floor(Math.log10(most / 4))
  const step = ([5, 2, 1].find((k) => k * power <= most / 4) ?? 1) * power
  const ticks = Array.from({ length: Math.floor(most / step) + 1 }, (_, i) => i * step)
  return { ticks, decimals: Math.max(0, -Math.floor(Math.log10(step))) }
}

function distances({ units }: SiteSubject, { beside }: Charted, placing: Placing): Mark[] {
  const { middle, height } = beside
  return [
    dimension({
      name: 'middle of the load from the wall',
      value: middle,
      words: `${lengthText(middle, units)}, m ${showNumber(middle / height, 2)}`,
      placing,
      from: [0, THICK + 1],
      along: 'across',
      offset: 0,
      backed: 'paper',
    }),
  ]
}

function labelsOf(
  { units }: SiteSubject,
  { beside, down, most }: Charted,
  placing: Placing,
  window: PaperBox,
): Label[] {
  const largest = Math.max(...CHARTS.map((c) => most[c]?.pressure ?? 0))
  const [zero] = onPaper(placing, [0, 0])
  return CHARTS.flatMap((chart): Label[] => {
    const peak = most[chart]
    if (peak === undefined || down.length === 0) return []
    const [, y] = onPaper(placing, [0, -beside.level - peak.depth])
    return [
      {
        lines: [
          `${WORDS[chart]}: ${showQuantity(peak.pressure, 'Pa', units)}`,
          `at ${lengthText(beside.level + peak.depth, units)}`,
        ],
        at: [zero + (peak.pressure / largest) * LONGEST * (window.right - zero), y],
        towards: chart === 'strip' ? 60 : chart === 'line' ? -60 : -90,
        from: chart === 'strip' ? 5 : 1.5,
        size: SMALL,
        backed: 'ground',
      },
    ]
  })
}
