import {
  type CraneFeet,
  hangings,
  isCrane,
  type LiftOutcome,
  largestFloat,
  placeOf,
  standingIn,
  trackLoad,
  craneWeight as weightOfCrane,
  worstSlewOf,
} from '../lift/index.ts'
import type { Ground, Model, System } from '../model/index.ts'
import { type Answer, given, knownOr, largestOf, stated, type Term } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { SOIL } from './caution.ts'
import { trackPressure } from './crane.formulas.ts'
import { restingOn } from './decision.ts'
import * as kinds from './kinds.ts'
import { meanPressure, rectangleArea } from './pad.formulas.ts'

/** A crane at work in one lift. */
export interface CraneCase {
  /** Of the lift. */
  lift: string
  id: string
  system: System
  /** Under the head. */
  hook: Answer<'kg'>
  /** Largest that it passes. */
  radius: Answer<'m'>
  /** The second of two that share the piece. */
  isSecond: boolean
  /** Which of its standings; undefined where the lift does not say and it has several. */
  standing: number | undefined
}

/** The cranes of a lift, on their feet: the second is there where two machines share the piece. */
export function cranesOf({ project }: Model, outcome: LiftOutcome): CraneCase[] {
  const lift = project.lifts[outcome.id]
  const { second } = outcome
  const all = [
    {
      id: outcome.system,
      hook: outcome.underHead,
      radius: outcome.radius ?? knownOr(lift?.radius, 'm', pointerOf('lifts', outcome.id, 'radius')),
      standing: lift?.standing,
      isSecond: false,
    },
    ...(second === undefined
      ? []
      : [
          {
            id: second.system,
            hook: second.underHead,
            radius: second.radius,
            standing: lift?.tail?.standing,
            isSecond: true,
          },
        ]),
  ]
  return all.flatMap((crane): CraneCase[] => {
    const system = project.systems[crane.id]
    if (system === undefined || !isCrane(system)) return []
    return [{ ...crane, lift: outcome.id, system, standing: standingIn(system, crane.standing) }]
  })
}

const at = (id: string, ...path: (string | number)[]) => pointerOf('systems', id, ...path)

/** Standing of the crane in this lift, site plan; undefined when the file does not say. */
export const standingOf = ({ system, standing }: CraneCase): readonly [number, number] | undefined =>
  placeOf(system, standing)

/** The crane on its feet in this lift. */
const feetOf = ({ hook, id, system, radius }: CraneCase): CraneFeet => ({ id, system, load: hook, radius })

export const craneWeight = (c: CraneCase): Answer<'N'> => weightOfCrane(feetOf(c))

/** Ground pressure under tracks or floats, largest over the slew and over loaded and empty hook. */
export function cranePressure(c: CraneCase): Answer<'Pa'> {
  if (c.system.tracks !== undefined) return underTracks(c, c.system.tracks)
  if (c.system.outriggers !== undefined) return underFloats(c, c.system.outriggers)
  return given('Pa', at(c.id, 'tracks'), undefined)
}

function underTracks(c: CraneCase, tracks: NonNullable<System['tracks']>): Answer<'Pa'> {
  const [L, b] = tracks.mat ?? [tracks.length, tracks.width]
  const [gauge, length] = [tracks.gauge.value as number, L.value as number]
  const terms = hangings(feetOf(c)).map((h): Term<'Pa'> => {
    const { weight: W, offset: e } = h
    const at = (theta: number): number => {
      const [w, off] = [W.value as number, e.value as number]
      const P = trackLoad.value({ W: w, e: off, theta, gauge })
      return trackPressure.value({ P, e: off, theta, L: length, b: b.value as number })
    }
    const off = e.value
    const theta =
      W.value === undefined || off === undefined ? 0 : (tipping(Math.abs(off), gauge, length) ?? worstSlewOf(at))
    const slew = stated(
      'rad',
      theta,
      'slew of the largest pressure: the best of every 5°, then to a millionth of a radian',
    )
    const P = trackLoad.show({ W, e, theta: slew, gauge: tracks.gauge })
    return { label: h.label, answer: trackPressure.show({ P, e, theta: slew, L, b }) }
  })
  return largestOf('loaded and empty', 'Pa', terms)
}

/** A slew at which the crane tips over its tracks, where there is one. */
function tipping(away: number, gauge: number, length: number): number | undefined {
  if (away > gauge / 2) return Math.PI / 2
  return away >= length / 2 ? 0 : undefined
}

function underFloats(c: CraneCase, outriggers: NonNullable<System['outriggers']>): Answer<'Pa'> {
  const [B, L] = outriggers.mat
  return meanPressure.show({ P: largestFloat(feetOf(c), outriggers), A: rectangleArea.show({ B, L }) })
}

/** Where something stands, and what the ground engineer allows there; open off every pad and platform. */
export function allowableAt(ground: Ground | undefined, [x, y]: readonly [number, number]): Answer<'Pa'> {
  const inside = (centre: number, size: number, p: number) => Math.abs(p - centre) <= size / 2
  const pad = Object.values(ground?.pads ?? {}).find(
    ({ centre, size }) =>
      inside(centre[0].value as number, size[0].value as number, x) &&
      inside(centre[1].value as number, size[1].value as number, y),
  )
  if (pad !== undefined) return pad.allowable
  const platform = ground?.platform
  const [from, to] = platform?.y.map((v) => v.value as number) ?? []
  const on =
    platform !== undefined && y >= Math.min(from as number, to as number) && y <= Math.max(from as number, to as number)
  return on ? platform.allowable : given('Pa', '/ground/pads', undefined)
}

/** Tracks or floats on the ground where the crane stands. Practice 49. */
export function cranePressureCheck(c: CraneCase, ground: Ground | undefined, near: number): Check {
  const standing = standingOf(c)
  const capacity =
    standing === undefined ? given('Pa', at(c.id, 'standings'), undefined) : allowableAt(ground, standing)
  const guessed = c.system.outriggers !== undefined && c.system.ownOffset === undefined
  return check({
    kind: kinds.cranePressure,
    subject: { pointer: pointerOf('lifts', c.lift), id: c.lift, name: `Lift ${c.lift}` },
    of: c.id,
    demand: cranePressure(c),
    capacity: capacity as Answer<'Pa'>,
    near,
    assumptions: [
      c.system.tracks?.mat === undefined && c.system.outriggers === undefined
        ? 'Tracks on the platform itself, no mats.'
        : 'Mats are stiff enough to bear over their whole size; their own weight is in the allowable.',
      ...(guessed
        ? [
            'First guess of the trade for one float, and no less than it bears as the crane comes to tip: `ownOffset` replaces it.',
          ]
        : []),
      ...(ground === undefined ? [] : [restingOn(ground, 'G6')]),
    ],
    cautions: [SOIL, 'Level and settlement of tracks and floats are watched in the lift; stop when a mat tips.'],
  })
}
