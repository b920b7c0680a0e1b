import type { Cradle, Ground, Machine, Shaft } from '../model/index.ts'
import { goldenSection } from '../numeric/golden.ts'
import { type Answer, found, given, knownOr, stated, sumOf } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { atFirstTouch, carriedBy, momentOf, onBed, type Pressed, type Stretch } from './bed.ts'
import { SOIL } from './caution.ts'
import { concreteBearing, saddlePressure, skinFriction, slideIn } from './cradle.formulas.ts'
import { restingOn } from './decision.ts'
import * as kinds from './kinds.ts'
import type { Resting } from './remainder.ts'
import { designStress } from './ring.formulas.ts'
import { half } from './wall.formulas.ts'
import { weight } from './weight.ts'

/** What slides in, and what it slides on. Frame: site x, the drive towards plus. */
export interface SlideCase {
  cradle: Cradle
  shaft: Shaft
  machine: Machine
  ground: Ground | undefined
  /** The whole machine where it will stand. */
  resting: Resting
}

/** The machine some way short of its place. */
export interface SlideAt {
  /** Still to go, m. */
  short: number
  /** What happens there, where something does. */
  what?: string
  /** Shield on the cradle, m. */
  contact: number
  /** Carried by the cradle, N; the rest by the bored ground and the wall behind it. */
  carried: number
  /** Largest load per metre on the cradle, N/m. */
  along: number
  /** Sum of all that bears less the weight, N, and its moment about the centre of gravity, N m: both nothing. */
  offForce: number
  offMoment: number
}

export interface SlideNumbers {
  W: number
  x: number
  from: number
  to: number
  /** Inner face of the wall where the machine comes in: behind it bored ground and wall bear. */
  edge: number
}

/** What bears some way short of its place: bored ground behind the wall, and the cradle reached so far. */
export interface BedAt {
  behind: readonly Pressed[]
  on: readonly Pressed[]
}

/** A contact shorter than this comes to nothing, m. */
const TOUCH = 1e-6

const contactAt = ({ from, to }: SlideNumbers, short: number): number => {
  const reached = to - short - from
  return reached < TOUCH ? 0 : reached
}

const behindAt = ({ from, edge }: SlideNumbers, short: number): Stretch[] =>
  edge - (from - short) > TOUCH ? [[from - short, edge]] : []

/** The bed under the machine some way short of its place; nothing where it would tip. */
export function bedAt(numbers: SlideNumbers, short: number): BedAt | undefined {
  const { W, x, from } = numbers
  const behind = behindAt(numbers, short)
  const contact = contactAt(numbers, short)
  const on: Stretch[] = contact > 0 ? [[from, from + contact]] : []
  const all = onBed(W, x - short, [...behind, ...on])
  return all && { behind: all.filter((p) => p.from < from), on: all.filter((p) => p.from >= from) }
}

/** The machine at one place of its way; nothing where it would tip. */
function slideAt(numbers: SlideNumbers, asked: number): SlideAt | undefined {
  const { W, x, from, to } = numbers
  const contact = contactAt(numbers, asked)
  const short = contact === 0 ? to - from : asked
  const bed = bedAt(numbers, short)
  if (bed === undefined) return undefined
  const all = [...bed.behind, ...bed.on]
  const sum = (of: (p: Pressed) => number): number => all.reduce((total, p) => total + of(p), 0)
  const along =
    contact > 0
      ? Math.max(0, ...bed.on.flatMap((p) => [p.atFrom, p.atTo]))
      : (atFirstTouch(W, x - short, behindAt(numbers, short), from) as number)
  return {
    short,
    contact,
    carried: bed.on.reduce((total, p) => total + carriedBy(p), 0),
    along,
    offForce: sum(carriedBy) - W,
    offMoment: sum((p) => momentOf(p, x - short)),
  }
}

/** Even places of the way that are looked at besides those where something happens. */
const PLACES = 40

/**
 * From first touch to home: even places, those where something happens, and between them those where the bed is pressed most.
 *
 * Between two places where something happens the pressure runs smoothly.
 *
 * @param places how many even ones; the largest pressure does not hang on it
 */
