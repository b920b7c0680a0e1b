import { pointerOf } from '../../working/pointer.ts'
import { showQuantity, type UnitSystem } from '../../working/quantity.ts'
import { civilDay, DAY, MONTHS } from '../civil.ts'
import { box, line, type Mark, type PaperPoint, standFor, text } from '../drawing.ts'
import { textWidth } from '../fontWidth.ts'
import type { Campaign } from './campaign.ts'
import type { Field } from './field.ts'
import { level, stroke, upright } from './pens.ts'
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
  return [...caption, level(bottom, axis.left, axis.right, stroke(0.15 * k, 'hair')), ...steps]
}

/** When each lifting system is taken up by lifts. */
export function hookMarks(campaign: Campaign, field: Field): Mark[] {
  const { axis, layout } = field
  const { k, type } = layout.sheet
  const pitch = (layout.hooks.bottom - layout.hooks.top) / Math.max(1, campaign.hooks.length)
  return campaign.hooks.flatMap(({ system, name, spans }, i): Mark[] => {
    const y = layout.hooks.top + (i + 0.5) * pitch
    const seen = spans.filter((s) => s.finish > axis.from && s.start < axis.to)
    const [first, last] = [spans[0], spans.at(-1)]
    const words = `${name}, ${system}: in use ${first === undefined ? '' : dateWords(campaign.origin, first.start)} to ${last === undefined ? '' : dateWords(campaign.origin, last.finish)}, ${spans.length} times.`
    return [
      level(y, axis.left, axis.right, stroke(0.12 * k, 'hair')),
      standFor(pointerOf('systems', system), words, [
        text([layout.field.left - 2.5 * k, y + type.small * 0.34], `${system} in use`, {
          size: type.small,
          anchor: 'end',
          ink: 'quiet',
        }),
        ...seen.map(({ start, finish }) => {
          const [left, right] = [axis.xAt(start), axis.xAt(finish)]
          const isDone = campaign.today !== undefined && finish <= campaign.today
          return box(
            { left, right: Math.max(right, left + 0.35 * k), top: y - 0.95 * k, bottom: y + 0.95 * k },
            {
              fill: isDone ? 'ink' : 'paper',
              stroke: stroke(0.2 * k),
            },
          )
        }),
      ]),
    ]
  })
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
