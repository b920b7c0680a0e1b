import { type Arcs, sourceOf } from './arcs.ts'
import type { Clause, Clauses } from './clauses.ts'
import { ARC, CLAUSE, DECISION, madeTrueBy, type Trail, WRITTEN, wider } from './trail.ts'
import { meet, type Turns } from './turns.ts'

/** What a conflict teaches: a clause that forces its first literal at a lower level. */
export interface Lesson {
  literals: Int32Array
  backLevel: number
  spread: number
}

/** Room for the analysis, kept between conflicts. */
export interface Desk {
  /** Value still to be explained, by view, and the entry that made it true; −1: none. */
  value: Int32Array
  entry: Int32Array
  open: Int32Array
  openCount: number
  listed: Uint8Array
  /** Entries at the level of the conflict that are still to be explained. */
  pending: number
  /** Reasons under review, one on the other. */
  stack: Int32Array
  top: number
  /** By entry: the round of its last verdict, for which value, and whether it is implied. */
  round: Int32Array
  asked: Int32Array
  implied: Uint8Array
  rounds: number
}

/** What the analysis reads and writes. */
export interface Ground {
  trail: Trail
  arcs: Arcs
  clauses: Clauses
  desk: Desk
  turns: Turns
}

export const deskOf = (views: number): Desk => ({
  value: new Int32Array(views),
  entry: new Int32Array(views).fill(-1),
  open: new Int32Array(views),
  openCount: 0,
  listed: new Uint8Array(views),
  pending: 0,
  stack: new Int32Array(1 << 12),
  top: 0,
  round: new Int32Array(1 << 12),
  asked: new Int32Array(1 << 12),
  implied: new Uint8Array(1 << 12),
  rounds: 0,
})

/**
 * First unique implication point: the literals of the conflict are traced back along the trail until one of the last level is
 * left. Nothing to learn, because the root alone is to blame: undefined.
 *
 * @param conflict place in the explanations of literals that cannot all hold
 */
export function learn(g: Ground, conflict: number): Lesson | undefined {
  const { trail, desk } = g
  causesOf(g, conflict)
  const top = latestOf(g)
  const level = top < 0 ? 0 : (trail.level[top] as number)
  if (level === 0) {
    desk.top = 0
    return undefined
  }
  const first = trail.levels[level - 1] as number
  desk.pending = 0
  needAll(g, 0, first)
  for (let at = top; ; at--) {
    const view = trail.view[at] as number
    if (desk.entry[view] !== at) continue
    if (desk.pending === 1) {
      shorten(g, view)
      return lessonOf(g, view, level)
    }
    desk.pending--
    desk.entry[view] = -1
    const base = desk.top
    reasonOf(g, at, desk.value[view] as number)
    needAll(g, base, first)
  }
}

function put(desk: Desk, view: number, value: number): void {
  if (desk.top + 2 > desk.stack.length) desk.stack = wider(desk.stack, 2 * desk.stack.length)
  desk.stack[desk.top] = view
  desk.stack[desk.top + 1] = value
  desk.top += 2
}

/**
 * A bound that was just pushed past its opposite is no cause of itself: in its place stands what pushed it, which may lie
 * below the level at which it was noticed.
 */
function causesOf(g: Ground, conflict: number): void {
  const { trail: t, desk } = g
  const last = t.length - 1
  const view = last < 0 ? -1 : (t.view[last] as number)
  const past = view >= 0 && (t.bound[view] as number) > -(t.bound[view ^ 1] as number)
  const count = t.arena[conflict] as number
  for (let i = 1; i <= count; i += 2) {
    const [cause, value] = [t.arena[conflict + i] as number, t.arena[conflict + i + 1] as number]
    if (past && cause === view && t.kind[last] !== DECISION && (t.before[last] as number) < value)
      reasonOf(g, last, value)
    else put(desk, cause, value)
  }
}

function latestOf({ trail, desk }: Ground): number {
  let top = -1
  for (let i = 0; i < desk.top; i += 2)
    top = Math.max(top, madeTrueBy(trail, desk.stack[i] as number, desk.stack[i + 1] as number))
  return top
}

/** Puts the literals above a place of the stack among those to be explained, and takes them off. */
function needAll(g: Ground, base: number, first: number): void {
  const { trail: t, desk } = g
  const root = t.levels[0] as number
  for (let i = base; i < desk.top; i += 2) {
    const [view, value] = [desk.stack[i] as number, desk.stack[i + 1] as number]
    const at = madeTrueBy(t, view, value)
    if (at < root) continue
    const known = desk.entry[view] as number
    if (known === at && value > (desk.value[view] as number)) desk.value[view] = value
    if (known >= at) continue
    meet(g.turns, view, value)
    if (desk.listed[view] === 0) {
      desk.listed[view] = 1
      desk.open[desk.openCount++] = view
    }
    if (at >= first && known < first) desk.pending++
    desk.value[view] = value
    desk.entry[view] = at
  }
  desk.top = base
}

