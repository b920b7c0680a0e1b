import { groundKinds } from './ground/index.ts'
import { liftKinds } from './lift/index.ts'
import { massKinds } from './mass/index.ts'
import { practiceChecks } from './practice.ts'
import { programmeKinds } from './programme/index.ts'
import { reportKinds } from './report/index.ts'
import { riskKinds } from './risk/index.ts'
import { stripKinds } from './strip/index.ts'
import type { CheckKind, Stage } from './working/check.ts'
import type { SourceBasis } from './working/formula.ts'

/** Every kind of check that a stage makes, by stage. */
export const checkKinds: readonly CheckKind[] = [
  massKinds,
  stripKinds,
  liftKinds,
  groundKinds,
  programmeKinds,
  riskKinds,
  reportKinds,
].flat()

/** A line of the catalogue: a kind of check, or a check of practice that no kind answers. */
export interface CatalogueEntry {
  id: string
  title: string
  stage: Stage
  source: string
  basis: SourceBasis
  /** Numbers of `docs/checks.md` that it answers. */
  practice: readonly number[]
  /** Computed: fixtures exist that pass, fail and are open. Open: a licensed or appointed person decides. */
  state: 'computed' | 'open'
  decidedBy: string
}

/**
 * Every check the tool knows: its kinds, then the checks of practice that none of them computes, by number.
 *
 * @param proven ids of the kinds whose fixtures pass, fail and are open; only these count as computed
 */
export function catalogue(proven: ReadonlySet<string>, kinds: readonly CheckKind[] = checkKinds): CatalogueEntry[] {
  const answered = new Set(kinds.flatMap((kind) => kind.practice))
  return [...kinds.map((kind) => kindEntry(kind, proven)), ...unansweredEntries(answered)]
}

function kindEntry({ id, title, stage, source, practice, decidedBy }: CheckKind, proven: ReadonlySet<string>) {
  const state = proven.has(id) ? 'computed' : 'open'
  return { id, title, stage, source: source.text, basis: source.basis, practice, state, decidedBy } as const
}

const unansweredEntries = (answered: ReadonlySet<number>): CatalogueEntry[] =>
  practiceChecks
    .filter(({ number }) => !answered.has(number))
    .map(({ number, title, stage, source, decidedBy }) => ({
      id: `practice.${number}`,
      title,
      stage,
      source: source.text,
      basis: source.basis,
      practice: [number],
      state: 'open',
      decidedBy,
    }))
