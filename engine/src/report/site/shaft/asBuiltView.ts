import type { SurveyedElement } from '../../../ground/index.ts'
import type { Check } from '../../../working/check.ts'
import { showNumber } from '../../../working/quantity.ts'
import {
  box,
  line,
  type Mark,
  type PaperBox,
  type PaperPoint,
  type Shape,
  standFor,
  text,
  textBox,
  textsOf,
  type View,
} from '../../drawing.ts'
import type { Point2 } from '../../outline/convex.ts'
import { dimension } from '../../paper/dimension.ts'
import { type Label, labelMarks } from '../../paper/labels.ts'
import { ATTENTION, AXIS, EDGE, FINE, GRID, HIDDEN, OUTLINE, SMALL, THIN } from '../../paper/pen.ts'
import { lengthOnPaper, loopOnPaper, onPaper, type Placing } from '../../paper/scale.ts'
import { scaleBar } from '../../paper/scaleBar.ts'
import { lengthText, levelText, OPEN } from '../../sheet/figures.ts'
import { HEADING } from '../../views/head.ts'
import type { Pictured } from '../layout.ts'
import { siteHead } from '../siteHead.ts'
import { type SiteSubject, scaleWords, underHead } from '../subject.ts'
import { type AsBuiltWall, asBuiltWall, ELEMENT, shortLength, surveyedWords } from './asBuilt.ts'

const AROUND = 1.2
/** Under the plan: scale bar, and where there is a survey the ring unrolled, mm. */
const BAR = 9
const STRIP = 44
const STRIP_HEAD = 9
const BESIDE = 9

/** The wall from above to scale, and unrolled with what each pile or panel stands off its place. */
export function asBuiltPictured(subject: SiteSubject): Pictured {
  const wall = asBuiltWall(subject) as AsBuiltWall
  const side = 2 * (wall.outer + AROUND)
  const strip = wall.elements.length === 0 ? 0 : STRIP
  return {
    need: { wide: side, high: side, padWide: 2, padHigh: BAR + strip },
    views: (ratio, room) => [asBuiltView(subject, wall, ratio, room)],
  }
}

function asBuiltView(subject: SiteSubject, wall: AsBuiltWall, ratio: number, room: PaperBox): View {
  const half = wall.outer + AROUND
  const wide = lengthOnPaper({ scale: ratio, of: [0, 0], at: [0, 0] }, 2 * half)
  const left = (room.left + room.right - wide) / 2
  const placing: Placing = { scale: ratio, of: [-half, half], at: [left, room.top + HEADING] }
  const window = { left, right: left + wide, top: room.top + HEADING, bottom: room.top + HEADING + wide }
  const drawn: Mark[] = [
    ...ringMarks(subject, wall, placing),
    ...axes(placing, window),
    ...boreMarks(subject, wall, placing),
    scaleBar(placing, [left + 4, window.bottom + BAR - 2], 50, subject.units),
  ]
  const labels = labelMarks(labelsOf(subject, wall, placing), textsOf(drawn).map(textBox), window)
  const title = 'The wall as built'
  return {
    kind: 'view',
    id: 'site-as-built',
    title: `${title}, ${scaleWords(subject, placing)}`,
    scale: ratio,
    marks: [
      ...siteHead(
        subject,
        '1',
        title,
        underHead(subject, placing, `at ${levelText(wall.z, subject.units)}`, surveyedWords(wall)),
        room,
      ),
      ...drawn,
      ...labels,
      ...(wall.elements.length === 0
        ? []
        : stripMarks(subject, wall, {
            left: room.left + BESIDE,
            right: room.right - 1,
            top: window.bottom + BAR + STRIP_HEAD,
            bottom: window.bottom + BAR + STRIP - 4,
          })),
    ],
  }
}

const circle = (placing: Placing, at: Point2, r: number, look: Pick<Shape, 'fill' | 'stroke'>): Mark => ({
  kind: 'circle',
  centre: onPaper(placing, at),
  radius: lengthOnPaper(placing, r),
  ...look,
})

