import { type Mark, type PaperBox, text } from '../drawing.ts'
import { HEAD, SMALL, THIN } from '../paper/pen.ts'

/** Height that a view's heading takes, mm. */
export const HEADING = 12

/** Heading of a view: its letter in a circle, its title, and scale and direction beneath. */
export function viewHead(letter: string, title: string, under: string, { left, top }: PaperBox): Mark[] {
  return [
    { kind: 'circle', centre: [left + 3, top + 3.4], radius: 2.6, stroke: THIN },
    text([left + 3, top + 4.5], letter, { size: 3, weight: 700, anchor: 'middle' }),
    text([left + 7.4, top + 4.2], title, { size: HEAD, weight: 700 }),
    text([left + 7.4, top + 7.6], under, { size: SMALL, ink: 'quiet' }),
  ]
}

/** The room under a heading. */
export const underHead = (room: PaperBox): PaperBox => ({ ...room, top: room.top + HEADING })

/** A box drawn in on every side, mm. */
export const inset = ({ left, top, right, bottom }: PaperBox, by: number): PaperBox => ({
  left: left + by,
  top: top + by,
  right: right - by,
  bottom: bottom - by,
})
