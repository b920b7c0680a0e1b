import type { Check } from '../../../working/check.ts'
import { showNumber, shownScale, showQuantity } from '../../../working/quantity.ts'
import type { SiUnit } from '../../../working/unit.ts'
import {
  box,
  line,
  type Mark,
  type PaperBox,
  type PaperPoint,
  type Stroke,
  standFor,
  text,
  type View,
} from '../../drawing.ts'
import { cogMark, dimension } from '../../paper/dimension.ts'
import { ATTENTION, CHAIN, EDGE, FINE, GRID, HIDDEN, OUTLINE, SMALL, THIN } from '../../paper/pen.ts'
import { onPaper, type Placing } from '../../paper/scale.ts'
import { scaleBar } from '../../paper/scaleBar.ts'
import { lengthText } from '../../sheet/figures.ts'
import { HEADING } from '../../views/head.ts'
import { rectangle, wallRadius } from '../../views/shaft.ts'
import type { Pictured } from '../layout.ts'
import { cradleAlong } from '../sectionShaft.ts'
import { siteHead } from '../siteHead.ts'
import { type SiteSubject, scaleWords, underHead } from '../subject.ts'
import { type PressedBed, type SlidePlace, shownPlaces, type WayIn, wayIn } from './slide.ts'
import { useBars, useBarsHeight, worstOf } from './useBars.ts'

const UNDER = 3.5
const OVER = 1
/** Panels under the section, each with its heading, mm. */
const PANEL = 34
const PANEL_HEAD = 9
const PANEL_FOOT = 6
const AXIS_WORDS = 13
const FOOT = 9

interface Frame {
  left: number
  right: number
  bottom: number
  top: number
}

function frameOfSlide({ stages }: SiteSubject, { is, numbers }: WayIn): Frame {
  const { shaft, machine } = is
  const [axis, r] = [machine.pose.origin[2]?.value as number, shieldRadius(is)]
  const inner = (shaft.clearDiameter.value as number) / 2
  const behind = Math.max(0, numbers.edge - (numbers.from - (numbers.to - numbers.from)))
  return {
    left: -Math.max(inner, wallRadius(shaft)) - Math.max(2, behind - (wallRadius(shaft) - inner)) - 0.5,
    right: wallRadius(shaft) + 1,
    bottom: (stages.model.project.shaft?.slabTop.value as number) - UNDER,
    top: axis + r + OVER,
  }
}

const shieldRadius = ({ machine }: WayIn['is']): number => (machine.shieldDiameter?.value ?? 0) / 2

/** The machine half way on to its cradle, to scale; under it the pressures along the bed and the thrust, place by place. */
export function slidePictured(subject: SiteSubject): Pictured {
  const way = wayIn(subject) as WayIn
  const frame = frameOfSlide(subject, way)
  return {
    need: {
      wide: frame.right - frame.left,
      high: frame.top - frame.bottom,
      padWide: AXIS_WORDS + 2,
      padHigh: 2 * PANEL + FOOT + useBarsHeight(atTheEye(subject)),
    },
    views: (ratio, room) => [slideView(subject, way, frame, ratio, room)],
  }
}

function slideView(subject: SiteSubject, way: WayIn, frame: Frame, ratio: number, room: PaperBox): View {
  const placing: Placing = {
    scale: ratio,
    of: [frame.left, frame.top],
    at: [room.left + AXIS_WORDS, room.top + HEADING],
  }
  const [right, bottom] = onPaper(placing, [frame.right, frame.bottom])
  const window = { left: room.left + AXIS_WORDS, right, top: room.top + HEADING, bottom }
  const panelAt = (i: number): PaperBox => ({
    left: window.left,
    right: window.right,
    top: window.bottom + i * PANEL + PANEL_HEAD,
    bottom: window.bottom + (i + 1) * PANEL - PANEL_FOOT,
  })
  const title = 'The machine on its way in'
  const at = way.worst
  return {
    kind: 'view',
    id: 'site-slide',
    title: `${title}, ${scaleWords(subject, placing)}`,
    scale: ratio,
    marks: [
      ...siteHead(
        subject,
        '1',
        title,
        underHead(
          subject,
          placing,
          at === undefined
            ? 'no place bears'
            : `${at.what ?? `${lengthText(at.short, subject.units)} short of its place`}: the bed is pressed most`,
        ),
        room,
      ),
      ...sectionMarks(subject, way, placing, window),
      ...pressureMarks(subject, way, placing, panelAt(0)),
      ...thrustMarks(subject, way, placing, panelAt(1)),
      scaleBar(placing, [window.left + 3, window.bottom + 2 * PANEL + FOOT - 5], 45, subject.units),
      ...useBars(subject, 'At the eye, as the head breaks the wall', atTheEye(subject), {
        ...window,
        top: window.bottom + 2 * PANEL + FOOT,
        bottom: room.bottom,
      }),
    ],
  }
}

