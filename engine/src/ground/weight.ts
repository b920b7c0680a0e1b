import type { LiftOutcome } from '../lift/index.ts'
import type { MassResult } from '../mass/index.ts'
import type { Model, System } from '../model/index.ts'
import { type Answer, GRAVITY, given, largestOf, leavesOf, sumOf, type Term } from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import { weightOf } from './pad.formulas.ts'
import type { Standing } from './place.ts'

/** Upper mass of parts that stand together: the larger of as found and as returned, for the ground must bear both. */
export function heavierMass(
  mass: MassResult,
  { piece, parts, whole }: Pick<Standing, 'piece' | 'parts' | 'whole'>,
): Answer<'kg'> {
  const known = whole ? mass.pieces[piece] : undefined
  const state = (name: 'found' | 'returned') => known?.[name] ?? mass.ofSet(parts, name)
  return heavier(state('found').design, state('returned').design)
}

export const heavier = (found: Answer<'kg'>, returned: Answer<'kg'>): Answer<'kg'> =>
  largestOf('heavier of as found and as returned', 'kg', [
    { label: 'as found', answer: found },
    { label: 'as returned', answer: returned },
  ])

export const weight = (m: Answer<'kg'>): Answer<'N'> => weightOf.show({ g: GRAVITY, m })

/** Everything a machine carries below its head in a lift: the hook load, and each block that the hook load does not hold yet. */
export function hookMass(model: Model, outcome: LiftOutcome): Answer<'kg'> {
  const lift = model.project.lifts[outcome.id]
  const hooks: [string, string][] = [[outcome.system, outcome.hook]]
  if (lift?.tail !== undefined) hooks.push([lift.tail.system ?? outcome.system, lift.tail.hook])
  const counted = new Set(leavesOf(outcome.hookLoad).map((leaf) => leaf.pointer))
  const blocks = hooks.flatMap(([system, hook]): Term<'kg'>[] => {
    const pointer = pointerOf('systems', system, 'hooks', hook, 'block')
    const block = model.project.systems[system]?.hooks[hook]?.block ?? given('kg', pointer, undefined)
    return counted.has(pointer) ? [] : [{ label: `block of ${hook}`, answer: block }]
  })
  return sumOf('under the head', 'kg', [{ label: 'hook load', answer: outcome.hookLoad }, ...blocks])
}

/** Own mass of a lifting machine, or the open place where it should stand. */
export const ownMass = (id: string, system: System): Answer<'kg'> =>
  system.selfMass ?? given('kg', pointerOf('systems', id, 'selfMass'), undefined)
