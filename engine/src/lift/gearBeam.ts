import { coordinates, type Gear } from '../model/index.ts'
import { apply, dot, norm, type Vec3 } from '../numeric/vector.ts'
import { type Answer, found, GRAVITY, given, knownOr, stated, sumOf, type Term } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { endMoment, endSag, middleSag, spreaderMoment } from './beam.formulas.ts'
import { type BeamLoad, beamChecks, mostUsing, STEEL, UNIFORM } from './beam.ts'
import { bothArms, eccentricMoment, forcePart, weightPerLength } from './beamLoad.formulas.ts'
import { STRENGTH_CAUTIONS } from './caution.ts'
import { gearOf } from './hook.ts'
import { beamUse } from './kinds.ts'
import { type LoadedLeg, type LoadedRig, named } from './loadedRig.ts'
import type { PullAt, PulledLug } from './lugFootUse.ts'
import { bodyTurn } from './path.ts'
import type { Pick } from './pick.ts'
import { type Beam, sectionOf } from './section.ts'
import { WHOLE } from './structure.ts'

/** Spreaders, crosses and frames of a rig as beams, under the pulls that their own legs have. */
export function gearBeamChecks(pick: Pick, rig: LoadedRig, lugs: readonly PulledLug[]): Check[] {
  const { rigging } = rig.hooked
  return (rigging === undefined ? [] : gearOf(rigging)).flatMap((id) => {
    const gear = pick.gear[id]
    if (gear === undefined || gear.kind === 'cradle') return []
    const at = pointerOf('gear', id, 'beam')
    const name = { ...named(pick, rig, id), title: gear.name }
    if (gear.beam === undefined)
      return [
        check({
          kind: beamUse,
          ...name,
          title: `${beamUse.title}: ${gear.name}`,
          demand: given('1', at, undefined),
          capacity: WHOLE,
          cautions: STRENGTH_CAUTIONS,
        }),
      ]
    const load = gear.cog === undefined ? hungLoad(pick, rig, id, gear) : boltedLoad(pick, id, gear, lugs)
    return load === undefined ? [] : beamChecks(pick, name, gear.beam, at, load)
  })
}

/** One end of a hung beam, with what pulls it down and what holds it up. */
interface End {
  offset: Vec3
  arm: Answer<'m'>
  below: readonly LoadedLeg[]
  above: readonly LoadedLeg[]
}

function endsOf({ hooked, legs }: LoadedRig, id: string): End[] {
  const nodes = Object.entries(hooked.rigging?.nodes ?? {}).filter(([, node]) => node.gear === id)
  return nodes.map(([name, node]) => {
    const offset = coordinates(node.offset)
    const [x, y] = node.offset
    return {
      offset,
      arm: found({
        unit: 'm',
        value: Math.hypot(offset[0], offset[1]),
        method: 'end from the hook, in plan',
        inputs: { x, y },
        residuals: [],
      }),
      below: legs.filter(({ leg }) => (leg.above ? leg.over === name : leg.node === name)),
      above: legs.filter(({ leg }) => leg.above && leg.node === name),
    }
  })
}

/** A beam that hangs from its hook or from slings on its ends; undefined where nothing hangs from its ends. */
function hungLoad(pick: Pick, rig: LoadedRig, id: string, gear: Gear): BeamLoad | undefined {
  const ends = endsOf(rig, id).filter((end) => end.below.length > 0)
  const first = ends[0]
  if (first === undefined) return undefined
  const loaded = ends.map((end) => ({
    ...end,
    down: pulls(pick, end.below, UP),
    along: pulls(pick, end.below, alongOf(end)),
  }))
  const most = loaded.reduce((a, b) => ((b.down.value ?? 0) > (a.down.value ?? 0) ? b : a))
  const at = pointerOf('gear', id, 'beam')
  const parts = { gear, at, ends: loaded, most }
  return ends.some((end) => end.above.length > 0) ? spreaderLoad(pick, id, parts) : heldLoad(id, parts)
}

type Loaded = End & { down: Answer<'N'>; along: Answer<'N'> }
interface Parts {
  gear: Gear
  at: string
  ends: readonly Loaded[]
  most: Loaded
}

/** Held by the hook in its middle: both arms bend down. */
function heldLoad(id: string, { gear, at, ends, most }: Parts): BeamLoad {
  const beam = gear.beam as Beam
  const arms = sumOf(
    'Arms',
    'm',
    ends.map((end, i) => ({ label: `arm ${i + 1}`, answer: end.arm })),
  )
  const w = weightPerLength.show({ m: gear.mass, g: GRAVITY, L: arms })
  const e = offAxis(beam, at, 'below', most.along)
  const [P, a, H] = [most.down, most.arm, most.along]
  const length = beam.unbraced ?? bothArms.show({ a })
  return {
    compression: H,
    moment: endMoment.show({ P, a, w, H, e }),
    shear: P,
    point: ends.length > 2 ? P : holdOf(ends),
    length,
    shape: UNIFORM,
    sag: endSag.show({ P, a, w, M_H: eccentricMoment.show({ H, e }), E: STEEL, I_y: sectionOf(beam).I_y }),
    span: a,
    assumptions: [
      `${gear.name} (${id}) is held in its middle; its ends bend it. The end with the largest pull is taken for both.`,
      'The moment counts as uniform over the unbraced length; the load hangs below, which helps and is left out.',
      ...(ends.length > 2 ? ['The hub where the arms meet is for a licensed structural engineer.'] : []),
    ],
  }
}

