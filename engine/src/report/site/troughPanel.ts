import type { Ground } from '../../model/index.ts'
import { pointerOf } from '../../working/pointer.ts'
import { showNumber, shownScale, showQuantity } from '../../working/quantity.ts'
import {
  box,
  boxesMeet,
  line,
  type Mark,
  type PaperBox,
  type PaperPoint,
  standFor,
  text,
  textBox,
  textsOf,
  type View,
  widerBox,
} from '../drawing.ts'
import type { Point2 } from '../outline/convex.ts'
import { type Label, labelMarks } from '../paper/labels.ts'
import { AXIS, EDGE, FINE, GRID, HIDDEN, OUTLINE, SMALL, THIN } from '../paper/pen.ts'
import { runningDimensions, type Stop } from '../paper/ruler.ts'
import { onPaper, type Placing } from '../paper/scale.ts'
import { lengthText } from '../sheet/figures.ts'
import { viewHead } from '../views/head.ts'
import { concrete, wallRadius } from '../views/shaft.ts'
import { planOf } from './planFrame.ts'
import type { SiteSubject } from './subject.ts'
import {
  alongLine,
  MOMENTS,
  type OnLine,
  onLine,
  openingOn,
  type Run,
  runsAlong,
  spanOn,
  type TroughLine,
} from './troughLines.ts'

/** Room beside the drawn line for its axis, and over and under the ground, mm. */
export const PANEL = { left: 15, right: 6, head: 20, depth: 26, foot: 22 }
export const PANEL_HEIGHT = PANEL.head + PANEL.depth + PANEL.foot
const RULER = 3

/** Room that a cell leaves under the ground. */
export const depthIn = (cell: PaperBox | undefined): number =>
  cell === undefined ? PANEL.depth : cell.bottom - cell.top - PANEL.head - PANEL.foot

/** A line over the site with the curves of both moments. */
export interface DrawnLine {
  line: TroughLine
  runs: readonly { when: (typeof MOMENTS)[number]; runs: readonly Run[] }[]
}

export const drawnLine = (subject: SiteSubject, ground: Ground, line: TroughLine): DrawnLine => ({
  line,
  runs: MOMENTS.map((when) => ({ when, runs: runsAlong(subject, ground, line, when) })),
})

/** Millimetres of paper to a millimetre of settlement. */
const ENLARGED = [50, 25, 20, 10, 5, 4, 2.5, 2, 1, 0.5, 0.25, 0.2, 0.1, 0.05]

/** The largest even enlargement at which the deepest curve has room: one for all lines of a sheet. */
export function enlargement(drawn: readonly DrawnLine[], depth: number): number {
  const deepest = Math.max(
    0,
    ...drawn.flatMap((d) => d.runs.flatMap((r) => r.runs.flatMap((run) => run.points.map(([, w]) => w)))),
  )
  return ENLARGED.find((k) => k * deepest * 1000 <= depth - 5) ?? (ENLARGED.at(-1) as number)
}

/** One line over the site: what stands on it, and how far the ground goes down under it. */
export function troughPanel(
  subject: SiteSubject,
  drawn: DrawnLine,
  ratio: number,
  enlarged: number,
  cell: PaperBox,
): View {
  const { line: section } = drawn
  const ground = cell.top + PANEL.head
  const placing: Placing = { scale: ratio, of: [section.from, 0], at: [cell.left + PANEL.left, ground] }
  const [right] = onPaper(placing, [section.to, 0])
  const field: PaperBox = { left: cell.left + PANEL.left, right, top: ground, bottom: ground + depthIn(cell) }
  const down = (w: number): number => ground + w * 1000 * enlarged
  const things = thingMarks(subject, drawn, placing, field)
  const marks: Mark[] = [
    ...axisMarks(subject, field, down),
    ...shaftMarks(subject, section, placing, field),
    ...things,
    ...crossingMarks(subject, section, placing, field, textsOf(things).map(textBox)),
    line([[field.left, ground], [field.right, ground]], THIN), // biome-ignore format: two ends
    ...drawn.runs.flatMap(({ when, runs }) => runs.flatMap((run) => runMarks(run, when, placing, down))),
  ]
  const ruler = runningDimensions({
    stops: stopsOf(subject, drawn),
    placing,
    along: 'across',
    at: field.bottom + RULER,
    from: field.bottom,
  })
  const words = whereWords(section, subject)
  return {
    kind: 'view',
    id: `site-trough-${section.letter}`,
    title: `Settlement along line ${section.letter}, ${words}`,
    scale: ratio,
    marks: [
      ...viewHead(section.letter, `Line ${section.letter}`, words, cell),
      ...marks,
      ...ruler,
      ...labelMarks(
        figures(subject, drawn, placing, down),
        [...marks, ...ruler].flatMap((m) => textsOf([m])).map(textBox),
        {
          ...field,
          top: ground + 0.4,
          bottom: field.bottom - 0.2,
        },
      ),
    ],
  }
}

