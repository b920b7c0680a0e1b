import type { Cradle, Machine, Shaft } from '../../../model/index.ts'
import { showQuantity } from '../../../working/quantity.ts'
import {
  box,
  line,
  type Mark,
  type PaperBox,
  type PaperPoint,
  standFor,
  textBox,
  textsOf,
  type View,
} from '../../drawing.ts'
import type { Point2 } from '../../outline/convex.ts'
import { type Label, labelMarks } from '../../paper/labels.ts'
import { AXIS, CHAIN, EDGE, FINE, OUTLINE, SMALL } from '../../paper/pen.ts'
import { loopOnPaper, onPaper, type Placing } from '../../paper/scale.ts'
import { scaleBar } from '../../paper/scaleBar.ts'
import { degreesText, OPEN } from '../../sheet/figures.ts'
import { HEADING } from '../../views/head.ts'
import { rectangle } from '../../views/shaft.ts'
import type { Pictured } from '../layout.ts'
import { cradleAcross } from '../sectionShaft.ts'
import { siteHead } from '../siteHead.ts'
import { type SiteSubject, scaleWords, underHead } from '../subject.ts'
import { CRADLE_BARS, type LoadedCradle, loadedCradle } from './cradle.ts'
import { useBars, useBarsHeight, worstOf } from './useBars.ts'

/** Beside the shell for the arrows and their words, m. */
const BESIDE = 4
const FOOT = 10
const ARC = 48
/** Length of an arrow, mm. */
const ARROW = 11
const HEAD_LONG = 3
const HEAD_HALF = 0.9

interface Bed {
  shaft: Shaft
  /** Middle and radius of the bed, half of its contact arc. */
  centre: Point2
  radius: number
  half: number
}

function bedOf({ stages }: SiteSubject): Bed {
  const { shaft, machine, cradle } = stages.model.project as { shaft: Shaft; machine: Machine; cradle: Cradle }
  const radius = cradle.radius?.value ?? (machine.shieldDiameter?.value ?? 0) / 2
  const [, y, z] = machine.pose.origin.map((v) => v.value as number) as [number, number, number]
  return { shaft, centre: [-y, z], radius, half: cradle.contactHalfAngle.value as number }
}

/** The cradle across the drive to scale, with what presses it apart and what holds it; under it the checks as bars. */
export function cradlePictured(subject: SiteSubject): Pictured {
  const cradle = loadedCradle(subject) as LoadedCradle
  const bed = bedOf(subject)
  const checks = worstOf(subject.stages.ground.checks, CRADLE_BARS)
  const wide = 2 * (bed.radius + BESIDE)
  const bottom = bottomOf(bed)
  return {
    need: { wide, high: bed.centre[1] + 1 - bottom, padWide: 2, padHigh: FOOT + useBarsHeight(checks) },
    views: (ratio, room) => {
      const across = (wide * 1000) / ratio
      const left = (room.left + room.right - across) / 2
      const placing: Placing = {
        scale: ratio,
        of: [bed.centre[0] - wide / 2, bed.centre[1] + 1],
        at: [left, room.top + HEADING],
      }
      const [right, foot] = onPaper(placing, [bed.centre[0] + wide / 2, bottom])
      const window = { left, right, top: room.top + HEADING, bottom: foot }
      const title = 'The cradle across the drive'
      const drawn = sectionMarks(subject, cradle, bed, placing, window)
      const labels = labelMarks(labelsOf(subject, cradle, bed, placing), textsOf(drawn).map(textBox), window)
      return [
        {
          kind: 'view',
          id: 'site-cradle',
          title: `${title}, ${scaleWords(subject, placing)}`,
          scale: ratio,
          marks: [
            ...siteHead(subject, '1', title, underHead(subject, placing, 'looking forward', loadWords(cradle)), room),
            ...drawn,
            ...labels,
            scaleBar(placing, [left + 3, foot + 5], 40, subject.units),
            ...useBars(subject, 'Held together, and held against roll', checks, {
              left: room.left + 1,
              right: room.right - 1,
              top: foot + FOOT,
              bottom: room.bottom,
            }),
          ],
        } satisfies View,
      ]
    },
  }
}

const bottomOf = ({ shaft }: Bed): number => (shaft.slabTop.value as number) - (shaft.slabThickness.value as number)

const loadWords = ({ heaviest }: LoadedCradle): string =>
  heaviest === undefined ? 'before anything is taken out' : `under the heaviest metre, ${heaviest.name}`

