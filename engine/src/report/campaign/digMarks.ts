import { pointerOf } from '../../working/pointer.ts'
import { showQuantity, type UnitSystem } from '../../working/quantity.ts'
import { box, line, type Mark, type PaperPoint, type Shape, standFor } from '../drawing.ts'
import { hatch } from '../paper/hatch.ts'
import type { Campaign } from './campaign.ts'
import type { Field } from './field.ts'
import { stroke, together, upright } from './pens.ts'
import type { Sinking, Span } from './sinking.ts'
import { dateWords } from './words.ts'

/** The shaft being sunk and left again in the same field: pile lines, stepped dig, slab, cradle, drive-in, fill. */
export function digMarks(campaign: Campaign, field: Field, units: UnitSystem): Mark[] {
  const { sinking } = campaign
  const view = (span: Span | undefined, words: string, marks: () => Mark[], stays = false): Mark[] =>
    span === undefined || (span.finish < field.axis.from && !stays) || span.start > field.axis.to
      ? []
      : [
          standFor(
            pointerOf('programme', 'activities', span.activity),
            `${span.name}: ${dateWords(campaign.origin, span.start, false)} to ${dateWords(campaign.origin, span.finish)}${words}.`,
            marks(),
          ),
        ]
  const { piles, slab, cradle, drive, fill } = sinking
  const { shaft } = campaign.model.project
  if (shaft === undefined) return []
  return [
    ...openShaft(campaign, field),
    ...view(piles, `, to ${showQuantity(shaft.wall.toe.value as number, 'm', units)}`, () =>
      pileLines(piles as Span, campaign, field),
    ),
    ...sinking.dig.flatMap((step) =>
      view(step, `, to ${showQuantity(step.to, 'm', units)}`, () => [digLine(step, field)]),
    ),
    ...view(slab, '', () => slabMarks(campaign, field), true),
    ...view(cradle, '', () => cradleMarks(cradle as Span, campaign, field), true),
    ...view(drive, '', () => driveMarks(drive as Span, campaign, field)),
    ...view(fill, '', () => fillMarks(fill as Span, campaign, field), true),
  ]
}

const slabTopOf = ({ model }: Campaign): number => model.project.shaft?.slabTop.value as number
const slabFootOf = (campaign: Campaign): number =>
  slabTopOf(campaign) - (campaign.model.project.shaft?.slabThickness.value as number)

/** What is dug is air: paper, from the collar down to how far it has come. */
function openShaft(campaign: Campaign, field: Field): Mark[] {
  const { dig } = campaign.sinking
  const { axis, layout, yOf } = field
  const first = dig[0]
  const floor = yOf(slabTopOf(campaign))
  const start = first?.start ?? campaign.sinking.home ?? campaign.stripBegins
  if (start > axis.to) return []
  const steps = dig.flatMap(({ start: s, finish, from, to }): PaperPoint[] => [
    [axis.xAt(s), yOf(from)],
    [axis.xAt(finish), Math.min(floor, yOf(to))],
  ])
  const begin: PaperPoint[] = [[axis.xAt(start), layout.collar]]
  const outline: PaperPoint[] = [
    ...begin,
    ...steps,
    [axis.xAt(dig.at(-1)?.finish ?? start), floor],
    [axis.right, floor],
    [axis.right, layout.collar],
  ]
  return [{ kind: 'shape', loops: [outline], fill: 'paper' }]
}

function pileLines({ start, finish }: Span, campaign: Campaign, { axis, layout, yOf }: Field): Mark[] {
  const { shaft } = campaign.model.project
  const count = Math.min(shaft?.wall.piles ?? 12, 24)
  const { k } = layout.sheet
  const [left, right] = [axis.xAt(start), axis.xAt(finish)]
  const bottom = Math.min(layout.field.bottom, yOf(shaft?.wall.toe.value as number))
  const lines = Array.from({ length: count }, (_, i) =>
    upright(left + ((i + 0.5) / count) * (right - left), layout.collar, bottom, stroke(0.3 * k)),
  )
  return [...together(lines)]
}

