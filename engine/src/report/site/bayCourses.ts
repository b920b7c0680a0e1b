import {
  type BaySettled,
  bayCourse,
  momentText,
  mostSettled,
  outsideAt,
  pressingInOrder,
  settledBy,
} from '../../ground/index.ts'
import { freshMemory } from '../../working/memory.ts'
import { pointerOf } from '../../working/pointer.ts'
import { showNumber, shownScale, showQuantity } from '../../working/quantity.ts'
import { box, line, type Mark, type PaperBox, standFor, text, type View } from '../drawing.ts'
import { ATTENTION, FINE, GRID, HIDDEN, SMALL } from '../paper/pen.ts'
import { OPEN } from '../sheet/figures.ts'
import { HEADING, underHead } from '../views/head.ts'
import { siteHead } from './siteHead.ts'
import type { SiteSubject } from './subject.ts'

/** A bay step by step, each step at its worse moment. */
export interface CourseOfBay {
  id: string
  name: string
  /** m; undefined where the project has none. */
  limit: number | undefined
  steps: readonly BaySettled[]
  most: BaySettled
}

/** What stands before any step, where no step shows all of it, then every step of the order. */
const statesOf = ({ ground: { standing, steps } }: SiteSubject['stages']) => [
  ...(standing === undefined ? [] : [standing]),
  ...steps,
]

/** Bays on which something stands at some step, or before any. */
export function coursesOf({ stages }: SiteSubject): CourseOfBay[] {
  const { model } = stages
  const states = statesOf(stages)
  const memory = freshMemory()
  const pressing = pressingInOrder(
    model,
    states.map((state) => outsideAt(state, memory)),
    memory,
  )
  return Object.entries(model.project.bays).flatMap(([id, bay]): CourseOfBay[] => {
    const course = bayCourse(model, id, pressing, memory)
    const most = mostSettled(course)
    if (most === undefined) return []
    const steps = states.flatMap(({ step }) => mostSettledOf(course.filter((s) => s.step === step)))
    return [{ id, name: bay.name ?? id, limit: bay.settlement?.value, steps, most }]
  })
}

const heft = (s: BaySettled): number => settledBy(s) ?? Number.POSITIVE_INFINITY
const mostSettledOf = (moments: readonly BaySettled[]): BaySettled[] =>
  moments.length === 0 ? [] : [moments.reduce((a, b) => (heft(b) > heft(a) ? b : a))]

/** The step at which some bay uses most of the settlement that it may have; the first where none may have any. */
export function settledMostStep(courses: readonly CourseOfBay[]): string | undefined {
  const use = ({ most, limit }: CourseOfBay): number => heft(most) / (limit ?? Number.POSITIVE_INFINITY)
  return courses.length === 0 ? undefined : courses.reduce((a, b) => (use(b) > use(a) ? b : a)).most.step
}

const NAMES = 26
const FOOT = 27
const TALLEST = 34
const HEAD = 7
const FIGURE = 4

/** Height that the panels of so many bays ask for, mm. */
export const coursesHeight = (bays: number): number => HEADING + bays * TALLEST + FOOT

/** Settlement of every bay over the campaign: from what stands on it, under that from what stands beside it, and the limit. */
export function coursesView(subject: SiteSubject, courses: readonly CourseOfBay[], room: PaperBox): View {
  const body = underHead(room)
  const high = Math.min(TALLEST, (body.bottom - FOOT - body.top) / Math.max(1, courses.length))
  const at = (i: number): PaperBox => ({
    left: body.left + NAMES,
    right: body.right - 1,
    top: body.top + i * high + HEAD,
    bottom: body.top + (i + 1) * high,
  })
  const last = at(courses.length - 1)
  return {
    kind: 'view',
    id: 'site-bay-courses',
    title: 'Settlement of the bays over the campaign, step by step',
    marks: [
      ...siteHead(
        subject,
        '1',
        'Settlement of the bays over the campaign',
        'downwards; grey, from what stands on the bay; light, from what stands beside it; dashed, what the work on it allows',
        room,
      ),
      ...courses.flatMap((course, i) => courseMarks(subject, course, at(i))),
      ...stepNames(subject, courses[0], last),
    ],
  }
}

const pitchOf = (course: CourseOfBay, { left, right }: PaperBox): number => (right - left) / course.steps.length

function courseMarks({ units }: SiteSubject, course: CourseOfBay, at: PaperBox): Mark[] {
  const { id, name, limit, steps, most } = course
  const deepest = Math.max(limit ?? 0, ...steps.map((s) => settledBy(s) ?? 0))
  const scale = shownScale(deepest, 'm', units)
  const y = (w: number): number => at.top + (deepest === 0 ? 0 : (w / deepest) * (at.bottom - at.top - FIGURE))
  const pitch = pitchOf(course, at)
  const worst = settledBy(most)
  const isOver = limit !== undefined && worst !== undefined && worst > limit
  const shown = (w: number | undefined): string =>
    w === undefined ? OPEN : showNumber(w / scale.factor, scale.decimals)
  return [
    text([at.left - NAMES, at.top + SMALL * 0.36], name, { size: SMALL + 0.3, weight: 700 }),
    text([at.left - NAMES, at.top + 3.6], `most ${showQuantity(worst, 'm', units, deepest)}`, {
      size: SMALL,
      ...(isOver ? { ink: 'fail', weight: 700 } : {}),
    }),
    ...(limit === undefined
      ? []
      : [
          text([at.left - NAMES, at.top + 6.9], `allowed ${showQuantity(limit, 'm', units, deepest)}`, { size: SMALL }),
          line([[at.left, y(limit)], [at.right, y(limit)]], HIDDEN), // biome-ignore format: two ends
        ]),
    ...steps.map((s, i): Mark => {
      const [left, right] = [at.left + i * pitch + pitch * 0.15, at.left + (i + 1) * pitch - pitch * 0.15]
      const [own, all] = [s.own ?? 0, settledBy(s)]
      const over = limit !== undefined && all !== undefined && all > limit
      return standFor(pointerOf('bays', id), `${name}, ${momentText(s.step, s.when)}: ${shown(all)} ${scale.label}`, [
        box({ left, right, top: at.top, bottom: y(own) }, { fill: 'steel', stroke: FINE }),
        box({ left, right, top: y(own), bottom: y(all ?? own) }, { fill: 'pale', stroke: over ? ATTENTION : FINE }),
        ...(s === most || all === undefined
          ? [
              text([(left + right) / 2, y(all ?? own) + SMALL + 0.5], shown(all), {
                size: SMALL,
                anchor: 'middle',
                tabular: true,
                weight: 700,
                ...(over ? { ink: 'fail' } : {}),
              }),
            ]
          : []),
      ])
    }),
    line([[at.left, at.top], [at.right, at.top]], FINE), // biome-ignore format: two ends
  ]
}

/** Under the lowest panel, with a hairline down from each step. */
function stepNames({ stages, step }: SiteSubject, first: CourseOfBay | undefined, at: PaperBox): Mark[] {
  if (first === undefined) return []
  const pitch = pitchOf(first, at)
  return statesOf(stages).flatMap((s, i): Mark[] => {
    const x = at.left + (i + 0.5) * pitch
    return [
      line([[x, at.bottom], [x, at.bottom + 1.2]], GRID), // biome-ignore format: two ends
      text([x + SMALL * 0.36, at.bottom + 1.8], s.step, {
        size: SMALL,
        turn: 90,
        anchor: 'end',
        weight: s.step === step?.step ? 700 : 400,
      }),
    ]
  })
}
