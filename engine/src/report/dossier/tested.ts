import type { Model } from '../../model/index.ts'
import type { Activities } from '../../programme/index.ts'
import type { Check } from '../../working/check.ts'
import type { DossierSignature, DossierStages } from './dossierSheet.ts'
import { type DossierLimit, type DossierReading, limitOf, readingsOf } from './readings.ts'
import { type CheckLookup, idsOf } from './recordChecks.ts'

type Test = Model['project']['tests'][string]

/** A commissioning test with what was read, and whether it is passed. */
export interface DossierTest {
  id: string
  system: string
  test: string
  holdPoint: boolean
  /** Who is to see it. */
  witness: string | undefined
  procedure: string | undefined
  passLimit: string | undefined
  unit: string | undefined
  limit: DossierLimit | undefined
  basis: string | undefined
  result: string | undefined
  after: readonly string[]
  readings: readonly DossierReading[]
  state: 'passed' | 'failed' | 'open'
  /** Why it is not passed, in words; empty where it is. */
  lacks: readonly string[]
  signatures: readonly string[]
  checks: readonly string[]
}

/** Tests in the order in which they may be made: none before one that it rests on, else as the file has them. */
export function testsOf(
  stages: DossierStages,
  lookup: CheckLookup,
  signatures: readonly DossierSignature[],
): DossierTest[] {
  const { tests } = stages.model.project
  const passed = new Set<string>()
  return inOrder(tests).map((id) => {
    const test = tests[id] as Test
    const checks = lookup.of('tests', id)
    const lacks = lacksOf(stages, id, checks, passed)
    const failed = checks.some(({ verdict }) => verdict === 'fail')
    if (lacks.length === 0) passed.add(id)
    return {
      id,
      system: test.system,
      test: test.test,
      holdPoint: test.holdPoint,
      witness: test.witness,
      procedure: test.procedure,
      passLimit: test.passLimit,
      unit: test.unit,
      limit: limitOf(test),
      basis: test.basis,
      result: test.result,
      after: test.after,
      readings: readingsOf(test),
      state: failed ? 'failed' : lacks.length === 0 ? 'passed' : 'open',
      lacks,
      signatures: signatures.flatMap((s) => (s.kind === 'test' && s.subject === `/tests/${id}` ? [s.id] : [])),
      checks: idsOf(checks),
    }
  })
}

/** Ids with all that each rests on before it. Those in a circle, which the model refuses, would come at the end. */
function inOrder(tests: Readonly<Record<string, Test>>): string[] {
  const placed = new Set<string>()
  let left = Object.keys(tests)
  while (left.length > 0) {
    const next = left.find((id) => (tests[id] as Test).after.every((t) => placed.has(t))) ?? (left[0] as string)
    placed.add(next)
    left = left.filter((id) => id !== next)
  }
  return [...placed]
}

/** All that keeps a test from being passed: its own checks, what it rests on, and what a punch item holds. */
function lacksOf(
  { model, programme }: DossierStages,
  id: string,
  checks: readonly Check[],
  passed: ReadonlySet<string>,
): string[] {
  const { punchList, tests } = model.project
  const test = tests[id] as Test
  const holding = Object.entries(punchList).flatMap(([item, { closed, blocks, tests: held }]) =>
    closed === undefined && blocks !== 'nothing' && held.includes(id) ? [item] : [],
  )
  return [
    ...(Object.keys(test.readings).length === 0 ? ['nothing is read'] : []),
    ...(test.limit === undefined ? ['no limit is given'] : []),
    ...(checks.some(({ verdict }) => verdict === 'fail') ? ['a check fails'] : []),
    ...(Object.keys(test.readings).length > 0 && test.limit !== undefined && checks.some((c) => c.verdict === 'open')
      ? ['a check is open']
      : []),
    ...test.after.filter((t) => !passed.has(t)).map((t) => `rests on ${t}, which is not passed`),
    ...workBefore(programme.activities, id, test).map((a) => `waits for ${a}, which is not on record as done`),
    ...holding.map((item) => `held by punch item ${item}`),
  ]
}

/** Work, other than tests, that has to be done before a test, and is not on record as done. */
function workBefore(activities: Activities, id: string, test: Test): string[] {
  const planned = activities[`test.${id}`]
  const before = planned === undefined ? [...test.afterReturn, ...test.afterActivities] : planned.after.map((l) => l.to)
  return [...new Set(before)].filter((a) => activities[a]?.kind !== 'test' && !isDone(activities, a))
}

/** A milestone without an entry of its own is reached when all that leads to it is done. */
function isDone(activities: Activities, id: string): boolean {
  const activity = activities[id]
  if (activity === undefined) return false
  if (activity.state === 'done') return true
  return (
    activity.kind === 'milestone' && activity.after.length > 0 && activity.after.every((l) => isDone(activities, l.to))
  )
}
