import type { Cradle, Ground, Machine, Shaft } from '../model/index.ts'
import { type Answer, found, given, knownOr, stated, sumOf } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
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

/** A stretch of bed: two ends, site x, m. */
type Stretch = readonly [number, number]

const PLACES = 40
const CELLS = 240
const ROUNDS = 60
/** Of weight times length: each cell bears at its middle. */
const COARSE = 1e-3

/**
 * A rigid body on stretches of one even elastic bed, no tension: load per metre p = a + b x where it bears.
 *
 * @param W weight, N; @param x its centre of gravity, m
 * @returns middle, width and load per metre of each cell; nothing where it would tip off
 */
export function onBed(
  W: number,
  x: number,
  stretches: readonly Stretch[],
): { at: number; width: number; p: number }[] | undefined {
  if (stretches.every(([from]) => x <= from) || stretches.every(([, to]) => x >= to)) return undefined
  const length = stretches.reduce((sum, [from, to]) => sum + to - from, 0)
  const cells = stretches.flatMap(([from, to]) => {
    const n = Math.max(8, Math.round((CELLS * (to - from)) / length))
    const width = (to - from) / n
    return Array.from({ length: n }, (_, i) => ({ at: from + (i + 0.5) * width, width }))
  })
  const bearing = new Array<boolean>(cells.length).fill(true)
  for (let round = 0; round < ROUNDS; round++) {
    const [A, S, I] = moments(cells, bearing, x)
    const det = A * I - S * S
    if (!(det > 1e-9 * A * A)) return undefined
    const [a, b] = [(W * I) / det, (-W * S) / det]
    const pressed = (at: number): number => a + b * (at - x)
    let settled = true
    for (let i = 0; i < cells.length; i++) {
      const bears = pressed((cells[i] as Cell).at) > 0
      if (bears !== bearing[i]) settled = false
      bearing[i] = bears
    }
    if (settled) return cells.map(({ at, width }, i) => ({ at, width, p: bearing[i] ? pressed(at) : 0 }))
  }
  return undefined
}

interface Cell {
  at: number
  width: number
}

/** Length of what bears, and its first and second moments about x. */
function moments(cells: readonly Cell[], bearing: readonly boolean[], x: number) {
  let [A, S, I] = [0, 0, 0]
  for (let i = 0; i < cells.length; i++) {
    if (!bearing[i]) continue
    const { at, width } = cells[i] as Cell
    A += width
    S += width * (at - x)
    I += width * ((at - x) ** 2 + width ** 2 / 12)
  }
  return [A, S, I] as const
}

export interface SlideNumbers {
  W: number
  x: number
  from: number
  to: number
  /** Inner face of the wall where the machine comes in: behind it bored ground and wall bear. */
  edge: number
}

/** The bed under the machine some way short of its place: bored ground behind the wall, and the cradle reached so far. */
export function bedAt({ W, x, from, to, edge }: SlideNumbers, short: number): ReturnType<typeof onBed> {
  const behind: Stretch[] = from - short < edge ? [[from - short, edge]] : []
  return onBed(W, x - short, [...behind, [from, to - short]])
}

/** From first touch to home. */
export function slidePlaces({ W, x, from, to, edge }: SlideNumbers): (SlideAt | undefined)[] {
  const whole = to - from
  return Array.from({ length: PLACES }, (_, k) => {
    const short = (whole * (PLACES - 1 - k)) / PLACES
    const cells = bedAt({ W, x, from, to, edge }, short)
    const on = cells?.filter(({ at }) => at > from)
    return (
      on && {
        short,
        contact: to - short - from,
        carried: on.reduce((sum, { p, width }) => sum + p * width, 0),
        along: Math.max(...on.map(({ p }) => p)),
        offForce: (cells ?? []).reduce((sum, { p, width }) => sum + p * width, -W),
        offMoment: (cells ?? []).reduce((sum, { p, width, at }) => sum + p * width * (at - x + short), 0),
      }
    )
  })
}

/** Weight, centre of gravity and bed of what slides in; nothing while one is unknown. */
export function slideNumbers({ cradle, shaft, resting }: SlideCase): SlideNumbers | undefined {
  const [W, x] = [weight(resting.design).value, resting.x.value]
  const [from, to] = cradle.along.map((a) => a.value) as [number, number]
  if (W === undefined || x === undefined) return undefined
  return { W, x, from, to, edge: -(shaft.clearDiameter.value as number) / 2 }
}

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
      'rigid shield on the cradle reached so far and on the bored ground behind the wall, one even bed without tension, 40 places of its way',
    inputs,
    residuals:
      worst === undefined || numbers === undefined
        ? []
        : [
            { title: 'all that bears less the weight', value: worst.offForce, unit: 'N', tolerance: 1e-6 * numbers.W },
            {
              title: 'moment about the centre of gravity',
              value: worst.offMoment,
              unit: 'N m',
              tolerance: COARSE * numbers.W * (numbers.to - numbers.from),
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
      title:
        worst === undefined
          ? kinds.cradleSlide.title
          : `${kinds.cradleSlide.title}: ${worst.short.toFixed(1)} m short of its place`,
      demand: bedPressure(c, along),
      capacity: bedStrength(c),
      assumptions: [
        said,
        'Cradle and bored ground equally stiff; an edge of the cradle that stands proud carries more.',
        restingOn(ground, 'G5', 'G10'),
      ],
    }),
  ]
}
