import type { System } from '../model/index.ts'
import { goldenSection } from '../numeric/golden.ts'
import { type Answer, GRAVITY, knownOr, largestOf, stated, sumOf, type Term } from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import {
  awayOf,
  craneOffset,
  floatForce,
  floatGuess,
  tippingDistance,
  trackLoad,
  worstFloatSlew,
} from './crane.formulas.ts'
import { weightOf } from './hook.formulas.ts'

/** A crane on its feet: what hangs from it, and how far out. */
export interface CraneFeet {
  id: string
  system: System
  /** Everything under the head. */
  load: Answer<'kg'>
  radius: Answer<'m'>
}

/** A crane loaded or empty: its weight, and where that stands from the slewing centre. */
export interface Hanging {
  label: string
  weight: Answer<'N'>
  offset: Answer<'m'>
}

type Outriggers = NonNullable<System['outriggers']>

/** Own mass of a lifting machine, or the open place where it should stand. */
export const ownMass = (id: string, system: System): Answer<'kg'> =>
  knownOr(system.selfMass, 'kg', pointerOf('systems', id, 'selfMass'))

/** Crane and what hangs from it. */
export const craneWeight = ({ id, system, load }: CraneFeet): Answer<'N'> =>
  weightOf.show({
    m: sumOf('crane and what hangs from it', 'kg', [
      { label: 'crane', answer: ownMass(id, system) },
      { label: 'under the head', answer: load },
    ]),
    g: GRAVITY,
  })

/** Loaded, and with its hook empty: the counterweight may rule then. */
export function hangings(c: CraneFeet): Hanging[] {
  const { id, system } = c
  const own = ownMass(id, system)
  const a = knownOr(system.ownOffset, 'm', pointerOf('systems', id, 'ownOffset'))
  const offset = (m_load: Answer<'kg'>): Answer<'m'> => craneOffset.show({ m: own, a, m_load, r: c.radius })
  return [
    { label: 'loaded', weight: craneWeight(c), offset: offset(c.load) },
    { label: 'empty', weight: weightOf.show({ m: own, g: GRAVITY }), offset: offset(stated('kg', 0, 'hook empty')) },
  ]
}

/** Slews looked at: every five degrees of the whole circle from straight ahead, to the left. */
export const SLEWS: readonly number[] = Array.from({ length: 72 }, (_, i) => (i * Math.PI) / 36)

/** Floats of a carrier, by their signs: 1 ahead and −1 behind, 1 on the left and −1 on the right. */
export const CORNERS = [
  { corner: 'ahead left', s_x: 1, s_y: 1 },
  { corner: 'ahead right', s_x: 1, s_y: -1 },
  { corner: 'behind right', s_x: -1, s_y: -1 },
  { corner: 'behind left', s_x: -1, s_y: 1 },
] as const

/** Loads on the feet at one slew. */
export interface SlewStage {
  slew: number
  /** Of each float, ahead left and on round to the right, N; or of the tracks, left and right. */
  feet: readonly number[]
  /** A float is off the ground: the crane stands on three. */
  lifted: boolean
}

/** The feet over the whole slew, loaded; none where something is missing or the crane would tip. */
export function slewCourse(c: CraneFeet): SlewStage[] {
  const [loaded] = hangings(c)
  const [W, e] = [loaded?.weight.value, loaded?.offset.value]
  if (W === undefined || e === undefined) return []
  const { outriggers, tracks } = c.system
  if (outriggers !== undefined) return floatCourse(outriggers, W, e)
  const gauge = tracks?.gauge.value
  if (gauge === undefined || Math.abs(e) > gauge / 2) return []
  return SLEWS.map((slew) => {
    const near = trackLoad.value({ W, e, theta: slew, gauge })
    const left = e * Math.sin(slew) >= 0 ? near : W - near
    return { slew, feet: [left, W - left], lifted: false }
  })
}

function floatCourse({ base }: Outriggers, W: number, e: number): SlewStage[] {
  const [L, B] = [base[0].value as number, base[1].value as number]
  if (SLEWS.some((theta) => floatForce.broken({ W, e, theta, L, B, s_x: 1, s_y: 1 }).length > 0)) return []
  return SLEWS.map((theta) => {
    const feet = CORNERS.map(({ s_x, s_y }) => floatForce.value({ W, e, theta, L, B, s_x, s_y }))
    return { slew: theta, feet, lifted: Math.min(...feet) < 1e-9 * W }
  })
}

