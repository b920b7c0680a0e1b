import { type Moment, type Pressing, pressingAt, settlementAt } from '../../ground/index.ts'
import type { Bay, Ground } from '../../model/index.ts'
import type { Frame2, Point2 } from '../outline/convex.ts'
import { wallRadius } from '../views/shaft.ts'
import { planFrame, planOf } from './planFrame.ts'
import type { SiteSubject } from './subject.ts'

/** A straight line over the site along which settlement is drawn. */
export interface TroughLine {
  letter: string
  /** The site axis that it runs along; it lies `off` from the other. */
  along: 'x' | 'y'
  off: number
  /** Ends along it, m. */
  from: number
  to: number
  bays: readonly string[]
  /** What else it passes through. */
  feet: boolean
}

export const MOMENTS: readonly Moment[] = ['lifting', 'set down']

/** Of the width of a bay: a line nearer to its middle than this passes through it. */
const THROUGH = 0.25
const MOST_LINES = 6
const SAME = 1

type Candidate = Pick<TroughLine, 'along' | 'off'>

/** Lines that together pass through every bay and every foot, as few as it takes, parallel to the axes of the site. */
export function troughLines(subject: SiteSubject): TroughLine[] {
  const { model } = subject.stages
  const frame = planFrame(model)
  if (frame === undefined) return []
  const bays = Object.entries(model.project.bays)
  const lines: (Candidate & { bays: string[] })[] = []
  let left = bays
  while (left.length > 0 && lines.length < MOST_LINES) {
    const best = candidates(left)
      .map((c) => ({ ...c, bays: left.filter(([, bay]) => isThrough(c, bay)).map(([id]) => id) }))
      .sort((a, b) => b.bays.length - a.bays.length || alike(lines[0], b) - alike(lines[0], a))[0]
    if (best === undefined) break
    lines.push({ ...best, bays: bays.filter(([, bay]) => isThrough(best, bay)).map(([id]) => id) })
    left = left.filter(([id]) => !best.bays.includes(id))
  }
  const all = [
    ...lines.map((l) => ({ ...l, feet: false })),
    ...feetOf(subject)
      .filter((x) => !lines.some((l) => l.along === 'y' && Math.abs(l.off - x) < SAME))
      .map((off) => ({ along: 'y' as const, off, bays: [], feet: true })),
  ]
  return all.slice(0, MOST_LINES).map((l, i) => ({ ...l, ...endsOf(l, frame), letter: LETTERS[i] as string }))
}

const LETTERS = 'ABCDEFGHJK'

const candidates = (bays: readonly [string, Bay][]): Candidate[] =>
  bays.flatMap(([, { centre }]): Candidate[] => {
    const [x, y] = planOf(centre)
    return [
      { along: 'y', off: x },
      { along: 'x', off: y },
    ]
  })

function isThrough({ along, off }: Candidate, { centre, size }: Bay): boolean {
  const across = along === 'y' ? 0 : 1
  return Math.abs(planOf(centre)[across] - off) <= THROUGH * planOf(size)[across]
}

const alike = (first: Candidate | undefined, { along }: Candidate): number => (first?.along === along ? 1 : 0)

/** Rails, or else where legs stand, along x. */
function feetOf({ stages }: SiteSubject): number[] {
  const xs = Object.values(stages.model.project.systems).flatMap((s) => [
    ...(s.rails === undefined ? [] : planOf(s.rails)),
    ...Object.values(s.legs).map((leg) => leg.x.value as number),
  ])
  return xs.filter((x, i) => xs.findIndex((other) => Math.abs(other - x) < SAME) === i).sort((a, b) => a - b)
}

const endsOf = ({ along }: Candidate, { left, right, bottom, top }: Frame2) =>
  along === 'x' ? { from: left, to: right } : { from: bottom, to: top }

/** A point of a line on the site. */
export const onLine = ({ along, off }: Candidate, u: number): Point2 => (along === 'x' ? [u, off] : [off, u])
/** Where a place lies along a line, and how far beside it. */
export const alongLine = ({ along, off }: Candidate, [x, y]: Point2): Point2 =>
  along === 'x' ? [x, y - off] : [y, x - off]

