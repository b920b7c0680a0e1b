import { DAY } from '../civil.ts'
import type { Mark } from '../drawing.ts'
import type { Field } from './field.ts'
import type { Wish } from './labelBook.ts'
import { level, stroke, upright } from './pens.ts'
import type { Row } from './rows.ts'

/** Start and finish of activities in an earlier plan, s from the start. */
export type Baseline = Readonly<Record<string, { start: number; finish: number }>>

/** A lift that an earlier plan had on another day: on its row, from then to now. */
interface Slip {
  pointer: string
  before: number
  now: number
  y: number
  foot: number
}

/** The first way out and the last way back of each row that moved half a day or more. */
function slipsOf({ rows }: Field['rows'], field: Field, baseline: Baseline): Slip[] {
  return rows
    .flatMap((row) => ends(row, baseline))
    .flatMap(({ track, before, now }) =>
      before === undefined || now === undefined || Math.abs(now - before) < DAY / 2 || !field.axis.shows(before)
        ? []
        : [{ pointer: track.pointer, before, now, y: field.onBay(track), foot: field.before(track) }],
    )
}

function ends({ tracks }: Row, baseline: Baseline) {
  const first = tracks[0] as Row['tracks'][number]
  const last = [...tracks].sort((a, b) => (b.back ?? 0) - (a.back ?? 0))[0] as Row['tracks'][number]
  return [
    { track: first, before: baseline[`${first.step}.out`]?.finish, now: first.out as number | undefined },
    { track: last, before: baseline[`${last.step}.back`]?.start, now: last.back },
  ]
}

/** Where an earlier plan had each lift: a dotted upright, and on the row a span to where it is now. */
export function slipMarks(field: Field, baseline: Baseline | undefined): Mark[] {
  if (baseline === undefined) return []
  const { k } = field.layout.sheet
  return slipsOf(field.rows, field, baseline).flatMap(({ before, now, y, foot }): Mark[] => {
    const [from, to] = [field.axis.xAt(before), field.axis.xAt(now)]
    const ink = now > before ? 'fail' : 'quiet'
    return [
      upright(from, y, foot, stroke(0.25 * k, 'quiet', [0.3 * k, 0.9 * k])),
      level(y - 1.7 * k, from, to, stroke(0.35 * k, ink)),
      ...[from, to].map((x) => upright(x, y - 2.3 * k, y - 1.1 * k, stroke(0.35 * k, ink))),
    ]
  })
}

/** The days between, over the span. */
export function slipWishes(field: Field, baseline: Baseline | undefined): Wish[] {
  if (baseline === undefined) return []
  const { k, type } = field.layout.sheet
  return slipsOf(field.rows, field, baseline).map(({ pointer, before, now, y }): Wish => {
    const days = Math.round((now - before) / DAY)
    const x = (field.axis.xAt(before) + field.axis.xAt(now)) / 2
    return {
      forms: [[`${Math.abs(days)} d ${days > 0 ? 'later' : 'sooner'}`], [`${Math.abs(days)} d`]],
      spots: [
        { x, y: y - 2.7 * k, anchor: 'middle' },
        { x, y: y + type.small * 1.1, anchor: 'middle' },
      ],
      size: type.small,
      weight: 700,
      ink: days > 0 ? 'fail' : 'quiet',
      of: pointer,
      isMinor: true,
    }
  })
}
