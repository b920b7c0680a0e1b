import type { System } from '../model/index.ts'
import { type Answer, found, GRAVITY, given, knownOr, type Residual, stated } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { type BeamLoad, beamChecks, STEEL } from './beam.ts'
import { STRENGTH_CAUTIONS } from './caution.ts'
import { headerLoad, spanBetween, steelWeight, topFlange } from './header.formulas.ts'
import { beamUse } from './kinds.ts'
import type { Hooked, Pick } from './pick.ts'
import { type Beam, sectionOf } from './section.ts'
import { type PointLoad, type SimpleBeam, sagAt, simpleBeam, simpleBeamSag } from './simpleBeam.ts'
import { WHOLE } from './structure.ts'

/** Hooks of one system that load its header at the same time: what hangs from each, and how far they stand apart in plan. */
export interface HeaderCase {
  label: string
  hooks: readonly { hooked: Hooked; below: Answer<'kg'> }[]
  apart?: number
}

/** Reactions of the header beams together, at the rails, with the hook at a place; and of each leg. */
export interface HeaderSpot {
  label: string
  /** Site x of the first hook. */
  x: number
  low: Answer<'N'>
  high: Answer<'N'>
  legs: Readonly<Record<string, number>>
}

export interface HeaderResult {
  system: string
  /** Site x of the rails, m. */
  rails: readonly [number, number]
  spots: readonly HeaderSpot[]
}

/** Header beams of a tower or gantry over all places its hooks can stand, and the reactions at the rails. */
export function headerOf(
  pick: Pick,
  hooked: Hooked,
  cases: readonly HeaderCase[],
  places: readonly { label: string; x: number }[],
): { checks: Check[]; header?: HeaderResult } {
  const { system, systemAt } = hooked
  if ((system.kind !== 'lift tower' && system.kind !== 'gantry') || cases.length === 0) return { checks: [] }
  const name = { subject: pick.subject, of: `${hooked.systemId}/header`, title: `header beam of ${system.name}` }
  if (system.headerBeam === undefined)
    return {
      checks: [
        check({
          kind: beamUse,
          ...name,
          near: pick.near,
          title: `${beamUse.title}: ${name.title}`,
          demand: given('1', `${systemAt}/headerBeam`, undefined),
          capacity: WHOLE,
          cautions: STRENGTH_CAUTIONS,
        }),
      ],
    }
  const { beam } = system.headerBeam
  const header = headerGeometry(system, systemAt, beam)
  const worst = worstOf(header, cases)
  return {
    checks: beamChecks(pick, name, beam, `${systemAt}/headerBeam/beam`, loadOf(header, beam, worst)),
    ...spotsOf(hooked, header, cases, places),
  }
}

interface Header {
  system: System
  systemAt: string
  beam: Beam
  count: number
  span: Answer<'m'>
  w: Answer<'N/m'>
  x0: number | undefined
  inputs: Readonly<Record<string, Answer>>
}

const DENSITY = stated('kg/m3', 7850, 'density of steel, EN 1991-1-1 table A.4')
/** Crane actions and own weight alike. */
const PARTIAL = stated('1', 1.35, 'EN 1990 and EN 1991-3 annex A: 1.35 on crane actions and own weight (from memory)')
const OMEGA = stated('1', 1.67, 'AISC 360-16: Ω = 1.67, with the hoist factor on the load (from memory)')

function headerGeometry(system: System, systemAt: string, beam: Beam): Header {
  const rails = system.rails
  const rail = (i: 0 | 1): Answer<'m'> => knownOr(rails?.[i], 'm', `${systemAt}/rails`)
  const span = spanBetween.show({ x_0: rail(0), x_1: rail(1) })
  const w = steelWeight.show({ A: sectionOf(beam).A, rho: DENSITY, g: GRAVITY })
  const [a, b] = [rails?.[0].value, rails?.[1].value]
  return {
    system,
    systemAt,
    beam,
    count: system.headerBeam?.count ?? 1,
    span,
    w,
    x0: a === undefined || b === undefined ? undefined : Math.min(a, b),
    inputs: { span, 'own weight': w },
  }
}

