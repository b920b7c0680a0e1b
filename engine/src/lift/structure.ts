import { type Answer, given, stated } from '../working/answer.ts'
import type { Pick } from './pick.ts'

/** Design category B: ordinary uncertainty of loads. The engineer of the lifting gear decides. */
export const DESIGN_FACTOR = stated('1', 3, 'ASME BTH-1 3-1.3, design category B: N_d = 3.00 (from memory)')

/** Against yielding: what hangs from a hook bears twice its load without lasting deformation. */
export const LOAD_FACTOR = stated('1', 2, 'EN 13155: no lasting deformation at twice the rated load (from memory)')

/** Against breaking: three times the load without letting go, of which 1.25 stands on the side of the strength. */
export const BREAKING_FACTOR = stated(
  '1',
  2.4,
  'EN 13155: holds at three times the rated load; 3.0 / 1.25, for γ_M2 is in the strength (from memory)',
)

export const GAMMA_M0 = stated('1', 1, 'EN 1993-1-1 6.1: γ_M0 = 1.00 (recommended value, from memory)')
export const GAMMA_M2 = stated('1', 1.25, 'EN 1993-1-8 table 2.1: γ_M2 = 1.25 (recommended value, from memory)')
export const GAMMA_M6 = stated('1', 1, 'EN 1993-1-8 table 2.1: γ_M6,ser = 1.00 (recommended value, from memory)')

/** What a use is held to. */
export const WHOLE = stated('1', 1, 'all of it')

/** The family of rules of the project; open where it has not chosen. */
export const unchosen = (): Answer<'1'> => given('1', '/settings/riggingRules', undefined)

/** What one family or the other gives; open where the project has not chosen. Rules are never mixed. */
export function byRules<T>({ settings }: Pick, rules: { European: () => T; US: () => T; open: () => T }): T {
  switch (settings.riggingRules) {
    case 'European':
      return rules.European()
    case 'US':
      return rules.US()
    case undefined:
      return rules.open()
    default:
      return settings.riggingRules satisfies never
  }
}
