import { type Derivation, tryChange } from './derivation.ts'
import type { Stages } from './derive.ts'
import { type Check, countVerdicts, type Verdict } from './working/check.ts'
import { sameContent } from './working/memory.ts'
import { applyPatch, type Operation, type Patch } from './working/patch.ts'
import { at } from './working/pointer.ts'
import type { Problem } from './working/problem.ts'

/** Where a check stands; values in SI, undefined when unknown. */
export interface CheckState {
  verdict: Verdict
  demand: number | undefined
  capacity: number | undefined
  utilisation: number | undefined
}

/** A check that differs between two derivations; one side is absent where the check did not exist. */
export interface CheckChange {
  check: string
  stage: string
  title: string
  subject: string
  unit: string
  before?: CheckState
  after?: CheckState
  /** The verdict moved, or the check came or went; otherwise only its figures did. */
  moved: boolean
  /** Of a check that fails or is open after the change: what stands in the way, is missing, or would mend it. */
  reasons: readonly string[]
}

/** A derivation in one line: how many checks stand how, and when the drive resumes. */
export interface Standing {
  counts: Readonly<Record<Verdict, number>>
  restart: { planned: string | null }
}

/** What a change would do. */
export interface WhatIf {
  before: Standing
  after: Standing
  changes: readonly CheckChange[]
}

export type WhatIfResult =
  | { whatIf: WhatIf; derivation: Derivation; problems: readonly [] }
  | { whatIf?: undefined; derivation?: undefined; problems: readonly Problem[] }

/**
 * What a patch would change, without keeping it: the derivation given stays as it is.
 *
 * @returns the change and the derivation after it, or every problem that keeps the changed project from being one
 */
export function whatIf(from: Derivation, patch: Patch): WhatIfResult {
  const { derivation, problems } = tryChange(from, patch)
  if (derivation === undefined) return { problems }
  const comparison = comparedDerivations(from, derivation)
  return comparison.whatIf === undefined ? comparison : { whatIf: comparison.whatIf, derivation, problems: [] }
}

export type Comparison =
  | { whatIf: WhatIf; problems: readonly [] }
  | { whatIf?: undefined; problems: readonly Problem[] }

/** Two derivations side by side; problems of either are handed on. */
export function comparedDerivations(before: Derivation, after: Derivation): Comparison {
  const [from, to] = [before.derived.stages, after.derived.stages]
  if (from === undefined || to === undefined) {
    return { problems: [...before.derived.problems, ...after.derived.problems] }
  }
  return {
    whatIf: { before: standing(from), after: standing(to), changes: checkChanges(from.checks, to.checks) },
    problems: [],
  }
}

/** Counts of verdicts and the planned restart. */
export function standing(stages: Stages): Standing {
  return { counts: countVerdicts(stages.checks), restart: { planned: plannedRestart(stages) } }
}

/** Instant of the planned restart, ISO 8601 UTC; null when there is no programme or it has no restart. */
export function plannedRestart({ programme }: Pick<Stages, 'programme'>): string | null {
  return programme.restart === undefined ? null : instantOf(programme.origin, programme.restart)
}

/** ISO 8601 UTC of an instant given in seconds from the programme's origin; null when there is no origin. */
export function instantOf(origin: string | undefined, seconds: number): string | null {
  if (origin === undefined || !Number.isFinite(seconds)) return null
  return new Date(Date.parse(origin) + Math.round(seconds * 1000)).toISOString()
}

/** Checks whose verdict or figures differ, those whose verdict moved first, each group in the order of the stages. */
export function checkChanges(before: readonly Check[], after: readonly Check[]): CheckChange[] {
  const [was, is] = [byId(before), byId(after)]
  const ids = [...is.keys(), ...[...was.keys()].filter((id) => !is.has(id))]
  const changes = ids.flatMap((id) => changeOf(id, was.get(id), is.get(id)))
  return [...changes.filter((c) => c.moved), ...changes.filter((c) => !c.moved)]
}

const byId = (checks: readonly Check[]): ReadonlyMap<string, Check> => new Map(checks.map((c) => [c.id, c]))

function changeOf(id: string, before: Check | undefined, after: Check | undefined): CheckChange[] {
  if (before === after) return []
  const [was, is] = [before && checkState(before), after && checkState(after)]
  if (sameContent(was, is)) return []
  const { stage, title, subject, unit } = (after ?? before) as Check
  return [
    {
      check: id,
      stage,
      title,
      subject: subject.name,
      unit,
      ...(was === undefined ? {} : { before: was }),
      ...(is === undefined ? {} : { after: is }),
      moved: was?.verdict !== is?.verdict,
      reasons: after?.reasons ?? [],
    },
  ]
}

/** Verdict and figures of a check. */
export function checkState({ verdict, demand, capacity, utilisation }: Check): CheckState {
  return { verdict, demand: demand.value, capacity: capacity.value, utilisation }
}

/**
 * The patch that puts values at pointers, one after another: replaced where something stands, added where nothing does.
 *
 * @param pairs pointer and value; a value is JSON where it reads as JSON, else text ("605 t" needs no quotes)
 */
export function settingPatch(document: unknown, pairs: readonly (readonly [pointer: string, value: string])[]): Patch {
  let current = document
  return pairs.map(([path, text]): Operation => {
    const op = at(current, path) === undefined ? 'add' : 'replace'
    const operation: Operation = { op, path, value: writtenValue(text) }
    const patched = applyPatch(current, [operation])
    if ('document' in patched) current = patched.document
    return operation
  })
}

function writtenValue(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return text // A quantity or a name: text as it stands.
  }
}
