import { apply, subtract, transpose, type Vec3 } from '../numeric/vector.ts'
import { type Answer, found, GRAVITY, knownOr, sumOf } from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import type { ElasticLeg, Hang } from './hang.ts'
import { weightOf } from './hook.formulas.ts'
import { boltedGear, gearOf, pieceLines, riggingLines } from './hook.ts'
import { type FixedLine, hangFromLines, type LinedLoad, type OnLines } from './lines.ts'
import type { Hooked, Pick } from './pick.ts'
import { inBody, legOf, type Rig, type RigLeg, rigOf } from './rig.ts'
import { inputsOf, type LegAnswer, type Suspension } from './suspension.ts'

/** A piece that two hooks share and do not turn: how it hangs, and what each hook takes. */
export interface Tandem {
  suspension: Suspension
  main: HookShare
  tail: HookShare
  legs: { main: readonly LegAnswer[]; tail: readonly LegAnswer[] }
}

/** Upright pull of one hook: level and by plan, and the worst out of level with the centre of gravity off its place. */
export interface HookShare {
  planned: Answer<'N'>
  worst: Answer<'N'>
}

const METHOD =
  'equilibrium of a rigid piece on elastic legs from two hooks at rest: lowest energy, then ΣF and ΣM from the tensions'
const CORNERS =
  'the same with either hook higher, by the tilt that the project allows, and the centre of gravity at each corner of its box'

/** Two hooks over one piece, each plumb over the middle of its own points. */
export function tandemOf(pick: Pick, tail: Hooked): Tandem {
  const rig = withTail(pick, tail)
  const load = loadOf(pick, rig)
  const inputs = { ...inputsOf(rig), 'tilt allowed': knownOr(pick.settings.tilt, 'rad', '/settings/tilt') }
  const planned = load === undefined ? undefined : hangFromLines(load.level)
  const worst = load === undefined ? [] : cornersOf(pick, load).map(hangFromLines)
  const answer = <U extends 'N' | 'rad' | 'N/m'>(unit: U, value: number | undefined): Answer<U> =>
    found({ unit, value, method: METHOD, inputs, residuals: residualsOf(planned, load?.level) })
  const most = (of: (h: OnLines) => number): number | undefined =>
    planned === undefined ? undefined : Math.max(...[planned, ...worst].map(of))
  const worstAnswer = <U extends 'N' | 'rad'>(unit: U, value: number | undefined): Answer<U> =>
    found({ unit, value, method: CORNERS, inputs: withShift(pick, inputs), residuals: [] })
  const legs = rig.legs.map(
    (leg, i): LegAnswer => ({
      leg,
      tension: answer('N', planned?.tensions[i]),
      worst: worstAnswer(
        'N',
        most((h) => h.tensions[i] as number),
      ),
      angle: answer('rad', planned?.leans[i]),
      worstAngle: worstAnswer(
        'rad',
        most((h) => h.leans[i] as number),
      ),
      slack: planned?.tensions[i] === 0,
    }),
  )
  const n = (pick.main.rigging?.legs ?? []).length
  const shareOf = (from: number, to: number): HookShare => ({
    planned: answer('N', planned === undefined ? undefined : pullOf(planned, from, to)),
    worst: worstAnswer(
      'N',
      most((h) => pullOf(h, from, to)),
    ),
  })
  return {
    main: shareOf(0, n),
    tail: shareOf(n, rig.legs.length),
    legs: { main: legs.slice(0, n), tail: legs.slice(n) },
    suspension: {
      rig,
      hang: planned === undefined || load === undefined ? undefined : asHang(planned, load),
      load: load === undefined ? undefined : { legs: load.legs, weight: load.level.weight, cog: load.level.cog },
      envelope: undefined,
      legs,
      tilt: answer('rad', planned?.tilt),
      worstTilt: worstAnswer(
        'rad',
        most((h) => h.tilt),
      ),
      stiffness: answer('N/m', planned?.stiffness),
      links: [],
      hookMachine:
        planned === undefined || load === undefined
          ? undefined
          : apply(transpose(rig.turn), toBody(planned, load.hooks[0])),
    },
  }
}

/** Upright pull of the legs from one place in the list to another. */
const pullOf = ({ tensions, leans }: OnLines, from: number, to: number): number =>
  tensions.slice(from, to).reduce((sum, t, i) => sum + t * Math.cos(leans[from + i] as number), 0)

const toBody = ({ pose }: OnLines, p: Vec3): Vec3 => apply(transpose(pose.turn), subtract(p, pose.shift))

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

