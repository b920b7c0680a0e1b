import type { Check } from '../working/check.ts'
import { type HeldSignature, signatureCheck } from './signature.ts'

/** The signature of a lift sheet by the lift engineer. */
export const signatureOf = (changes: HeldSignature['changes'], overtakenBy?: string): Check =>
  signatureCheck({ id: 's1', what: 'lift-sheet crown-out', by: 'lift engineer', changes, overtakenBy })

export const fixtures: Record<string, { pass: () => Check; fail: () => Check; open: () => Check }> = {
  'report.signature.stands': {
    pass: () => signatureOf([]),
    fail: () => signatureOf([{ what: 'input', at: '/parts/crown/mass/value' }], 'revision 7, planner'),
    open: () => signatureOf(undefined),
  },
}
