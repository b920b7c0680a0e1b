import { given, missingUnder } from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import type { Activity } from './activity.ts'
import { reachesOf } from './drive.ts'
import { BEGIN, pointers, serviceGroups } from './outward.ts'
import { byTheClock, type Duration, derived, finishToStart, productive, type Rules, typedDays } from './rules.ts'
import { linkOf } from './typed.ts'

export const RETURNED = 'order.returned'
export const TESTED = 'order.tested'

/** Proving dead before anything on an isolation is parted, and letting energy in once all of it is reconnected. */
export function isolations(rules: Rules): Activity[] {
  const rule = rules.work.isolations
  if (rule === undefined) return []
  const users = new Map<string, { services: string[]; connects: string[] }>()
  for (const passage of rules.passages) {
    for (const { isolation, services, key } of serviceGroups(rules, passage)) {
      if (isolation === undefined) continue
      const user = users.get(isolation) ?? { services: [], connects: [] }
      user.services.push(...services)
      if (!passage.scrapped) user.connects.push(`${passage.id}.connect.${key}`)
      users.set(isolation, user)
    }
  }
  return [...users].flatMap(([id, { services, connects }]) => {
    const what = rules.project.isolations[id]?.what ?? id
    const from = [...pointers('isolations', [id]), ...pointers('services', services)]
    const duration = productive(rules, rule.calendar, [rule.each])
    return [
      derived(
        { id: `isolate.${id}`, name: `Isolate and prove dead: ${what}`, kind: 'isolate', phase: 'strip' },
        rule,
        duration,
        {
          after: finishToStart([BEGIN]),
          from,
          holdPoint: 'isolation certificate',
        },
      ),
      derived(
        { id: `energise.${id}`, name: `Let energy in again: ${what}`, kind: 'energise', phase: 'close' },
        rule,
        duration,
        {
          after: finishToStart(connects),
          from,
          holdPoint: 'isolation lifted',
        },
      ),
    ]
  })
}

/** One activity for each approved change, between the step that frees its parts and the return that carries them. */
export function changes(
  rules: Rules,
  changeParts: Readonly<Record<string, readonly string[]>>,
): { activities: Activity[]; beforeReturn: [string, string][] } {
  const activities: Activity[] = []
  const beforeReturn: [string, string][] = []
  for (const [id, change] of Object.entries(rules.project.changes)) {
    if (change.status !== 'approved') continue
    const typed = rules.programme.changeWork[id]
    const parts = new Set(changeParts[id])
    const carrying = rules.passages.filter(({ step }) => step.parts.some((part) => parts.has(part)))
    const inShaft = carrying.length === 0
    const last = carrying.at(-1) ?? rules.passages.filter((p) => !p.onBay).at(-1)
    const rule = inShaft ? (rules.work.changesInShaft ?? rules.work.changes) : rules.work.changes
    const after = typed?.afterStep ?? last?.id
    const before = typed?.beforeReturn ?? last?.id
    if (before !== undefined) beforeReturn.push([`change.${id}`, before])
    const own = { calendar: typed?.calendar ?? rule.calendar, needs: typed?.needs ?? rule.needs }
    activities.push(
      derived(
        { id: `change.${id}`, name: change.what, kind: 'change', phase: 'repair' },
        own,
        changeTime(rules, id, own.calendar),
        {
          after: [
            ...finishToStart(after === undefined ? [BEGIN] : [`${after}.land`]),
            ...(typed?.after ?? []).map(linkOf),
          ],
          from: [pointerOf('changes', id), ...(typed === undefined ? [] : [pointerOf('programme', 'changeWork', id)])],
          ...(typed?.holdPoint === undefined ? {} : { holdPoint: typed.holdPoint }),
        },
      ),
    )
  }
  return { activities, beforeReturn }
}

function changeTime({ programme }: Rules, id: string, calendar: string): Duration {
  const typed = programme.changeWork[id]
  if (typed === undefined) return { work: [0, 0, 0], unknown: [pointerOf('programme', 'changeWork', id)] }
  return { work: typedDays(programme, calendar, typed.days), unknown: [] }
}

/** Tests in their order; those without a predecessor wait for the return, or for the steps they name. */
export function tests(rules: Rules): Activity[] {
  const rule = rules.work.tests
  const connects = new Map(
    rules.passages.map((p) => [p.id, serviceGroups(rules, p).map(({ key }) => `${p.id}.connect.${key}`)]),
  )
  return Object.entries(rules.project.tests).map(([id, test]) => {
    const free = test.after.length === 0 && test.afterReturn.length === 0 && test.afterActivities.length === 0
    const after = [
      ...test.after.map((t) => `test.${t}`),
      ...test.afterReturn.flatMap((s) => [`${s}.home`, ...(connects.get(s) ?? [])]),
      ...test.afterActivities,
      ...(free ? [RETURNED] : []),
    ]
    return derived(
      { id: `test.${id}`, name: `${test.system}: ${test.test}`, kind: 'test', phase: 'tests' },
      rule,
      byTheClock(rules, [test.duration]),
      {
        after: finishToStart(after),
        from: [pointerOf('tests', id)],
        ...(test.holdPoint ? { holdPoint: test.witness ?? 'witnessed' } : {}),
      },
    )
  })
}

/** The drive after the restart, stage by stage, until it runs at its full rate. */
export function rampUp(rules: Rules, restart: string | undefined): Activity[] {
  const { drive, work } = { drive: rules.programme.drive, work: rules.work }
  if (drive === undefined || work.drive === undefined || restart === undefined) return []
  const rule = work.drive
  return reachesOf(drive).map(({ from, to, advance, pointer }, i) => {
    const time =
      advance.value === undefined
        ? given('s', missingUnder(advance)[0] ?? pointer, undefined)
        : given('s', pointer, (to - from) / advance.value)
    return derived(
      { id: `drive.${i + 1}`, name: `Drive to ${Math.round(to)} m`, kind: 'drive', phase: 'drive' },
      rule,
      byTheClock(rules, [time]),
      {
        after: finishToStart([i === 0 ? restart : `drive.${i}`]),
        from: [pointer],
      },
    )
  })
}
