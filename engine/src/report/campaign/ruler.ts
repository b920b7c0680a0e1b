import { showNumber } from '../../working/quantity.ts'
import { civilDay, DAY, dayText, MONTHS } from '../civil.ts'
import { box, boxesMeet, type Mark, type PaperBox, text, textBox, textsOf } from '../drawing.ts'
import { textWidth } from '../fontWidth.ts'
import type { Campaign } from './campaign.ts'
import { todayFlag } from './dateMarks.ts'
import type { Field } from './field.ts'
import { level, stroke, tear, upright } from './pens.ts'
import { leastDay, type Stretch, weekOf } from './timeAxis.ts'
import { dateWords } from './words.ts'

/**
 * The ruler: one box a week, black and white, as wide as the stretch makes it, and one a day or an hour where one looks closely;
 * months above, days below; tears where the pace changes.
 */
export function rulerMarks(campaign: Campaign, field: Field): Mark[] {
  const { axis, layout } = field
  return [
    ...boxes(field),
    ...(tellsHours(field)
      ? [...wholeDates(campaign, field), ...hourMarks(campaign, field)]
      : [...monthMarks(campaign, field), ...dayMarks(campaign, field)]),
    ...axis.stretches.flatMap((s, i) => [...paceWords(s, field), ...(i === 0 ? [] : tearMarks(s.left, field))]),
    ...axis.stretches.filter((s) => s.cut).flatMap((s) => cutMarks(s, field)),
    ...phaseWords(campaign, field, axis.stretches.flatMap((s) => textsOf(paceWords(s, field))).map(textBox)),
    level(layout.collar, axis.left, axis.right, stroke(0.5 * layout.sheet.k)),
  ]
}

const BOX = 1.9

/** Room for one day from which hours are told, mm on A2. */
const HOURLY = 36
/** The same for a box of one day. */
const DAILY = 13

/** Days that one box of the ruler stands for: a week, a day where that is wide enough, an hour where hours are told. */
function boxDays({ axis, layout }: Field): number {
  const day = leastDay(axis.stretches) / layout.sheet.k
  return day >= HOURLY ? 1 / 24 : day >= DAILY ? 1 : 7
}

const tellsHours = (field: Field): boolean => boxDays(field) < 1

function boxes(field: Field): Mark[] {
  const { axis, layout } = field
  const { k } = layout.sheet
  const y = layout.ruler
  const marks: Mark[] = []
  const length = boxDays(field) * DAY
  for (let i = Math.floor(axis.from / length + 1e-9); i * length < axis.to - 1; i++) {
    const [from, to] = [Math.max(axis.from, i * length), Math.min(axis.to, (i + 1) * length)]
    if (axis.stretches.some((s) => s.cut && from >= s.from && to <= s.to)) continue
    const [left, right] = [axis.xAt(from), axis.xAt(to)]
    if (i % 2 === 0) marks.push(box({ left, right, top: y, bottom: y + BOX * k }, { fill: 'ink' }))
  }
  marks.push(box({ left: axis.left, right: axis.right, top: y, bottom: y + BOX * k }, { stroke: stroke(0.18 * k) }))
  return marks
}

/** Where hours are told, each day above the ruler by its whole date. */
function wholeDates({ origin }: Campaign, { axis, layout }: Field): Mark[] {
  const { k, type } = layout.sheet
  const marks: Mark[] = []
  for (let day = Math.floor(axis.from / DAY); day * DAY < axis.to - 1; day++) {
    const [left, right] = [axis.xAt(Math.max(axis.from, day * DAY)), axis.xAt((day + 1) * DAY)]
    marks.push(upright(left, layout.ruler - 4.4 * k, layout.ruler, stroke(0.18 * k)))
    const at = day * DAY
    const words = [`${dateWords(origin, at)}`, dateWords(origin, at, false), dayText(origin, at)]
      .map((w) => text([left + 0.8 * k, layout.ruler - 1.2 * k], w, { size: type.label }))
      .find((t) => t.width + 1.6 * k <= right - left)
    if (words !== undefined) marks.push(words)
  }
  return marks
}