/** Puts on the stack the literals that made an entry as large as asked for. An arc needs no more of its source than that. */
function reasonOf({ trail: t, arcs, clauses, desk }: Ground, at: number, asked: number): void {
  const place = t.place[at] as number
  switch (t.kind[at]) {
    case ARC:
      put(desk, arcs.from[place] as number, sourceOf(t, arcs, place, asked))
      if ((arcs.whenView[place] as number) >= 0)
        put(desk, arcs.whenView[place] as number, arcs.whenValue[place] as number)
      return
    case CLAUSE: {
      const clause = clauses.all[place] as Clause
      clause.activity++
      const view = t.view[at] as number
      const { literals } = clause
      for (let i = 0; i < literals.length; i += 2)
        if (literals[i] !== view) put(desk, (literals[i] as number) ^ 1, 1 - (literals[i + 1] as number))
      return
    }
    case WRITTEN: {
      const count = t.arena[place] as number
      for (let i = 1; i <= count; i += 2) put(desk, t.arena[place + i] as number, t.arena[place + i + 1] as number)
      return
    }
    default:
      throw new Error('a decision has no reason')
  }
}

/** Leaves out literals that the others imply, through any number of steps. */
function shorten(g: Ground, point: number): void {
  const { trail: t, desk } = g
  if (desk.round.length < t.length) {
    desk.round = wider(desk.round, t.view.length)
    desk.asked = wider(desk.asked, t.view.length)
    const implied = new Uint8Array(t.view.length)
    implied.set(desk.implied)
    desk.implied = implied
  }
  desk.rounds++
  for (let k = 0; k < desk.openCount; k++) {
    const view = desk.open[k] as number
    const at = desk.entry[view] as number
    if (at < 0 || view === point || t.kind[at] === DECISION) continue
    if (follows(g, at, desk.value[view] as number, MOST_STEPS)) desk.entry[view] = DROPPED
  }
}

const MOST_STEPS = 12
/** Of an entry: implied by the others, and so not part of the lesson. */
const DROPPED = -2

/** Whether all that made an entry as large as asked is at the root or implied by literals of the lesson. */
function follows(g: Ground, at: number, asked: number, steps: number): boolean {
  const { trail: t, desk } = g
  if (t.kind[at] === DECISION || steps === 0) return false
  if (desk.round[at] === desk.rounds) {
    if (desk.implied[at] === 1 && (desk.asked[at] as number) >= asked) return true
    if (desk.implied[at] === 0 && (desk.asked[at] as number) <= asked) return false
  }
  const base = desk.top
  reasonOf(g, at, asked)
  const stop = desk.top
  let all = true
  for (let i = base; all && i < stop; i += 2)
    all = granted(g, desk.stack[i] as number, desk.stack[i + 1] as number, at, steps)
  desk.top = base
  desk.round[at] = desk.rounds
  desk.asked[at] = asked
  desk.implied[at] = all ? 1 : 0
  return all
}

function granted(g: Ground, view: number, value: number, before: number, steps: number): boolean {
  const { trail: t, desk } = g
  const known = desk.entry[view] as number
  // a later, stronger one may itself hang on this one
  if (known >= 0 && known < before && (desk.value[view] as number) >= value) return true
  const made = madeTrueBy(t, view, value)
  return made < (t.levels[0] as number) || follows(g, made, value, steps - 1)
}

function lessonOf({ trail: t, desk }: Ground, point: number, level: number): Lesson {
  const others: number[] = []
  for (let k = 0; k < desk.openCount; k++) {
    const view = desk.open[k] as number
    if ((desk.entry[view] as number) >= 0 && view !== point) others.push(view)
  }
  const levelOf = (view: number): number => t.level[desk.entry[view] as number] as number
  others.sort((a, b) => levelOf(b) - levelOf(a) || a - b)
  const literals = new Int32Array(2 * others.length + 2)
  literals[0] = point ^ 1
  literals[1] = 1 - (desk.value[point] as number)
  let [spread, before] = [1, level]
  others.forEach((view, k) => {
    literals[2 * k + 2] = view ^ 1
    literals[2 * k + 3] = 1 - (desk.value[view] as number)
    if (levelOf(view) !== before) spread++
    before = levelOf(view)
  })
  const backLevel = others.length === 0 ? 0 : levelOf(others[0] as number)
  for (let k = 0; k < desk.openCount; k++) {
    desk.entry[desk.open[k] as number] = -1
    desk.listed[desk.open[k] as number] = 0
  }
  desk.openCount = 0
  desk.top = 0
  return { literals, backLevel, spread }
}
