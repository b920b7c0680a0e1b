import type { FormulaView, Summary } from '../engine/protocol.ts'
import { STAGES } from '../engine/stages.ts'
import { routeTo } from '../state.ts'

/** Something that can be found: where it opens, and what is then selected. */
export interface Entry {
  id: string
  name: string
  kind: string
  href: string
  /** JSON Pointer of the entity. */
  select?: string
}

export interface Index {
  entries: readonly Entry[]
  /** What is searched of each entry: id and name in small letters. */
  texts: readonly string[]
}

type Named = { name?: string; what?: string; title?: string; service?: string; test?: string; system?: string }
type Entities = Readonly<Record<string, Named>>

/** Everything of the project that has a name, once; searched at every key. */
export function indexOf(document: unknown, summary: Summary, formulas: readonly FormulaView[]): Index {
  const entries = [
    ...STAGES.map((s): Entry => ({ id: s, name: PAGE_WORDS[s] ?? '', kind: 'page', href: routeTo(s) })),
    ...summary.lifts.map(
      (l): Entry => ({
        id: l.id,
        name: `${l.name}, ${l.kind}`,
        kind: 'lift',
        href: routeTo('lift', l.id),
        select: `/lifts/${l.id}`,
      }),
    ),
    ...COLLECTIONS.flatMap((c) => entriesOf(document, c)),
    ...summary.activities.map(
      (a): Entry => ({
        id: a.id,
        name: a.name,
        kind: 'activity',
        href: routeTo('programme'),
        select: `/programme/activities/${a.id}`,
      }),
    ),
    ...summary.checks.map(
      (c): Entry => ({ id: c.id, name: `${c.subjectName}: ${c.title}`, kind: 'check', href: routeTo('project', c.id) }),
    ),
    ...formulas.map(
      (f): Entry => ({
        id: f.id,
        name: f.title,
        kind: 'formula',
        href: f.usedIn === undefined ? routeTo(f.id.split('.')[0] ?? 'project') : routeTo('project', f.usedIn),
      }),
    ),
  ]
  return { entries, texts: entries.map((e) => `${e.id} ${e.name}`.toLowerCase()) }
}

const PAGE_WORDS: Readonly<Record<string, string>> = {
  project: 'what is wrong, near and open; the restart',
  model: 'the machine in its shaft, in space',
  mass: 'pieces, weighings, parts',
  strip: 'order of taking apart; joints and services',
  lift: 'each lift with its checks',
  ground: 'shaft, base, bays',
  programme: 'campaign diagram and activities',
  risk: 'how sure the date is, and what drives it',
  report: 'lift sheets',
}

interface Collection {
  at: readonly string[]
  kind: string
  page: string
}