export function slidePlaces(numbers: SlideNumbers, places = PLACES): (SlideAt | undefined)[] {
  const whole = numbers.to - numbers.from
  const even = Array.from({ length: places + 1 }, (_, k) => (whole * (places - k)) / places)
  const happens = happeningOf(numbers)
  const shorts = inOrder([...even, ...happens.keys()])
  const looked = shorts.map((short) => slideAt(numbers, short))
  const known = new Map(shorts.map((short, i) => [short, looked[i]]))
  const peaks = shorts.flatMap((short, i) => {
    const at = looked[i]?.along ?? 0
    const [before, after] = [looked[i - 1], looked[i + 1]]
    if (at === 0 || at < (before?.along ?? 0) || at < (after?.along ?? 0)) return []
    return [peakBetween(numbers, [after?.short ?? short, short, before?.short ?? short])]
  })
  return inOrder([...shorts, ...peaks]).map((short) => {
    const at = known.has(short) ? known.get(short) : slideAt(numbers, short)
    const what = happens.get(short)
    return at === undefined || what === undefined ? at : { ...at, what }
  })
}

/** Where on the way something happens, still to go, m, and what. */
function happeningOf({ x, from, to, edge }: SlideNumbers): Map<number, string> {
  const whole = to - from
  const all: [number, string][] = [
    [whole, 'first touch'],
    [x - edge, 'centre of gravity over the face of the wall'],
    [from - edge, 'end off the wall'],
    [x - from, 'centre of gravity over the start of the cradle'],
    [0, 'home'],
  ]
  return new Map(all.filter(([short]) => short >= 0 && short <= whole))
}

/** From far to near, each once. */
const inOrder = (shorts: readonly number[]): number[] => [...new Set(shorts)].sort((a, b) => b - a)

/** To a millionth of the stretch, which leaves the pressure at the peak right to its last digits. */
const NARROWINGS = 30
/** Loads that differ by less are the same: where something happens, or at a place that is looked at, is named rather. */
const SAME = 1e-9

/** Where about a place, between two that press less, the bed is pressed most: narrowed in the golden ratio. */
function peakBetween(numbers: SlideNumbers, [near, middle, far]: readonly [number, number, number]): number {
  const along = (short: number): number => slideAt(numbers, short)?.along ?? 0
  const { at, value } = goldenSection(along, (pressure) => pressure, { from: near, to: far, sections: NARROWINGS })
  return value > along(middle) * (1 + SAME) ? at : middle
}

/** Weight, centre of gravity and bed of what slides in; nothing while one is unknown. */
export function slideNumbers({ cradle, shaft, resting }: SlideCase): SlideNumbers | undefined {
  const [W, x] = [weight(resting.design).value, resting.x.value]
  const [from, to] = cradle.along.map((a) => a.value) as [number, number]
  if (W === undefined || x === undefined) return undefined
  // a cradle that reaches to the wall or into it leaves no gap
  return { W, x, from, to, edge: Math.min(from, -(shaft.clearDiameter.value as number) / 2) }
}

/** Of the weight, and of weight times length. */
const CLOSED = 1e-6

const factorOfRing = ({ ground }: SlideCase, name: 'ringConcrete' | 'ringLoad'): Answer<'1'> =>
  ground?.factors?.[name] ?? given('1', pointerOf('ground', 'factors', name), undefined)

/** Pressure at the bottom of the bed under a load per metre, load factor in. */
export const bedPressure = (c: SlideCase, w: Answer<'N/m'>): Answer<'Pa'> =>
  designStress.show({
    gamma_F: factorOfRing(c, 'ringLoad'),
    sigma: saddlePressure.show({
      w,
      R: c.cradle.radius ?? half.show({ D: knownOr(c.machine.shieldDiameter, 'm', '/machine/shieldDiameter') }),
      alpha: c.cradle.contactHalfAngle,
    }),
  })

/** What the concrete of the bed bears. */
export const bedStrength = (c: SlideCase): Answer<'Pa'> =>
  concreteBearing.show({ f_ck: c.cradle.strength, gamma_c: factorOfRing(c, 'ringConcrete') })

/**
 * Thrust at one place of the way in: friction of what the cradle carries there, and of the skin still behind the wall. The face
 * has come through. Open where friction, skin or shield are.
 */