const atTheEye = ({ stages }: SiteSubject): Check[] =>
  worstOf(stages.ground.checks, /^ground\.drive-in\.(push|wall|torque|held|roll)$/)

const clipped = (b: PaperBox, w: PaperBox): PaperBox => ({
  left: Math.min(Math.max(b.left, w.left), w.right),
  right: Math.min(Math.max(b.right, w.left), w.right),
  top: Math.min(Math.max(b.top, w.top), w.bottom),
  bottom: Math.min(Math.max(b.bottom, w.top), w.bottom),
})

function sectionMarks(subject: SiteSubject, way: WayIn, placing: Placing, window: PaperBox): Mark[] {
  const { is, numbers, worst } = way
  const { shaft, machine } = is
  const [inner, outer] = [(shaft.clearDiameter.value as number) / 2, wallRadius(shaft)]
  const axis = machine.pose.origin[2]?.value as number
  const r = shieldRadius(is)
  const slab = shaft.slabTop.value as number
  const cut = (l: number, rt: number, b: number, t: number, fill: 'concrete' | 'ground' | 'paper'): Mark =>
    box(clipped(rectangle(placing, l, rt, b, t), window), { fill, stroke: FINE })
  const shield = (short: number, stroke: Stroke, fill?: 'pale'): Mark =>
    box(clipped(rectangle(placing, numbers.from - short, numbers.to - short, axis - r, axis + r), window), {
      stroke,
      ...(fill === undefined ? {} : { fill }),
    })
  return [
    cut(-1000, -outer, slab - 1000, 1000, 'ground'),
    cut(outer, 1000, slab - 1000, 1000, 'ground'),
    cut(-outer, outer, slab - 1000, slab - (shaft.slabThickness.value as number), 'ground'),
    cut(-1000, -inner, axis - r, axis + r, 'paper'),
    ...[-1, 1].map((s) =>
      cut(
        Math.min(s * inner, s * outer),
        Math.max(s * inner, s * outer),
        slab - 1000,
        s < 0 ? axis - r : 1000,
        'concrete',
      ),
    ),
    cut(-outer, -inner, axis + r, 1000, 'concrete'),
    cut(-inner, inner, slab - (shaft.slabThickness.value as number), slab, 'concrete'),
    ...cradleAlong(subject, placing),
    ...(worst === undefined
      ? []
      : [standFor('/machine', 'the shield where the bed is pressed most', [shield(worst.short, OUTLINE, 'pale')])]),
    shield(0, HIDDEN),
    ...(worst === undefined ? [] : cogMark(onPaper(placing, [numbers.x - worst.short, axis]))),
    ...slideDimensions(subject, way, placing, axis - r),
    box(window, { stroke: FINE }),
  ]
}

/** The gap before the cradle, what of the shield is on it, and what is left to go. */
function slideDimensions({ units }: SiteSubject, { numbers, worst }: WayIn, placing: Placing, invert: number): Mark[] {
  const measured = (name: string, from: number, value: number, up: number): Mark[] =>
    value <= 0.01
      ? []
      : [
          dimension({
            name,
            value,
            words: `${name} ${lengthText(value, units)}`,
            placing,
            from: [from, invert + up],
            along: 'across',
            offset: 0,
            backed: 'paper',
          }),
        ]
  const at = worst?.short ?? 0
  return [
    ...measured('gap', numbers.edge, numbers.from - numbers.edge, 1.2),
    ...(worst === undefined ? [] : measured('on the cradle', numbers.from, worst.contact, 3.2)),
    ...measured('to go', numbers.to - at, at, 5.2),
    ...measured('centre of gravity to the front', numbers.x - at, numbers.to - numbers.x, 8),
  ]
}

interface Scaled {
  y: (value: number) => number
  label: string
  shown: (value: number) => string
}

/** A scale up a panel, a little over the most. */
function scaledTo(most: number, unit: SiUnit, units: SiteSubject['units'], panel: PaperBox): Scaled {
  const scale = shownScale(most, unit, units)
  const perUnit = (panel.bottom - panel.top) / (most === 0 ? 1 : most * 1.08)
  return {
    y: (value) => panel.bottom - value * perUnit,
    label: scale.label,
    shown: (value) => showNumber(value / scale.factor, scale.decimals),
  }
}

function panelFrame(title: string, under: string, most: number, scaled: Scaled, panel: PaperBox): Mark[] {
  const y = scaled.y(most)
  return [
    text([panel.left, panel.top - 5], title, { size: SMALL + 0.3, weight: 700 }),
    text([panel.left, panel.top - 1.6], under, { size: SMALL, ink: 'quiet' }),
    line([[panel.left, panel.bottom], [panel.right, panel.bottom]], THIN), // biome-ignore format: two ends
    line([[panel.left, panel.top], [panel.left, panel.bottom]], FINE), // biome-ignore format: two ends
    line([[panel.left, y], [panel.right, y]], GRID), // biome-ignore format: two ends
    text([panel.left - 0.8, y + SMALL * 0.36], scaled.shown(most), { size: SMALL, anchor: 'end', tabular: true }),
    text([panel.left - 0.8, panel.bottom + SMALL * 0.2], scaled.label, { size: SMALL, anchor: 'end', ink: 'quiet' }),
  ]
}

