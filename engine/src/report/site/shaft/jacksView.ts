import type { Machine, Shaft } from '../../../model/index.ts'
import type { Check } from '../../../working/check.ts'
import { showNumber, shownScale, showQuantity } from '../../../working/quantity.ts'
import { box, line, type Mark, type PaperBox, type PaperPoint, standFor, text, type View } from '../../drawing.ts'
import type { Point2 } from '../../outline/convex.ts'
import { arrow } from '../../paper/dimension.ts'
import { ATTENTION, AXIS, EDGE, FINE, GRID, HIDDEN, SMALL, THIN } from '../../paper/pen.ts'
import { runningDimensions, type Stop } from '../../paper/ruler.ts'
import { loopOnPaper, onPaper, type Placing } from '../../paper/scale.ts'
import { scaleBar } from '../../paper/scaleBar.ts'
import { lengthText } from '../../sheet/figures.ts'
import { HEADING } from '../../views/head.ts'
import { rectangle } from '../../views/shaft.ts'
import type { Pictured } from '../layout.ts'
import { cradleAcross, cradleAlong } from '../sectionShaft.ts'
import { siteHead } from '../siteHead.ts'
import { type SiteSubject, scaleWords, underHead } from '../subject.ts'
import { type Jack, type JackedShield, jackedShield } from './jacks.ts'
import { useBars, useBarsHeight, worstOf } from './useBars.ts'

/** Between the two sections, and under them, mm. */
const GAP = 8
const RULER = 17
const BARS_HEAD = 10
const BAR = 5
const FOOT = 8
/** Between the scale bar and the bars of the concrete, mm. */
const UNDER_BAR = 4

interface Frames {
  along: readonly [number, number]
  half: number
  bottom: number
  top: number
}

function framesOf({ stages }: SiteSubject, { jacks }: JackedShield): Frames {
  const { cradle, shaft, machine } = stages.model.project as {
    shaft: Shaft
    machine: Machine
  } & typeof stages.model.project
  const xs = [...(cradle?.along ?? []).map((a) => a.value as number), ...jacks.map((j) => j.at[0])]
  const axis = machine.pose.origin[2]?.value as number
  const r = (machine.shieldDiameter?.value ?? 0) / 2
  return {
    along: [Math.min(...xs) - 1, Math.max(...xs) + 1],
    half: Math.max(r, ...jacks.map((j) => Math.abs(j.at[1]))) + 1,
    bottom: (shaft.slabTop.value as number) - (shaft.slabThickness.value as number),
    top: axis + 1,
  }
}

/** The raised shield along and across the drive with every jack in its place, and the force of each against what it may carry. */
export function jacksPictured(subject: SiteSubject): Pictured {
  const shield = jackedShield(subject) as JackedShield
  const frames = framesOf(subject, shield)
  const [from, to] = frames.along
  return {
    need: {
      wide: to - from + 2 * frames.half,
      high: frames.top - frames.bottom,
      padWide: GAP + 2,
      padHigh: RULER + BARS_HEAD + shield.jacks.length * BAR + FOOT + UNDER_BAR + useBarsHeight(concreteUnder(subject)),
    },
    views: (ratio, room) => [jacksView(subject, shield, frames, ratio, room)],
  }
}

function jacksView(subject: SiteSubject, shield: JackedShield, frames: Frames, ratio: number, room: PaperBox): View {
  const top = room.top + HEADING
  const along: Placing = { scale: ratio, of: [frames.along[0], frames.top], at: [room.left + 0.5, top] }
  const [end, foot] = onPaper(along, [frames.along[1], frames.bottom])
  const across: Placing = { scale: ratio, of: [-frames.half, frames.top], at: [end + GAP, top] }
  const [right] = onPaper(across, [frames.half, 0])
  const window = (left: number, to: number): PaperBox => ({ left, right: to, top, bottom: foot })
  const bars = { left: room.left + 9, right: room.right - 24, top: foot + RULER + BARS_HEAD, bottom: room.bottom }
  const title = 'Jacks under the shield'
  return {
    kind: 'view',
    id: 'site-jacks',
    title: `${title}, ${scaleWords(subject, along)}`,
    scale: ratio,
    marks: [
      ...siteHead(
        subject,
        '1',
        title,
        underHead(subject, along, 'along the drive, and across it looking forward'),
        room,
      ),
      ...sectionAlong(subject, shield, along, window(room.left + 0.5, end)),
      ...sectionAcross(subject, shield, across, window(end + GAP, right)),
      ...rulerOf(subject, shield.jacks, along, 0, foot),
      ...rulerOf(subject, shield.jacks, across, 1, foot),
      ...barMarks(subject, shield, bars),
      scaleBar(along, [room.left + 4, bars.top + shield.jacks.length * BAR + FOOT - 1], 40, subject.units),
      ...useBars(subject, 'Concrete under the plates', concreteUnder(subject), {
        left: room.left + 1,
        right: room.right - 1,
        top: bars.top + shield.jacks.length * BAR + FOOT + UNDER_BAR,
        bottom: room.bottom,
      }),
    ],
  }
}