interface TandemLoad {
  level: LinedLoad
  legs: readonly ElasticLeg[]
  /** Where the hooks are, site axes from the body frame's place as it lies level. */
  hooks: readonly [Vec3, Vec3]
  /** Lines of the main hook come first. */
  mainLines: number
}

function loadOf(pick: Pick, rig: Rig): TandemLoad | undefined {
  if (rig.weight.value === undefined || Object.keys(rig.missing).length > 0) return undefined
  const legs = rig.legs.map((leg) => elastic(rig, leg))
  if (legs.includes(undefined) || legs.length === 0) return undefined
  const known = legs as ElasticLeg[]
  const n = (pick.main.rigging?.legs ?? []).length
  const [main, tail] = [known.slice(0, n), known.slice(n)]
  if (main.length * tail.length === 0) return undefined
  const hooks = [hookOver(main), hookOver(tail)] as const
  const lines = known.map((leg, i): FixedLine => ({ ...leg, anchor: hooks[i < n ? 0 : 1] }))
  return {
    level: { lines, weight: rig.weight.value, cog: inBody(rig, rig.cogMachine) },
    legs: known,
    hooks,
    mainLines: n,
  }
}

function elastic(rig: Rig, leg: RigLeg): ElasticLeg | undefined {
  const [length, stiffness] = [leg.length.value, leg.stiffness.value]
  if (length === undefined || stiffness === undefined || leg.lower === undefined) return undefined
  return { to: inBody(rig, leg.lower.at), length, stiffness }
}

/** Plumb over the middle of its points, as high as its shortest reach lets it. */
function hookOver(legs: readonly ElasticLeg[]): Vec3 {
  const [x, y] = [0, 1].map((k) => legs.reduce((sum, leg) => sum + (leg.to[k] as number), 0) / legs.length) as [
    number,
    number,
  ]
  const levels = legs.map((leg) => {
    const across = Math.hypot(leg.to[0] - x, leg.to[1] - y)
    return leg.to[2] + Math.sqrt(Math.max(0, leg.length ** 2 - across ** 2))
  })
  return [x, y, Math.min(...levels)]
}

/** Either hook raised, and the centre of gravity at each corner of its box in plan. */
function cornersOf({ settings }: Pick, { level, hooks, mainLines }: TandemLoad): LinedLoad[] {
  const [a, b] = hooks
  const rise = Math.hypot(a[0] - b[0], a[1] - b[1]) * Math.tan(settings.tilt?.value ?? 0)
  const shift = settings.cogShift?.value ?? 0
  return [-rise, 0, rise].flatMap((up) =>
    [-shift, shift].flatMap((x) =>
      [-shift, shift].map(
        (y): LinedLoad => ({
          ...level,
          cog: [level.cog[0] + x, level.cog[1] + y, level.cog[2]],
          lines: level.lines.map((line, i) =>
            i < mainLines ? { ...line, anchor: [line.anchor[0], line.anchor[1], line.anchor[2] + up] } : line,
          ),
        }),
      ),
    ),
  )
}

const withShift = ({ settings }: Pick, inputs: Record<string, Answer>): Record<string, Answer> => ({
  ...inputs,
  'shift of the centre of gravity': knownOr(settings.cogShift, 'm', '/settings/cogShift'),
})

function residualsOf(h: OnLines | undefined, load: LinedLoad | undefined) {
  if (h === undefined || load === undefined) return []
  return [
    { title: 'ΣF on the piece', value: h.residual.force, unit: 'N' as const, tolerance: 1e-6 * load.weight },
    {
      title: 'ΣM on the piece about its centre of gravity',
      value: h.residual.moment,
      unit: 'N m' as const,
      tolerance: 1e-5 * load.weight,
    },
  ]
}

/** Seen from the piece, with the main hook as the one that height and drawings go by. */
function asHang(h: OnLines, { hooks }: TandemLoad): Hang {
  return {
    pose: { hook: toBody(h, hooks[0]), spreader: { turn: h.pose.turn, shift: hooks[0] } },
    up: apply(transpose(h.pose.turn), [0, 0, 1]),
    tensions: h.tensions,
    topTensions: [],
    angles: h.leans,
    topAngles: [],
    tilt: h.tilt,
    tiltX: h.tiltX,
    tiltY: h.tiltY,
    spreaderTilt: 0,
    residual: { ...h.residual, spreaderForce: 0, spreaderMoment: 0 },
    stiffness: h.stiffness,
    eigenvalues: [],
    reach: 1,
    settled: h.settled,
    steps: 0,
  }
}
