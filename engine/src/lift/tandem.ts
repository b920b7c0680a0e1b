import { apply, type Pose, transpose, type Vec3 } from '../numeric/vector.ts'
import { type Answer, found, GRAVITY, knownOr, sumOf } from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import { weightOf } from './hook.formulas.ts'
import { boltedGear, gearOf, pieceLines, riggingLines } from './hook.ts'
import { type Levels, levelsOf, withCogMoved, withHookMoved } from './levels.ts'
import { endsOf, hangOf, loadOfPiece, orderOf } from './levelsHang.ts'
import type { Hooked, Pick } from './pick.ts'
import { legOf, type Rig, type RigLeg, rigOf } from './rig.ts'
import { type Settled, settle, settleNear, tiltsOf } from './settle.ts'
import type { SuspendedBody } from './suspended.ts'
import { inputsOf, type LegAnswer, type Suspension } from './suspension.ts'

/** A piece that two hooks share and do not turn: how it hangs, and what each hook takes. */
export interface Tandem {
  suspension: Suspension
  main: HookShare
  tail: HookShare
  legs: { main: readonly LegAnswer[]; tail: readonly LegAnswer[] }
}

/** Upright pull of one hook: level and by plan; the most and the least out of level with the centre of gravity off its place. */
export interface HookShare {
  planned: Answer<'N'>
  worst: Answer<'N'>
  least: Answer<'N'>
}

const METHOD =
  'equilibrium of a rigid piece and its spreaders on elastic legs from two hooks at rest: lowest energy, then ΣF and ΣM from the tensions'
const CORNERS =
  'the same with either hook higher, by the tilt that the project allows, and the centre of gravity at each corner of its box'

/** Two hooks over one piece, each plumb over the middle of its own points, with the spreaders of both. */
export function tandemOf(pick: Pick, tail: Hooked): Tandem {
  const rig = withTail(pick, tail)
  const n = (pick.main.rigging?.legs ?? []).length
  const levels = planned(pick, tail, rig, n)
  const inputs = { ...inputsOf(rig), 'tilt allowed': knownOr(pick.settings.tilt, 'rad', '/settings/tilt') }
  const hanging = levels === undefined ? undefined : settle(levels.suspended)
  const higher = pick.settings.cogShift?.value ?? 0
  const worst =
    levels === undefined || hanging === undefined
      ? []
      : cornersOf(pick, levels).map((corner) => settleNear(corner.suspended, hanging.poses))
  const answer = <U extends 'N' | 'rad' | 'N/m'>(unit: U, value: number | undefined): Answer<U> =>
    found({ unit, value, method: METHOD, inputs, residuals: residualsOf(hanging, levels) })
  const over = (of: (h: Hung) => number): number[] => (hanging === undefined ? [] : [hanging, ...worst].map(of))
  const most = (of: (h: Hung) => number): number | undefined =>
    hanging === undefined ? undefined : Math.max(...over(of))
  const worstAnswer = <U extends 'N' | 'rad'>(unit: U, value: number | undefined): Answer<U> =>
    found({ unit, value, method: CORNERS, inputs: withShift(pick, inputs), residuals: [] })
  const legs = rig.legs.map(
    (leg, i): LegAnswer => ({
      leg,
      tension: answer('N', hanging?.tensions[i]),
      worst: worstAnswer(
        'N',
        most((h) => h.tensions[i] as number),
      ),
      angle: answer('rad', hanging?.leans[i]),
      worstAngle: worstAnswer(
        'rad',
        most((h) => h.leans[i] as number),
      ),
      slack: hanging?.tensions[i] === 0,
    }),
  )
  const shareOf = (chain: 0 | 1): HookShare => ({
    planned: answer(
      'N',
      hanging === undefined || levels === undefined ? undefined : pullOn(levels, rig.legs, hanging, chain),
    ),
    worst: worstAnswer('N', levels === undefined ? undefined : most((h) => pullOn(levels, rig.legs, h, chain))),
    least: worstAnswer('N', leastOf(levels === undefined ? [] : over((h) => pullOn(levels, rig.legs, h, chain)))),
  })
  const order = orderOf(rig.legs)
  const hung = levels === undefined || hanging === undefined ? undefined : hangOf(levels, order, hanging)
  return {
    main: shareOf(0),
    tail: shareOf(1),
    legs: { main: legs.slice(0, n), tail: legs.slice(n) },
    suspension: {
      rig,
      hang: hung,
      load: levels === undefined ? undefined : loadOfPiece(levels, order),
      envelope: undefined,
      legs: [...order.below, ...order.above].map((i) => legs[i] as LegAnswer),
      tilt: answer('rad', hung?.tilt),
      worstTilt: worstAnswer(
        'rad',
        most((h) => tiltsOf(h.poses[0] as Pose).tilt),
      ),
      leaning: worst.map((h) => tiltsOf(h.poses[0] as Pose).up),
      stiffness: found({
        unit: 'N/m',
        value:
          levels === undefined || hanging === undefined
            ? undefined
            : Math.min(hanging.stiffness, stiffnessHigher(levels, hanging, higher)),
        method: `${METHOD}; the lower of two: as planned, and with the centre of gravity at the top of its box`,
        inputs: withShift(pick, inputs),
        residuals: residualsOf(hanging, levels),
      }),
      higher,
      links: [],
      hookMachine: hung === undefined ? undefined : apply(transpose(rig.turn), hung.pose.hook),
      ...(levels === undefined || hanging === undefined ? {} : { ends: endsOf(levels, order, hanging.poses) }),
    },
  }
}