/** Ends of the contact arc, left and right. */
const endsOf = ({ centre: [x, z], radius, half }: Bed): readonly [Point2, Point2] => [
  [x - radius * Math.sin(half), z - radius * Math.cos(half)],
  [x + radius * Math.sin(half), z - radius * Math.cos(half)],
]

function sectionMarks(
  subject: SiteSubject,
  cradle: LoadedCradle,
  bed: Bed,
  placing: Placing,
  window: PaperBox,
): Mark[] {
  const { shaft, centre, radius } = bed
  const slab = shaft.slabTop.value as number
  const [worldLeft, worldRight] = [centre[0] - radius - BESIDE, centre[0] + radius + BESIDE]
  const lower = Array.from({ length: ARC + 1 }, (_, k): Point2 => {
    const angle = Math.PI + (Math.PI * k) / ARC
    return [centre[0] + radius * Math.cos(angle), centre[1] + radius * Math.sin(angle)]
  })
  const [x] = onPaper(placing, centre)
  return [
    box(rectangle(placing, worldLeft, worldRight, bottomOf(bed), slab), { fill: 'concrete', stroke: FINE }),
    ...cradleAcross(subject, placing),
    standFor('/machine', 'the shell on its bed', [line(loopOnPaper(placing, lower), EDGE)]),
    line([[x, window.top], [x, window.bottom]], AXIS), // biome-ignore format: two ends
    ...barsMarks(bed, placing),
    ...(cradle.splitting === undefined ? [] : pushMarks(bed, placing)),
    box(window, { stroke: FINE }),
  ]
}

/** Bars across the invert, a sign: their height is the designer's. */
function barsMarks(bed: Bed, placing: Placing): Mark[] {
  const [from, to] = barsAt(bed, placing)
  return [standFor('/cradle/tied', 'bars across the cradle', [line([from, to], CHAIN)])]
}

function barsAt(bed: Bed, placing: Placing): readonly [PaperPoint, PaperPoint] {
  const { shaft, centre, radius } = bed
  const [left, right] = endsOf(bed)
  const level = ((shaft.slabTop.value as number) + (centre[1] - radius)) / 2
  return [onPaper(placing, [left[0], level]), onPaper(placing, [right[0], level])]
}

/** At each end of the arc: square to the shell what presses on the bed, and outwards what its side is pushed with. */
function pushMarks(bed: Bed, placing: Placing): Mark[] {
  return endsOf(bed).flatMap((end, i) => {
    const side = i === 0 ? -1 : 1
    const [x, y] = onPaper(placing, end)
    const square: PaperPoint = [side * Math.sin(bed.half), Math.cos(bed.half)]
    const start: PaperPoint = [x - square[0] * ARROW, y - square[1] * ARROW]
    const out: PaperPoint = [x + side * ARROW, y]
    return [
      line([start, [x, y]], OUTLINE),
      head([x, y], [-square[0], -square[1]]),
      line([[x, y], out], OUTLINE),
      head(out, [-side, 0]),
    ]
  })
}

/** Larger than that of a dimension: it is a force. Its tip, and the way its body runs. */
function head([x, y]: PaperPoint, [u, v]: PaperPoint): Mark {
  const side = (k: 1 | -1): PaperPoint => [x + HEAD_LONG * u - k * HEAD_HALF * v, y + HEAD_LONG * v + k * HEAD_HALF * u]
  return { kind: 'shape', loops: [[[x, y], side(1), side(-1)]], fill: 'ink' }
}

function labelsOf({ units }: SiteSubject, { splitting, heaviest }: LoadedCradle, bed: Bed, placing: Placing): Label[] {
  const shown = (value: number | undefined): string => (value === undefined ? OPEN : showQuantity(value, 'N/m', units))
  const [, right] = endsOf(bed)
  const [from, to] = barsAt(bed, placing)
  const [x, y] = onPaper(placing, right)
  return [
    {
      lines: ['pushed out, load factor in', shown(splitting?.demand.value)],
      at: [x + ARROW, y],
      towards: 60,
      from: 1,
      size: SMALL,
      backed: true,
    },
    {
      lines: [`bars hold ${shown(splitting?.capacity.value)}`],
      at: [(from[0] + to[0]) / 2, from[1]],
      towards: -90,
      from: 0.8,
      size: SMALL,
      backed: true,
    },
    {
      lines: [`heaviest metre ${shown(heaviest?.along.value)}`, `arc ±${degreesText(bed.half)}`],
      at: onPaper(placing, [bed.centre[0], bed.centre[1] - bed.radius / 2]),
      towards: 90,
      from: 0.6,
      size: SMALL,
      backed: true,
    },
  ]
}
