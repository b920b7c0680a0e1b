import { type Mark, type PaperBox, text } from '../drawing.ts'
import { shortened } from '../paper/border.ts'
import { SMALL } from '../paper/pen.ts'
import { viewHead } from '../views/head.ts'
import type { SiteSubject } from './subject.ts'

/** Heading of a view; where the page has a heading of its own, only what stands under it. */
export const siteHead = (
  { options }: SiteSubject,
  letter: string,
  title: string,
  under: string,
  room: PaperBox,
): Mark[] => {
  const kept = shortened(under, SMALL, room.right - room.left - (options.untitled ? 1 : BESIDE))
  return options.untitled
    ? [text([room.left + 0.5, room.top + 5], kept, { size: SMALL, ink: 'quiet' })]
    : viewHead(letter, title, kept, room)
}

/** Taken by the letter in its circle, mm. */
const BESIDE = 8