/** The ring as surveyed; as designed where nobody has measured. */
function ringMarks({ units }: SiteSubject, wall: AsBuiltWall, placing: Placing): Mark[] {
  const inner = 2 * wall.middle - wall.outer
  if (wall.elements.length === 0)
    return [
      standFor('/shaft/wall', 'the wall as designed', [
        circle(placing, [0, 0], wall.outer, { fill: 'concrete', stroke: EDGE }),
        circle(placing, [0, 0], inner, { fill: 'paper', stroke: EDGE }),
      ]),
    ]
  const thick = wall.outer - inner
  return [
    circle(placing, [0, 0], wall.outer, { stroke: GRID }),
    circle(placing, [0, 0], inner, { stroke: GRID }),
    ...wall.elements.map((e) => {
      const look = { fill: 'concrete', stroke: isMarked(wall, e) ? OUTLINE : FINE } as const
      const shape =
        wall.shaft.wall.kind === 'secant piles'
          ? circle(placing, e.at, thick / 2, look)
          : ({ kind: 'shape', loops: [loopOnPaper(placing, panelLoop(wall, e, thick))], ...look } as Mark)
      return standFor(e.pointer, elementWords(wall, e, units), [shape])
    }),
  ]
}

const isMarked = ({ farthestIn, thinnest, widest }: AsBuiltWall, { id }: SurveyedElement): boolean =>
  id === farthestIn?.id || [thinnest, widest].some((e) => id === e?.id || id === e?.joint?.next)

const elementWords = ({ shaft }: AsBuiltWall, { id, outward }: SurveyedElement, units: SiteSubject['units']): string =>
  `${ELEMENT[shaft.wall.kind]} ${id}, ${shortLength(Math.abs(outward), units)} ${outward < 0 ? 'inside' : 'outside'} its place`

/** A panel: straight, square to where its head stands, as wide as it takes for all of them to meet as set out. */
function panelLoop(
  { shaft, elements, middle }: AsBuiltWall,
  { at: [x, y], outwards: [c, s] }: SurveyedElement,
  thick: number,
): Point2[] {
  const half = (out: number): number => (middle + out) * Math.tan(Math.PI / (shaft.wall.piles ?? elements.length))
  const corner = (out: number, side: -1 | 1): Point2 => {
    const along = side * half(out)
    return [x + out * c - along * s, y + out * s + along * c]
  }
  const t = thick / 2
  return [corner(t, -1), corner(t, 1), corner(-t, 1), corner(-t, -1)]
}

function axes(placing: Placing, window: PaperBox): Mark[] {
  const [x, y] = onPaper(placing, [0, 0])
  const across: PaperPoint[] = [
    [window.left, y],
    [window.right, y],
  ]
  const up: PaperPoint[] = [
    [x, window.top],
    [x, window.bottom],
  ]
  return [line(across, AXIS), line(up, AXIS)]
}

/** The bore that the lifts count on, and what is left of it. */
function boreMarks({ units }: SiteSubject, { bore, shaft }: AsBuiltWall, placing: Placing): Mark[] {
  const wanted = shaft.clearDiameter.value as number
  const left = bore?.capacity.value
  const measured = (value: number, name: string, offset: number, fails: boolean): Mark =>
    dimension({
      name,
      value,
      words: `${name} Ø ${lengthText(value, units)}`,
      placing,
      from: [-value / 2, 0],
      along: 'across',
      offset,
      backed: 'paper',
      ...(fails ? { ink: 'fail' as const, weight: 700 as const } : {}),
    })
  const fails = left !== undefined && left < wanted
  return [
    circle(placing, [0, 0], wanted / 2, { stroke: THIN }),
    measured(wanted, 'clear bore wanted', -7, false),
    ...(left === undefined || left <= 0
      ? []
      : [
          standFor('/shaft/clearDiameter', 'the clear bore that is left', [
            circle(placing, [0, 0], left / 2, { stroke: fails ? ATTENTION : HIDDEN }),
          ]),
          measured(left, 'clear bore left', 7, fails),
        ]),
  ]
}