function whereWords({ along, off, bays }: TroughLine, { units }: SiteSubject): string {
  const [axis, other] = along === 'x' ? ['x, along the drive', 'y'] : ['y, across the drive', 'x']
  const through = bays.length === 0 ? '' : `, through ${bays.join(', ')}`
  return `along ${axis}, at ${other} ${lengthText(off, units)}${through}`
}

const TICKS = 4

/** How far down, to an even number of the unit, with a line across at each. */
function axisMarks({ units }: SiteSubject, field: PaperBox, down: (w: number) => number): Mark[] {
  const most = (field.bottom - field.top) / ((down(1) - down(0)) / 1)
  const scale = shownScale(most, 'm', units)
  const step = evenStep(most / scale.factor / TICKS)
  const ticks = Array.from({ length: TICKS * 3 }, (_, i) => i * step).filter(
    (v) => down(v * scale.factor) < field.bottom,
  )
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9))
  return [
    text([field.left - 1.2, field.top - 2.2], scale.label, { size: SMALL, anchor: 'end', ink: 'quiet' }),
    ...ticks.flatMap((value): Mark[] => {
      const y = down(value * scale.factor)
      return [
        ...(value === 0 ? [] : [line([[field.left, y], [field.right, y]], GRID)]), // biome-ignore format: two ends
        text([field.left - 1.2, y + SMALL * 0.36], showNumber(value, decimals), {
          size: SMALL,
          anchor: 'end',
          tabular: true,
        }),
      ]
    }),
  ]
}

function evenStep(least: number): number {
  const power = 10 ** Math.floor(Math.log10(least))
  return ([1, 2, 5, 10].find((m) => m * power >= least) as number) * power
}

/** The wall, cut; between it is air. */
function shaftMarks({ stages }: SiteSubject, section: TroughLine, placing: Placing, field: PaperBox): Mark[] {
  const { shaft } = stages.model.project
  const [outer, inner] =
    shaft === undefined
      ? []
      : [wallRadius(shaft), (shaft.clearDiameter.value as number) / 2].map((r) => openingOn(section, r))
  if (outer === undefined) return []
  const x = (u: number): number => onPaper(placing, [u, 0])[0]
  const walls: Point2[] = inner === undefined ? [outer] : [[outer[0], inner[0]], [inner[1], outer[1]]] // biome-ignore format: both sides
  const room = { ...field, left: x(outer[0]), right: x(outer[1]) }
  return [
    standFor('/shaft', 'the shaft, cut', [
      box(room, { fill: 'paper' }),
      ...walls.flatMap(([a, b]) => concrete({ ...room, left: x(a), right: x(b) })),
    ]),
    line([[x(0), field.top - 4], [x(0), field.bottom]], AXIS), // biome-ignore format: two ends
  ]
}

const SLAB = 1.6
const LOAD = 2.6
const NAME = 0.7

/** Bays on the line, empty or not, and all that presses on it. */
function thingMarks(
  subject: SiteSubject,
  { line: section, runs }: DrawnLine,
  placing: Placing,
  { top }: PaperBox,
): Mark[] {
  const { bays, systems } = subject.stages.model.project
  const things = new Map(
    runs.flatMap((r) => r.runs.flatMap(({ under }) => (under === undefined ? [] : [[under.is.id, under] as const]))),
  )
  const empty = Object.entries(bays).flatMap(([id, bay]): Thing[] => {
    const span = things.has(id) ? undefined : spanOn(section, planOf(bay.centre), planOf(bay.size))
    return span === undefined ? [] : [{ id, pointer: pointerOf('bays', id), span, isBay: true, isLoaded: false }]
  })
  const loaded = [...things.values()].map(({ is, span }): Thing => {
    const isBay = is.id in bays
    return {
      id: isBay ? is.id : shortName(is.id, systems),
      pointer: isBay ? pointerOf('bays', is.id) : '/ground',
      span,
      isBay,
      isLoaded: true,
    }
  })
  const all = [...empty, ...loaded]
  return all.map(({ id, pointer, span: [a, b], isBay, isLoaded }, i) => {
    // feet of one crane lie close together: its name stands once
    const isFirst = all.findIndex((other) => other.id === id) === i
    const [left, right] = [onPaper(placing, [a, 0])[0], onPaper(placing, [b, 0])[0]]
    const foot = isBay ? top - SLAB : top
    return standFor(pointer, `${id}${isLoaded ? ', loaded' : ', empty'}`, [
      ...(isBay ? [box({ left, right, top: top - SLAB, bottom: top }, { fill: 'concrete', stroke: FINE })] : []),
      ...(isLoaded
        ? [
            box(
              { left: left + (isBay ? 0.6 : 0), right: right - (isBay ? 0.6 : 0), top: foot - LOAD, bottom: foot },
              { fill: 'steel', stroke: FINE },
            ),
          ]
        : []),
      ...(isFirst
        ? [
            text([(left + right) / 2, foot - (isLoaded ? LOAD : 0) - NAME], id, {
              size: SMALL,
              anchor: 'middle',
              weight: 700,
            }),
          ]
        : []),
    ])
  })
}

