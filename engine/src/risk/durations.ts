import type { Model } from '../model/index.ts'
import { hashOf, uniformAt } from '../numeric/random.ts'
import { extremesOf, normalQuantile, tabledNormalCdf, triangularAt } from '../numeric/statistics.ts'
import { type Activity, dayLengths, type ProgrammeResult } from '../programme/index.ts'
import type { Measures } from './measure.ts'
import { atPlace, leastOf, type Spread, type Spreads, sideBySide, spreadOf } from './shape.ts'

const DAY = 86_400

/** Working time that comes on top of an activity's own: by a common cause, or because a test is done again. */
export interface Extra {
  /** Id of the cause, or of the activity that is done again. */
  id: string
  name: string
  activity: number
}

/** How the durations of a run are drawn. */
export interface DurationSource {
  spreads: Spreads
  likely: Float64Array
  /** Working time that no run goes below, by activity. */
  least: Float64Array
  /** Key of each activity's numbers. */
  key: Uint32Array
  /** Kind of work of each activity, and the key that all of a kind share. */
  group: Int32Array
  groupKey: Uint32Array
  correlation: number
  /** Options that shorten an activity: calendar time saved, drawn. */
  saved: readonly { activity: number; days: readonly [number, number, number]; key: number }[]
  causes: readonly Cause[]
  reworks: readonly Rework[]
  /** What `extra` of a run means, place by place. */
  extras: readonly Extra[]
}

/** One cause that stretches the work of many activities by one factor. */
interface Cause {
  key: number
  probability: number
  factor: readonly [number, number, number]
  members: readonly number[]
  /** Place of its first member among the extras. */
  first: number
}

/** An activity that is done again until it passes. */
interface Rework {
  key: number
  chance: number
  /** Working time of one repetition: least, most likely, greatest. */
  again: readonly [number, number, number]
  activity: number
  at: number
}

/** A test that has failed so often in a row is another problem than its chance says. */
const MOST_REPETITIONS = 10

/** Three points of every activity; frozen ones and those without spread are not drawn. */
export function durationSource(
  { project }: Model,
  { activities, solved }: ProgrammeResult,
  seed: number,
  measures: Measures,
): DurationSource {
  const typed = project.programme
  const ids = solved?.network.ids ?? []
  const all = ids.map((id) => activities[id] as Activity)
  const groups = [...new Set(all.map(groupOf))]
  const still = new Set(measures.frozen ?? [])
  const tables = new Map<string, Float64Array>()
  const spread = (activity: Activity): Spread =>
    still.has(activity.id)
      ? { kind: 'still' }
      : spreadOf(typed?.durations ?? 'triangular', workOf(activity), typed?.points ?? 'extremes', extremesOf, tables)
  const extras: Extra[] = []
  const taken = (measures.options ?? []).flatMap((id) => {
    const option = typed?.options[id]
    const activity = option === undefined ? undefined : solved?.network.index.get(option.activity)
    return option === undefined || activity === undefined
      ? []
      : [{ activity, days: option.daysSaved, key: hashOf(`option ${id}`, seed) }]
  })
  const spreads = all.map(spread)
  const likely = Float64Array.from(all, (a) => workOf(a)[1])
  const causes = causesOf(project, all, seed, still, extras)
  return {
    spreads: sideBySide(spreads),
    likely,
    least: leastWork(spreads, likely, taken, causes),
    key: Uint32Array.from(ids, (id) => hashOf(`activity ${id}`, seed)),
    group: Int32Array.from(all, (a) => groups.indexOf(groupOf(a))),
    groupKey: Uint32Array.from(groups, (group) => hashOf(`kind ${group}`, seed)),
    correlation: typed?.correlation?.value ?? 0,
    saved: taken,
    causes,
    reworks: reworksOf(project, all, seed, still, extras),
    extras,
  }
}

/** What no draw, cause or option can bring an activity below; an option may save all of it. */
function leastWork(
  spreads: readonly Spread[],
  likely: Float64Array,
  saved: readonly { activity: number }[],
  causes: readonly Cause[],
): Float64Array {
  const least = Float64Array.from(spreads, (spread, i) => leastOf(spread, likely[i] as number))
  for (const { activity } of saved) least[activity] = 0
  for (const { factor, members } of causes)
    for (const i of members) least[i] = (least[i] as number) * Math.min(1, factor[0])
  return least
}

const NO_WORK = [0, 0, 0] as const

/** The plan's allowance for wind gives way to the wind itself. */
const workOf = ({ kind, work }: Activity): readonly [number, number, number] =>
  kind.startsWith('wait') ? NO_WORK : work

