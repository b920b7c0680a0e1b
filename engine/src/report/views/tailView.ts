import { box, line, type Mark, type PaperBox, type PaperPoint, textBox, textsOf, type View } from '../drawing.ts'
import { alongBoxes, type Label, labelMarks } from '../paper/labels.ts'
import { EDGE, OUTLINE, SMALL } from '../paper/pen.ts'
import { onPaper, type Placing, placed, scaleText } from '../paper/scale.ts'
import { lengthUnit } from '../sheet/figures.ts'
import type { SheetTailLeg } from '../sheet/legs.ts'
import { type LiftSheet, listedNames } from '../sheet/liftSheet.ts'
import { withRef } from '../sheet/refs.ts'
import { inset, underHead, viewHead } from './head.ts'
import type { Scene } from './scene.ts'
import { emptyView } from './section.ts'

type Ends = NonNullable<SheetTailLeg['ends']>
type Drawn = SheetTailLeg & { ends: Ends }

/** Room kept beside the legs for their words, mm. */
const BESIDE = 30
/** Up to so many legs have all their words beside them; of more, the table has the rest. */
const FEW = 2

/** View G: the legs of the tail hook of a turn, from behind, at its worst pull; without the piece, which turns below them. */
export function tailView({ subject }: Scene, sheet: LiftSheet, room: PaperBox, letter = 'G'): View {
  const legs = sheet.tailLegs.flatMap((leg): Drawn[] => (leg.ends === undefined ? [] : [{ ...leg, ends: leg.ends }]))
  const title = 'Rigging of the tail hook, seen from behind'
  if (legs.length === 0 || legs.length < sheet.tailLegs.length)
    return emptyView(letter, title, 'open: its legs do not reach, or are not planned', room)
  const inner = underHead(room)
  const us = legs.flatMap(({ ends }) => ends.map(([y]) => -y))
  const lowest = Math.min(...legs.map(({ ends }) => ends[1][1]))
  const frame = { left: Math.min(0, ...us), right: Math.max(0, ...us), bottom: lowest, top: 0 }
  const placing = placed(frame, { ...inset(inner, 8), left: inner.left + BESIDE, right: inner.right - BESIDE })
  const drawn = [
    ...hookMarks(placing),
    ...spreaderMarks(subject, placing),
    ...legs.flatMap((leg) => legMarks(leg, placing)),
  ]
  const taken = [
    ...textsOf(drawn).map(textBox),
    ...legs.flatMap(({ ends }) => alongBoxes(ends.map((end) => paperOf(placing, end)) as [PaperPoint, PaperPoint])),
  ]
  return {
    kind: 'view',
    id: 'tail-rigging',
    title: `${letter}. ${title}, ${scaleText(placing)}`,
    scale: placing.scale,
    marks: [
      ...viewHead(
        letter,
        title,
        `${scaleText(placing)} · ${legs.length} legs · at its worst pull over the turn; the piece is left out · ${lengthUnit(sheet.units)}`,
        room,
      ),
      ...drawn,
      ...labelMarks(labelsOf(legs, subject, placing, sheet), taken, inset(inner, 0.5), listedNames(sheet)),
    ],
  }
}

/** From behind, left of the drive is left on paper. */
const paperOf = (placing: Placing, [y, z]: Ends[0]): PaperPoint => onPaper(placing, [-y, z])

function hookMarks(placing: Placing): Mark[] {
  const [x, y] = paperOf(placing, [0, 0])
  const above: PaperPoint = [x, y - 6]
  return [
    line([above, [x, y]], OUTLINE),
    box({ left: x - 1.3, right: x + 1.3, top: y - 3.2, bottom: y }, { fill: 'ink' }),
  ]
}

function legMarks({ ends }: Drawn, placing: Placing): Mark[] {
  const [a, b] = ends.map((end) => paperOf(placing, end)) as [PaperPoint, PaperPoint]
  return [
    line([a, b], OUTLINE),
    ...[a, b].map((centre): Mark => ({ kind: 'circle', centre, radius: 0.8, fill: 'paper', stroke: EDGE })),
  ]
}

