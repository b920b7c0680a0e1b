import type { Operation, Patch } from '@shieldwright/engine/working/patch.ts'
import { brokenText } from '@shieldwright/engine/working/plain.ts'
import { foundText, type Problem } from '@shieldwright/engine/working/problem.ts'
import { isKept } from './request.ts'

/** Most operations of one change: a screen makes a few, a merge some hundreds. */
const MOST_OPERATIONS = 5000
const LONGEST_REASON = 500
/** Objects and lists within each other; a project needs nine. */
const DEEPEST = 64

type Raw = Readonly<Record<string, unknown>>

const isRecord = (value: unknown): value is Raw => typeof value === 'object' && value !== null && !Array.isArray(value)

/** The patch of a request, or what is wrong with it. What the operations do is looked at when they are applied. */
export function patchIn(body: unknown): { patch: Patch } | { problems: Problem[] } {
  const patch = isRecord(body) ? body.patch : undefined
  if (!Array.isArray(patch)) return refused('/patch', patch, 'a JSON Patch: a list of operations')
  if (patch.length > MOST_OPERATIONS) return refused('/patch', patch, `at most ${MOST_OPERATIONS} operations`)
  if (isTooDeep(patch, DEEPEST)) return refused('/patch', patch, `at most ${DEEPEST} levels`)
  const broken = patch.findIndex((operation) => !isOperation(operation))
  if (broken >= 0)
    return refused(`/patch/${broken}`, patch[broken], 'an operation with op, path, and value or from where due')
  const text = brokenText({ patch })
  return text === undefined ? { patch: patch as Patch } : { problems: [text] }
}

/** Looks one level deeper than allowed and no further. */
function isTooDeep(value: unknown, levels: number): boolean {
  if (typeof value !== 'object' || value === null) return false
  return levels === 0 || Object.values(value).some((inner) => isTooDeep(inner, levels - 1))
}

function isOperation(raw: unknown): raw is Operation {
  if (!isRecord(raw) || typeof raw.op !== 'string' || typeof raw.path !== 'string') return false
  const needs = { add: 'value', replace: 'value', test: 'value', move: 'from', copy: 'from', remove: 'path' }[raw.op]
  return needs !== undefined && Object.hasOwn(raw, needs) && (needs !== 'from' || typeof raw.from === 'string')
}

/** A change with the revision it stands on and its reason. */
export function changeIn(body: unknown): { patch: Patch; revision: number; why: string } | { problems: Problem[] } {
  const read = patchIn(body)
  if ('problems' in read) return read
  const { revision, why = '' } = body as Raw
  if (!Number.isSafeInteger(revision) || (revision as number) < 0)
    return refused('/revision', revision, 'the revision that the change was made on')
  if (typeof why !== 'string' || why.length > LONGEST_REASON || !isKept(why)) {
    return refused('/why', why, `a reason of at most ${LONGEST_REASON} whole characters, NUL not among them`)
  }
  return { ...read, revision: revision as number, why }
}

const refused = (pointer: string, found: unknown, expected: string): { problems: Problem[] } => ({
  problems: [{ pointer, found: foundText(found), expected }],
})
