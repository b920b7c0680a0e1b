import { given } from '../working/answer.ts'
import { type Check, type CheckKind, check } from '../working/check.ts'
import { faultsFound, NONE } from '../working/fault.ts'
import { pointerOf } from '../working/pointer.ts'

export const signatureStands: CheckKind = {
  id: 'report.signature.stands',
  title: 'A signature still stands on what it signed',
  stage: 'report',
  source: {
    basis: 'derived',
    text: 'by hash: every input that the signed figures were read from, methods and engine, as signed and as they are',
  },
  practice: [96],
  decidedBy: 'inspector',
}

export const reportKinds: readonly CheckKind[] = [signatureStands]

/** A signature with what differs today from what it signed. */
export interface HeldSignature {
  id: string
  /** Kind and subject of what is signed, and who signed it. */
  what: string
  by: string
  /** What differs, by its address or name; undefined where the project has faults, and nothing can be held against it. */
  changes: readonly { what: string; at: string }[] | undefined
  /** The change since which it no longer stands, in words. */
  overtakenBy?: string | undefined
}

/** Check 96 of one signature. */
export function signatureCheck({ id, what, by, changes, overtakenBy }: HeldSignature): Check {
  const at = pointerOf('signatures', id)
  const since = overtakenBy === undefined ? [] : [`overtaken by ${overtakenBy}`]
  return check({
    kind: signatureStands,
    subject: { pointer: at, id, name: what },
    demand: faultsFound(
      changes?.length ?? 0,
      'things that are no longer what was signed',
      changes === undefined ? { 'a project without faults': given('1', '', undefined) } : {},
    ),
    capacity: NONE,
    near: 1,
    assumptions: [`signed by ${by}`],
    cautions: [
      'A signature that is overtaken is none: a person of the required competence looks again, and signs anew.',
    ],
    found: [...since, ...(changes ?? []).map((c) => `${c.what} ${c.at} is another`)],
  })
}