export const thrustAt = ({ cradle, machine }: SlideCase, { from, edge }: SlideNumbers, at: SlideAt): Answer<'N'> =>
  sumOf('thrust at a place of the way in', 'N', [
    {
      label: 'friction on the cradle',
      answer: slideIn.show({
        W: stated('N', at.carried, 'carried by the cradle there'),
        mu: knownOr(cradle.friction, '1', '/cradle/friction'),
        beta: cradle.contactHalfAngle,
        i: stated('1', 0, 'cradle level'),
      }),
    },
    {
      label: 'friction on the skin',
      answer: skinFriction.show({
        D: knownOr(machine.shieldDiameter, 'm', '/machine/shieldDiameter'),
        L: stated(
          'm',
          Math.max(0, edge - (from - at.short)),
          'from the end of the shield to the inner face of the wall',
        ),
        f: knownOr(cradle.driveIn?.skin, 'Pa', '/cradle/driveIn/skin'),
      }),
    },
  ])

/** A place of the way in words. */
const placeWords = ({ short, what }: SlideAt): string => what ?? `${short.toFixed(1)} m short of its place`

/** The machine on its way in: over the gap before the cradle, and on the part of it that it has reached. Practice 66. */
export function slideChecks(c: SlideCase, near: number): Check[] {
  const { cradle, shaft, ground, resting } = c
  const numbers = slideNumbers(c)
  const places = numbers === undefined ? [] : slidePlaces(numbers)
  const worst = places.reduce((a, b) => (b !== undefined && (a === undefined || b.along > a.along) ? b : a), undefined)
  const stuck = places.includes(undefined)
  const inputs = {
    weight: resting.design,
    x: resting.x,
    from: cradle.along[0],
    to: cradle.along[1],
    D: shaft.clearDiameter,
  }
  const along: Answer<'N/m'> = found({
    unit: 'N/m',
    value: stuck ? undefined : worst?.along,
    method:
      'rigid shield on the cradle reached so far and on the bored ground behind the wall, one even bed without tension; largest over its way from the first touch',
    inputs,
    residuals:
      worst === undefined || numbers === undefined
        ? []
        : [
            {
              title: 'all that bears less the weight',
              value: worst.offForce,
              unit: 'N',
              tolerance: CLOSED * numbers.W,
            },
            {
              title: 'moment about the centre of gravity',
              value: worst.offMoment,
              unit: 'N m',
              tolerance: CLOSED * numbers.W * (numbers.to - numbers.from),
            },
          ],
  })
  const shared = {
    subject: { pointer: '/cradle', id: 'cradle', name: 'Cradle' },
    near,
    cautions: [SOIL, 'The machine maker confirms the shell over the edge of the cradle and over the gap before it.'],
  }
  const said = 'The shield bears, once home, from end to end of the cradle; the drive is level and along plus x.'
  return [
    check({
      ...shared,
      kind: kinds.cradleOverhang,
      demand: found({
        unit: 'm',
        value: numbers && numbers.from - numbers.edge,
        method: 'from the inner face of the wall to the cradle',
        inputs: { from: inputs.from, D: inputs.D },
        residuals: [],
      }),
      capacity: found({
        unit: 'm',
        value: numbers && numbers.to - numbers.x,
        method: 'from the centre of gravity to the front of what bears',
        inputs: { x: inputs.x, to: inputs.to },
        residuals: [],
      }),
      assumptions: [said, restingOn(ground, 'G10')],
    }),
    check({
      ...shared,
      kind: kinds.cradleSlide,
      title: worst === undefined ? kinds.cradleSlide.title : `${kinds.cradleSlide.title}: ${placeWords(worst)}`,
      demand: bedPressure(c, along),
      capacity: bedStrength(c),
      assumptions: [
        said,
        'Cradle and bored ground equally stiff; an edge of the cradle that stands proud carries more.',
        'At its first touch the front has sunk as far as the bored ground gives: a lead-in, or a cradle cast low, lets it ride up (common practice, no source); what does not bear is no part of the cradle’s length.',
        restingOn(ground, 'G5', 'G10'),
      ],
    }),
  ]
}
