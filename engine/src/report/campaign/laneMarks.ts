import { pointerOf } from '../../working/pointer.ts'
import { showQuantity, type UnitSystem } from '../../working/quantity.ts'
import { box, type Mark, standFor, text } from '../drawing.ts'
import type { Campaign } from './campaign.ts'
import type { Field } from './field.ts'
import { level, stroke } from './pens.ts'
import { wholeLength } from './words.ts'

/** Lanes above the collar: what each bay is called, how far it lies and what it carries, in words. */
export function laneMarks({ lanes, model }: Campaign, field: Field, units: UnitSystem): Mark[] {
  const { layout, rows } = field
  const { k, type, fine, head } = layout.sheet
  const x = layout.field.left - 2.5 * k
  return lanes.flatMap(({ bay, distance, allowable }): Mark[] => {
    const room = rows.lanes.get(bay)
    if (room === undefined) return []
    const note = model.project.bays[bay]?.note
    const middle = (room.top + room.bottom) / 2
    const facts = `${wholeLength(distance, units)} out${allowable === undefined ? '' : ` · ${showQuantity(allowable, 'Pa', units).replace(/\.0+(?=\s)/, '')}`}`
    const low = room.bottom - room.top < type.label + type.small + 1
    const oneLine = !fine || low
    const name = text([x, oneLine ? middle + type.label * 0.35 : middle - 0.3 * k], bay, {
      size: type.label,
      weight: 700,
      anchor: 'end',
    })
    const about = text([x, middle + type.small + 0.4 * k], facts, { size: type.small, ink: 'quiet', anchor: 'end' })
    const halo =
      head && !oneLine
        ? [
            box(
              {
                left: about.at[0] - about.width - 0.6,
                right: x + 0.6,
                top: middle - type.label,
                bottom: middle + type.small + 1,
              },
              { fill: 'paper' },
            ),
          ]
        : []
    return [
      level(room.bottom, layout.field.left - 24 * k, layout.field.right, stroke(0.15 * k, 'hair')),
      standFor(pointerOf('bays', bay), `Bay ${bay}${note === undefined ? '' : `, ${note}`}: ${facts}.`, [
        ...halo,
        name,
        ...(oneLine ? [] : [about]),
      ]),
    ]
  })
}
