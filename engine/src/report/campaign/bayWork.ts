import type { Activity } from '../../programme/index.ts'
import { pointerOf } from '../../working/pointer.ts'
import type { Reading } from './campaign.ts'
import { type Track, trackOf } from './trackOf.ts'

/** What is done: each has a fill of its own. */
export type WorkKind = 'weld' | 'machine' | 'test' | 'fit'

/** Work on what lies on a bay, or at the bottom of the shaft. */
export interface BayWork {
  id: string
  /** Every activity it stands for. */
  activities: readonly string[]
  pointer: string
  name: string
  kind: WorkKind
  /** A bay, or the floor of the shaft. */
  where: string
  /** The piece worked on. */
  piece?: string
  /** On a piece that still lies, or again, in the machine. */
  inMachine: boolean
  start: number
  finish: number
  /** Working time by which it can slip in the plan; on the driving path none. */
  float: number
  driving: boolean
  needs: string
}

/** The floor of the shaft, as a place of work. */
export const FLOOR = 'floor of the shaft'

/** Work drawn as bars: what is typed or changed on a bay or on the floor, and joints opened and closed, a bar for each step. */
export function bayWorks(reading: Reading, tracks: readonly Track[]): BayWork[] {
  const all = Object.values(reading.programme.activities)
  const planned = all.filter((a) => WORKS.has(a.kind)).flatMap((a) => plannedWork(a, reading, tracks))
  return [...planned, ...jointWorks(all, reading, tracks)].sort((a, b) => a.start - b.start)
}

const WORKS: ReadonlySet<Activity['kind']> = new Set(['typed', 'change'])

function plannedWork(activity: Activity, reading: Reading, tracks: readonly Track[]): BayWork[] {
  const when = reading.when(activity.id)
  if (when === undefined || when.finish - when.start < 1) return []
  const { programme } = reading
  const scheduled = programme.plan[activity.id]
  const base = {
    id: activity.id,
    activities: [activity.id],
    pointer: pointerOf('programme', 'activities', activity.id),
    name: activity.name,
    kind: kindOf(activity, reading),
    inMachine: false,
    ...when,
    float: scheduled?.planFloat ?? 0,
    driving: scheduled?.planCritical === true,
    needs: needsText(activity),
  }
  return placesOf(activity, when.start, reading, tracks).map((place) => ({ ...base, ...place }))
}

/** Where an activity is done: the bay it holds, or that of the pieces that had to be set down for it, or the shaft's floor. */
function placesOf(
  activity: Activity,
  start: number,
  { model }: Reading,
  tracks: readonly Track[],
): { where: string; piece?: string }[] {
  const { bays, programme } = model.project
  const held = Object.keys(activity.needs).map((id) => programme?.resources[id]?.stands ?? id)
  const bay = held.find((id) => bays[id] !== undefined)
  const lying = tracks.filter((t) => t.out <= start && (t.back === undefined || t.back > start))
  if (bay !== undefined) {
    const there = lying.filter((t) => t.bay === bay).sort((a, b) => (b.mass ?? 0) - (a.mass ?? 0))[0]
    return [{ where: bay, ...(there === undefined ? {} : { piece: there.piece }) }]
  }
  if (Object.keys(activity.needs).some((id) => programme?.resources[id]?.kind === 'space')) return [{ where: FLOOR }]
  return activity.after.flatMap(({ to }) => {
    const step = /^(.+)\.land$/.exec(to)?.[1]
    const track = step === undefined ? undefined : lying.find((t) => t.step === step)
    return track === undefined ? [] : [{ where: track.bay, piece: track.piece }]
  })
}

const TESTING = /\btests?\b|\btested\b|survey|measure/i
const WELDING = /weld|gouge/i
const MACHINING = /machin/i

/** By the crew that does it, else by the words of its name. */
export function kindOf({ name, needs }: Pick<Activity, 'name' | 'needs'>, { model }: Pick<Reading, 'model'>): WorkKind {
  const crews = Object.keys(needs)
    .map((id) => model.project.programme?.resources[id]?.name ?? id)
    .join(' ')
  if (MACHINING.test(crews)) return 'machine'
  if (/non-destructive|testing/i.test(crews) || (TESTING.test(name) && !WELDING.test(crews))) return 'test'
  if (WELDING.test(crews) || WELDING.test(name)) return 'weld'
  return 'fit'
}

export const needsText = ({ needs }: Pick<Activity, 'needs'>): string =>
  Object.entries(needs)
    .map(([id, n]) => (n === 1 ? id : `${n} ${id}`))
    .join(', ')

/** Joints of a step opened before its lift, and closed after its return: one bar each for welds and for the rest. */
function jointWorks(all: readonly Activity[], reading: Reading, tracks: readonly Track[]): BayWork[] {
  const groups = new Map<string, Activity[]>()
  for (const a of all) {
    if (a.step === undefined || (a.kind !== 'open' && a.kind !== 'close')) continue
    const kind = kindOf(a, reading) === 'weld' ? 'weld' : 'fit'
    const key = `${a.step} ${a.kind} ${kind}`
    groups.set(key, [...(groups.get(key) ?? []), a])
  }
  return [...groups].flatMap(([key, activities]): BayWork[] => {
    const [first] = activities as [Activity]
    const track = tracks.find((t) => t.step === first.step)
    const times = activities.flatMap((a) => reading.when(a.id) ?? [])
    if (track === undefined || times.length === 0) return []
    const parent = trackOf(tracks, track.off)
    const kind = key.endsWith('weld') ? 'weld' : 'fit'
    const scheduled = activities.map((a) => reading.programme.plan[a.id])
    return [
      {
        id: key.replaceAll(' ', '.'),
        activities: activities.map((a) => a.id),
        pointer: pointerOf('programme', 'activities', first.id),
        name: JOINT_WORDS[`${first.kind as 'open' | 'close'} ${kind}`],
        kind,
        where: parent?.bay ?? FLOOR,
        piece: parent?.piece ?? track.piece,
        inMachine: parent === undefined,
        start: Math.min(...times.map((t) => t.start)),
        finish: Math.max(...times.map((t) => t.finish)),
        float: Math.min(...scheduled.map((s) => s?.planFloat ?? 0)),
        driving: scheduled.some((s) => s?.planCritical),
        needs: needsText(first),
      },
    ]
  })
}

/** What opening and closing joints is called. */
export const JOINT_WORDS = {
  'open weld': 'gouge',
  'open fit': 'unbolt',
  'close weld': 'weld up',
  'close fit': 'bolt up',
} as const
