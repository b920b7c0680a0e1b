/** Letters of a name beyond which a table shows it short. */
const LONGEST = 60
/** Letters that are kept of the beginning and of the end, where a number often tells two names apart. */
const FIRST = 30
const LAST = 12

/** Names that are too long for tables, each with what stands for it there. */
export type ShortNames = ReadonlyMap<string, string>

/** Fields of a project that hold names. */
const NAMING = new Set(['name', 'title', 'by', 'owner', 'checkedBy', 'plannedBy', 'director', 'witness', 'designer'])

/** A short form for every long name of a project; no two names share one. */
export function shortNames(project: unknown): ShortNames {
  const short = new Map<string, string>()
  const taken = new Set<string>()
  for (const name of longNamesIn(project)) {
    const form = freeForm(name, taken)
    taken.add(form)
    short.set(name, form)
  }
  return short
}

function longNamesIn(project: unknown): Set<string> {
  const found = new Set<string>()
  const look = (at: unknown, field: string): void => {
    if (typeof at === 'string') {
      if (NAMING.has(field) && [...at].length > LONGEST) found.add(at)
    } else if (Array.isArray(at)) for (const one of at) look(one, field)
    else if (typeof at === 'object' && at !== null) for (const [key, value] of Object.entries(at)) look(value, key)
  }
  look(project, '')
  return found
}

/** Beginning and end, with more of the end where two names would else read the same. */
function freeForm(name: string, taken: ReadonlySet<string>): string {
  const letters = [...name]
  for (let last = LAST; FIRST + last < letters.length; last += LAST) {
    const form = `${letters.slice(0, FIRST).join('').trimEnd()}…${letters.slice(-last).join('').trimStart()}`
    if (!taken.has(form)) return form
  }
  return name
}

/**
 * Plain data with every long name in its words short; the same data where there is none.
 *
 * @param told is given each long name that was found
 */
export function withShortNames<T>(data: T, short: ShortNames, told: (name: string) => void = () => {}): T {
  if (short.size === 0) return data
  const longest = [...short.keys()].sort((a, b) => b.length - a.length)
  const any = new RegExp(longest.map((name) => name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')).join('|'), 'g')
  const shortened = (words: string): string =>
    words.replace(any, (name) => {
      told(name)
      return short.get(name) as string
    })
  const mapped = (at: unknown): unknown => {
    if (typeof at === 'string') return shortened(at)
    if (Array.isArray(at)) return at.map(mapped)
    if (typeof at !== 'object' || at === null) return at
    return Object.fromEntries(Object.entries(at).map(([key, value]) => [key, mapped(value)]))
  }
  return mapped(data) as T
}
