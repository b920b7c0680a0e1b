import { type GroundLoad, isPlaced } from '../../ground/index.ts'
import type { System } from '../../model/index.ts'
import { turned } from '../../numeric/plan.ts'
import { pointerOf } from '../../working/pointer.ts'
import { showQuantity } from '../../working/quantity.ts'
import { box, cross, line, type Mark, type PaperBox, type PaperPoint, standFor } from '../drawing.ts'
import type { Frame2 } from '../outline/convex.ts'
import { clippedLine } from '../paper/clip.ts'
import type { Label } from '../paper/labels.ts'
import { AXIS, CHAIN, EDGE, FINE, HIDDEN, SMALL, THIN } from '../paper/pen.ts'
import { onPaper, type Placing } from '../paper/scale.ts'
import { lengthText } from '../sheet/figures.ts'
import { planOf, rectangleAbout } from './planFrame.ts'
import { circleOnPaper } from './planLines.ts'
import { type Reach, reachesOf } from './reach.ts'
import type { SiteSubject } from './subject.ts'

/** Rails and legs of towers, standings of cranes with the largest radius planned from each, the trailer. */
export function machineMarks(subject: SiteSubject, placing: Placing, room: PaperBox): Mark[] {
  const { systems } = subject.stages.model.project
  return [
    ...Object.entries(systems).flatMap(([id, system]) => {
      const marks = [
        ...railMarks(system, placing, room),
        ...standingMarks(system, placing),
        ...craneFootMarks(subject, id, placing),
      ]
      return marks.length === 0 ? [] : [standFor(pointerOf('systems', id), `${id}, ${system.name}`, marks)]
    }),
    ...reachesOf(subject.stages).flatMap((reach) => reachMarks(reach, placing, room)),
    ...footMarks(subject, placing),
    ...trailerMarks(subject, placing),
  ]
}

export const paperBox = (placing: Placing, { left, right, bottom, top }: Frame2): PaperBox => {
  const [x1, y1] = onPaper(placing, [left, top])
  const [x2, y2] = onPaper(placing, [right, bottom])
  return { left: x1, top: y1, right: x2, bottom: y2 }
}

const GAUGE = 0.45

function railMarks({ rails, runway }: System, placing: Placing, room: PaperBox): Mark[] {
  if (rails === undefined) return []
  return planOf(rails).flatMap((x) => {
    const [at] = onPaper(placing, [x, 0])
    const [y1, y2] =
      runway === undefined ? [room.bottom, room.top] : planOf(runway).map((y) => onPaper(placing, [0, y])[1])
    const run = (dx: number): PaperPoint[] => [
      [at + dx, y1 as number],
      [at + dx, y2 as number],
    ]
    return [-GAUGE, GAUGE].map((dx) => line(run(dx), FINE))
  })
}

const CROSS = 1.4

/** A cross at each place where a crane can stand. */
function standingMarks(system: System, placing: Placing): Mark[] {
  return system.standings.flatMap((at) => cross(onPaper(placing, planOf(at)), CROSS, THIN))
}

/** Tracks or floats of a crane at the step shown, as they press on the ground: full while lifting, open once the piece is set down. */
function craneFootMarks({ step }: SiteSubject, id: string, placing: Placing): Mark[] {
  const feet = (step?.loads ?? []).filter((l) => l.kind === 'crane' && isPlaced(l) && l.id.startsWith(`${id}/`))
  return feet.map(({ at, size, turn = 0, when }): Mark => {
    const corners = CORNERS.map(([s, t]): PaperPoint => {
      const [u, v] = turned([(s * size[0]) / 2, (t * size[1]) / 2], turn)
      return onPaper(placing, [at[0] + u, at[1] + v])
    })
    const isLifting = when.includes('lifting')
    return {
      kind: 'shape',
      loops: [corners],
      stroke: isLifting ? EDGE : HIDDEN,
      ...(isLifting ? { fill: 'steel' } : {}),
    }
  })
}

const CORNERS = [
  [1, 1],
  [1, -1],
  [-1, -1],
  [-1, 1],
] as const

function reachMarks({ at, radius }: Reach, placing: Placing, room: PaperBox): Mark[] {
  return clippedLine(circleOnPaper(placing, at, radius), room).map((run) => line(run, AXIS))
}

/** Half of a foot's sign, mm: the model knows where a leg stands, not how large its foot is. */
const FOOT = 1