/** Work of one kind: typed activities by their phase, derived ones by what they do. */
const groupOf = ({ kind, phase }: Activity): string => (kind === 'typed' ? `phase ${phase}` : kind)

function causesOf(
  { programme }: Model['project'],
  all: readonly Activity[],
  seed: number,
  still: ReadonlySet<string>,
  extras: Extra[],
): Cause[] {
  return Object.entries(programme?.causes ?? {}).flatMap(([id, cause]): Cause[] => {
    const named = new Set(cause.activities)
    const kinds: ReadonlySet<string> = new Set(cause.kinds)
    const phases: ReadonlySet<string> = new Set(cause.phases)
    const members = all.flatMap((a, i) => (named.has(a.id) || kinds.has(a.kind) || phases.has(a.phase) ? [i] : []))
    if (still.has(id) || members.length === 0) return []
    const first = extras.length
    extras.push(...members.map((activity) => ({ id, name: cause.what, activity })))
    const key = hashOf(`cause ${id}`, seed)
    return [{ key, probability: cause.probability?.value ?? 1, factor: cause.factor, members, first }]
  })
}

function reworksOf(
  { programme }: Model['project'],
  all: readonly Activity[],
  seed: number,
  still: ReadonlySet<string>,
  extras: Extra[],
): Rework[] {
  const lengths = programme === undefined ? () => DAY : dayLengths(programme)
  return all.flatMap((a, activity): Rework[] => {
    const failing = programme?.failing[a.id]
    if (failing === undefined || a.state === 'done' || still.has(`failing ${a.id}`)) return []
    const day = lengths(a.calendar)
    const at = extras.push({ id: `failing ${a.id}`, name: `${a.name}: done again`, activity }) - 1
    const again = failing.againDays.map((d) => d * day) as unknown as readonly [number, number, number]
    return [{ key: hashOf(`failing ${a.id}`, seed), chance: failing.chance.value as number, again, activity, at }]
  })
}

/**
 * Draws the durations of one run into `work`, and what of them is extra into `extra`. Each number belongs to its input and to
 * the run, whatever else is drawn: what-ifs differ by what was changed alone.
 */
export function drawDurations(
  source: DurationSource,
  run: number,
  common: Float64Array,
  work: Float64Array,
  extra: Float64Array,
): void {
  const { spreads, likely, key, group, groupKey, correlation, saved } = source
  const own = Math.sqrt(1 - correlation)
  const together = Math.sqrt(correlation)
  const { drawn } = spreads
  if (correlation > 0)
    for (let g = 0; g < groupKey.length; g++) common[g] = normalQuantile(uniformAt(groupKey[g] as number, run))
  work.set(likely)
  for (let d = 0; d < drawn.length; d++) {
    const i = drawn[d] as number
    let u = uniformAt(key[i] as number, run)
    if (correlation > 0)
      u = tabledNormalCdf(own * normalQuantile(u) + together * (common[group[i] as number] as number))
    work[i] = atPlace(spreads, i, u)
  }
  for (const { activity, days, key: k } of saved)
    work[activity] = Math.max(0, (work[activity] as number) - triangularAt(uniformAt(k, run), ...days) * DAY)
  stretch(source, run, work, extra)
  repeat(source, run, work, extra)
}

/** Common causes: one factor for all that a cause touches; several causes multiply. */
function stretch({ causes }: DurationSource, run: number, work: Float64Array, extra: Float64Array): void {
  for (const { key, probability, factor, members, first } of causes) {
    const strikes = uniformAt(key, 2 * run) < probability
    const f = strikes ? triangularAt(uniformAt(key, 2 * run + 1), ...factor) : 1
    for (let k = 0; k < members.length; k++) {
      const i = members[k] as number
      extra[first + k] = (work[i] as number) * (f - 1)
      work[i] = (work[i] as number) * f
    }
  }
}

/** Tests that fail: N repetitions with the chance pᴺ(1 − p), each with its own length. */
function repeat({ reworks }: DurationSource, run: number, work: Float64Array, extra: Float64Array): void {
  for (const { key, chance, again, activity, at } of reworks) {
    let more = 0
    for (let n = 0; n < MOST_REPETITIONS; n++) {
      const place = (run * MOST_REPETITIONS + n) * 2
      if (uniformAt(key, place) >= chance) break
      more += triangularAt(uniformAt(key, place + 1), ...again)
    }
    extra[at] = more
    work[activity] = (work[activity] as number) + more
  }
}
