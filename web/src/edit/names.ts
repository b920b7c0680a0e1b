import { at } from '@shieldwright/engine/working/pointer.ts'

/** Fields that name an entity, and where the entities stand that they may name. */
const NAMED: Readonly<Record<string, readonly string[]>> = {
  piece: ['/pieces'],
  material: ['/materials'],
  system: ['/systems'],
  bay: ['/bays'],
  isolation: ['/isolations'],
  lift: ['/lifts'],
  back: ['/lifts'],
  calendar: ['/programme/calendars'],
  activity: ['/programme/activities'],
  way: ['/programme/ways'],
  resource: ['/programme/resources'],
  gear: ['/gear'],
  item: ['/stock'],
  from: ['/parts', '/ends'],
  to: ['/parts', '/ends'],
  removedBefore: ['/steps'],
  eye: ['/shaft/eyes'],
  stands: ['/systems', '/bays'],
}

const MOST = 400

/** Ids that may stand in a field of this name. */
export function idsNamed(document: unknown, field: string): string[] {
  const places = Object.hasOwn(NAMED, field) ? (NAMED[field] ?? []) : []
  return places.flatMap((place) => Object.keys((at(document, place) as object | undefined) ?? {})).slice(0, MOST)
}