const HOUR = 3600
const HOUR_STEPS = [1, 2, 3, 6, 12] as const

/** Hours below the ruler, as close as they can be read; the hours of lifting are bounded down through the field. */
function hourMarks(campaign: Campaign, field: Field): Mark[] {
  const { axis, layout } = field
  const { k, type } = layout.sheet
  const flag = todayFlag(campaign, field)
  const taken = flag === undefined ? undefined : textBox(flag)
  const hour = leastDay(axis.stretches) / 24
  const step = HOUR_STEPS.find((s) => s * hour > type.small * 2.2) ?? 12
  const y = layout.ruler + BOX * k
  const marks: Mark[] = []
  for (let i = Math.ceil(axis.from / HOUR - 1e-9); i * HOUR <= axis.to; i++) {
    const x = axis.xAt(i * HOUR)
    const ofDay = ((i % 24) + 24) % 24
    const isTold = ofDay % step === 0
    marks.push(upright(x, y, y + (isTold ? 1.7 : 0.8) * k, stroke(0.15 * k, 'edge')))
    if (ofDay === campaign.hours.from || ofDay === campaign.hours.to % 24)
      marks.push(upright(x, layout.ruler, layout.field.bottom, stroke(0.15 * k, 'hair')))
    if (!isTold || x - axis.left < type.small || axis.right - x < type.small) continue
    const words = text([x, y + type.small * 0.95 + 0.6 * k], `${ofDay}`, {
      size: type.small * 0.92,
      ink: 'quiet',
      anchor: 'middle',
    })
    if (taken === undefined || !boxesMeet(taken, textBox(words))) marks.push(words)
  }
  return marks
}

function monthMarks({ origin }: Campaign, { axis, layout }: Field): Mark[] {
  const { k, type } = layout.sheet
  const marks: Mark[] = []
  let free = axis.left
  let year: number | undefined
  for (let day = Math.floor(axis.from / DAY); day * DAY < axis.to; day++) {
    const date = civilDay(origin, day * DAY)
    const isFirst = day === Math.floor(axis.from / DAY)
    if (date.day !== 1 && !isFirst) continue
    const x = axis.xAt(day * DAY)
    const room = nextMonth(origin, day) * DAY
    const name = MONTHS[date.month - 1] as string
    const words = date.year === year ? name : `${name} ${date.year}`
    const width = textWidth(words, { size: type.label, weight: 400, tabular: false })
    const short = x + width + 1.5 * k > axis.xAt(Math.min(axis.to, room)) + 14 * k
    const isNamed = x >= free && !short && x + width <= axis.right
    if (x >= free || isNamed)
      marks.push(upright(x, layout.ruler - (isNamed ? 4.4 : 1.3) * k, layout.ruler, stroke(0.18 * k)))
    if (!isNamed) continue
    marks.push(text([x + 0.8 * k, layout.ruler - 1.2 * k], words, { size: type.label }))
    free = x + width + 2 * k
    year = date.year
  }
  return marks
}

/** Day of the first of the next month. */
function nextMonth(origin: string, from: number): number {
  let day = from + 1
  while (civilDay(origin, day * DAY).day !== 1) day++
  return day
}

