import { demoDocument } from './demo.fixture.ts'

/** Neutral words, invented as names of things: one long word among short ones, one name from right to left in each script. */
const LATIN =
  'Weatherproof undercarriage counterbalance assembly of the northernmost intermediate platform with its bearers and rails'
const HEBREW =
  'לוח כבד של המדף העליון ליד הקיר הצפוני עם הברגים הארוכים והטבעת הרחבה שנמצאת מתחת לשולחן הגדול בחדר השני מימין למדרגות 12'
const ARABIC =
  'اللوح الثقيل للرف العلوي بجانب الجدار الشمالي مع البراغي الطويلة والحلقة العريضة الموجودة تحت الطاولة الكبيرة قرب السلم ١٢'
/** As long as a name may well be. */
export const LONG = 120

const NAMES = [LATIN, HEBREW, ARABIC].map((name) => name.padEnd(LONG, ' x').slice(0, LONG))
/** Each name once more with a number, so that no two things share one. */
const nameOf = (n: number): string => {
  const suffix = ` ${n}`
  return `${(NAMES[n % NAMES.length] as string).slice(0, LONG - suffix.length).trim()}${suffix}`
}

const NAMED = ['parts', 'pieces', 'bays', 'systems', 'gear', 'stock', 'ends', 'utilities', 'temporaryWorks']
const PEOPLE = new Set(['by', 'owner', 'checkedBy', 'plannedBy', 'director', 'witness', 'crew', 'designer', 'checker'])

type Raw = Record<string, unknown>
const isRaw = (value: unknown): value is Raw => typeof value === 'object' && value !== null

/** The demo with names of 120 letters, every third in Hebrew and every third in Arabic: parts, pieces, bays, plant, activities, people. */
export function longNames(): Raw {
  const document: Raw = demoDocument()
  let n = 0
  const rename = (entity: unknown): void => {
    if (isRaw(entity) && ('name' in entity || 'kind' in entity)) entity.name = nameOf(n++)
  }
  for (const section of NAMED) for (const entity of Object.values((document[section] ?? {}) as Raw)) rename(entity)
  const programme = document.programme as Raw
  for (const section of ['activities', 'resources'])
    for (const entity of Object.values((programme[section] ?? {}) as Raw)) rename(entity)
  for (const system of Object.values(document.systems as Raw))
    for (const hook of Object.values((system as Raw).hooks as Raw)) rename(hook)
  rename(document.machine)
  ;(document.about as Raw).title = nameOf(n++)
  const people = (at: unknown): void => {
    if (!isRaw(at)) return
    for (const [field, value] of Object.entries(at))
      if (PEOPLE.has(field) && typeof value === 'string') at[field] = nameOf(n++)
      else people(value)
  }
  people(document)
  return document
}
