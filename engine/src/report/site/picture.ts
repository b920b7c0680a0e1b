import { type Drawing, drawing, type View } from '../drawing.ts'
import type { Placing } from '../paper/scale.ts'
import type { SheetStages } from '../sheet/subject.ts'
import { HEADING } from '../views/head.ts'
import type { Need } from './layout.ts'
import { planFrame } from './planFrame.ts'
import { PLAN_PADS, planPlacing, sitePlanView } from './planView.ts'
import { ACROSS_ALONE_PADS, ACROSS_PADS, acrossView } from './sectionAcross.ts'
import { ALONG_PADS, alongView } from './sectionAlong.ts'
import { acrossFrame, alongFrame } from './sectionFrame.ts'
import { BETWEEN, needOf } from './siteSections.ts'
import { coursesOnPage, linesOnPage } from './siteSettlement.ts'
import { type SiteOptions, type SiteSubject, siteSubject } from './subject.ts'

/** What of the site is shown on a page: the plan, both sections side by side, or one of them; settlement along lines and of the bays. */
export type SitePicture = 'plan' | 'sections' | 'along' | 'across' | 'settlement' | 'courses'

export interface PictureOptions extends Pick<SiteOptions, 'units' | 'step'> {
  /** Width of its place, in millimetres of a screen. */
  width: number
}

/** A drawing of the site for a page: the views of the sheet without border and print, as large as its place allows. */
export function sitePicture(stages: SheetStages, of: SitePicture, options: PictureOptions): Drawing {
  const { width: place, ...own } = options
  const width = Math.max(LEAST_WIDTH, place)
  const subject = siteSubject(stages, { ...own, screen: true, untitled: of !== 'sections' })
  const { need, views } = PICTURES[of](subject)
  const ratio = ratioOf(need, width)
  const height = (need.high * 1000) / ratio + need.padHigh + HEADING
  const drawn = views(ratio, { left: 0, top: 0, right: width, bottom: height })
  return drawing(drawn.map((v) => v.title).join('; '), width, height, drawn)
}

const ratioOf = (need: Need, width: number): number => (need.wide * 1000) / Math.max(LEAST, width - need.padWide - 1)

/** How the plan lies on that drawing, so that a place on it is a place on the site. */
export function planOnPage({ model }: SheetStages, place: number): Placing {
  const frame = planFrame(model) ?? NOTHING
  return planPlacing(frame, ratioOf(needOf(frame, PLAN_PADS), Math.max(LEAST_WIDTH, place)), { left: 0, top: 0 })
}

const NOTHING = { left: -10, right: 10, bottom: -10, top: 10 }

/** In a narrower place the whole picture shrinks, mm. */
const LEAST_WIDTH = 110
/** However narrow the place, the picture keeps so much of it, mm. */
const LEAST = 40

interface Pictured {
  need: Need
  views: (ratio: number, room: { left: number; top: number; right: number; bottom: number }) => View[]
}

const PICTURES: Readonly<Record<SitePicture, (subject: SiteSubject) => Pictured>> = {
  plan: (subject) => {
    const frame = planFrame(subject.stages.model) ?? NOTHING
    return {
      need: needOf(frame, PLAN_PADS),
      views: (ratio, room) => [sitePlanView(subject, frame, ratio, room)],
    }
  },
  along: (subject) => {
    const frame = alongFrame(subject)
    return {
      need: needOf(frame, ALONG_PADS),
      views: (ratio, room) => [alongView(subject, frame, ratio, room)],
    }
  },
  across: (subject) => {
    const frame = acrossFrame(subject)
    return {
      need: needOf(frame, ACROSS_ALONE_PADS),
      views: (ratio, room) => [acrossView(subject, frame, ratio, room, true)],
    }
  },
  settlement: linesOnPage,
  courses: coursesOnPage,
  sections: (subject) => {
    const [along, across] = [alongFrame(subject), acrossFrame(subject)]
    const [a, b] = [needOf(along, ALONG_PADS), needOf(across, ACROSS_PADS)]
    return {
      need: {
        wide: a.wide + b.wide,
        high: a.high,
        padWide: a.padWide + b.padWide + BETWEEN,
        padHigh: a.padHigh,
      },
      views: (ratio, room) => {
        const width = (b.wide * 1000) / ratio + b.padWide
        return [
          acrossView(subject, across, ratio, { ...room, right: width }, false),
          alongView(subject, along, ratio, { ...room, left: width + BETWEEN }, '2'),
        ]
      },
    }
  },
}
