import { pointerOf } from '../../working/pointer.ts'
import { showQuantity, type UnitSystem } from '../../working/quantity.ts'
import { civilDay, DAY, MONTHS } from '../civil.ts'
import { box, line, type Mark, type PaperPoint, standFor, text } from '../drawing.ts'
import { textWidth } from '../fontWidth.ts'
import { hatch } from '../paper/hatch.ts'
import type { Campaign } from './campaign.ts'
import type { Field } from './field.ts'
import { level, stroke, together, upright } from './pens.ts'
import { queueSteps, type ResourceUse } from './resourceUse.ts'
import type { WindHold } from './windMonths.ts'
import { dateWords } from './words.ts'

/** Wind to be expected: the share of the lifts' hours above the limit, a step a month. From the climate, nothing measured. */
export function windMarks(campaign: Campaign, field: Field, units: UnitSystem): Mark[] {
  const { wind, today = Number.NEGATIVE_INFINITY } = campaign
  const { axis, layout } = field
  if (wind === undefined) return []
  const { k, type, fine } = layout.sheet
  const { top, bottom } = layout.wind
  const caption = [
    text([layout.field.left - 2.5 * k, bottom - 3.2 * k], `gusts over ${showQuantity(wind.gust, 'm/s', units)}`, {
      size: type.small,
      anchor: 'end',
      ink: 'air',
    }),
    text([layout.field.left - 2.5 * k, bottom - 3.2 * k + type.small * 1.1], fine ? 'share of lift hours' : 'share', {
      size: type.small,
      anchor: 'end',
      ink: 'air',
    }),
  ]
  const steps = wind.months.flatMap((month): Mark[] => {
    const from = Math.max(month.start, today, axis.from)
    const to = Math.min(month.finish, axis.to)
    if (to <= from) return []
    const [left, right] = [axis.xAt(from), axis.xAt(to)]
    const y = bottom - month.share * (bottom - top - type.small)
    const label = `${Math.round(month.share * 100)} %`
    const room = right - left > textWidth(label, { size: type.small, weight: 400, tabular: false }) + 0.6 * k
    const date = civilDay(campaign.origin, month.start)
    const words = `${MONTHS[date.month - 1]} ${date.year}: gusts over ${showQuantity(wind.gust, 'm/s', units)} in ${Math.round(month.share * 100)} of a hundred hours of lifting, from the climate; it stops ${wind.lift}.`
    const outline: PaperPoint[] = [
      [left, bottom],
      [left, y],
      [right, y],
      [right, bottom],
    ]
    return [
      standFor('/climate', words, [
        line(outline, stroke(0.3 * k, 'air', [1.2 * k, 0.7 * k])),
        ...(room
          ? [text([(left + right) / 2, y - 0.7 * k], label, { size: type.small, anchor: 'middle', ink: 'air' })]
          : []),
      ]),
    ]
  })
  const held = wind.holds.flatMap((hold): Mark[] => holdMarks(hold, campaign, field))
  return [...caption, level(bottom, axis.left, axis.right, stroke(0.15 * k, 'hair')), ...steps, ...held]
}

/** Under the shares: from a lift on as long as wind holds it on average. Under a tenth of a day nothing is drawn. */
function holdMarks(
  { lift, name, start, days, chance }: WindHold,
  { origin }: Campaign,
  { axis, layout }: Field,
): Mark[] {
  const finish = start + days * DAY
  if (days < 0.1 || finish <= axis.from || start >= axis.to) return []
  const { k } = layout.sheet
  const y = layout.wind.bottom + 0.3 * k
  const bar = { left: axis.xAt(start), right: axis.xAt(finish), top: y, bottom: y + 1.1 * k }
  const words = `${name}, planned ${dateWords(origin, start)}: wind leaves a window on ${Math.round(chance * 100)} of a hundred days; ${days.toFixed(1)} working days are lost on average before one opens.`
  return [
    standFor(pointerOf('lifts', lift), words, [
      box(bar, { stroke: stroke(0.15 * k, 'air') }),
      ...together(hatch(box(bar, {}).loops, 0.7 * k, Math.PI / 4, stroke(0.18 * k, 'air'))),
    ]),
  ]
}

