import { box, type Mark, type PaperBox, standFor } from '../drawing.ts'
import { hatch } from '../paper/hatch.ts'
import { type BayWork, FLOOR, type WorkKind } from './bayWork.ts'
import type { Campaign } from './campaign.ts'
import type { Field } from './field.ts'
import { stroke, together } from './pens.ts'
import { workWords } from './words.ts'

const HEIGHT = 2.5

/** A bar with where it lies. */
export interface PlacedWork {
  work: BayWork
  bar: PaperBox
}

/** Bars on their rows; what overlaps another on its row lies in a second line below it, or a third. */
export function placedWorks(campaign: Campaign, field: Field): PlacedWork[] {
  const { axis, layout } = field
  const { k } = layout.sheet
  const placed: PlacedWork[] = []
  for (const work of campaign.works) {
    if (work.finish < axis.from || work.start > axis.to) continue
    const y = middleOf(work, field)
    if (y === undefined) continue
    const h = Math.min(HEIGHT * k, roomOf(work, field))
    const [left, right] = [axis.xAt(work.start), axis.xAt(work.finish)]
    if (right - left < 0.25 * k) continue
    let top = y - h / 2
    while (placed.some(({ bar }) => bar.left < right && left < bar.right && Math.abs(bar.top - top) < h))
      top += h + 0.5 * k
    placed.push({ work, bar: { left, right, top, bottom: top + h } })
  }
  return placed
}

function roomOf({ piece, inMachine }: BayWork, { rows, machine }: Field): number {
  const row = piece === undefined || inMachine ? undefined : rows.rowOf.get(piece)
  if (inMachine) return (machine.bottom - machine.top) / (machine.rows.length + 1.3) - 0.6
  return row === undefined ? 99 : (row.bottom - row.top) * 0.55
}

function middleOf(work: BayWork, { rows, machine, layout }: Field): number | undefined {
  const { k } = layout.sheet
  if (work.inMachine) return work.piece === undefined ? undefined : machine.yOf.get(work.piece)
  if (work.where === FLOOR) return machine.bottom - 1.8 * k
  const row = work.piece === undefined ? undefined : rows.rowOf.get(work.piece)
  const lane = rows.lanes.get(work.where)
  return row?.y ?? (lane === undefined ? undefined : lane.bottom - 2.5 * k)
}

/** Bars of work, each kind with a fill of its own: weld hatched, machine lined, test dotted, fit grey. */
export function workMarks(placed: readonly PlacedWork[], campaign: Campaign, field: Field): Mark[] {
  const { k } = field.layout.sheet
  return placed.map(({ work, bar }) => standFor(work.pointer, workWords(work, campaign), barMarks(bar, work.kind, k)))
}

export function barMarks(bar: PaperBox, kind: WorkKind, k: number): Mark[] {
  const edge = stroke(0.28 * k)
  const shape = box(bar, { fill: kind === 'fit' ? 'steel' : 'paper', stroke: edge })
  switch (kind) {
    case 'weld':
      return [shape, ...together(hatch(shape.loops, 0.85 * k, Math.PI / 4, stroke(0.28 * k)))]
    case 'machine':
      return [shape, ...together(hatch(shape.loops, 0.8 * k, Math.PI / 2, stroke(0.16 * k)))]
    case 'test':
      return [shape, ...dots(bar, k)]
    case 'fit':
      return [shape]
    default:
      return kind satisfies never
  }
}

function dots({ left, right, top, bottom }: PaperBox, k: number): Mark[] {
  const [step, r] = [0.85 * k, 0.16 * k]
  const loops: [number, number][][] = []
  for (let y = top + step / 2, row = 0; y < bottom - r; y += step, row++)
    for (let x = left + step * (row % 2 === 0 ? 0.5 : 1); x < right - r; x += step)
      loops.push([
        [x - r, y],
        [x, y - r],
        [x + r, y],
        [x, y + r],
      ])
  return loops.length === 0 ? [] : [{ kind: 'shape', loops, fill: 'ink' }]
}