const concreteUnder = ({ stages }: SiteSubject): Check[] =>
  worstOf(stages.ground.checks, /^ground\.jack\.(bearing|bursting)$/)

/** Shield, its axis, and the level of the underside at a place across. */
function shieldOf({ stages }: SiteSubject) {
  const { machine } = stages.model.project
  const [, y = 0, axis = 0] = (machine?.pose.origin ?? []).map((v) => v.value as number)
  const r = (machine?.shieldDiameter?.value ?? 0) / 2
  return { y, axis, r, underAt: (at: number): number => axis - Math.sqrt(Math.max(0, r * r - (at - y) ** 2)) }
}

function slabMarks({ stages }: SiteSubject, placing: Placing, from: number, to: number): Mark {
  const shaft = stages.model.project.shaft as Shaft
  const slab = shaft.slabTop.value as number
  return box(rectangle(placing, from, to, slab - (shaft.slabThickness.value as number), slab), {
    fill: 'concrete',
    stroke: FINE,
  })
}

function sectionAlong(subject: SiteSubject, { jacks }: JackedShield, placing: Placing, window: PaperBox): Mark[] {
  const { axis, r, underAt } = shieldOf(subject)
  const [from, to] = (subject.stages.model.project.cradle?.along ?? []).map((a) => a.value as number)
  const slab = subject.stages.model.project.shaft?.slabTop.value as number
  const ends = [from ?? 0, to ?? 0] as const
  const shell = rectangle(placing, ends[0], ends[1], axis - r, axis + r)
  const [, y] = onPaper(placing, [0, axis])
  return [
    slabMarks(subject, placing, ...edges(placing, window)),
    ...cradleAlong(subject, placing),
    box({ ...shell, top: Math.max(shell.top, window.top) }, { stroke: EDGE }),
    line([[window.left, y], [window.right, y]], AXIS), // biome-ignore format: two ends
    ...jacks.map((j) => jackMark(j, placing, [j.at[0], slab], underAt(j.at[1]))),
    box(window, { stroke: FINE }),
  ]
}

const ARC = 48

function sectionAcross(subject: SiteSubject, { jacks }: JackedShield, placing: Placing, window: PaperBox): Mark[] {
  const { y, axis, r, underAt } = shieldOf(subject)
  const slab = subject.stages.model.project.shaft?.slabTop.value as number
  // looking forward y lies to the left; the lower half of the shell, and a little over its axis
  const lower = Array.from({ length: ARC + 1 }, (_, k): Point2 => {
    const angle = Math.PI + (Math.PI * k) / ARC
    return [-y + r * Math.cos(angle), axis + r * Math.sin(angle)]
  })
  const [x] = onPaper(placing, [-y, 0])
  return [
    slabMarks(subject, placing, ...edges(placing, window)),
    ...cradleAcross(subject, placing),
    line(loopOnPaper(placing, lower), EDGE),
    line([[x, window.top], [x, window.bottom]], AXIS), // biome-ignore format: two ends
    ...jacks.map((j) => jackMark(j, placing, [-j.at[1], slab], underAt(j.at[1]))),
    box(window, { stroke: FINE }),
  ]
}

/** Ends of a window in the view, m. */
function edges({ scale, of, at }: Placing, { left, right }: PaperBox): [number, number] {
  const worldAt = (x: number): number => of[0] + ((x - at[0]) * scale) / 1000
  return [worldAt(left), worldAt(right)]
}