const loadOn = ({ system, systemAt, count }: Header, hooked: Hooked, below: Answer<'kg'>): Answer<'N'> =>
  headerLoad.show({
    m: below,
    m_b: knownOr(hooked.hook.block, 'kg', `${hooked.hookAt}/block`),
    m_t: knownOr(system.headerBeam?.trolley, 'kg', `${systemAt}/headerBeam/trolley`),
    g: GRAVITY,
    phi: knownOr(system.dynamicFactor, '1', `${systemAt}/dynamicFactor`),
    n: stated('1', count, 'header beams side by side'),
  })

/** The case and place with the largest moment, that with the largest shear, and that with the largest sag. */
interface Worst {
  moment: Stand
  shear: Stand
  sag: Stand
  point: Answer<'N'>
}

/** Hooks standing somewhere on one beam. */
interface Stand {
  label: string
  inputs: Readonly<Record<string, Answer>>
  beam: SimpleBeam | undefined
  value: number
  at: number
}

function worstOf(header: Header, cases: readonly HeaderCase[]): Worst {
  const EI = (STEEL.value as number) * (sectionOf(header.beam).I_y.value ?? Number.NaN)
  const stands = cases.flatMap((c) => standsOf(header, c))
  const unknown = stands.find(({ beam }) => beam === undefined)
  const solved = stands.map(({ beam }) => (beam === undefined ? undefined : simpleBeam(beam)))
  const pick = (of: (i: number) => number, at: (i: number) => number = () => 0): Stand => {
    if (unknown !== undefined) return unknown
    let best = 0
    for (let i = 1; i < stands.length; i++) if (of(i) > of(best)) best = i
    return { ...(stands[best] as Stand), value: of(best), at: at(best) }
  }
  const sagInMiddle = (i: number): number => {
    const beam = stands[i]?.beam as SimpleBeam
    return sagAt(beam, EI, beam.L / 2)
  }
  const forces = cases.flatMap(({ hooks }) => hooks.map(({ hooked, below }) => loadOn(header, hooked, below)))
  const most =
    forces.find((f) => f.value === undefined) ??
    forces.reduce((a, b) => ((b.value as number) > (a.value as number) ? b : a))
  return {
    moment: pick(
      (i) => solved[i]?.moment as number,
      (i) => solved[i]?.at as number,
    ),
    shear: pick((i) => solved[i]?.shear as number),
    sag: deepest(pick(sagInMiddle), EI),
    point: most,
  }
}

/** The sag of a stand where it is deepest: the stand was picked by its sag in the middle. */
function deepest(stand: Stand, EI: number): Stand {
  if (stand.beam === undefined) return stand
  const { sag, at } = simpleBeamSag(stand.beam, EI)
  return { ...stand, value: sag, at }
}

const PLACES = 32

/** A case at every place its hooks can stand: a grid of their travel, its ends, and where the moment can be largest. */
function standsOf(header: Header, { label, hooks, apart = 0 }: HeaderCase): Stand[] {
  const { span, w, x0 } = header
  const forces = hooks.map(({ hooked, below }) => loadOn(header, hooked, below))
  const inputs: Record<string, Answer> = {
    ...header.inputs,
    ...Object.fromEntries(
      hooks.flatMap(({ hooked }, i) => [
        [`load of ${hooked.hook.name}`, forces[i] as Answer],
        ...travelOf(hooked).map((x, j): [string, Answer] => [
          `travel of ${hooked.hook.name}, ${j === 0 ? 'from' : 'to'}`,
          x,
        ]),
      ]),
    ),
  }
  const [L, weight] = [span.value, w.value]
  if (
    Object.values(inputs).some((i) => i.value === undefined) ||
    x0 === undefined ||
    L === undefined ||
    weight === undefined
  )
    return [{ label, inputs, beam: undefined, value: 0, at: 0 }]
  const P = forces.map((f) => f.value as number)
  return placingsOf(hooks, P, apart, x0 + L / 2).map((xs) => {
    const loads: PointLoad[] = xs.map((x, i) => ({ P: P[i] as number, x: x - x0 }))
    return { label, inputs, beam: { L, w: weight, loads }, value: 0, at: 0 }
  })
}