const limitLine = (panel: PaperBox, y: number): Mark => line([[panel.left, y], [panel.right, y]], ATTENTION) // biome-ignore format: two ends

/** A limit is drawn where it does not flatten what is held against it. */
const near = (limit: number | undefined, most: number): limit is number => limit !== undefined && limit < 2 * most

function pressureMarks({ units }: SiteSubject, way: WayIn, placing: Placing, panel: PaperBox): Mark[] {
  const title = 'Pressure at the bottom of the bed, load factor in'
  const most = Math.max(0, ...way.places.map((p) => p.pressure ?? 0))
  if (most === 0) return [text([panel.left, panel.top - 5], `${title}: open`, { size: SMALL + 0.3, weight: 700 })]
  const limit = way.strength
  const drawn = near(limit, most)
  const top = drawn ? Math.max(most, limit) : most
  const scaled = scaledTo(top, 'Pa', units, panel)
  const said =
    limit === undefined
      ? 'strength of the bed open'
      : `the bed bears ${showQuantity(limit, 'Pa', units)}${drawn ? ', the line' : ''}`
  return [
    ...panelFrame(title, `thick: where it is most; thin: on the way; ${said}`, most, scaled, panel),
    ...(drawn ? [limitLine(panel, scaled.y(limit))] : []),
    ...shownPlaces(way).flatMap((p) => bedLines(p, way, placing, panel, scaled)),
  ]
}

/** Points along a stretch of the bed: a line that is cut off where it leaves its panel. */
const ALONG = 60

/** The bed under one place: on the cradle full, behind the wall dashed; at the first touch upright at the start of the cradle. */
function bedLines(place: SlidePlace, { numbers }: WayIn, placing: Placing, panel: PaperBox, scaled: Scaled): Mark[] {
  const full = place.worst ? EDGE : { ...FINE, ink: 'quiet' as const }
  const touch = (): Mark => {
    const [x] = onPaper(placing, [numbers.from, 0])
    return line([[x, panel.bottom], [x, Math.max(panel.top, scaled.y(place.pressure ?? 0))]], full) // biome-ignore format: two ends
  }
  const run = (stretches: readonly PressedBed[], stroke: Stroke): Mark[] =>
    stretches.flatMap(({ from, to, atFrom, atTo }) => {
      const points = Array.from({ length: ALONG + 1 }, (_, i): PaperPoint => {
        const along = i / ALONG
        const pressure = atFrom + (atTo - atFrom) * along
        return [onPaper(placing, [from + (to - from) * along, 0])[0], Math.max(panel.top, scaled.y(pressure))]
      }).filter(([x]) => x >= panel.left && x <= panel.right)
      return points.length < 2 ? [] : [line(points, stroke)]
    })
  return [
    ...(place.contact === 0 ? [touch()] : run(place.on, full)),
    ...run(place.behind, place.worst ? CHAIN : { ...GRID, dash: [1.2, 0.8] }),
  ]
}

/** Thrust and what the cradle carries, over where the front of the shield is. */
function thrustMarks({ units }: SiteSubject, way: WayIn, placing: Placing, panel: PaperBox): Mark[] {
  const title = 'Thrust on the way, over the front of the shield'
  const known = way.places.filter((p) => p.thrust !== undefined)
  if (known.length === 0)
    return [text([panel.left, panel.top - 5], `${title}: open`, { size: SMALL + 0.3, weight: 700 })]
  const { has, bound } = way.thrust
  const most = Math.max(...known.map((p) => p.thrust as number), bound ?? 0)
  const drawn = near(has, most)
  const scaled = scaledTo(drawn ? Math.max(most, has) : most, 'N', units, panel)
  const front = (p: SlidePlace): number => onPaper(placing, [way.numbers.to - p.short, 0])[0]
  return [
    ...panelFrame(
      title,
      `dashed: the check's bound; ${has === undefined ? 'thrust of the drive-in open' : `the drive-in has ${showQuantity(has, 'N', units)}${drawn ? ', the line' : ''}`}`,
      most,
      scaled,
      panel,
    ),
    ...(drawn ? [limitLine(panel, scaled.y(has))] : []),
    ...(bound === undefined ? [] : [line([[panel.left, scaled.y(bound)], [panel.right, scaled.y(bound)]], HIDDEN)]), // biome-ignore format: two ends
    line(known.map((p): PaperPoint => [front(p), scaled.y(p.thrust as number)]), EDGE), // biome-ignore format: one line
  ]
}
