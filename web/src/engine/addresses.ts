import type { Stages } from '@shieldwright/engine'
import { leavesOf } from '@shieldwright/engine/working/answer.ts'
import type { Check } from '@shieldwright/engine/working/check.ts'

/** A check that was not worked out again is the same object, and is not walked again. */
const restsOn = new WeakMap<Check, ReadonlySet<string>>()

/** Addresses of the inputs that a check rests on. */
export function addressesOf(check: Check): ReadonlySet<string> {
  const known = restsOn.get(check)
  if (known !== undefined) return known
  const addresses = new Set([...leavesOf(check.demand), ...leavesOf(check.capacity)].map((leaf) => leaf.pointer))
  restsOn.set(check, addresses)
  return addresses
}

/** Walks every check once, so that the first preview need not. */
export function readAddresses({ checks }: Stages): void {
  for (const check of checks) addressesOf(check)
}
