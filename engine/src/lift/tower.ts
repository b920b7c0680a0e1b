import type { Climate, Settings, System } from '../model/index.ts'
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
import { gustAtHook } from './wind.ts'

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
  climate: Climate | undefined
  /** Level of the collar, site z: the ground over which a gust is read. */
  collar: Answer<'m'> | undefined
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

/** Legs that share a couple one way. */
interface Base {
  way: string
  /** From the legs of one side to those of the other, m. */
  b: number
  /** Legs of the side with fewer. */
  side: number
}

function baseOf(way: string, places: readonly number[]): Base {
  const [least, most] = [Math.min(...places), Math.max(...places)]
  const on = (end: number): number => places.filter((p) => p === end).length
  return { way, b: most - least, side: Math.min(on(least), on(most)) }
}

const alongBase = (legs: Legs): Base =>
  baseOf(
    'along the runway, from their offsets',
    Object.values(legs).map((l) => l.offset.value as number),
  )

const acrossBase = (legs: Legs): Base =>
  baseOf(
    'across the runway, from their rails',
    Object.values(legs).map((l) => l.x.value as number),
  )

/** The way in which a couple brings more on one leg: wind blows from any side. */
function weakerBase(legs: Legs): Base {
  const [along, across] = [alongBase(legs), acrossBase(legs)]
  return across.b * across.side < along.b * along.side ? across : along
}

function coupleOf(c: TowerCase, { way, b, side }: Base, F: Answer<'N'>, h: Answer<'m'>): Answer<'N'> {
  return couple.show({
    F,
    h,
    b: stated('m', b, `legs of ${c.id} apart ${way}`),
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
  return coupleOf(
    c,
    alongBase(c.system.legs),
    F,
    knownOr(c.system.hooks[hook]?.highest, 'm', at('hooks', hook, 'highest')),
  )
}

const AIR = stated('kg/m3', 1.25, 'EN 1991-1-4 4.5 (1) note 2, recommended (from memory)')

/** Wind couple of the tower itself, in service or in a storm, from the side on which it brings most on one leg. */
export const windCouple = (c: TowerCase, when: When): Answer<'N'> =>
  coupleOf(
    c,
    weakerBase(c.system.legs),
    windPush(c, when),
    knownOr(c.system.sail?.height, 'm', pointerOf('systems', c.id, 'sail', 'height')),
  )

/** Push of the wind on the tower itself, the same from every side. */
export function windPush(c: TowerCase, when: When): Answer<'N'> {
  const at = (...path: string[]) => pointerOf('systems', c.id, ...path)
  const { sail } = c.system
  return windForce.show({
    rho: c.settings.airDensity ?? AIR,
    v: gustOn(c, when),
    A: knownOr(sail?.area, 'm2', at('sail', 'area')),
    c: knownOr(sail?.drag, '1', at('sail', 'drag')),
  })
}

type When = 'service' | 'outOfService'

/** The limit of the maker as a gust at the height of the highest hook. */
function gustOn({ id, system, climate, collar }: TowerCase, when: When): Answer<'m/s'> {
  const at = (...path: string[]) => pointerOf('systems', id, ...path)
  return gustAtHook(knownOr(system.wind?.[when], 'm/s', at('wind', when)), {
    read: system.wind?.read,
    readAt: at('wind', 'read'),
    gustFactor: climate?.gustFactor,
    highest: highestHook(id, system),
    collar,
  })
}

const highestHook = (id: string, { hooks }: System): Answer<'m'> =>
  largestOf(
    'highest hook',
    'm',
    Object.entries(hooks).map(([hook, { highest }]) => ({
      label: hook,
      answer: knownOr(highest, 'm', pointerOf('systems', id, 'hooks', hook, 'highest')),
    })),
  )
