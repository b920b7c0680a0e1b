import { DAY, dayText } from '../civil.ts'
import { box, type Mark, type PaperPoint, standFor, type Text, text, textBox } from '../drawing.ts'
import { textWidth } from '../fontWidth.ts'
import type { Campaign } from './campaign.ts'
import type { Field } from './field.ts'
import type { Sheet } from './layout.ts'
import { level, stroke, upright } from './pens.ts'
import type { Supply } from './supply.ts'
import type { TimeAxis } from './timeAxis.ts'
import { supplyWords } from './words.ts'

/** A supply with its place: the row, and the caption with the side that has room for it. */
interface PlacedSupply {
  supply: Supply
  row: number
  caption: Text
}

/** Supplies in as few rows as hold them with their captions; only those that the paper shows. Captions lie at y 0. */
export function packed(
  { supplies, origin }: Campaign,
  axis: TimeAxis,
  sheet: Sheet,
): { rows: number; placed: PlacedSupply[] } {
  const taken: [number, number][][] = []
  const placed = supplies.flatMap((supply): PlacedSupply[] => {
    const last = Math.max(supply.arrives, supply.needed ?? 0)
    if (last < axis.from || supply.ordered > axis.to) return []
    const caption = captionOf(supply, origin, axis, sheet)
    const box = textBox(caption)
    const air = 1.5 * sheet.k
    const span = [
      Math.min(axis.xAt(supply.ordered), box.left) - air,
      Math.max(axis.xAt(last), box.right) + air,
    ] as const
    const free = taken.findIndex((row) => row.every(([l, r]) => r < span[0] || l > span[1]))
    const row = free < 0 ? taken.length : free
    taken[row] = [...(taken[row] ?? []), [span[0], span[1]]]
    return [{ supply, row, caption }]
  })
  return { rows: taken.length, placed }
}

/** What is ordered: from its order to its coming, and the days to spare before it is needed. */
export function supplyMarks(campaign: Campaign, field: Field): Mark[] {
  const { layout } = field
  const { placed, rows } = packed(campaign, field.axis, layout.sheet)
  if (rows === 0) return []
  const pitch = (layout.supplies.bottom - layout.supplies.top) / rows
  const head = text([layout.strip.left, layout.supplies.top + layout.sheet.type.label], 'Deliveries', {
    size: layout.sheet.type.label,
    weight: 700,
  })
  return [
    head,
    ...keyMarks(field),
    ...placed.flatMap(({ supply, row, caption }): Mark[] => {
      const y = layout.supplies.top + (row + 0.55) * pitch
      const marks = supplyRow(supply, y, campaign, field)
      const line: Text = { ...caption, at: [caption.at[0], y + layout.sheet.type.small * 0.34] }
      const { left, right, top, bottom } = textBox(line)
      const back = box(
        { left: left - 0.6, right: right + 0.4, top: top - 0.3, bottom: bottom + 0.3 },
        { fill: 'paper' },
      )
      return [standFor(supply.pointer, supplyWords(supply, campaign), [...marks, back, line])]
    }),
  ]
}

function keyMarks({ layout }: Field): Mark[] {
  if (!layout.sheet.head || !layout.sheet.fine) return []
  const { k, type } = layout.sheet
  const [x, top] = [layout.strip.left, layout.supplies.top + type.label + type.small * 1.5]
  const rows: [Mark[], string][] = [
    [[ring([x + 1 * k, 0], k)], 'ordered'],
    [[triangle([x + 1 * k, 0], k, true)], 'on site'],
    [[triangle([x + 1 * k, 0], k, false)], 'to come'],
    [[upright(x + 1 * k, -1 * k, 1 * k, stroke(0.25))], 'needed; days to spare'],
  ]
  return rows.flatMap(([marks, words], i) => {
    const y = top + i * type.small * 1.35
    return [
      ...marks.map((m) => lowered(m, y - 0.35 * type.small)),
      text([x + 3.2 * k, y], words, { size: type.small, ink: 'quiet' }),
    ]
  })
}