interface Spreader {
  id: string
  ends: readonly Ends[0][]
}

function spreadersOf({ tail }: Scene['subject']): Spreader[] {
  const nodes = Object.values(tail?.rigging?.nodes ?? {})
  return [...new Set(nodes.map(({ gear }) => gear))].map((id) => ({
    id,
    ends: nodes.filter(({ gear }) => gear === id).map(({ offset: [, y, z] }): Ends[0] => [y.value ?? 0, z.value ?? 0]),
  }))
}

/** A bar between its outer ends, and what it hangs from: slings of the arrangement are legs, a pin at the hook is drawn. */
function spreaderMarks(subject: Scene['subject'], placing: Placing): Mark[] {
  const isSlung = (subject.outcome.tailLegs ?? []).some(({ to }) => subject.tail?.rigging?.nodes[to] !== undefined)
  return spreadersOf(subject).flatMap(({ ends }): Mark[] => {
    const at = ends.map((end) => paperOf(placing, end))
    const [left, right] = [Math.min(...at.map(([x]) => x)), Math.max(...at.map(([x]) => x))]
    const y = at.reduce((sum, p) => sum + p[1], 0) / at.length
    const hook = paperOf(placing, [0, 0])
    return [
      ...(isSlung ? [] : [line([hook, [left, y]], EDGE), line([hook, [right, y]], EDGE)]),
      box({ left: left - 1, right: right + 1, top: y - 0.9, bottom: y + 0.9 }, { fill: 'steel', stroke: EDGE }),
    ]
  })
}

function labelsOf(legs: readonly Drawn[], subject: Scene['subject'], placing: Placing, sheet: LiftSheet): Label[] {
  const { gear } = subject.stages.model.project
  const shares = sheet.turning.map(({ tail }) => tail).filter(({ si }) => si !== undefined)
  const most = shares.sort((a, b) => (b.si as number) - (a.si as number))[0]
  const [x, y] = paperOf(placing, [0, 0])
  return [
    ...(most === undefined
      ? []
      : [
          {
            lines: [
              `${subject.tail?.hook.name ?? 'tail hook'}`,
              withRef(`at most ${most.text} ${sheet.forceUnit}`, sheet.refs.tail),
            ],
            at: [x + 1.3, y - 3] as PaperPoint,
            towards: 20,
            weight: 700 as const,
            size: SMALL,
          },
        ]),
    ...legs.map((leg): Label => {
      const [a, b] = leg.ends.map((end) => paperOf(placing, end)) as [PaperPoint, PaperPoint]
      const on = (share: number): PaperPoint => [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share]
      return {
        lines: wordsOf(leg, sheet, legs.length > FEW),
        at: on(0.35),
        or: [on(0.1), on(0.6)],
        towards: (a[0] + b[0]) / 2 >= x ? 0 : 180,
        within: 60,
        from: 1.2,
        weight: 700,
        size: SMALL,
        backed: true,
      }
    }),
    ...spreadersOf(subject).map(
      ({ id, ends }): Label => ({
        lines: [`${gear[id]?.name ?? id} ${id}`],
        at: paperOf(placing, ends[0] ?? [0, 0]),
        towards: 150,
        size: SMALL,
        backed: true,
      }),
    ),
  ]
}

function wordsOf(leg: SheetTailLeg, { forceUnit, refs }: LiftSheet, many: boolean): string[] {
  const use = withRef(`use ${leg.useText}, ${leg.angleText} from plumb`, refs.tailLegs[leg.id] ?? '')
  return many
    ? [`${leg.id}: ${leg.worst.text} ${forceUnit}`, use]
    : [
        `${leg.id} to ${leg.to}: ${leg.worst.text} ${forceUnit}`,
        `${leg.item}, ${leg.length.text}, rated ${leg.rated.text}`,
        use,
      ]
}