const travelOf = ({ hook, hookAt }: Hooked): [Answer<'m'>, Answer<'m'>] => [
  knownOr(hook.travel?.[0], 'm', `${hookAt}/travel`),
  knownOr(hook.travel?.[1], 'm', `${hookAt}/travel`),
]

/** Places of the hooks together: the second on either side of the first, both inside their travel. */
function placingsOf(hooks: HeaderCase['hooks'], P: readonly number[], apart: number, middle: number): number[][] {
  const within = (i: number, x: number): boolean => {
    const [from, to] = travelOf((hooks[i] as HeaderCase['hooks'][number]).hooked)
    return x >= (from.value as number) - 1e-9 && x <= (to.value as number) + 1e-9
  }
  const [from, to] = travelOf((hooks[0] as HeaderCase['hooks'][number]).hooked).map((x) => x.value as number) as [
    number,
    number,
  ]
  const grid = Array.from({ length: PLACES + 1 }, (_, i) => from + ((to - from) * i) / PLACES)
  if (hooks.length === 1) return [...grid, middle].filter((x) => within(0, x)).map((x) => [x])
  // under two loads the moment is largest with the middle of the span halfway between a load and the resultant of both
  const lever = (apart * (P[1] as number)) / ((P[0] as number) + (P[1] as number))
  const both = [1, -1].flatMap((side) => {
    const stationary = [middle - (side * lever) / 2, middle - (side * (apart + lever)) / 2]
    const ends = travelOf((hooks[1] as HeaderCase['hooks'][number]).hooked)
    const mates = ends.map((x) => (x.value as number) - side * apart)
    return [...grid, middle, ...mates, ...stationary]
      .filter((x) => within(0, x) && within(1, x + side * apart))
      .map((x) => [x, x + side * apart])
  })
  // hooks that cannot stand so far apart are a finding elsewhere; the beam is then held to them about its middle
  return both.length > 0 ? both : [[middle - apart / 2, middle + apart / 2]]
}

function loadOf(header: Header, beam: Beam, worst: Worst): BeamLoad {
  return {
    compression: stated('N', 0, 'no pull along the beam is counted'),
    moment: answered('N m', worst.moment),
    shear: answered('N', worst.shear),
    point: worst.point,
    length: beam.unbraced ?? header.span,
    shape: {
      z_g: topFlange.show({ h: beam.section.depth }),
      C_1: stated('1', 1, 'moment taken as uniform, which is the cautious side'),
      C_2: stated(
        '1',
        0.5,
        'loads on the top flange: between the values of one load and of an even load (from memory)',
      ),
    },
    sag: answered('m', worst.sag),
    span: header.span,
    factors: { gamma_F: header.system.headerBeam?.factor ?? PARTIAL, N_d: OMEGA },
    assumptions: [
      `Simple beams between the rails, ${header.count} alike, each with its share; trolleys run on top.`,
      `Worst moment: ${worst.moment.label}${placeText(header, worst.moment)}.`,
      'Bending sideways, skew of the tower and fatigue are for its maker and a licensed structural engineer.',
    ],
  }
}

const placeText = ({ x0 }: Header, { beam, at }: Stand): string =>
  beam === undefined || x0 === undefined ? '' : `, at site x ${(x0 + at).toFixed(1)} m`

function answered<U extends 'N' | 'N m' | 'm'>(unit: U, { label, inputs, beam, value }: Stand): Answer<U> {
  return found({
    unit,
    value: beam === undefined ? undefined : value,
    method: `statics of a beam on two supports, hooks at every place of their travel; worst ${label}`,
    inputs,
    residuals: beam === undefined ? [] : residualsOf(beam),
  })
}

