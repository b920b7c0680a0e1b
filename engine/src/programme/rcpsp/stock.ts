import type { Stock } from './model.ts'
import { add, closed, openReason, raise, type Trail, WRITTEN } from './trail.ts'

type Group = Stock['groups'][number]

/**
 * What is used up at the least: each group's smallest amount that is still open. More than there is: a conflict; a choice that
 * would need more is ruled out.
 *
 * @returns place of a conflict in the explanations, or −1
 */
export function stockUse(t: Trail, { capacity, groups }: Stock): number {
  const least = groups.map((group) => leastOf(t, group))
  const sum = least.reduce((s, l) => s + l, 0)
  if (sum > capacity) return written(t, groups, least, -1)
  groups.forEach((group, g) => {
    for (const { variable, amount } of group) {
      if (t.bound[2 * variable + 1] === 0 || t.bound[2 * variable] === 1) continue
      if (sum - (least[g] as number) + amount > capacity)
        raise(t, 2 * variable + 1, 0, WRITTEN, written(t, groups, least, g))
    }
  })
  return -1
}

const isOut = (t: Trail, variable: number): boolean => t.bound[2 * variable + 1] === 0

const leastOf = (t: Trail, group: Group): number =>
  group.reduce((least, { variable, amount }) => (isOut(t, variable) ? least : Math.min(least, amount)), 1 << 28)

/** Choices that are out and would have used less, in every group but one. */
function written(t: Trail, groups: readonly Group[], least: readonly number[], except: number): number {
  openReason(
    t,
    groups.reduce((n, g) => n + g.length, 0),
  )
  groups.forEach((group, g) => {
    if (g === except) return
    for (const { variable, amount } of group)
      if (amount < (least[g] as number) && isOut(t, variable)) add(t, 2 * variable + 1, 0)
  })
  return closed(t)
}
