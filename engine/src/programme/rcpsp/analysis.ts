import type { Clause, Clauses } from './clauses.ts'
import { ARC, CLAUSE, DECISION, levelAt, madeTrueBy, type Trail, WRITTEN } from './trail.ts'

/** A minimal lag between two views: to ≥ from + weight. */
export interface Arcs {
  from: Int32Array
  to: Int32Array
  weight: Int32Array
}

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
  open: number[]
}

export const deskOf = (views: number): Desk => ({
  value: new Int32Array(views),
  entry: new Int32Array(views).fill(-1),
  open: [],
})

/**
 * First unique implication point: the literals of the conflict are traced back along the trail until one of the last level is
 * left. Nothing to learn, because the root alone is to blame: undefined.
 *
 * @param note told of every view met, so that search can turn to where conflicts are
 */
export function learn(
  t: Trail,
  arcs: Arcs,
  clauses: Clauses,
  desk: Desk,
  conflict: readonly number[],
  note: (view: number, value: number) => void,
): Lesson | undefined {
  const causes = causesOf(t, arcs, clauses, conflict)
  const top = Math.max(0, ...entriesOf(t, causes))
  const level = levelAt(t, top)
  if (level === 0) return undefined
  const first = t.levels[level - 1] as number
  let count = 0
  const need = (view: number, value: number): void => {
    const at = madeTrueBy(t, view, value)
    if (at < 0 || at < (t.levels[0] as number)) return
    const known = desk.entry[view] as number
    if (known === at) desk.value[view] = Math.max(value, desk.value[view] as number)
    if (known >= at) return
    note(view, value)
    if (known < 0) desk.open.push(view)
    if (at >= first && known < first) count++
    desk.value[view] = value
    desk.entry[view] = at
  }
  for (let i = 0; i < causes.length; i += 2) need(causes[i] as number, causes[i + 1] as number)
  for (let at = top; ; at--) {
    const view = t.view[at] as number
    if (desk.entry[view] !== at) continue
    if (count === 1) {
      shorten(t, arcs, clauses, desk, view)
      return lessonOf(t, desk, view, level)
    }
    count--
    desk.entry[view] = -1
    reasonOf(t, arcs, clauses, at, desk.value[view] as number, need)
  }
}

/**
 * A bound that was just pushed past its opposite is no cause of itself: in its place stands what pushed it, which may lie
 * below the level at which it was noticed.
 */
function causesOf(t: Trail, arcs: Arcs, clauses: Clauses, conflict: readonly number[]): readonly number[] {
  const last = t.length - 1
  const view = t.view[last] as number
  if ((t.bound[view] as number) <= -(t.bound[view ^ 1] as number)) return conflict
  const causes: number[] = []
  for (let i = 0; i < conflict.length; i += 2) {
    if (conflict[i] !== view) causes.push(conflict[i] as number, conflict[i + 1] as number)
    else reasonOf(t, arcs, clauses, last, conflict[i + 1] as number, (from, value) => causes.push(from, value))
  }
  return causes
}

const entriesOf = (t: Trail, literals: readonly number[]): number[] => {
  const entries: number[] = []
  for (let i = 0; i < literals.length; i += 2)
    entries.push(madeTrueBy(t, literals[i] as number, literals[i + 1] as number))
  return entries
}

/** Literals that made an entry as large as asked for. An arc needs no more of its source than that. */
function reasonOf(
  t: Trail,
  arcs: Arcs,
  clauses: Clauses,
  at: number,
  asked: number,
  need: (view: number, value: number) => void,
): void {
  const place = t.place[at] as number
  switch (t.kind[at]) {
    case ARC:
      need(arcs.from[place] as number, asked - (arcs.weight[place] as number))
      return
    case CLAUSE: {
      const clause = clauses.all[place] as Clause
      clause.activity++
      const view = t.view[at] as number
      const { literals } = clause
      for (let i = 0; i < literals.length; i += 2) {
        if (literals[i] !== view) need((literals[i] as number) ^ 1, 1 - (literals[i + 1] as number))
      }
      return
    }
    case WRITTEN: {
      const count = t.arena[place] as number
      for (let i = 0; i < count; i++) need(t.arena[place + 1 + 2 * i] as number, t.arena[place + 2 + 2 * i] as number)
      return
    }
    default:
      throw new Error('a decision has no reason')
  }
}

/** Leaves out literals that the others imply: all that made them true is at the root or among what is needed anyway. */
function shorten(t: Trail, arcs: Arcs, clauses: Clauses, desk: Desk, point: number): void {
  for (const view of desk.open) {
    const at = desk.entry[view] as number
    if (at < 0 || view === point || t.kind[at] === DECISION) continue
    let implied = true
    reasonOf(t, arcs, clauses, at, desk.value[view] as number, (from, value) => {
      const known = desk.entry[from] as number
      // a later, stronger one may itself hang on this one
      if (!implied || (known >= 0 && known < at && (desk.value[from] as number) >= value)) return
      const made = madeTrueBy(t, from, value)
      if (made >= (t.levels[0] as number)) implied = false
    })
    if (implied) desk.entry[view] = -1
  }
}

function lessonOf(t: Trail, desk: Desk, point: number, level: number): Lesson {
  const others: { view: number; value: number; level: number }[] = []
  for (const view of desk.open) {
    const at = desk.entry[view] as number
    if (at >= 0 && view !== point) others.push({ view, value: desk.value[view] as number, level: levelAt(t, at) })
    desk.entry[view] = -1
  }
  const asserted = [point ^ 1, 1 - (desk.value[point] as number)]
  desk.open.length = 0
  others.sort((a, b) => b.level - a.level)
  return {
    literals: Int32Array.from([...asserted, ...others.flatMap(({ view, value }) => [view ^ 1, 1 - value])]),
    backLevel: others[0]?.level ?? 0,
    spread: new Set([level, ...others.map((o) => o.level)]).size,
  }
}
