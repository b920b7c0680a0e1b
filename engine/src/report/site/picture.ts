import { type Drawing, drawing } from '../drawing.ts'
import type { Placing } from '../paper/scale.ts'
import type { SheetStages } from '../sheet/subject.ts'
import { HEADING } from '../views/head.ts'
import type { Need, Pictured } from './layout.ts'
import { planFrame } from './planFrame.ts'
import { PLAN_PADS, planPlacing, sitePlanView } from './planView.ts'
import { ACROSS_ALONE_PADS, ACROSS_PADS, acrossView } from './sectionAcross.ts'
import { ALONG_PADS, alongView } from './sectionAlong.ts'
import { acrossFrame, alongFrame } from './sectionFrame.ts'
import { type FigureTable, judged } from './shaft/figures.ts'
import { SHAFT_PICTURE, type ShaftPictureName } from './shaft/siteShaft.ts'
import { BETWEEN, needOf } from './siteSections.ts'
import { coursesOnPage, linesOnPage } from './siteSettlement.ts'
import { type SiteOptions, type SiteSubject, siteSubject } from './subject.ts'

/** What of the site is shown on a page: the plan, both sections side by side, or one of them; settlement along lines and of the bays; the shaft and the machine in it. */
export type SitePicture = 'plan' | 'sections' | 'along' | 'across' | 'settlement' | 'courses' | ShaftPictureName

export interface PictureOptions extends Pick<SiteOptions, 'units' | 'step'> {
  /** Width of its place, in millimetres of a screen. */
  width: number
}

/** A drawing of the site for a page: the views of the sheet without border and print, as large as its place allows. */
export function sitePicture(stages: SheetStages, of: SitePicture, options: PictureOptions): Drawing {
  const { width: place, ...own } = options
  const width = Math.max(LEAST_WIDTH, place)
  const subject = siteSubject(stages, { ...own, screen: true, untitled: of !== 'sections' })
  const { need, views } = PICTURES[of](subject, width)
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

/** Nothing is drawn of what the project lacks. */
function shaftPicture(name: ShaftPictureName) {
  const { missing, pictured } = SHAFT_PICTURE[name]
  return (subject: SiteSubject, width: number): Pictured =>
    missing(subject) === undefined
      ? pictured(subject, width)
      : { need: { wide: 1, high: 0, padWide: 0, padHigh: 0 }, views: () => [] }
}

const PICTURES: Readonly<Record<SitePicture, (subject: SiteSubject, width: number) => Pictured>> = {
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
  'as-built': shaftPicture('as-built'),
  stages: shaftPicture('stages'),
  slide: shaftPicture('slide'),
  cradle: shaftPicture('cradle'),
  jacks: shaftPicture('jacks'),
  charts: shaftPicture('charts'),
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

/** What stands beside a picture of the shaft: its figures, the checks that judge it, how to read it, or what it lacks. */
export interface BesidePicture {
  missing: string | undefined
  table: FigureTable | undefined
  checks: readonly string[]
  notes: readonly string[]
}

/** What stands beside a picture; undefined beside one of the site, which the page's own tables explain. */
export function besidePicture(
  stages: SheetStages,
  of: SitePicture,
  options: Pick<SiteOptions, 'units' | 'step'>,
): BesidePicture | undefined {
  if (!isShaftPicture(of)) return undefined
  const subject = siteSubject(stages, options)
  const { missing, table, judged: kinds, notes } = SHAFT_PICTURE[of]
  const lacks = missing(subject)
  return {
    missing: lacks,
    table: lacks === undefined ? table(subject) : undefined,
    checks: judged(subject, kinds).map((c) => c.id),
    notes: lacks === undefined ? notes(subject) : [],
  }
}

const isShaftPicture = (of: SitePicture): of is ShaftPictureName => Object.hasOwn(SHAFT_PICTURE, of)
