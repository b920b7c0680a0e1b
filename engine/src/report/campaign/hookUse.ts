import type { Reading } from './campaign.ts'

/** When a lifting system is taken up by lifts: rigging to unrigging. */
export interface HookUse {
  system: string
  name: string
  spans: readonly { start: number; finish: number }[]
}

/** Systems that the plan lifts with, in the order of the project. */
export function hookUses({ model, programme, when }: Reading): HookUse[] {
  const { systems, programme: typed } = model.project
  const standing = (id: string): string => typed?.resources[id]?.stands ?? id
  return Object.entries(systems).flatMap(([system, { name }]): HookUse[] => {
    const spans = Object.values(programme.activities)
      .filter((a) => a.lift !== undefined && Object.keys(a.needs).some((id) => standing(id) === system))
      .flatMap((a) => when(a.id) ?? [])
    return spans.length === 0 ? [] : [{ system, name, spans: joined(spans) }]
  })
}

const HALF_DAY = 43_200

/** Spans in order, those that follow within half a day as one. */
function joined(spans: readonly { start: number; finish: number }[]): { start: number; finish: number }[] {
  const whole: { start: number; finish: number }[] = []
  for (const { start, finish } of [...spans].sort((a, b) => a.start - b.start)) {
    const last = whole.at(-1)
    if (last !== undefined && start - last.finish < HALF_DAY) last.finish = Math.max(last.finish, finish)
    else whole.push({ start, finish })
  }
  return whole
}
