import { massKinds } from '../../mass/index.ts'
import { programmeKinds } from '../../programme/index.ts'
import { stripKinds } from '../../strip/index.ts'
import type { Check } from '../../working/check.ts'
import { pointerOf } from '../../working/pointer.ts'
import type { DossierStages } from './dossierSheet.ts'

/** Kinds of checks that speak of what is put on record until the machine runs again. */
const RECORDED = new Set(
  [...massKinds, ...stripKinds, ...programmeKinds]
    .map(({ id }) => id)
    .filter((id) =>
      /^(mass\.weighed|strip\.step\.(services-found|hoses)|programme\.(inspection|weld|bolting|test|punch))\b/.test(id),
    ),
)

/** Checks of records, in the order in which the stages make them. */
export const recordChecks = ({
  mass,
  strip,
  programme,
}: Pick<DossierStages, 'mass' | 'strip' | 'programme'>): Check[] =>
  [mass, strip, programme].flatMap(({ checks }) => checks.filter(({ kind }) => RECORDED.has(kind)))

/** Checks of records, looked up by what they are about. */
export interface CheckLookup {
  /** Checks of one entity; with a kind only those whose kind ends in it. */
  of: (collection: string, id: string, kind?: string) => readonly Check[]
}

export function checkLookup(checks: readonly Check[]): CheckLookup {
  const byPointer = new Map<string, Check[]>()
  for (const c of checks) byPointer.set(c.subject.pointer, [...(byPointer.get(c.subject.pointer) ?? []), c])
  return {
    of: (collection, id, kind = '') =>
      (byPointer.get(pointerOf(collection, id)) ?? []).filter((c) => c.kind.endsWith(kind)),
  }
}

export const idsOf = (checks: readonly Check[]): string[] => checks.map(({ id }) => id)

const BOUNDS = ['', '/most', '/least', '/code']

/** Of the checks of an entity those of one thing measured on it: its one check, or one for each bound of its limit. */
export function ofMeasure(checks: readonly Check[], measure: string): Check[] {
  return checks.filter(({ id, kind, subject }) => BOUNDS.some((b) => id === `${kind}/${subject.id}/${measure}${b}`))
}
