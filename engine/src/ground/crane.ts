import type { LiftOutcome } from '../lift/index.ts'
import type { Ground, Lift, System } from '../model/index.ts'
import { type Answer, given, knownOr, largestOf, stated, sumOf, type Term } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import type { Formula } from '../working/formula.ts'
import { pointerOf } from '../working/pointer.ts'
import { SOIL } from './caution.ts'
import { craneOffset, floatForce, floatGuess, trackPressure } from './crane.formulas.ts'
import { restingOn } from './decision.ts'
import * as kinds from './kinds.ts'
import { meanPressure, rectangleArea } from './pad.formulas.ts'
import { ownMass, weight } from './weight.ts'

/** A crane at work in one lift. */
export interface CraneCase {
  outcome: LiftOutcome
  /** Under the head. */
  hook: Answer<'kg'>
  id: string
  system: System
  lift: Lift | undefined
}

/** Slew angles looked at, rad: every five degrees of a quarter, for the machine is symmetrical. */
const SLEWS = Array.from({ length: 19 }, (_, i) => (i * Math.PI) / 36)

const at = (id: string, ...path: (string | number)[]) => pointerOf('systems', id, ...path)

/** Standing of the crane in this lift, site plan; undefined when the file does not say. */
export function standingOf({
  system,
  lift,
}: Pick<CraneCase, 'system' | 'lift'>): readonly [number, number] | undefined {
  const [x, y] = system.standings[lift?.standing ?? 0] ?? []
  return x?.value === undefined || y?.value === undefined ? undefined : [x.value, y.value]
}

export const craneWeight = ({ hook, id, system }: CraneCase): Answer<'N'> =>
  weight(
    sumOf('crane and what hangs from it', 'kg', [
      { label: 'crane', answer: ownMass(id, system) },
      { label: 'under the head', answer: hook },
    ]),
  )

/** Ground pressure under tracks or floats, largest over the slew and over loaded and empty hook. */
export function cranePressure(c: CraneCase): Answer<'Pa'> {
  if (c.system.tracks !== undefined) return underTracks(c, c.system.tracks)
  if (c.system.outriggers !== undefined) return underFloats(c, c.system.outriggers)
  return given('Pa', at(c.id, 'tracks'), undefined)
}

interface Hanging {
  label: string
  load: Answer<'kg'>
  weight: Answer<'N'>
}

function hangings(c: CraneCase): Hanging[] {
  return [
    { label: 'loaded', load: c.hook, weight: craneWeight(c) },
    { label: 'empty', load: stated('kg', 0, 'hook empty'), weight: weight(ownMass(c.id, c.system)) },
  ]
}

const offsetOf = (c: CraneCase, load: Answer<'kg'>): Answer<'m'> =>
  craneOffset.show({
    m: ownMass(c.id, c.system),
    a: knownOr(c.system.ownOffset, 'm', at(c.id, 'ownOffset')),
    m_load: load,
    r: knownOr(c.lift?.radius, 'm', pointerOf('lifts', c.outcome.id, 'radius')),
  })

/** The slew at which a pressure or force is largest; the first where it is unknown or outside its limits anywhere. */
function worstSlew(f: Formula, inputs: Readonly<Record<string, Answer>>): Answer<'rad'> {
  const values = Object.fromEntries(Object.entries(inputs).map(([k, a]) => [k, a.value ?? Number.NaN]))
  const fallen = SLEWS.find((theta) => f.broken({ ...values, theta }).length > 0)
  const use = (theta: number) => f.value({ ...values, theta })
  const theta = fallen ?? SLEWS.reduce((a, b) => (use(b) > use(a) ? b : a))
  return stated('rad', theta, `slew, the worst of ${SLEWS.length} between ahead and across`)
}

function underTracks(c: CraneCase, tracks: NonNullable<System['tracks']>): Answer<'Pa'> {
  const [L, b] = tracks.mat ?? [tracks.length, tracks.width]
  const terms = hangings(c).map((h): Term<'Pa'> => {
    const inputs = { W: h.weight, e: offsetOf(c, h.load), L, b, gauge: tracks.gauge }
    const theta = worstSlew(trackPressure as unknown as Formula, inputs)
    return { label: h.label, answer: trackPressure.show({ ...inputs, theta }) }
  })
  return largestOf('loaded and empty', 'Pa', terms)
}

/** Without the crane's own centre of gravity the trade's first guess stands in, for the loaded crane. */
function floatLoad(c: CraneCase, outriggers: NonNullable<System['outriggers']>): Answer<'N'> {
  const [L, B] = outriggers.base
  if (c.system.ownOffset === undefined) {
    const own = weight(ownMass(c.id, c.system))
    return floatGuess.show({ W_crane: own, W_load: weight(c.hook) })
  }
  const terms = hangings(c).map((h): Term<'N'> => {
    const inputs = { W: h.weight, e: offsetOf(c, h.load), L, B }
    const theta = worstSlew(floatForce as unknown as Formula, inputs)
    return { label: h.label, answer: floatForce.show({ ...inputs, theta }) }
  })
  return largestOf('loaded and empty', 'N', terms)
}

function underFloats(c: CraneCase, outriggers: NonNullable<System['outriggers']>): Answer<'Pa'> {
  const [B, L] = outriggers.mat
  return meanPressure.show({ P: floatLoad(c, outriggers), A: rectangleArea.show({ B, L }) })
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
    subject: { pointer: pointerOf('lifts', c.outcome.id), id: c.outcome.id, name: `Lift ${c.outcome.id}` },
    of: c.id,
    demand: cranePressure(c),
    capacity: capacity as Answer<'Pa'>,
    near,
    assumptions: [
      c.system.tracks?.mat === undefined && c.system.outriggers === undefined
        ? 'Tracks on the platform itself, no mats.'
        : 'Mats are stiff enough to bear over their whole size; their own weight is in the allowable.',
      ...(guessed ? ['First guess of the trade for one float; the maker’s figure replaces it.'] : []),
      ...(ground === undefined ? [] : [restingOn(ground, 'G6')]),
    ],
    cautions: [SOIL, 'Level and settlement of tracks and floats are watched in the lift; stop when a mat tips.'],
  })
}