function lowered(mark: Mark, by: number): Mark {
  const down = ([x, y]: PaperPoint): PaperPoint => [x, y + by]
  if (mark.kind === 'line') return { ...mark, points: mark.points.map(down) }
  if (mark.kind === 'circle') return { ...mark, centre: down(mark.centre) }
  if (mark.kind === 'shape') return { ...mark, loops: mark.loops.map((loop) => loop.map(down)) }
  return mark
}

const ring = (centre: PaperPoint, k: number): Mark => ({
  kind: 'circle',
  centre,
  radius: 0.75 * k,
  fill: 'paper',
  stroke: stroke(0.2),
})

const triangle = ([x, y]: PaperPoint, k: number, full: boolean): Mark => ({
  kind: 'shape',
  loops: [
    [
      [x - 1.15 * k, y - 0.9 * k],
      [x + 1.15 * k, y - 0.9 * k],
      [x, y + 1.1 * k],
    ],
  ],
  fill: full ? 'ink' : 'paper',
  stroke: stroke(0.2),
})

function supplyRow(supply: Supply, y: number, campaign: Campaign, { axis, layout }: Field): Mark[] {
  const { k } = layout.sheet
  const [ordered, arrives] = [axis.xAt(supply.ordered), axis.xAt(supply.arrives)]
  const come = campaign.today !== undefined && supply.arrives <= campaign.today
  const needed = supply.needed === undefined ? undefined : axis.xAt(supply.needed)
  const late = supply.needed !== undefined && supply.needed < supply.arrives
  return [
    ...(arrives - ordered > 0.1 ? [level(y, ordered, arrives, stroke(0.2, 'quiet'))] : []),
    ...(needed !== undefined && needed - arrives > 1.5 * k
      ? [level(y, arrives, needed, stroke(0.2, 'edge', [0.4 * k, 0.8 * k]))]
      : []),
    ...(needed === undefined || !axis.shows(supply.needed as number)
      ? []
      : [upright(needed, y - 1.2 * k, y + 1.2 * k, stroke(0.35, late ? 'fail' : 'ink'))]),
    ...(axis.shows(supply.ordered) ? [ring([ordered, y], k)] : []),
    ...(axis.shows(supply.arrives) ? [triangle([arrives, y], k, come)] : []),
  ]
}

/** What it is, right of the last mark where there is room, else left of its order, else against the edge. */
function captionOf(supply: Supply, origin: string, axis: TimeAxis, { type, k, fine }: Sheet): Text {
  const face = { size: type.small, weight: 400, tabular: false } as const
  const last = Math.max(axis.xAt(supply.arrives), supply.needed === undefined ? 0 : axis.xAt(supply.needed)) + 2 * k
  const first = axis.xAt(supply.ordered) - 1.6 * k
  const spare = spareText(supply)
  const date = fine ? `, ${dayText(origin, supply.arrives)}` : ''
  const words = `${shortened(supply.what, fine ? 40 : 26)}${date}${spare.words === '' ? '' : `; ${spare.words}`}`
  const look = { ...face, ink: spare.late ? 'fail' : 'ink' } as const
  if (last + textWidth(words, face) < axis.right) return text([last, 0], words, look)
  if (first - textWidth(words, face) > axis.left) return text([first, 0], words, { ...look, anchor: 'end' })
  return text([axis.right, 0], words, { ...look, anchor: 'end' })
}

/** Days between coming and need, in words. */
export function spareText({ arrives, needed }: Supply): { words: string; late: boolean } {
  if (needed === undefined) return { words: '', late: false }
  const days = Math.floor((needed - arrives) / DAY)
  return days < 0 ? { words: `${-days} d late`, late: true } : { words: `${days} d spare`, late: false }
}

export const shortened = (words: string, most: number): string =>
  words.length <= most ? words : `${words.slice(0, most - 1).replace(/[\s,;]+\S*$/, '')}…`
