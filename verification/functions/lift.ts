import { boltForces } from '../../engine/src/lift/boltGroup.ts'
import { readCharts } from '../../engine/src/lift/chart.ts'
import { classOf, criteriaOf } from '../../engine/src/lift/classification.ts'
import { envelopeOf } from '../../engine/src/lift/envelope.ts'
import { type GroupLine, groupLoads, worstOfLoss } from '../../engine/src/lift/group.ts'
import { type ElasticLeg, type Hang, type HungLoad, hang, intendedHang } from '../../engine/src/lift/hang.ts'
import { hangFromLines } from '../../engine/src/lift/lines.ts'
import type { Pick } from '../../engine/src/lift/pick.ts'
import { forcesAt, pivotAngles, pivotTurn } from '../../engine/src/lift/pivot.ts'
import { intendedSettle, type Settled, settle, tiltsOf } from '../../engine/src/lift/settle.ts'
import { sagAt, simpleBeam, simpleBeamSag } from '../../engine/src/lift/simpleBeam.ts'
import type { Suspended } from '../../engine/src/lift/suspended.ts'
import { cornerTurn } from '../../engine/src/lift/turnBox.ts'
import { anglesOf, heldAt, type Planar, type TurnGeometry } from '../../engine/src/lift/turning.ts'
import { IDENTITY, type Pose, type Vec3 } from '../../engine/src/numeric/vector.ts'
import { given, stated } from '../../engine/src/working/answer.ts'
import { listOf, numberOf, numbersOf, recordOf, rowsOf } from '../inputs.ts'
import type { Inputs, Value, VerifiedFunction } from '../types.ts'

/** What cases of this stage call by name, beside the formulas. */
export const functions: Record<string, VerifiedFunction> = {
  /** A piece on elastic legs under one hook, with a spreader or without: the pose it comes to rest in. */
  'lift.hang': (inputs) => hangValues(hang(loadOf(inputs))),
  /** The pose near level, stable or not. */
  'lift.hang-intended': (inputs) => {
    const found = intendedHang(loadOf(inputs), Math.PI / 4)
    return found === undefined ? {} : hangValues(found)
  },
  /** A piece on lines from fixed points: several hooks or strand jacks. */
  'lift.lines': (inputs) => {
    const anchors = points(inputs, 'anchors')
    const found = hangFromLines({
      lines: legsOf(inputs).map((leg, i) => ({ ...leg, anchor: anchors[i] as Vec3 })),
      weight: numberOf(inputs, 'weight'),
      cog: point(numbersOf(inputs, 'cog')),
    })
    return { tensions: found.tensions, tilt: found.tilt, leans: found.leans, stable: found.stiffness > 0 }
  },
  /** Bodies on lines in any number of levels: the piece is the first of them; an end on no body stands still. */
  'lift.levels': (inputs) => levelsValues(settle(suspendedOf(inputs))),
  /** Their pose near level, stable or not. */
  'lift.levels-intended': (inputs) => {
    const found = intendedSettle(suspendedOf(inputs))
    return found === undefined ? {} : levelsValues(found)
  },
  /** Worst tensions and tilt over the corners of tolerances. */
  'lift.envelope': envelope,
  /** Both hooks at one angle from flat, lines plumb; along the piece and across, upward when flat. */
  'lift.two-hooks': twoHooks,
  /** Angles from flat at which a hook goes slack or the lines coincide. */
  'lift.turn-angles': turnAngles,
  /** Ranges of angles from flat within which no pair of pulls holds the piece, and the force on the tail that would. */
  'lift.turn-ranges': turnRanges,
  /** A piece turned about a heel on the ground, from flat: hook and heel, none where the hook would have to push. */
  'lift.pivot-turn': pivotTurned,
  /** Rated load of a chart at a radius. */
  'lift.chart': (inputs) => {
    const rated = numbersOf(inputs, 'rated')
    const rows = numbersOf(inputs, 'radii').map((r, i) => ({
      radius: given('m', `/chart/${i}/radius`, r),
      rated: given('kg', `/chart/${i}/rated`, rated[i]),
    }))
    const between = inputs.between === 'linear' ? 'linear' : 'next larger radius'
    const radius = given('m', '/radius', numberOf(inputs, 'radius'))
    const chart = { id: 'chart', at: () => '/charts', between, rows } as const
    const { rated: read, outside } = readCharts([chart], { fitted: {}, radius, at: '/setUp' })
    return { rated: read.value, outside: outside.length }
  },
  /** Lines that hold a rigid block under its pin, some drawn in ahead of the others. */
  'lift.units.group': (inputs) => {
    const ahead = numbersOf(inputs, 'ahead')
    const lines = groupOf(inputs).map((line, i) => ({ ...line, ahead: ahead[i] as number }))
    return { loads: groupLoads(lines, numberOf(inputs, 'weight'))?.loads ?? [] }
  },
  /** The same, each lost in turn: most in one of those that are left. */
  'lift.units.lost': (inputs) => {
    const worst = worstOfLoss(groupOf(inputs), numberOf(inputs, 'weight'))
    return worst === undefined ? {} : { load: worst.load, tips: worst.tips }
  },
  /** A beam on two supports with loads and its own weight: reactions, largest moment and sag, places from the left support. */
  'lift.simple-beam': (inputs) => {
    const xs = numbersOf(inputs, 'x')
    const loads = numbersOf(inputs, 'P').map((P, i) => ({ P, x: xs[i] as number }))
    const beam = { L: numberOf(inputs, 'L'), w: numberOf(inputs, 'w'), loads }
    const EI = numberOf(inputs, 'E') * numberOf(inputs, 'I')
    const { left, right, moment, shear } = simpleBeam(beam)
    const { sag, at } = simpleBeamSag(beam, EI)
    return { left, right, moment, shear, sag, at, sagAtLoads: xs.map((x) => sagAt(beam, EI, x)) }
  },
  /** Largest shear and tension of a bolt of a group in the plane z = 0, bolts along z. */
  'lift.bolt-group': (inputs) => {
    const y = numbersOf(inputs, 'y')
    const places = numbersOf(inputs, 'x').map((x, i): Vec3 => [x, y[i] as number, 0])
    const { shear, tension } = boltForces(
      places,
      [0, 0, 1],
      point(numbersOf(inputs, 'force')),
      point(numbersOf(inputs, 'moment')),
    )
    return { shear: Math.max(...shear), tension: Math.max(...tension) }
  },
  /** Class of a lift by its share of the rating and its facts. */
  'lift.class': liftClass,
}