/** What of a rectangle a line passes through, from and to along it; undefined where it passes beside. */
export function spanOn(line: Candidate, at: Point2, size: Point2): Point2 | undefined {
  const [u, beside] = alongLine(line, at)
  const [long, wide] = line.along === 'x' ? size : ([size[1], size[0]] as const)
  return Math.abs(beside) < wide / 2 ? [u - long / 2, u + long / 2] : undefined
}

/** The opening of the shaft on a line, at a radius. */
export function openingOn({ off }: Candidate, radius: number): Point2 | undefined {
  if (Math.abs(off) >= radius) return undefined
  const half = Math.sqrt(radius ** 2 - off ** 2)
  return [-half, half]
}

/** Something that presses on a line, with where it does. */
export interface OnLine {
  is: Pressing
  span: Point2
}

/** One run of a settlement curve: over open ground, or over what presses there, at its own level. */
export interface Run {
  /** What it lies under. */
  under: OnLine | undefined
  /** Along the line, m, and settlement, m; a place whose settlement is not known is left out. */
  points: readonly Point2[]
}

const APART = 2
/** Curves bend most beside what presses, m. */
const BESIDE = [-0.6, -0.15, 0.15, 0.6]

/** Settlement along a line at one moment of the step shown, the shaft left out. */
export function runsAlong(subject: SiteSubject, ground: Ground, line: TroughLine, when: Moment): Run[] {
  const pressing = pressingAt(subject.stages.model, subject.step?.loads ?? [], when)
  const things = thingsOn(line, pressing)
  const settled = (u: number, level: number) => settlementAt(ground, pressing, { at: onLine(line, u), level })
  const pointsFrom = (us: readonly number[], level: number): Point2[] =>
    us.flatMap((u): Point2[] => {
      const w = settled(u, level)
      return w === undefined ? [] : [[u, w]]
    })
  const surface = ground.surface.value as number
  return [
    ...openGround(subject, line, things).map(
      ([from, to]): Run => ({ under: undefined, points: pointsFrom(stationsOf(from, to), surface) }),
    ),
    ...things.map((under): Run => {
      const [from, to] = under.span
      return { under, points: pointsFrom(evenly(from, to, 8), under.is.level) }
    }),
  ]
}

/** What presses and is crossed, whose plan is known. */
export const thingsOn = (line: Candidate, pressing: readonly Pressing[]): OnLine[] =>
  pressing
    .flatMap((is): OnLine[] => {
      const span = is.size === undefined ? undefined : spanOn(line, is.at, is.size)
      return span === undefined ? [] : [{ is, span }]
    })
    .sort((a, b) => a.span[0] - b.span[0])

/** Stretches of a line with nothing on them and no shaft. */
function openGround({ stages }: SiteSubject, line: TroughLine, things: readonly OnLine[]): Point2[] {
  const { shaft } = stages.model.project
  const hole = shaft === undefined ? undefined : openingOn(line, wallRadius(shaft))
  const taken = [...things.map((t) => t.span), ...(hole === undefined ? [] : [hole])].sort((a, b) => a[0] - b[0])
  const open: Point2[] = []
  let from = line.from
  for (const [a, b] of taken) {
    if (a > from) open.push([from, a])
    from = Math.max(from, b)
  }
  return line.to > from ? [...open, [from, line.to]] : open
}

const evenly = (from: number, to: number, parts: number): number[] =>
  Array.from({ length: parts + 1 }, (_, i) => from + ((to - from) * i) / parts)

function stationsOf(from: number, to: number): number[] {
  const even = evenly(from, to, Math.max(1, Math.ceil((to - from) / APART)))
  const near = BESIDE.map((d) => (d > 0 ? from + d : to + d)).filter((u) => u > from && u < to)
  return [...even, ...near].sort((a, b) => a - b)
}