function labelsOf({ units }: SiteSubject, wall: AsBuiltWall, placing: Placing): Label[] {
  const name = ELEMENT[wall.shaft.wall.kind]
  const { farthestIn, thinnest, widest } = wall
  const inwards = ([x, y]: Point2): number => (Math.atan2(-y, -x) * 180) / Math.PI
  const label = (at: Point2, lines: string[]): Label => ({
    lines,
    at: onPaper(placing, at),
    towards: inwards(at),
    from: 5,
    size: SMALL,
    weight: 700,
    backed: true,
  })
  const joint = thinnest?.joint
  return [
    ...(farthestIn === undefined || farthestIn.outward >= 0
      ? []
      : [label(farthestIn.at, [`${name} ${farthestIn.id} stands`, `${shortLength(-farthestIn.outward, units)} in`])]),
    ...(thinnest === undefined || joint === undefined
      ? []
      : [
          label(thinnest.at, [
            `${thinnest.id}–${joint.next} ${joint.left === undefined ? 'step' : 'share'}`,
            shortLength(joint.left ?? joint.step, units),
          ]),
        ]),
    ...(widest?.joint?.opening === undefined
      ? []
      : [label(widest.at, [`${widest.id}–${widest.joint.next} parted`, shortLength(widest.joint.opening, units)])]),
    ...chanceLabel(wall, placing),
    {
      lines: ['the drive'],
      at: onPaper(placing, [wall.outer + AROUND, 0]),
      towards: 135,
      from: 0.5,
      size: SMALL,
      ink: 'quiet',
      backed: true,
    },
  ]
}

/** While tolerances stand: how likely it is that a joint stands open at the toe. */
function chanceLabel({ chance, middle }: AsBuiltWall, placing: Placing): Label[] {
  if (chance === undefined) return []
  const share = ({ value }: Check['demand']): string =>
    value === undefined ? OPEN : `${showNumber(100 * value, 2)}\u00a0%`
  return [
    {
      lines: [
        'chance that a joint stands open at the toe',
        `${share(chance.demand)} of ${share(chance.capacity)}`,
        chance.id,
      ],
      at: onPaper(placing, [0, -middle / 2]),
      towards: -90,
      from: 1,
      size: SMALL,
      backed: true,
    },
  ]
}

const ROUND = [1, 2, 5, 10, 20, 50, 100, 200, 500]

/** The ring unrolled: outwards up, inwards down, enlarged. */
function stripMarks({ units }: SiteSubject, wall: AsBuiltWall, room: PaperBox): Mark[] {
  const { elements, tolerance } = wall
  const most = Math.max(0.005, tolerance ?? 0, ...elements.map((e) => Math.abs(e.outward)))
  const zero = (room.top + room.bottom) / 2
  const perMetre = (room.bottom - room.top) / 2 / (most * 1.05)
  const y = (outward: number): number => zero - outward * perMetre
  const pitch = (room.right - room.left) / elements.length
  const every = Math.ceil(9 / pitch)
  const run = (at: number): PaperPoint[] => [
    [room.left, at],
    [room.right, at],
  ]
  const step = ROUND.map((mm) => (units === 'SI' ? mm / 1000 : mm * 0.00254)).find((s) => s >= most / 2) ?? most
  return [
    text([room.left, room.top - 4.4], 'Unrolled from the back of the shaft by the right: out is up, in is down', {
      size: SMALL,
      weight: 700,
    }),
    text(
      [room.left, room.top - 1.4],
      tolerance === undefined ? 'no tolerance given' : `dashed: tolerance ${shortLength(tolerance, units)}`,
      { size: SMALL, ink: 'quiet' },
    ),
    line(run(zero), THIN),
    ...[-step, 0, step].map((v) =>
      text([room.left - 1, y(v) + SMALL * 0.36], shortLength(v, units).split('\u00a0')[0] as string, {
        size: SMALL,
        anchor: 'end',
        tabular: true,
      }),
    ),
    ...[-step, step].map((v) => line(run(y(v)), GRID)),
    ...(tolerance === undefined ? [] : [-tolerance, tolerance].map((v) => line(run(y(v)), HIDDEN))),
    ...elements.flatMap((e, i): Mark[] => {
      const x = room.left + i * pitch
      const isOver = tolerance !== undefined && Math.abs(e.outward) > tolerance
      const bar = {
        left: x + pitch * 0.15,
        right: x + pitch * 0.85,
        top: Math.min(zero, y(e.outward)),
        bottom: Math.max(zero, y(e.outward)),
      }
      return [
        standFor(e.pointer, elementWords(wall, e, units), [
          box(bar, { fill: isMarked(wall, e) ? 'ink' : 'steel', stroke: isOver ? ATTENTION : FINE }),
        ]),
        ...(i % every === 0
          ? [text([x + pitch / 2, room.bottom + 3], e.id, { size: SMALL, anchor: 'middle' as const })]
          : []),
      ]
    }),
  ]
}