const groupOf = (inputs: Inputs): GroupLine[] =>
  numbersOf(inputs, 'x').map((x, i) => ({
    at: [x, numbersOf(inputs, 'y')[i] as number],
    stiffness: numberOf(inputs, 'stiffness'),
    ahead: 0,
  }))

const points = (inputs: Inputs, name: string): Vec3[] => rowsOf(inputs, name).map(point)
const point = (row: readonly number[]): Vec3 => [row[0] as number, row[1] as number, row[2] as number]

function legsOf(inputs: Inputs): ElasticLeg[] {
  const [lengths, stiffness] = [numbersOf(inputs, 'lengths'), numbersOf(inputs, 'stiffness')]
  const from = inputs.from === undefined ? undefined : points(inputs, 'from')
  return points(inputs, 'points').map((to, i) => ({
    to,
    length: lengths[i] as number,
    stiffness: stiffness[i] as number,
    ...(from === undefined ? {} : { from: from[i] as Vec3 }),
  }))
}

function loadOf(inputs: Inputs): HungLoad {
  const load: HungLoad = {
    legs: legsOf(inputs),
    weight: numberOf(inputs, 'weight'),
    cog: point(numbersOf(inputs, 'cog')),
  }
  if (inputs.spreader === undefined) return load
  const bar = recordOf(inputs, 'spreader')
  return {
    ...load,
    spreader: { weight: numberOf(bar, 'weight'), cog: point(numbersOf(bar, 'cog')), top: legsOf(bar) },
  }
}

/** Places on bodies by number; -1 is the site. */
function suspendedOf(inputs: Inputs): Suspended {
  const end = (bodies: readonly number[], at: readonly Vec3[], i: number) => {
    const body = bodies[i] as number
    return body < 0 ? { at: at[i] as Vec3 } : { body, at: at[i] as Vec3 }
  }
  const [lower, upper] = [numbersOf(inputs, 'lower'), numbersOf(inputs, 'upper')]
  const [lowerAt, upperAt] = [points(inputs, 'lowerAt'), points(inputs, 'upperAt')]
  const [lengths, stiffness] = [numbersOf(inputs, 'lengths'), numbersOf(inputs, 'stiffness')]
  return {
    bodies: listOf(inputs, 'bodies').map((_, i) => {
      const body = recordOf({ body: listOf(inputs, 'bodies')[i] as Value }, 'body')
      return {
        weight: numberOf(body, 'weight'),
        cog: point(numbersOf(body, 'cog')),
        start: { turn: IDENTITY, shift: point(numbersOf(body, 'start')) },
      }
    }),
    lines: lower.map((_, i) => ({
      lower: end(lower, lowerAt, i),
      upper: end(upper, upperAt, i),
      length: lengths[i] as number,
      stiffness: stiffness[i] as number,
    })),
  }
}

const levelsValues = (found: Settled): Record<string, Value> => ({
  tensions: found.tensions,
  tilt: tiltsOf(found.poses[0] as Pose).tilt,
  stable: found.stiffness > 0,
})

const hangValues = (found: Hang): Record<string, Value> => ({
  tensions: found.tensions,
  topTensions: found.topTensions,
  angles: found.angles,
  tilt: found.tilt,
  spreaderTilt: found.spreaderTilt,
  hook: [...found.pose.hook],
  eigenvalues: found.eigenvalues,
  stable: found.stiffness > 0,
  slack: found.tensions.filter((t) => t === 0).length,
})