/** So many waiting at once are drawn as many steps high; more are told. */
const HIGHEST = 4

/** When each lifting system is taken up by lifts, and each place and crew that is waited for; under the line, how many wait. */
export function useMarks(campaign: Campaign, field: Field): Mark[] {
  const { axis, layout } = field
  const { k, type } = layout.sheet
  const pitch = (layout.uses.bottom - layout.uses.top) / Math.max(1, campaign.uses.length)
  return campaign.uses.flatMap((use, i): Mark[] => {
    const y = layout.uses.top + (i + 0.4) * pitch
    const caption = text([layout.field.left - 2.5 * k, y + type.small * 0.34], captionOf(use), {
      size: type.small,
      anchor: 'end',
      ink: 'quiet',
    })
    return [
      level(y, axis.left, axis.right, stroke(0.12 * k, 'hair')),
      standFor(use.pointer, useWords(use, campaign), [
        caption,
        ...use.spans.flatMap(({ start, finish }): Mark[] => {
          if (finish <= axis.from || start >= axis.to) return []
          const [left, right] = [axis.xAt(start), axis.xAt(finish)]
          const isDone = campaign.today !== undefined && finish <= campaign.today
          const bar = { left, right: Math.max(right, left + 0.35 * k), top: y - 0.95 * k, bottom: y + 0.6 * k }
          return [box(bar, { fill: isDone ? 'ink' : 'paper', stroke: stroke(0.2 * k) })]
        }),
        ...queueMarks(use, y + 0.75 * k, field),
      ]),
    ]
  })
}

/** Steps hanging from the line: as deep as so many wait. */
function queueMarks({ waits }: ResourceUse, y: number, { axis, layout }: Field): Mark[] {
  const { k } = layout.sheet
  return queueSteps(waits).flatMap(({ from, to, count }): Mark[] => {
    if (to <= axis.from || from >= axis.to) return []
    const [left, right] = [axis.xAt(from), axis.xAt(to)]
    if (right - left < 0.02) return []
    return [box({ left, right, top: y, bottom: y + 0.32 * k * Math.min(HIGHEST, count) }, { fill: 'edge' })]
  })
}

const captionOf = ({ id, waits }: ResourceUse): string =>
  waits.length === 0 ? `${id} in use` : `${id}, ${waits.length} wait`

function useWords({ id, name, spans, waits, hours }: ResourceUse, { origin }: Campaign): string {
  const [first, last] = [spans[0], spans.at(-1)]
  const used =
    first === undefined || last === undefined
      ? 'not in use'
      : `in use ${dateWords(origin, first.start)} to ${dateWords(origin, last.finish)}, ${spans.length} times`
  const [longest] = [...waits].sort((a, b) => b.start - b.ready - (a.start - a.ready))
  const queue =
    longest === undefined
      ? 'nothing waits for it'
      : `${waits.length} wait for it, ${Math.round(hours)} h together, the longest ${longest.name}, ${Math.round((longest.start - longest.ready) / 3600)} h from ${dateWords(origin, longest.ready)}`
  return `${name}, ${id}: ${used}; ${queue}.`
}

/** Days on which a lift is planned, as ticks down through the bays' foot: what the glass below shows. */
export const liftDayTicks = (campaign: Campaign, { axis, layout }: Field): Mark[] =>
  campaign.lifts
    .filter(({ day }) => axis.shows((day + 0.5) * DAY))
    .map(({ day }) =>
      upright(
        axis.xAt((day + 0.5) * DAY),
        layout.field.bottom - 1.2 * layout.sheet.k,
        layout.field.bottom,
        stroke(0.2 * layout.sheet.k, 'edge'),
      ),
    )