const holdOf = (ends: readonly Loaded[]): Answer<'N'> =>
  sumOf(
    'Pull of what holds it',
    'N',
    ends.map((end, i): Term<'N'> => ({ label: `end ${i + 1}`, answer: end.down })),
  )

/** Under slings on its ends: it is pressed together. */
function spreaderLoad(pick: Pick, id: string, { gear, at, ends, most }: Parts): BeamLoad {
  const beam = gear.beam as Beam
  const L = bothArms.show({ a: most.arm })
  const w = weightPerLength.show({ m: gear.mass, g: GRAVITY, L })
  const H_u = pulls(pick, most.above, alongOf(most))
  const H_l = most.along
  const [e_u, e_l] = [offAxis(beam, at, 'above', H_u), offAxis(beam, at, 'below', H_l)]
  const M_H = sumOf('Moment of the pulls along it', 'N m', [
    { label: 'slings above', answer: eccentricMoment.show({ H: H_u, e: e_u }) },
    { label: 'what hangs below', answer: eccentricMoment.show({ H: H_l, e: e_l }) },
  ])
  const compression = sumOf('Compression', 'N', [
    { label: 'slings above', answer: H_u },
    { label: 'what hangs below, if it leans inward', answer: H_l },
  ])
  return {
    compression,
    moment: spreaderMoment.show({ w, L, H_u, e_u, H_l, e_l }),
    shear: sumOf('Shear of its own weight and what hangs', 'N', [{ label: 'end', answer: most.down }]),
    point: most.down,
    length: beam.unbraced ?? L,
    shape: UNIFORM,
    sag: middleSag.show({ w, L, M_H, E: STEEL, I_y: sectionOf(beam).I_y }),
    span: L,
    assumptions: [
      `${gear.name} (${id}) is pressed together by ${ends.length} slings above it; it buckles over its whole length.`,
      'A pull that leans is taken to press, whichever way it leans.',
    ],
  }
}

/** Bolted to the piece: an arm from the bolts to the lug, for the lug and the attitude that ask most of it. */
function boltedLoad(pick: Pick, id: string, gear: Gear, lugs: readonly PulledLug[]): BeamLoad | undefined {
  const at = pointerOf('gear', id, 'beam')
  const own = lugs.filter((lug) => lug.at.startsWith(`${pointerOf('gear', id, 'points')}/`))
  const beam = gear.beam as Beam
  const a = knownOr(beam.arm?.length, 'm', `${at}/arm`)
  const unheld = { length: beam.unbraced ?? bothArms.show({ a }), shape: UNIFORM }
  const forces = own.flatMap((lug) => lug.pulls.map((pull) => armForces(beam, at, a, lug, pull)))
  const most = mostUsing(pick, beam, unheld, forces)
  return most && { ...most, ...unheld, ...armSag(beam, a, most) }
}

const WEIGHTLESS = stated('N/m', 0, 'own weight of an arm left out')

type ArmForces = ReturnType<typeof armForces>

/** At the bolts, from the pull on a lug at the arm's end. */
function armForces(beam: Beam, at: string, a: Answer<'m'>, lug: PulledLug, pull: PullAt) {
  const { F_s, F_c } = pull.parts
  const across = beam.arm?.lies === 'across the lug'
  const [P, H] = across ? [F_s, F_c] : [F_c, F_s]
  const e = offAxis(beam, at, 'below', H)
  return {
    compression: H,
    moment: endMoment.show({ P, a, w: WEIGHTLESS, H, e }),
    shear: P,
    point: P,
    e,
    assumptions: [
      `The arm from the bolts to ${lug.point.id} bends about its strong axis, worst ${pull.attitude?.label ?? 'unknown'}; it is fixed at the bolts.`,
      'A pull along the arm counts as pressing; bending about its weak axis is for a licensed structural engineer.',
    ],
  }
}

function armSag(beam: Beam, a: Answer<'m'>, { point: P, compression: H, e }: ArmForces) {
  const M_H = eccentricMoment.show({ H, e })
  return { sag: endSag.show({ P, a, w: WEIGHTLESS, M_H, E: STEEL, I_y: sectionOf(beam).I_y }), span: a }
}

/** Off its axis, where there is a pull along it to matter. */
const offAxis = (beam: Beam, at: string, side: 'above' | 'below', pull: Answer<'N'>): Answer<'m'> =>
  beam[side] ?? (pull.value === 0 ? stated('m', 0, 'no pull along it') : given('m', `${at}/${side}`, undefined))

const UP: Vec3 = [0, 0, 1]

function alongOf({ offset }: End): Vec3 {
  const plan: Vec3 = [offset[0], offset[1], 0]
  const length = norm(plan)
  return length > 0 ? [plan[0] / length, plan[1] / length, 0] : [0, 0, 0]
}

/** Pulls of legs along a direction of the site. A leg whose hang is not known hangs plumb: the tail of a turn. */
function pulls(pick: Pick, legs: readonly LoadedLeg[], direction: Vec3): Answer<'N'> {
  const turn = bodyTurn(pick)
  const terms = legs.map(({ leg, tension, attitudes }) => {
    const hung = attitudes?.find(({ label }) => label === 'as it hangs')
    const up = hung === undefined ? UP : apply(turn, hung.up)
    const k = found({
      unit: '1',
      value: dot(up, direction),
      method: hung === undefined ? 'the leg hangs plumb' : 'direction of the leg as it hangs, the tilt left out',
      inputs: {},
      residuals: [],
    })
    return { label: leg.id, answer: forcePart.show({ T: tension, k }) }
  })
  return sumOf('Pulls of its legs', 'N', terms)
}