/** Legs: full while lifting, open once the piece is set down. */
function footMarks(subject: SiteSubject, placing: Placing): Mark[] {
  return legsAt(subject).map((leg) => {
    const [x, y] = onPaper(placing, [leg.at[0], leg.at[1]])
    const sign = { left: x - FOOT, right: x + FOOT, top: y - FOOT, bottom: y + FOOT }
    const lifting = leg.when.includes('lifting')
    return standFor(leg.pointer, `${leg.what}, ${leg.when.join(' and ')}`, [
      box(sign, lifting ? { fill: 'ink' } : { fill: 'paper', stroke: THIN }),
    ])
  })
}

export const legsAt = ({ step }: SiteSubject): readonly GroundLoad[] =>
  (step?.loads ?? []).filter((l) => l.kind === 'leg' && isPlaced(l))

function trailerMarks({ stages, step }: SiteSubject, placing: Placing): Mark[] {
  return Object.entries(stages.model.project.transports).flatMap(([id, t]) => {
    if (t.at === undefined) return []
    const here = step?.loads.some((l) => l.kind === 'trailer' && l.id === `trailer/${id}`) === true
    const sign = paperBox(placing, rectangleAbout(planOf(t.at), planOf(t.platform)))
    return [
      standFor(pointerOf('transports', id), `${id}, ${t.kind}`, [
        box(sign, { ...(here ? { fill: 'paper' as const } : {}), stroke: here ? EDGE : CHAIN }),
      ]),
    ]
  })
}

/** Words of the machines: rails, legs with what each brings, standings, radii, trailer. */
export function machineLabels(subject: SiteSubject, placing: Placing, room: PaperBox): Label[] {
  const { units, stages } = subject
  const { systems, transports } = stages.model.project
  const legs = legsAt(subject)
  return [
    ...legs
      .filter((l) => l.when.includes('lifting'))
      .map(
        (leg): Label => ({
          lines: [leg.id.split('/')[1] as string, showQuantity(leg.force.value, 'N', units)],
          at: onPaper(placing, [leg.at[0], leg.at[1]]),
          towards: leg.at[0] < 0 ? 180 : 0,
          from: 1.2,
          size: SMALL,
          weight: 700,
          backed: true,
        }),
      ),
    ...Object.entries(systems).flatMap(([id, { rails, runway }]): Label[] =>
      rails === undefined
        ? []
        : [
            {
              lines: [`rail of ${id}`],
              at: onPaper(placing, [
                Math.min(...planOf(rails)),
                runway === undefined ? 0 : Math.max(...planOf(runway)) - 2,
              ]),
              towards: 180,
              from: 1,
              size: SMALL,
              ink: 'quiet',
              backed: true,
            },
          ],
    ),
    ...Object.entries(systems).flatMap(([id, system]) =>
      system.standings.map(
        (at, i): Label => ({
          lines: [`${id}, standing ${i + 1}`],
          at: onPaper(placing, planOf(at)),
          towards: -60,
          from: 1.6,
          size: SMALL,
          backed: true,
        }),
      ),
    ),
    ...reachesOf(stages).flatMap((reach) => reachLabel(reach, subject, placing, room)),
    ...Object.entries(transports).flatMap(([id, t]): Label[] =>
      t.at === undefined
        ? []
        : [
            {
              lines: [`${id} ${t.kind.split(' ').slice(-1)[0]}`],
              at: onPaper(placing, planOf(t.at)),
              towards: 0,
              from: 1,
              size: SMALL,
              backed: true,
            },
          ],
    ),
  ]
}

/** On the arc, where most of it is inside the drawing. */
function reachLabel({ system, radius, at }: Reach, { units }: SiteSubject, placing: Placing, room: PaperBox): Label[] {
  const runs = clippedLine(circleOnPaper(placing, at, radius), room)
  const longest = runs.sort((a, b) => b.length - a.length)[0]
  if (longest === undefined) return []
  const onArc = (t: number): PaperPoint => longest[Math.floor((longest.length - 1) * t)] as PaperPoint
  return [
    {
      lines: [`${system} R ${lengthText(radius, units)}`],
      at: onArc(0.5),
      or: [0.35, 0.65, 0.2, 0.8, 0.1, 0.9].map(onArc),
      towards: 180,
      from: 0.6,
      size: SMALL,
      ink: 'quiet',
      backed: true,
    },
  ]
}
