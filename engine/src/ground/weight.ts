import type { LiftOutcome } from '../lift/index.ts'
import type { MassResult, SetMass } from '../mass/index.ts'
import type { Model } from '../model/index.ts'
import type { Standing } from '../strip/index.ts'
import { type Answer, GRAVITY, largestOf, type Term } from '../working/answer.ts'
import type { Memory } from '../working/memory.ts'
import { weightOf } from './pad.formulas.ts'

/** Parts that stand together; `piece` names the piece they came as, and is empty for what is left in the shaft. */
export type Group = Pick<Standing, 'piece' | 'parts' | 'whole'>

/** Masses and weights asked for at many steps, each worked once. */
export interface Weights {
  setsOf: (group: Group) => States
  /** Upper mass: the largest of as found, as weighed and as returned, for the ground must bear each. */
  massOf: (group: Group) => Answer<'kg'>
  weightOf: (group: Group) => Answer<'N'>
  /** Everything a machine carries below its head in a lift. */
  hookOf: (outcome: LiftOutcome) => Answer<'kg'>
}

/** A set in each state that is known. */
export interface States {
  found: SetMass
  weighed?: SetMass
  returned: SetMass
}

/** The states in words, with the set of each. */
export const statesOf = ({ found, weighed, returned }: States): [label: string, set: SetMass][] => [
  ['as found', found],
  ...(weighed === undefined ? [] : [['as weighed', weighed] as [string, SetMass]]),
  ['as returned', returned],
]

/** Weights of one derivation; sets are looked up again only when a mass, a change or a rule is another. */
export function weightsOf(model: Model, mass: MassResult, memory: Memory): Weights {
  const { changes, pieces, settings, machine } = model.project
  const rests = [mass.parts, changes, pieces, settings, machine, model.instances]
  const setsOf = ({ piece, parts, whole }: Group): States => {
    const known = whole ? mass.pieces[piece] : undefined
    if (known !== undefined) return known
    return memory.once(`ground-pair/${piece}/${parts.length}`, [parts, ...rests], () => ({
      found: mass.ofSet(parts, 'found'),
      returned: mass.ofSet(parts, 'returned'),
    }))
  }
  // A standing is asked for at every step while it stands: within one derivation by its identity, which needs no key.
  const masses = new Map<Group, Answer<'kg'>>()
  const weights = new Map<Group, Answer<'N'>>()
  const massOf = (group: Group): Answer<'kg'> => kept(masses, group, () => massKept(group))
  const massKept = (group: Group): Answer<'kg'> => {
    const states = statesOf(setsOf(group))
    const designs = states.map(([, set]) => set.design)
    return memory.once(`ground-mass/${group.piece}/${group.parts.length}`, designs, () =>
      largestOf(
        'heaviest state',
        'kg',
        states.map(([label, set]): Term<'kg'> => ({ label, answer: set.design })),
      ),
    )
  }
  return {
    setsOf,
    massOf,
    weightOf: (group) =>
      kept(weights, group, () => {
        const m = massOf(group)
        return memory.once(`ground-weight/${group.piece}/${group.parts.length}`, [m], () => weight(m))
      }),
    hookOf: (outcome) => outcome.underHead,
  }
}

function kept<K, V>(known: Map<K, V>, key: K, make: () => V): V {
  const last = known.get(key)
  if (last !== undefined) return last
  const made = make()
  known.set(key, made)
  return made
}

export const weight = (m: Answer<'kg'>): Answer<'N'> => weightOf.show({ g: GRAVITY, m })