/** Largest force on a float, loaded and empty, over the whole slew. */
export function largestFloat(c: CraneFeet, outriggers: Outriggers): Answer<'N'> {
  if (c.system.ownOffset === undefined) return unbalancedFloat(c, outriggers)
  return largestOf(
    'loaded and empty',
    'N',
    hangings(c).map((h): Term<'N'> => ({ label: h.label, answer: worstFloat(outriggers, h) })),
  )
}

/** Without the crane's own balance: the first guess of the trade, and no less than one float bears as the crane comes to tip. */
function unbalancedFloat(c: CraneFeet, outriggers: Outriggers): Answer<'N'> {
  const [L, B] = outriggers.base
  const own = weightOf.show({ m: ownMass(c.id, c.system), g: GRAVITY })
  const tipping = { label: 'tipping', weight: craneWeight(c), offset: tippingDistance.show({ L, B }) }
  return largestOf('Without its own centre of gravity', 'N', [
    {
      label: 'first guess',
      answer: floatGuess.show({ W_crane: own, W_load: weightOf.show({ m: c.load, g: GRAVITY }) }),
    },
    { label: 'as far off centre as it stands at every slew', answer: worstFloat(outriggers, tipping) },
  ])
}

/** Over the corner towards which the load leans, at the slew where that float takes the most; the slew that tips where one does. */
function worstFloat({ base: [L, B] }: Outriggers, { weight: W, offset: e }: Hanging): Answer<'N'> {
  const tips = Math.abs(e.value ?? 0) > Math.min(L.value as number, B.value as number) / 2
  const side = (e.value ?? 0) >= 0 ? 1 : -1
  const corner = CORNERS.find(({ s_x, s_y }) => s_x === side && s_y === side) as (typeof CORNERS)[number]
  return floatForce.show({
    W,
    e,
    theta: tips ? overNarrowSide(L, B) : worstFloatSlew.show({ L, B }),
    L,
    B,
    s_x: stated('1', corner.s_x, `the float ${corner.corner}`),
    s_y: stated('1', corner.s_y, `the float ${corner.corner}`),
  })
}

const overNarrowSide = (L: Answer<'m'>, B: Answer<'m'>): Answer<'rad'> =>
  stated(
    'rad',
    (L.value as number) < (B.value as number) ? 0 : Math.PI / 2,
    'slew over the narrower side, where it tips',
  )

/** Ten degrees to a millionth of a radian. */
const SLEW_SECTIONS = 26

/**
 * Slew, within a quarter circle, at which something that all four quarters share is largest: the best of every five
 * degrees, then golden section on both sides of it down to a millionth of a radian.
 */
export function worstSlewOf(of: (theta: number) => number): number {
  const step = Math.PI / 36
  const best = SLEWS.slice(0, 19).reduce((a, b) => (of(b) > of(a) ? b : a))
  const [from, to] = [Math.max(0, best - step), Math.min(Math.PI / 2, best + step)]
  const between = goldenSection(of, (value) => value, { from, to, sections: SLEW_SECTIONS })
  return between.value > of(best) ? between.at : best
}

/** Whether crane and load stand within the feet at every slew: how far off they are, and how far they may be. */
export function standing(c: CraneFeet): { offset: Answer<'m'>; limit: Answer<'m'> } | undefined {
  const { outriggers, tracks } = c.system
  const base = outriggers?.base ?? (tracks === undefined ? undefined : [tracks.length, tracks.gauge])
  if (base === undefined) return undefined
  const [L, B] = base as readonly [Answer<'m'>, Answer<'m'>]
  return {
    offset: largestOf(
      'Crane and load off the slewing centre',
      'm',
      hangings(c).map(({ label, offset }): Term<'m'> => ({ label, answer: awayOf.show({ e: offset }) })),
    ),
    limit: tippingDistance.show({ L, B }),
  }
}

/** Largest load of one track over the whole slew: across. */
export function largestTrack(c: CraneFeet, tracks: NonNullable<System['tracks']>): Answer<'N'> {
  const across = stated('rad', Math.PI / 2, 'slew across the tracks, where the nearer one takes the most')
  return largestOf(
    'loaded and empty',
    'N',
    hangings(c).map(
      (h): Term<'N'> => ({
        label: h.label,
        answer: trackLoad.show({ W: h.weight, e: h.offset, theta: across, gauge: tracks.gauge }),
      }),
    ),
  )
}
