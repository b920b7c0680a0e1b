import {
  bedAt,
  bedPressure,
  bedStrength,
  type SlideAt,
  type SlideCase,
  type SlideNumbers,
  slideNumbers,
  slidePlaces,
  thrustAt,
} from '../../../ground/index.ts'
import { stated } from '../../../working/answer.ts'
import { showQuantity } from '../../../working/quantity.ts'
import { lengthText, lengthUnit } from '../../sheet/figures.ts'
import type { SiteSubject } from '../subject.ts'
import { type FigureTable, number, words } from './figures.ts'

/** The machine at one place of its way in. */
export interface SlidePlace extends SlideAt {
  /** Pressure at the bottom of each stretch that bears, linear between its ends, load factor in, Pa; site x, m. */
  behind: readonly PressedBed[]
  on: readonly PressedBed[]
  /** Largest on the cradle, Pa; undefined where factor, radius or arc is not given. */
  pressure: number | undefined
  thrust: number | undefined
  worst: boolean
}

/** A stretch of the bed: its ends, and the pressure at each. */
export interface PressedBed {
  from: number
  to: number
  atFrom: number
  atTo: number
}

/** The way in as its picture and table show it. */
export interface WayIn {
  is: SlideCase
  numbers: SlideNumbers
  places: readonly SlidePlace[]
  /** The place at which the bed is pressed most. */
  worst: SlidePlace | undefined
  /** Places at which it would tip off. */
  tips: number
  strength: number | undefined
  /** Thrust that the drive-in has, and the bound on what it needs, N. */
  thrust: { has: number | undefined; bound: number | undefined }
}

/** The machine on its way in; undefined where machine, cradle or shaft are missing, or what it weighs is open. */
export function wayIn({ stages }: SiteSubject): WayIn | undefined {
  const is = stages.ground.slide
  const numbers = is && slideNumbers(is)
  if (is === undefined || numbers === undefined) return undefined
  const all = slidePlaces(numbers)
  const known = all.filter((p) => p !== undefined)
  const most = Math.max(...known.map((p) => p.along))
  const places = known.map((p) => placeOf(is, numbers, p, p.along === most))
  const thrust = stages.ground.checks.find((c) => c.kind === 'ground.drive-in.thrust')
  return {
    is,
    numbers,
    places,
    worst: places.find((p) => p.worst),
    tips: all.length - known.length,
    strength: bedStrength(is).value,
    thrust: { has: thrust?.capacity.value, bound: thrust?.demand.value },
  }
}

function placeOf(is: SlideCase, numbers: SlideNumbers, at: SlideAt, worst: boolean): SlidePlace {
  const pressure = (w: number): number | undefined => bedPressure(is, stated('N/m', w, 'load per metre there')).value
  const unit = pressure(1) ?? Number.NaN
  const pressed = (stretches: readonly PressedBed[] | undefined): PressedBed[] =>
    (stretches ?? []).map((s) => ({ ...s, atFrom: s.atFrom * unit, atTo: s.atTo * unit }))
  const bed = bedAt(numbers, at.short)
  return {
    ...at,
    behind: pressed(bed?.behind),
    on: pressed(bed?.on),
    pressure: pressure(at.along),
    thrust: thrustAt(is, numbers, at).value,
    worst,
  }
}

/** Of all places those that a table and a picture show: the worst, those where something happens, and every fifth. */
const EVERY = 5

export const shownPlaces = ({ places }: WayIn): SlidePlace[] =>
  places.filter((p, i) => p.worst || p.what !== undefined || (places.length - 1 - i) % EVERY === 0)

/** Place by place: how much of the cradle bears, what it carries, its pressure, and the thrust. */
export function slideTable(subject: SiteSubject): FigureTable | undefined {
  const way = wayIn(subject)
  if (way === undefined || way.places.length === 0) return undefined
  const { units } = subject
  const like = (of: (p: SlidePlace) => number | undefined): number => Math.max(...way.places.map((p) => of(p) ?? 0))
  const [force, pressure] = [like((p) => Math.max(p.carried, p.thrust ?? 0)), like((p) => p.pressure)]
  const shown = (v: number | undefined, unit: 'N' | 'Pa', most: number): string =>
    v === undefined ? 'open' : showQuantity(v, unit, units, most)
  return {
    title: 'The machine on its way in',
    aside: `${lengthUnit(units)}; in bold where the bed is pressed most`,
    columns: [
      words('where', 28),
      number('still to go', 12),
      number('on the cradle', 14),
      number('carried', 20),
      number('pressure, factored', 20),
      number('of its strength', 16),
      number('thrust', 20),
    ],
    rows: shownPlaces(way).map((p) => ({
      cells: [
        p.what ?? 'on its way',
        lengthText(p.short, units),
        lengthText(p.contact, units),
        shown(p.carried, 'N', force),
        shown(p.pressure, 'Pa', pressure),
        p.pressure === undefined || way.strength === undefined ? 'open' : (p.pressure / way.strength).toFixed(3),
        shown(p.thrust, 'N', force),
      ],
      strong: p.worst,
    })),
  }
}

export function slideNotes(subject: SiteSubject): string[] {
  const way = wayIn(subject)
  return [
    'The shield is rigid, on one even bed: the cradle reached so far, and the bored ground behind the wall. Nothing pulls. Level drive, along plus x; cradle and ground equally stiff. An edge of the cradle that stands proud carries more. At the first touch the pressure is that of a contact which comes to nothing: a lead-in, or a cradle cast low, lets the front ride up.',
    'Thrust: friction of what the cradle carries at that place as on two strips at the ends of the contact arc, and friction of the skin behind the wall; the face has come through. The check takes everything at its worst at once, and is the bound.',
    ...(way !== undefined && way.tips > 0
      ? [
          `At ${way.tips} of ${way.places.length + way.tips} places the centre of gravity lies beyond all that bears: it would tip.`,
        ]
      : []),
  ]
}