function envelope(inputs: Inputs): Record<string, Value> {
  const load = loadOf(inputs)
  const tolerance = recordOf(inputs, 'tolerance')
  const share = numberOf(tolerance, 'weight')
  const worst = envelopeOf(
    load,
    {
      weight: [load.weight * (1 - share), load.weight * (1 + share)],
      cog: point(numbersOf(tolerance, 'cog')),
      lengths: numbersOf(tolerance, 'lengths').map((t, i) => t / (load.legs[i] as ElasticLeg).length),
      stiffness: [1],
    },
    hang(load),
  )
  return { most: worst.most, least: worst.least, tilt: worst.tilt }
}

const QUARTER = Math.PI / 2
/** So high above the piece that lines are plumb. */
const FAR = 1e6

/** Along and across from the centre of gravity, flat, to across and up when upright. */
function planar(inputs: Inputs, name: string): Planar {
  const [[u, v], [uc, vc]] = [numbersOf(inputs, name), numbersOf(inputs, 'cog')] as [[number, number], [number, number]]
  return [-(v - vc), u - uc]
}

function twoHooks(inputs: Inputs): Record<string, Value> {
  const held = heldAt(plumbTurn(inputs), QUARTER - numberOf(inputs, 'theta'))
  return { main: held?.main, tail: held?.tail }
}

const plumbTurn = (inputs: Inputs): TurnGeometry => ({
  main: planar(inputs, 'main'),
  tail: planar(inputs, 'tail'),
  weight: numberOf(inputs, 'W'),
  level: () => 0,
  heads: { main: FAR, tail: FAR },
  hooks: { least: 0 },
  side: 1,
})

function turnRanges(inputs: Inputs): Record<string, Value> {
  const [from, to] = [QUARTER - numberOf(inputs, 'from'), QUARTER - numberOf(inputs, 'to')]
  const { course, most, restraint } = cornerTurn(plumbTurn(inputs), { from, to, step: Math.PI / 180 })
  const lost = course.stretches.filter((s) => s.holding === 'neither')
  return {
    from: lost.map((s) => QUARTER - s.from),
    to: lost.map((s) => QUARTER - s.to),
    main: most.main,
    tail: most.tail,
    restraint: restraint.pull,
  }
}

function pivotTurned(inputs: Inputs): Record<string, Value> {
  const [heel, cog, lug] = ['heel', 'cog', 'lug'].map((name) => numbersOf(inputs, name)) as [
    number[],
    number[],
    number[],
  ]
  const from = ([u, v]: number[]): Planar => [
    -((v as number) - (heel[1] as number)),
    (u as number) - (heel[0] as number),
  ]
  const geometry = { cog: from(cog), lug: from(lug), weight: numberOf(inputs, 'W') }
  const angle = QUARTER - numberOf(inputs, 'theta')
  const { hook, up } = forcesAt(geometry, angle)
  const { overCentre } = pivotAngles(geometry, QUARTER, 0)
  const isHeld = hook >= 0 && up >= 0
  return {
    hook: isHeld ? hook : undefined,
    heel: isHeld ? up : undefined,
    overCentre: overCentre.map((a) => QUARTER - a),
    holdBack: isHeld ? 0 : pivotTurn(geometry, angle, angle + 1e-9, 0).holdBack.pull,
  }
}

function turnAngles(inputs: Inputs): Record<string, Value> {
  const geometry = { main: planar(inputs, 'main'), tail: planar(inputs, 'tail') }
  const found = anglesOf(geometry, QUARTER - numberOf(inputs, 'from'), QUARTER - numberOf(inputs, 'to'))
  const flat = (angles: readonly number[]): number[] => angles.map((a) => QUARTER - a)
  return {
    tailSlack: flat(found.tailSlack),
    mainSlack: flat(found.mainSlack),
    coincide: flat(found.coincide),
  }
}

/** Only what the criteria read of a lift. */
function liftClass(inputs: Inputs): Record<string, Value> {
  const pick = {
    at: '/lifts/one',
    settings: {
      criticalShare: stated('1', 0.75, 'the limit of the form'),
      criticalReplacement: stated('s', 1e7, 'not soon'),
    },
    tail: numberOf(inputs, 'cranes') > 1 ? {} : undefined,
    lift: {
      kind: 'out',
      facts: {
        persons: inputs.persons,
        hazardous: false,
        cogCouldChange: false,
        outOfView: inputs.inView === false,
        nonRoutineRigging: inputs.routine === false,
        otherReason: false,
        replaceWithin: stated('s', 0, 'at once'),
      },
    },
  } as unknown as Pick
  const load = given('kg', '/load', numberOf(inputs, 'share'))
  return { critical: classOf(criteriaOf(pick, load, given('kg', '/rated', 1))) }
}