interface Thing {
  id: string
  pointer: string
  span: Point2
  isBay: boolean
  isLoaded: boolean
}

/** A leg by its own id, for the machine that it belongs to stands in the table; a foot of a crane by its crane. */
function shortName(id: string, systems: SiteSubject['stages']['model']['project']['systems']): string {
  const [machine = id, foot] = id.split('/')
  const system = systems[machine]
  return system === undefined || foot === undefined || foot in system.legs ? (id.split('/').at(-1) as string) : machine
}

const RING = 0.9
/** Between a name and the one under it that has its place, mm. */
const AIR = 0.8

/** Lines of neighbours that the section crosses, at the ground. */
function crossingMarks(
  { stages }: SiteSubject,
  section: TroughLine,
  placing: Placing,
  { top, left, right }: PaperBox,
  taken: readonly PaperBox[],
): Mark[] {
  return Object.entries(stages.model.project.utilities).flatMap(([id, utility]): Mark[] =>
    utility.settlement === undefined
      ? []
      : crossed((utility.line ?? []).map(planOf), section).flatMap((u): Mark[] => {
          const [x] = onPaper(placing, [u, 0])
          if (x < left || x > right) return []
          const words = text([x, top - RING - NAME], id, { size: SMALL, anchor: 'middle' })
          const meets = taken.filter((other) => boxesMeet(widerBox(other, AIR), textBox(words)))
          const above = Math.min(...meets.map((other) => other.top)) - AIR
          return [
            standFor(pointerOf('utilities', id), `${id}, ${utility.what}, crossed`, [
              { kind: 'circle', centre: [x, top], radius: RING, fill: 'paper', stroke: THIN },
              meets.length === 0 ? words : { ...words, at: [x, above] },
            ]),
          ]
        }),
  )
}

function crossed(points: readonly Point2[], section: TroughLine): number[] {
  const on = points.map((p) => alongLine(section, p))
  return on.slice(1).flatMap(([u2, v2], i) => {
    const [u1, v1] = on[i] as Point2
    return v1 > 0 === v2 > 0 ? [] : [u1 + ((u2 - u1) * v1) / (v1 - v2)]
  })
}

function runMarks({ under, points }: Run, when: string, placing: Placing, down: (w: number) => number): Mark[] {
  if (points.length < 2) return []
  const drawn = points.map(([u, w]): PaperPoint => [onPaper(placing, [u, 0])[0], down(w)])
  const isDown = when === 'set down'
  return [
    line(
      drawn,
      under === undefined ? (isDown ? EDGE : HIDDEN) : isDown ? { ...OUTLINE, width: 0.7 } : { ...HIDDEN, width: 0.5 },
    ),
  ]
}

/** Settlement under each thing, at the worse of the two moments. */
function figures({ units }: SiteSubject, { runs }: DrawnLine, placing: Placing, down: (w: number) => number): Label[] {
  const most = new Map<string, { under: OnLine; u: number; w: number }>()
  for (const run of runs.flatMap((r) => r.runs)) {
    const { under, points } = run
    const middle = points[Math.floor(points.length / 2)]
    if (under === undefined || middle === undefined) continue
    const known = most.get(under.is.id)
    if (known === undefined || middle[1] > known.w) most.set(under.is.id, { under, u: middle[0], w: middle[1] })
  }
  return [...most.values()].map(({ u, w }) => ({
    lines: [showQuantity(w, 'm', units)],
    at: [onPaper(placing, [u, 0])[0], down(w)],
    towards: -90,
    from: 0.8,
    size: SMALL,
    weight: 700,
    backed: true,
  }))
}

/** From the shaft's centre: edges of the shaft, middles of bays, feet. */
function stopsOf({ stages, units }: SiteSubject, { line: section, runs }: DrawnLine): Stop[] {
  const { shaft, bays, systems } = stages.model.project
  const hole = shaft === undefined ? undefined : openingOn(section, wallRadius(shaft))
  const stop = (value: number, id: string, name: string): Stop => ({
    value,
    words: `${id === '' ? '' : `${id} `}${lengthText(value, units)}`,
    name,
  })
  const onBays = Object.entries(bays).flatMap(([id, bay]): Stop[] => {
    const at = planOf(bay.centre)
    return spanOn(section, at, planOf(bay.size)) === undefined
      ? []
      : [stop(alongLine(section, at)[0], id, `middle of ${id}`)]
  })
  const others = new Map(
    runs.flatMap((r) =>
      r.runs.flatMap(({ under }) => {
        if (under === undefined || under.is.id in bays) return []
        const u = alongLine(section, under.is.at)[0]
        return [[under.is.id, stop(u, shortName(under.is.id, systems), under.is.what)] as const]
      }),
    ),
  )
  return [...(hole ?? []).map((u) => stop(u, '', 'edge of the shaft')), ...onBays, ...others.values()]
}

/** Where a line lies on the site, for a key plan. */
export const endsOnSite = (section: TroughLine): readonly [Point2, Point2] => [
  onLine(section, section.from),
  onLine(section, section.to),
]
