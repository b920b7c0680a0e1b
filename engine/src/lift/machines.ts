import { type Answer, GRAVITY, knownOr, sumOf, type Term } from '../working/answer.ts'
import type { Feet } from './feet.ts'
import { sharedLoad } from './hook.ts'
import type { Hooked, Pick } from './pick.ts'
import { lineLoad } from './turn.formulas.ts'

/** The second of two machines that share a piece. */
export interface SecondMachine {
  system: string
  hook: string
  /** Its largest share of the piece, with its own rigging and block. */
  underHead: Answer<'kg'>
  /** Largest radius passed, of a crane. */
  radius: Answer<'m'>
  feet?: Feet
}

/** The hook of each machine that carries a lift: that of the tail where it hangs from a machine of its own. */
export const machinesOf = ({ main, tail }: Pick): readonly [Hooked, ...Hooked[]] =>
  tail === undefined || tail.systemId === main.systemId ? [main] : [main, tail]

/** What sets the checks of the second machine apart from those of the first. */
export const ofMachine = ({ main }: Pick, { systemId }: Hooked): { of?: string } =>
  systemId === main.systemId ? {} : { of: systemId }

/** What one of two machines carries below its head. @param share its largest pull on the piece, N */
export function underOwnHead(pick: Pick, hooked: Hooked, share: Answer<'N'>): Answer<'kg'> {
  const carried: Term<'kg'> = {
    label: 'largest share of the piece, with its rigging',
    answer: sharedLoad(pick, hooked, { label: 'share of the piece', answer: lineLoad.show({ T: share, g: GRAVITY }) })
      .load,
  }
  return sumOf('under the head', 'kg', [carried, blockOf(hooked)])
}

export const blockOf = ({ hook, hookAt }: Hooked): Term<'kg'> => ({
  label: `block of ${hook.name}`,
  answer: knownOr(hook.block, 'kg', `${hookAt}/block`),
})