/** A jack from the slab to the shell, pressing up. */
function jackMark({ id, pointer }: Jack, placing: Placing, foot: Point2, under: number): Mark {
  const [low, high] = [onPaper(placing, foot), onPaper(placing, [foot[0], under])]
  const half = 0.8
  return standFor(pointer, `jack ${id}`, [
    box(
      { left: low[0] - half, right: low[0] + half, top: Math.min(high[1] + 2, low[1] - 0.5), bottom: low[1] },
      { fill: 'paper', stroke: THIN },
    ),
    line([low, high], EDGE),
    arrow(high, [0, 1], EDGE),
  ])
}

/** Places of the jacks under a section; several at one place are named together. */
function rulerOf({ units }: SiteSubject, jacks: readonly Jack[], placing: Placing, axis: 0 | 1, foot: number): Mark[] {
  const places = new Map<number, string[]>()
  for (const j of jacks) places.set(j.at[axis], [...(places.get(j.at[axis]) ?? []), j.id])
  const stops = [...places].map(
    ([value, ids]): Stop => ({
      value: axis === 0 ? value : -value,
      words: lengthText(value, units),
      name: `jacks ${ids.join(', ')}`,
    }),
  )
  return runningDimensions({ stops, placing, along: 'across', at: foot + 5, from: foot })
}

/** Force of each against what a jack is rated for and what the shell bears. */
function barMarks({ units }: SiteSubject, { jacks, rated, shell }: JackedShield, at: PaperBox): Mark[] {
  const most = Math.max(...jacks.map((j) => j.worst ?? j.most ?? 0), rated ?? 0, shell ?? 0)
  const scale = shownScale(most, 'N', units)
  const x = (value: number): number => at.left + (value / most) * (at.right - at.left)
  const bottom = at.top + jacks.length * BAR
  const limit = (value: number | undefined, dashed: boolean): Mark[] =>
    value === undefined
      ? []
      : [line([[x(value), at.top - 0.6], [x(value), bottom]], dashed ? HIDDEN : ATTENTION)] // biome-ignore format: two ends
  const said = (name: string, value: number | undefined, look: string): string =>
    value === undefined ? `${name} open` : `${name} ${showQuantity(value, 'N', units)}, ${look}`
  return [
    text([at.left - 8, at.top - 5.4], `Force of each jack, ${scale.label}`, { size: SMALL + 0.3, weight: 700 }),
    text(
      [at.left - 8, at.top - 2],
      `${said('rated', rated, 'the line')}; ${said('the shell bears', shell, 'dashed')}`,
      { size: SMALL, ink: 'quiet' },
    ),
    line([[at.left, at.top], [at.left, bottom]], FINE), // biome-ignore format: two ends
    ...jacks.flatMap((j, i) =>
      jackBar(j, {
        x,
        rated,
        top: at.top + i * BAR,
        left: at.left,
        right: at.right,
        shown: (v) => showNumber(v / scale.factor, scale.decimals),
      }),
    ),
    ...limit(rated, false),
    ...limit(shell, true),
  ]
}

interface BarRow {
  x: (value: number) => number
  rated: number | undefined
  top: number
  left: number
  right: number
  shown: (value: number) => string
}

function jackBar(j: Jack, { x, rated, top, left, right, shown }: BarRow): Mark[] {
  const baseline = top + BAR / 2 + SMALL * 0.36
  const name = text([left - 8, baseline], j.id, { size: SMALL, weight: 700 })
  if (j.most === undefined || j.least === undefined)
    return [name, text([left + 1, baseline], 'open', { size: SMALL, ink: 'quiet' })]
  const [high, low] = [top + 0.9, top + BAR - 0.9]
  const worst = j.worst ?? j.most
  const isOver = rated !== undefined && worst > rated
  const least = x(Math.max(0, j.least))
  const grid: PaperPoint[] = [
    [left, top + BAR],
    [right, top + BAR],
  ]
  return [
    name,
    standFor(j.pointer, `jack ${j.id}, at most ${shown(worst)}`, [
      box(
        { left: x(j.most), right: x(worst), top: high, bottom: low },
        { fill: 'pale', stroke: isOver ? ATTENTION : FINE },
      ),
      box({ left, right: x(j.most), top: high, bottom: low }, { fill: 'steel', stroke: FINE }),
      line([[least, high], [least, low]], EDGE), // biome-ignore format: two ends
    ]),
    text([right + 1.4, baseline], `${shown(j.most)} to ${shown(worst)}`, {
      size: SMALL,
      tabular: true,
      ...(isOver ? { ink: 'fail' as const, weight: 700 as const } : {}),
    }),
    line(grid, GRID),
  ]
}
