import type { Cradle, Ground } from '../model/index.ts'
import { type Answer, given, knownOr, largestOf, stated } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { onceSigned, SOIL } from './caution.ts'
import { stripNormal, stripPush } from './cradle.formulas.ts'
import type { CradleCase } from './cradle.ts'
import { restingOn } from './decision.ts'
import * as kinds from './kinds.ts'
import { barsAcross, barsUnder, burst, factoredPush } from './splitting.formulas.ts'

type Jacking = NonNullable<Cradle['jacking']>
type FactorName = 'ringLoad' | 'reinforcement'

const factor = (ground: Ground | undefined, name: FactorName): Answer<'1'> =>
  knownOr(ground?.factors?.[name], '1', pointerOf('ground', 'factors', name))

const SMOOTH = stated('1', 0, 'no friction counted: the shell may slide down its bed')

/** The two sides of the cradle pushed apart by what stands on it, at the worst of all steps. Practice 66. */
export function splittingCheck(
  ground: Ground | undefined,
  cradle: Cradle,
  standing: readonly CradleCase[],
  near: number,
): Check {
  const beta = cradle.contactHalfAngle
  const w = largestOf(
    'load along the cradle, over the steps',
    'N/m',
    standing.map(({ name, along }) => ({ label: name, answer: along })),
  )
  const H = stripPush.show({ N: stripNormal.show({ w, beta, mu: SMOOTH }), beta, mu: SMOOTH })
  const at = (field: string): string => pointerOf('cradle', 'tied', field)
  const { tied } = cradle
  return check({
    kind: kinds.cradleSplitting,
    subject: { pointer: '/cradle', id: 'cradle', name: 'Cradle' },
    demand: factoredPush.show({ gamma_F: factor(ground, 'ringLoad'), H }),
    capacity: onceDesigned(
      barsAcross.show({
        n: given('1', at('layers'), tied?.layers),
        s: knownOr(tied?.spacing, 'm', at('spacing')),
        ...steelOf(ground, tied, at),
      }),
      at('designed'),
      tied?.designed,
    ),
    near,
    assumptions: [
      'As on two strips at the ends of the contact arc, smooth: a bound, for a fitted bed pushes its sides apart less. Neither concrete in tension nor friction below the block is counted.',
      restingOn(ground, 'G5', 'G10'),
    ],
    cautions: [
      SOIL,
      'Bending of the cradle across the drive, and cracks that water finds, are the structural engineer’s.',
    ],
  })
}

/** Concrete under the plate of the heaviest jack, split along the way of its load. Practice 66. */
export function burstingCheck(
  ground: Ground | undefined,
  { links }: Jacking,
  F: Answer<'N'>,
  shared: Pick<Parameters<typeof check>[0], 'subject' | 'near' | 'cautions'>,
): Check {
  const at = (field: string): string => pointerOf('cradle', 'jacking', 'links', field)
  return check({
    ...shared,
    kind: kinds.jackBursting,
    demand: burst.show({ gamma_F: factor(ground, 'ringLoad'), F }),
    capacity: onceDesigned(
      barsUnder.show({
        n: given('1', at('count'), links?.count),
        ...steelOf(ground, links, at),
      }),
      at('designed'),
      links?.designed,
    ),
    assumptions: [
      'A quarter of the load, whatever it spreads to: a bound. The same bars each way; concrete in tension is not counted.',
      restingOn(ground, 'G5', 'G10'),
    ],
  })
}

/** A bar and what it may be stressed to. */
const steelOf = (
  ground: Ground | undefined,
  bars: Cradle['tied'] | Jacking['links'],
  at: (field: string) => string,
): { d: Answer<'m'>; f_yk: Answer<'Pa'>; gamma_s: Answer<'1'> } => ({
  d: knownOr(bars?.bar, 'm', at('bar')),
  f_yk: knownOr(bars?.yield, 'Pa', at('yield')),
  gamma_s: factor(ground, 'reinforcement'),
})

/** Bars count once somebody has designed them and their anchorage. */
const onceDesigned = <U extends 'N' | 'N/m'>(R: Answer<U>, pointer: string, by: string | undefined): Answer<U> =>
  onceSigned(R, pointer, by, 'bars, counted once somebody has designed them with their anchorage on both sides')