/** Days of the month below the ruler where there is room: each week's Monday, or each day. */
function dayMarks(campaign: Campaign, field: Field): Mark[] {
  const { axis, layout } = field
  const { origin } = campaign
  const flag = todayFlag(campaign, field)
  const taken = flag === undefined ? undefined : textBox(flag)
  const { k, type, fine } = layout.sheet
  const marks: Mark[] = []
  if (!fine) return marks
  const y = layout.ruler + BOX * k
  for (const s of axis.stretches) {
    const width = weekOf(s) / 7
    if (s.cut || width < 1.1 * k) continue
    const each = width > type.small * 1.6 ? 1 : 7
    for (let day = Math.ceil(s.from / DAY); day * DAY < s.to; day++) {
      const x = axis.xAt(day * DAY)
      const isLong = day % 7 === 0
      if (width > 1.6 * k || isLong) marks.push(upright(x, y, y + (isLong ? 1.7 : 0.8) * k, stroke(0.15 * k, 'edge')))
      if (day % each !== 0 || x + type.small > s.right) continue
      const at = each === 1 ? x + width / 2 : x + 0.5 * k
      const number = text([at, y + type.small * 0.95 + 0.3 * k], String(civilDay(origin, day * DAY).day), {
        size: type.small * 0.92,
        ink: 'quiet',
        anchor: each === 1 ? 'middle' : 'start',
      })
      if (taken === undefined || !boxesMeet(taken, textBox(number))) marks.push(number)
    }
  }
  return marks
}

function paceWords(stretch: Stretch, { layout, axis }: Field): Mark[] {
  const { k, type, fine } = layout.sheet
  if (!fine || stretch.cut || axis.stretches.length === 1) return []
  const words = text(
    [stretch.right - 1.2 * k, layout.ruler + (BOX + 6.6) * k],
    `${showNumber(weekOf(stretch), 1)} mm a week`,
    { size: type.small, ink: 'quiet', anchor: 'end' },
  )
  return stretch.right - stretch.left < words.width + 24 * k ? [] : [words]
}

function tearMarks(x: number, { layout }: Field): Mark[] {
  const { k } = layout.sheet
  return [
    upright(x, layout.ruler + 2.5 * k, layout.field.bottom, stroke(0.15 * k, 'hair')),
    tear(x, layout.ruler + k, k, stroke(1.2 * k, 'paper')),
    ...[layout.ruler + k, layout.collar, layout.field.bottom].map((y) => tear(x, y, k, stroke(0.25 * k))),
  ]
}

/** A quiet stretch that is cut, with its length in the tear. */
function cutMarks(stretch: Stretch, { layout }: Field): Mark[] {
  const { k, type } = layout.sheet
  const weeks = Math.round((stretch.to - stretch.from) / DAY / 7)
  const x = (stretch.left + stretch.right) / 2
  const room = { left: stretch.left, right: stretch.right, top: layout.ruler - 0.5 * k, bottom: layout.ruler + 2.4 * k }
  const words = text([x + type.small * 0.35, layout.collar - 2 * k], `${weeks} weeks`, {
    size: type.small,
    ink: 'quiet',
    turn: 90,
  })
  return [
    box(room, { fill: 'paper' }),
    ...[stretch.left, stretch.right].map((at) => tear(at, layout.ruler + k, k, stroke(0.25 * k))),
    words,
  ]
}

/** What the phases are, under the ruler where each begins, in one row; those that find no room are left out. */
function phaseWords({ phases }: Campaign, { axis, layout }: Field, taken: readonly PaperBox[]): Mark[] {
  const { k, type, fine } = layout.sheet
  if (!fine) return []
  let free = axis.left
  const y = layout.ruler + (BOX + 6.6) * k
  return phases.flatMap(({ name, start, finish }): Mark[] => {
    if (finish < axis.from || start > axis.to) return []
    const x = Math.max(axis.left, axis.xAt(start))
    const words = text([x + 0.6 * k, y], name.replace(/^\d+\s+/, ''), { size: type.small, weight: 700 })
    const stretch = axis.stretches.find((s) => x < s.right) ?? axis.stretches.at(-1)
    const limit = (stretch?.right ?? axis.right) - 17 * k
    if (x < free || x + words.width > limit || taken.some((b) => boxesMeet(b, textBox(words)))) return []
    free = x + words.width + 3 * k
    return [upright(x, y - type.small, y + 0.6 * k, stroke(0.25 * k)), words]
  })
}