function stiffnessHigher(levels: Levels, planned: Settled, higher: number): number {
  const { suspended } = withCogMoved(levels, [0, 0, higher])
  return settle(suspended, planned.poses).stiffness
}

const leastOf = (values: readonly number[]): number | undefined =>
  values.length === 0 ? undefined : Math.min(...values)

type Hung = Omit<Settled, 'stiffness' | 'eigenvalues'>

/** Upright pull of a hook's legs on the piece. */
const pullOn = ({ chainOf }: Levels, legs: readonly RigLeg[], { tensions, leans }: Hung, chain: number): number =>
  legs.reduce(
    (sum, leg, i) =>
      chainOf[i] === chain && !leg.above ? sum + (tensions[i] as number) * Math.cos(leans[i] as number) : sum,
    0,
  )

/** The main hook's arrangement with the tail's legs behind its own, and the weight that all of them carry. */
function withTail(pick: Pick, tail: Hooked): Rig {
  const rig = rigOf(pick)
  const tails = (tail.rigging?.legs ?? []).map((_, i): RigLeg => {
    const leg = legOf(pick, tail, i)
    return { ...leg, id: `tail ${leg.id}` }
  })
  return {
    ...rig,
    legs: [...rig.legs, ...tails],
    weight: sharedWeight(pick, tail),
    lowerWeight: sharedWeight(pick, tail),
  }
}

function sharedWeight(pick: Pick, tail: Hooked): Answer<'N'> {
  const bolted = boltedGear(pick)
  const names = new Set(
    [pick.main, tail]
      .flatMap((h) => (h.rigging === undefined ? [] : gearOf(h.rigging)))
      .map((id) => pick.gear[id]?.name ?? id),
  )
  const slings = [pick.main, tail].flatMap((h) => riggingLines(pick, h)).filter((line) => !names.has(line.label))
  const gear = bolted.map((id) => ({
    label: pick.gear[id]?.name ?? id,
    answer: knownOr(pick.gear[id]?.mass, 'kg', pointerOf('gear', id, 'mass')),
  }))
  return weightOf.show({ m: sumOf('Load on the legs', 'kg', [...pieceLines(pick), ...gear, ...slings]), g: GRAVITY })
}

function planned(pick: Pick, tail: Hooked, rig: Rig, mainLegs: number): Levels | undefined {
  const [main, tails] = [rig.legs.slice(0, mainLegs), rig.legs.slice(mainLegs)]
  if (rig.weight.value === undefined || Object.keys(rig.missing).length > 0 || main.length * tails.length === 0)
    return undefined
  const chains = [
    { hooked: pick.main, legs: main },
    { hooked: tail, legs: tails },
  ]
  return levelsOf(pick, rig, chains, rig.weight.value)
}

/** Either hook raised, and the centre of gravity at each corner of its box in plan. */
function cornersOf({ settings }: Pick, levels: Levels): Levels[] {
  const [a, b] = levels.hooks as readonly [Vec3, Vec3]
  const rise = Math.hypot(a[0] - b[0], a[1] - b[1]) * Math.tan(settings.tilt?.value ?? 0)
  const shift = settings.cogShift?.value ?? 0
  return [-rise, 0, rise].flatMap((up) => {
    const raised = withHookMoved(levels, 0, [0, 0, up])
    return [-shift, shift].flatMap((x) => [-shift, shift].map((y) => withCogMoved(raised, [x, y, 0])))
  })
}

const withShift = ({ settings }: Pick, inputs: Record<string, Answer>): Record<string, Answer> => ({
  ...inputs,
  'shift of the centre of gravity': knownOr(settings.cogShift, 'm', '/settings/cogShift'),
})

function residualsOf(h: Settled | undefined, levels: Levels | undefined) {
  if (h === undefined || levels === undefined) return []
  const weight = (levels.suspended.bodies[0] as SuspendedBody).weight
  return h.residuals.flatMap((r, b) => {
    const what = b === 0 ? 'the piece' : `spreader ${b}`
    return [
      { title: `ΣF on ${what}`, value: r.force, unit: 'N' as const, tolerance: 1e-6 * weight },
      { title: `ΣM on ${what}`, value: r.moment, unit: 'N m' as const, tolerance: 1e-5 * weight },
    ]
  })
}
