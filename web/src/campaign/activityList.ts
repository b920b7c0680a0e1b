import type { ActivityView } from '../engine/protocol.ts'

/** How the list is put in order, and what of it is shown. */
export interface ListWish {
  order: 'phase' | 'date' | 'float'
  only: 'all' | 'drives' | 'near' | 'late' | 'asked'
  words: string
  /** Phases that are folded. */
  folded: ReadonlySet<string>
}

/** A row of the list: the head of a phase, or an activity. */
export type ListRow =
  | { kind: 'phase'; phase: string; count: number; drives: number; start: number; finish: number; isFolded: boolean }
  | { kind: 'activity'; activity: ActivityView }

const NEAR = 5 * 86_400

/** Later than promised, or with less than no float. */
export const isLate = (a: ActivityView): boolean =>
  a.planFloat < -60 || (a.promised !== undefined && a.finish > a.promised + 1000)

const SHOWS: Readonly<Record<ListWish['only'], (a: ActivityView) => boolean>> = {
  all: () => true,
  drives: (a) => a.drives,
  near: (a) => a.planFloat < NEAR,
  late: isLate,
  asked: (a) => a.asked.length > 0,
}

/** How many of each choice there are. */
export const countsOf = (all: readonly ActivityView[]): Readonly<Record<ListWish['only'], number>> =>
  Object.fromEntries(Object.entries(SHOWS).map(([only, shows]) => [only, all.filter(shows).length])) as Record<
    ListWish['only'],
    number
  >

/** Rows in their order; in phases, each with its count and its dates, and its late activities first. */
export function rowsOf(all: readonly ActivityView[], { order, only, words, folded }: ListWish): ListRow[] {
  const wanted = words
    .toLowerCase()
    .split(/\s+/)
    .filter((w) => w !== '')
  const shown = all.filter((a) => {
    if (!SHOWS[only](a)) return false
    const text = `${a.id} ${a.name} ${a.needs} ${a.holdPoint ?? ''}`.toLowerCase()
    return wanted.every((w) => text.includes(w))
  })
  if (order === 'float') return [...shown].sort((a, b) => a.planFloat - b.planFloat || a.start - b.start).map(rowOf)
  if (order === 'date') return shown.map(rowOf)
  return phasesOf(shown).flatMap((own): ListRow[] => {
    const phase = own[0]?.phase ?? ''
    const isFolded = folded.has(phase) && wanted.length === 0
    const head: ListRow = {
      kind: 'phase',
      phase,
      count: own.length,
      drives: own.filter((a) => a.drives).length,
      start: Math.min(...own.map((a) => a.start)),
      finish: Math.max(...own.map((a) => a.finish)),
      isFolded,
    }
    const late = own.filter(isLate)
    return [head, ...(isFolded ? [] : [...late, ...own.filter((a) => !isLate(a))].map(rowOf))]
  })
}

const rowOf = (activity: ActivityView): ListRow => ({ kind: 'activity', activity })

/** Activities by phase, in the order in which the phases begin. */
function phasesOf(all: readonly ActivityView[]): ActivityView[][] {
  const phases = new Map<string, ActivityView[]>()
  for (const a of all) {
    const own = phases.get(a.phase)
    if (own === undefined) phases.set(a.phase, [a])
    else own.push(a)
  }
  return [...phases.values()]
}
