import type { Settings, System } from '../model/index.ts'
import {
  type Answer,
  GRAVITY,
  given,
  knownOr,
  largestOf,
  leastOf,
  stated,
  sumOf,
  type Term,
} from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import { ownMass } from './crane.ts'
import { couple, legLoad, travelForce, windForce } from './tower.formulas.ts'

/** One leg with its load while the hook stands at one place. */
export interface LegReaction {
  leg: string
  /** Site x, and the way along the runway from the hook line. */
  x: number
  offset: number
  vertical: Answer<'N'>
}

type Legs = System['legs']

/** Vertical reactions of all legs with the hook at x. Frame: site. Statics of a beam on two rails. */
export function legReactions(id: string, system: System, hook: Answer<'kg'>, x: Answer<'m'>): LegReaction[] {
  const legs = Object.entries(system.legs)
  const rails = [...new Set(legs.map(([, l]) => l.x.value as number))].sort((a, b) => a - b)
  const n = stated('1', legs.length, `legs of ${id}`)
  return legs.map(([leg, { x: x_leg, offset }]) => {
    const far = legs.find(([, l]) => l.x.value === otherRail(rails, x_leg.value as number))?.[1].x ?? x_leg
    const onRail = legs.filter(([, l]) => l.x.value === x_leg.value).length
    const vertical = legLoad.show({
      g: GRAVITY,
      m_own: ownMass(id, system),
      n,
      m_hook: hook,
      x,
      x_leg,
      x_far: far,
      n_rail: stated('1', onRail, 'legs on this rail'),
    })
    return { leg, x: x_leg.value as number, offset: offset.value as number, vertical }
  })
}

const otherRail = (rails: readonly number[], x: number): number =>
  (x === rails[0] ? rails[rails.length - 1] : rails[0]) as number

/** The end positions of the hook's travel: every leg has its largest and least load at one of them. */
export function hookPositions(id: string, system: System, hook: string): Answer<'m'>[] {
  const travel = system.hooks[hook]?.travel
  return travel === undefined ? [given('m', pointerOf('systems', id, 'hooks', hook, 'travel'), undefined)] : [...travel]
}

/** A tower or gantry on its legs. */
export interface TowerCase {
  id: string
  system: System
  settings: Settings
}

/** Largest load of any leg in a lift, hook anywhere in its travel, with the couples of travel and of wind in service. */
export function largestLeg(c: TowerCase, hook: string, carried: Answer<'kg'>): Answer<'N'> {
  return sumOf('largest load of a leg', 'N', [
    {
      label: 'at rest, over legs and hook positions',
      answer: largestOf('legs and hook positions', 'N', atRest(c, hook, carried)),
    },
    ...couples(c, hook, carried),
  ])
}

/** Least load of any leg at rest, hook loaded or empty anywhere in its travel, and the couples that would lift it. */
export function leastLeg(
  c: TowerCase,
  hook: string,
  carried: Answer<'kg'>,
): { rest: Answer<'N'>; lifting: Answer<'N'> } {
  const empty = atRest(c, hook, stated('kg', 0, 'hook empty'))
  return {
    rest: leastOf('legs and hook positions, loaded and empty', 'N', [
      ...atRest(c, hook, carried),
      ...empty.map(({ label, answer }) => ({ label: `${label}, empty`, answer })),
    ]),
    lifting: sumOf('couples that would lift a leg', 'N', couples(c, hook, carried)),
  }
}

const atRest = (c: TowerCase, hook: string, carried: Answer<'kg'>): Term<'N'>[] =>
  hookPositions(c.id, c.system, hook).flatMap((x) =>
    legReactions(c.id, c.system, carried, x).map(
      ({ leg, vertical }): Term<'N'> => ({ label: `${leg}, hook at x ${x.value ?? '?'} m`, answer: vertical }),
    ),
  )

const couples = (c: TowerCase, hook: string, carried: Answer<'kg'>): Term<'N'>[] => [
  { label: 'couple of travel', answer: travelCouple(c, hook, carried) },
  { label: 'couple of wind in service', answer: windCouple(c, 'service') },
]

/** Legs along the runway on one rail give the shorter base; both rails share it. */
function alongBase(legs: Legs): { b: number; side: number } {
  const offsets = Object.values(legs).map((l) => l.offset.value as number)
  const most = Math.max(...offsets)
  return { b: most - Math.min(...offsets), side: offsets.filter((o) => o === most).length }
}

function coupleOf(c: TowerCase, F: Answer<'N'>, h: Answer<'m'>): Answer<'N'> {
  const { b, side } = alongBase(c.system.legs)
  return couple.show({
    F,
    h,
    b: stated('m', b, `legs of ${c.id} apart along the runway, from their offsets`),
    n_side: stated('1', side, 'legs on one side'),
  })
}

function travelCouple(c: TowerCase, hook: string, carried: Answer<'kg'>): Answer<'N'> {
  const at = (...path: string[]) => pointerOf('systems', c.id, ...path)
  const moving = sumOf('header and what hangs from it', 'kg', [
    { label: 'header and trolleys', answer: knownOr(c.system.header, 'kg', at('header')) },
    { label: 'under the head', answer: carried },
  ])
  const F = travelForce.show({
    s: knownOr(c.system.horizontalShare, '1', at('horizontalShare')),
    g: GRAVITY,
    m_up: moving,
  })
  return coupleOf(c, F, knownOr(c.system.hooks[hook]?.highest, 'm', at('hooks', hook, 'highest')))
}

const AIR = stated('kg/m3', 1.25, 'EN 1991-1-4 4.5 (1) note 2, recommended (from memory)')

/** Wind couple of the tower itself, in service or in a storm. */
export function windCouple(c: TowerCase, when: 'service' | 'outOfService'): Answer<'N'> {
  const at = (...path: string[]) => pointerOf('systems', c.id, ...path)
  const { sail, wind } = c.system
  const F = windForce.show({
    rho: c.settings.airDensity ?? AIR,
    v: knownOr(wind?.[when], 'm/s', at('wind', when)),
    A: knownOr(sail?.area, 'm2', at('sail', 'area')),
    c: knownOr(sail?.drag, '1', at('sail', 'drag')),
  })
  return coupleOf(c, F, knownOr(sail?.height, 'm', at('sail', 'height')))
}