const COLLECTIONS: readonly Collection[] = [
  { at: ['pieces'], kind: 'piece', page: 'mass' },
  { at: ['parts'], kind: 'part', page: 'mass' },
  { at: ['weighings'], kind: 'weighing', page: 'mass' },
  { at: ['changes'], kind: 'change', page: 'mass' },
  { at: ['steps'], kind: 'step', page: 'strip' },
  { at: ['joints'], kind: 'joint', page: 'strip' },
  { at: ['services'], kind: 'service', page: 'strip' },
  { at: ['temporaryWorks'], kind: 'temporary work', page: 'lift' },
  { at: ['systems'], kind: 'lifting system', page: 'lift' },
  { at: ['gear'], kind: 'gear', page: 'lift' },
  { at: ['stock'], kind: 'stock', page: 'lift' },
  { at: ['bays'], kind: 'bay', page: 'ground' },
  { at: ['ground', 'layers'], kind: 'ground layer', page: 'ground' },
  { at: ['ground', 'instruments'], kind: 'instrument', page: 'ground' },
  { at: ['programme', 'deliveries'], kind: 'delivery', page: 'programme' },
  { at: ['programme', 'resources'], kind: 'resource', page: 'programme' },
  { at: ['tests'], kind: 'test', page: 'programme' },
  { at: ['diary'], kind: 'diary entry', page: 'programme' },
  { at: ['inspections'], kind: 'opened part', page: 'programme' },
  { at: ['welds'], kind: 'weld', page: 'programme' },
  { at: ['boltRecords'], kind: 'record of tightening', page: 'programme' },
  { at: ['liftLog'], kind: 'entry of the lift log', page: 'programme' },
  { at: ['punchList'], kind: 'punch item', page: 'programme' },
  { at: ['issuedBooks'], kind: 'issue of the campaign book', page: 'report' },
  { at: ['views'], kind: 'saved view', page: 'model' },
  { at: ['belowGround', 'gas'], kind: 'place where gas is read', page: 'programme' },
  { at: ['belowGround', 'air'], kind: 'supply of air', page: 'programme' },
  { at: ['belowGround', 'ways'], kind: 'way out', page: 'programme' },
  { at: ['belowGround', 'rescue'], kind: 'rescue team', page: 'programme' },
  { at: ['belowGround', 'hotWork'], kind: 'permit for hot work', page: 'programme' },
  { at: ['belowGround', 'locks'], kind: 'air lock', page: 'programme' },
  { at: ['risks'], kind: 'risk', page: 'risk' },
  { at: ['settings'], kind: 'setting', page: 'project' },
]

function entriesOf(document: unknown, { at, kind, page }: Collection): Entry[] {
  const entities = at.reduce<unknown>((o, key) => (o as Readonly<Record<string, unknown>> | undefined)?.[key], document)
  if (typeof entities !== 'object' || entities === null) return []
  return Object.entries(entities as Entities).map(([id, e]) => ({
    id,
    name: nameOf(e),
    kind,
    href: routeTo(page),
    select: `/${[...at, id].join('/')}`,
  }))
}

function nameOf(entity: Named | string | number): string {
  if (typeof entity !== 'object' || entity === null) return String(entity)
  const { name, what, title, service, test, system } = entity
  return name ?? what ?? title ?? service ?? test ?? system ?? ''
}

/** Hits grouped by kind, the group with the best hit first. */
export interface Group {
  kind: string
  hits: readonly Entry[]
  /** Hits of the kind that are left out. */
  more: number
}

const MOST = 40
const MOST_OF_A_KIND = 8

/** What the words find: exact id first, then ids and names that begin so, then all that hold every word. */
export function search({ entries, texts }: Index, typed: string): Group[] {
  const words = typed.toLowerCase().split(/\s+/).filter(Boolean)
  if (words.length === 0) return []
  const whole = words.join(' ')
  const found: { entry: Entry; rank: number }[] = []
  for (let i = 0; i < entries.length; i++) {
    const text = texts[i] as string
    if (words.every((w) => text.includes(w))) {
      const entry = entries[i] as Entry
      found.push({ entry, rank: rankOf(entry, text, whole) })
    }
  }
  found.sort((a, b) => a.rank - b.rank) // Stable: the order of kinds holds among equals.
  return grouped(found.map((f) => f.entry))
}

function rankOf({ id, name }: Entry, text: string, whole: string): number {
  if (text.startsWith(`${whole} `) && id.length === whole.length) return 0
  if (text.startsWith(whole)) return 1
  if (text.startsWith(whole, id.length + 1)) return name.length === whole.length ? 1 : 2
  return text.includes(` ${whole}`) ? 3 : 4
}

function grouped(found: readonly Entry[]): Group[] {
  const kinds = new Map<string, Entry[]>()
  for (const entry of found) {
    const of = kinds.get(entry.kind)
    if (of === undefined) kinds.set(entry.kind, [entry])
    else of.push(entry)
  }
  let left = MOST
  return [...kinds].flatMap(([kind, all]) => {
    const hits = all.slice(0, Math.min(MOST_OF_A_KIND, left))
    left -= hits.length
    return hits.length === 0 ? [] : [{ kind, hits, more: all.length - hits.length }]
  })
}
