import type { Operation } from '@shieldwright/engine/working/patch.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { mayAs, type Role } from '../accounts/accounts.ts'

/**
 * Who may say that a document went out: others work by it, so whoever may sign one, and nobody who may only edit.
 *
 * @param role of the account that asks; a host without accounts asks nobody
 * @param kept the project as it stands; not asked for where the role is enough
 * @returns what stands in the way of a patch that changes what is on record of issues
 */
export async function issueProblem(
  role: Role,
  kept: () => Promise<{ document: unknown }>,
  patch: readonly Operation[],
): Promise<Problem | undefined> {
  if (mayAs(role, MAY_ISSUE)) return undefined
  const { document } = await kept()
  if (!patch.some((op) => touchesIssues(document, op))) return undefined
  return { pointer: ISSUES, found: `an account that may ${role}`, expected: 'one of an engineer or of an approver' }
}

export const MAY_ISSUE: Role = 'engineer'
const ISSUES = '/issuedBooks'

function touchesIssues(document: unknown, op: Operation): boolean {
  if (op.op === 'test') return false
  const places = [op.path, ...('from' in op ? [op.from] : [])]
  if (places.some((place) => place === ISSUES || place.startsWith(`${ISSUES}/`))) return true
  if (op.path !== '') return false
  return !('value' in op) || issuesText(op.value) !== issuesText(document)
}

/** Of a whole project: letters in an order that is always the same. */
const issuesText = (document: unknown): string => {
  const { issuedBooks = {} } = (document ?? {}) as { issuedBooks?: Record<string, unknown> }
  return JSON.stringify(Object.entries(issuedBooks).sort(([a], [b]) => (a < b ? -1 : 1)))
}