/** Reactions summed again from their lever arms. */
function residualsOf({ L, w, loads }: SimpleBeam): Residual[] {
  const { left, right } = simpleBeam({ L, w, loads })
  const total = loads.reduce((sum, { P }) => sum + P, w * L)
  const turning = loads.reduce((sum, { P, x }) => sum + P * (L - x), (w * L * L) / 2) - left * L
  return [
    { title: 'ΣF of the header beam', value: left + right - total, unit: 'N', tolerance: 1e-9 * total },
    { title: 'ΣM about the far rail', value: turning, unit: 'N m', tolerance: 1e-9 * total * L },
  ]
}

/** Places nearer than this are one, m. */
const SAME_PLACE = 0.05

/** Reactions at the rails and on the legs, with the first case's hook at the places of the lift and at the ends of its travel. */
function spotsOf(
  { system, systemId }: Hooked,
  header: Header,
  cases: readonly HeaderCase[],
  places: readonly { label: string; x: number }[],
): { header?: HeaderResult } {
  const { x0, span } = header
  const single = cases[0]
  const hook = single?.hooks[0]
  if (x0 === undefined || span.value === undefined || single === undefined || hook === undefined) return {}
  const [from, to] = travelOf(hook.hooked).map((x) => x.value)
  if (from === undefined || to === undefined) return {}
  const at = [...places, { label: 'low end of its travel', x: from }, { label: 'high end of its travel', x: to }]
  const reaches = at.filter(({ x }) => x >= x0 && x <= x0 + (span.value as number))
  const apart = reaches.filter(({ x }, i) => reaches.findIndex((other) => Math.abs(other.x - x) < SAME_PLACE) === i)
  const spots = apart.map(({ label, x }) => spotAt(system, header, hook, label, x))
  return { header: { system: systemId, rails: [x0, x0 + span.value], spots } }
}

function spotAt(
  system: System,
  header: Header,
  { hooked, below }: HeaderCase['hooks'][number],
  label: string,
  x: number,
): HeaderSpot {
  const P = loadOn(header, hooked, below)
  const inputs = { ...header.inputs, 'load of the hook on one beam': P }
  const [L, w, force] = [header.span.value, header.w.value, P.value]
  const known = L !== undefined && w !== undefined && force !== undefined
  const beam: SimpleBeam | undefined = known ? { L, w, loads: [{ P: force, x: x - (header.x0 as number) }] } : undefined
  const solved = beam === undefined ? undefined : simpleBeam(beam)
  const reaction = (side: 'left' | 'right'): Answer<'N'> =>
    found({
      unit: 'N',
      value: solved === undefined ? undefined : solved[side] * header.count,
      method: `reaction of ${header.count} header beams at a rail, hook at site x ${x.toFixed(2)} m`,
      inputs,
      residuals: beam === undefined ? [] : residualsOf(beam),
    })
  const [low, high] = [reaction('left'), reaction('right')]
  return { label, x, low, high, legs: legsOf(system, header, low.value, high.value) }
}

/** Of a rail's reaction each of its legs by its lever about the hook line; with other than two legs, evenly. */
function legsOf(
  system: System,
  { x0 }: Header,
  low: number | undefined,
  high: number | undefined,
): Record<string, number> {
  const legs = Object.entries(system.legs)
  const onLow = (x: number): boolean => Math.abs(x - (x0 as number)) < 0.5
  return Object.fromEntries(
    legs.flatMap(([id, leg]) => {
      const isLow = onLow(leg.x.value as number)
      const reaction = isLow ? low : high
      if (reaction === undefined) return []
      const own = legs.filter(([, other]) => onLow(other.x.value as number) === isLow)
      const mate = own.find(([other]) => other !== id)?.[1].offset.value
      const here = leg.offset.value as number
      const share = own.length === 2 && mate !== undefined && mate !== here ? mate / (mate - here) : 1 / own.length
      return [[id, reaction * share]]
    }),
  )
}