function digLine({ start, finish, from, to }: Span & { from: number; to: number }, { axis, layout, yOf }: Field): Mark {
  const { k } = layout.sheet
  return line(
    [
      [axis.xAt(start), yOf(from)],
      [axis.xAt(finish), yOf(to)],
    ],
    stroke(0.6 * k),
  )
}

/** Base slab from when it is cast to the end. */
function slabMarks(campaign: Campaign, { axis, layout, yOf }: Field): Mark[] {
  const { slab } = campaign.sinking
  const { k } = layout.sheet
  const shape: Shape = {
    kind: 'shape',
    loops: [
      [
        [axis.xAt((slab as Span).start), yOf(slabFootOf(campaign))],
        [axis.xAt((slab as Span).finish), yOf(slabTopOf(campaign))],
        [axis.right, yOf(slabTopOf(campaign))],
        [axis.right, yOf(slabFootOf(campaign))],
      ],
    ],
    fill: 'concrete',
    stroke: stroke(0.25 * k),
  }
  return [shape, ...together(hatch(shape.loops, 2.4 * k, Math.PI / 4, stroke(0.12 * k, 'edge')))]
}

function cradleMarks({ start, finish }: Span, campaign: Campaign, field: Field): Mark[] {
  const { axis, yOf, machine, layout } = field
  const [left, right] = [axis.xAt(start), axis.xAt(finish)]
  const [floor, top] = [yOf(slabTopOf(campaign)), machine.bottom]
  if (floor - top < 0.2) return []
  return [
    {
      kind: 'shape',
      loops: [
        [
          [left, floor],
          [right, top],
          [axis.right, top],
          [axis.right, floor],
        ],
      ],
      fill: 'concrete',
      stroke: stroke(0.2 * layout.sheet.k),
    },
  ]
}

/** The machine on its way to the wall: a shield's height, as long as the drive takes. */
function driveMarks({ start, finish }: Span, _campaign: Campaign, { axis, machine, layout }: Field): Mark[] {
  const { k } = layout.sheet
  const [left, right] = [axis.xAt(start), axis.xAt(finish)]
  const y = (machine.top + machine.bottom) / 2
  return [
    box({ left, right, top: machine.top, bottom: machine.bottom }, { fill: 'steel', stroke: stroke(0.25 * k) }),
    line(
      [
        [left + 1 * k, y],
        [right - 0.5 * k, y],
      ],
      stroke(0.35 * k),
    ),
    {
      kind: 'shape',
      loops: [
        [
          [right - 0.5 * k, y],
          [right - 2.5 * k, y - 0.9 * k],
          [right - 2.5 * k, y + 0.9 * k],
        ],
      ],
      fill: 'ink',
    },
  ]
}

/** Fill placed round the machine before it leaves. */
function fillMarks({ start, finish }: Span, campaign: Campaign, { axis, yOf, layout }: Field): Mark[] {
  const top = campaign.model.project.shaft?.fill?.top.value
  if (top === undefined) return []
  const { k } = layout.sheet
  const shape: Shape = {
    kind: 'shape',
    loops: [
      [
        [axis.xAt(start), yOf(slabTopOf(campaign))],
        [axis.xAt(finish), yOf(top)],
        [axis.right, yOf(top)],
        [axis.right, yOf(slabTopOf(campaign))],
      ],
    ],
    fill: 'concrete',
    stroke: stroke(0.25 * k),
  }
  return [shape, ...together(hatch(shape.loops, 3 * k, Math.PI / 4, stroke(0.12 * k, 'edge')))]
}

/** Where each lies, for its label. */
export function sinkingPlaces({ sinking }: Campaign): (Sinking['piles'] & Span)[] {
  return [
    sinking.piles,
    ...sinking.dig,
    sinking.slab,
    sinking.cradle,
    sinking.drive,
    sinking.fill,
    sinking.breakOut,
  ].flatMap((s) => (s === undefined ? [] : [s]))
}
