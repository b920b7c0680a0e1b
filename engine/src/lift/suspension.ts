import { add, apply, dot, norm, scale, subtract, transpose, unit, type Vec3 } from '../numeric/vector.ts'
import { type Answer, found, type Given, knownOr, stated } from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import { type Envelope, envelopeOf, type Tolerances } from './envelope.ts'
import {
  type ElasticLeg,
  type Hang,
  type Hanging,
  type HungLoad,
  hang,
  intendedHang,
  levelStiffness,
  NEAR_LEVEL,
  swingsBack,
} from './hang.ts'
import { type Link, levelled } from './levelled.ts'
import { inSeries, levelsOf, withCogMoved } from './levels.ts'
import {
  endsOf as endsInLevels,
  envelopeOfLevels,
  hangOf,
  loadOfPiece,
  orderOf,
  stiffnessOfLevels,
  withLinks as withLinksInLevels,
} from './levelsHang.ts'
import type { Pick } from './pick.ts'
import { inBody, type Rig, type RigLeg } from './rig.ts'
import { settle } from './settle.ts'

/** A level link and the length it adds so that the piece hangs as it is meant to. */
export interface LinkSetting {
  leg: string
  item: string
  setting: Answer<'m'>
  stroke: Answer<'m'>
}

/** How a piece hangs from its arrangement; what is not known is open, and says where. */
export interface Suspension {
  rig: Rig
  /** Solved at the planned figures; undefined where an input is missing. */
  hang: Hang | undefined
  load: HungLoad | undefined
  envelope: Envelope | undefined
  legs: readonly LegAnswer[]
  tilt: Answer<'rad'>
  /** Over the corners of the tolerances, level links left as they are set. */
  worstTilt: Answer<'rad'>
  /** Of a piece that two hooks share: what hangs plumb at each corner of its levels and of the box of its centre of gravity, body frame. */
  leaning?: readonly Vec3[]
  /** Smallest stiffness of the hang, with the centre of gravity at its place and at the top of its box; a stable one is above zero. */
  stiffness: Answer<'N/m'>
  /** How much higher the top of the box of the centre of gravity is, m. */
  higher: number | undefined
  links: readonly LinkSetting[]
  /** Ends of each leg in the order of `legs`, from the main hook, site axes, m; where the hang alone does not say them. */
  ends?: readonly (readonly [lower: Vec3, upper: Vec3])[]
  /** Hook above the lowest suspension point and the centre of gravity, m; for the height chain and drawings. */
  hookMachine: Vec3 | undefined
}

/** What is known of one leg. */
export interface LegAnswer {
  leg: RigLeg
  tension: Answer<'N'>
  worst: Answer<'N'>
  angle: Answer<'rad'>
  worstAngle: Answer<'rad'>
  slack: boolean
}

const METHOD =
  'equilibrium of a rigid piece and its spreaders on tension-only elastic legs: lowest energy, then ΣF and ΣM from the tensions'
const CORNERS =
  'the same equilibrium over the corners of mass, centre of gravity and leg lengths, at 0.75 and 1.25 of the stiffness too'
/** Wire rope is stiffer at high load, and slings differ: tried at the worst corners. Common practice, no source. */
const STIFFNESS = [1, 0.75, 1.25]

/** What a solver finds of an arrangement. */
interface Solved {
  hang: Hang
  /** At the planned figures, level links set. */
  load: HungLoad
  envelope: Envelope | undefined
  stiffness: number
  links: readonly number[]
  /** Ends of each leg from the hook, where a single spreader's pose does not say them. */
  ends?: Suspension['ends']
}

/** The piece in equilibrium on its rigging, level links set, and the worst over the tolerances. */
export function suspensionOf(pick: Pick, rig: Rig): Suspension {
  const inputs = inputsOf(rig)
  const box = boxOf(pick)
  const tolerances = tolerancesOf(rig, box)
  const higher = box.half?.[2]
  const weight = rig.weight.value
  const solved = inSeries(rig.hooked)
    ? solvedInLevels(pick, rig, tolerances, weight, higher ?? 0)
    : solvedUnderHook(pick, rig, tolerances, weight, higher ?? 0)
  const { hang: hung, envelope } = solved ?? {}
  const worstInputs = { ...inputs, ...toleranceInputs(rig), ...box.inputs }
  const answer = <U extends 'N' | 'rad' | 'N/m'>(unit: U, value: number | undefined): Answer<U> =>
    found({ unit, value, method: METHOD, inputs, residuals: hung === undefined ? [] : residualsOf(hung, solved?.load) })
  const worstAnswer = <U extends 'N' | 'rad'>(unit: U, value: number | undefined): Answer<U> =>
    found({
      unit,
      value,
      method: CORNERS,
      inputs: worstInputs,
      residuals: [],
      ...(envelope === undefined ? {} : { note: cornersNote(envelope) }),
    })
  const below = rig.legs.filter((leg) => !leg.above)
  const above = rig.legs.filter((leg) => leg.above)
  return {
    rig,
    hang: hung,
    load: solved?.load,
    envelope,
    legs: [
      ...below.map((leg, i) => ({
        leg,
        tension: answer('N', hung?.tensions[i]),
        worst: worstAnswer('N', envelope?.most[i]),
        angle: answer('rad', hung?.angles[i]),
        worstAngle: worstAnswer('rad', envelope?.angles[i]),
        slack: hung?.tensions[i] === 0,
      })),
      ...above.map((leg, i) => ({
        leg,
        tension: answer('N', hung?.topTensions[i]),
        worst: worstAnswer('N', envelope?.topMost[i]),
        angle: answer('rad', hung?.topAngles[i]),
        worstAngle: answer('rad', hung?.topAngles[i]),
        slack: hung?.topTensions[i] === 0,
      })),
    ],
    tilt: answer('rad', hung?.tilt),
    worstTilt: worstAnswer('rad', envelope?.tilt),
    stiffness: found({
      unit: 'N/m',
      value: solved?.stiffness,
      method: `${METHOD}; the lower of two: as planned, and with the centre of gravity at the top of its box`,
      inputs: { ...inputs, ...box.inputs },
      residuals: hung === undefined ? [] : residualsOf(hung, solved?.load),
    }),
    higher,
    links: linkSettings(rig, solved?.links ?? [], inputs),
    hookMachine: hung === undefined ? undefined : apply(transpose(rig.turn), hung.pose.hook),
    ...(solved?.ends === undefined ? {} : { ends: solved.ends }),
  }
}

/** One hook, with one spreader or none: three unknowns, nine at most. */
function solvedUnderHook(
  pick: Pick,
  rig: Rig,
  tolerances: Tolerances | undefined,
  weight: number | undefined,
  higher: number,
): Solved | undefined {
  const planned = loadOf(rig, weight)
  const set = planned === undefined ? undefined : withLinks(planned, rig, enoughOf(pick))
  if (set === undefined) return undefined
  return {
    ...set,
    envelope: tolerances === undefined ? undefined : envelopeOf(set.load, tolerances, set.hang),
    stiffness: Math.min(stiffnessOf(set.load, set.hang, pick), stiffnessHigher(set, higher, pick)),
  }
}

function stiffnessHigher({ load, hang: planned }: SetLinks, higher: number, pick: Pick): number {
  const raised = { ...load, cog: add(load.cog, [0, 0, higher]) }
  return stiffnessOf(raised, hang(raised, planned.pose), pick)
}

/** Spreaders in series or side by side: six unknowns each. */
function solvedInLevels(
  pick: Pick,
  rig: Rig,
  tolerances: Tolerances | undefined,
  weight: number | undefined,
  higher: number,
): Solved | undefined {
  if (weight === undefined || weight <= 0 || Object.keys(rig.missing).length > 0) return undefined
  const planned = levelsOf(pick, rig, [{ hooked: rig.hooked, legs: rig.legs }], weight)
  const links = rig.legs.flatMap((leg, line) =>
    leg.above || leg.linkId === undefined ? [] : [{ line, stroke: strokeOf(leg).value }],
  )
  if (planned === undefined || links.some((link) => link.stroke === undefined)) return undefined
  const order = orderOf(rig.legs)
  const set = withLinksInLevels(planned, order, links as { line: number; stroke: number }[], enoughOf(pick))
  const raised = withCogMoved(set.levels, [0, 0, higher])
  return {
    hang: hangOf(set.levels, order, set.found),
    load: loadOfPiece(set.levels, order),
    envelope: tolerances === undefined ? undefined : envelopeOfLevels(set.levels, order, tolerances, set.found),
    stiffness: Math.min(
      stiffnessOfLevels(set.levels, set.found),
      stiffnessOfLevels(raised, settle(raised.suspended, set.found.poses)),
    ),
    links: set.settings,
    ends: endsInLevels(set.levels, order, set.found.poses),
  }
}

/** Swing that a piece must come back from where the project sets no limit out of plumb: 3°, common practice, no source. */
const SWING = (3 * Math.PI) / 180

/** A piece that comes to rest farther than this from level has turned over on the way, rad. */
const TURNED_OVER = Math.PI / 4

/**
 * Of the pose reached, when that is near level; else of the pose near level where forces close, which is then not stable. Where
 * there is none and the piece turned over, it was not held.
 */
function stiffnessOf(load: HungLoad, reached: Hang, { settings }: Pick): number {
  if (reached.tilt < NEAR_LEVEL) {
    const height = norm(subtract(reached.pose.hook, load.cog))
    const out = height * Math.tan(settings.outOfPlumb?.value ?? SWING)
    // stable for the least push, yet not for the swing that a hoist line may have
    return swingsBack(load, reached, out) ? reached.stiffness : -Math.abs(reached.stiffness)
  }
  const meant = intendedHang(load)
  if (meant !== undefined) return meant.stiffness
  return reached.tilt < TURNED_OVER ? reached.stiffness : -Math.abs(levelStiffness(load))
}

const TRIED: Record<Envelope['tried'], string> = {
  all: 'all corners of lengths and of the centre of gravity in plan; the rest at the worst of them',
  'lengths first': 'all corners of lengths; those of the centre of gravity and the rest at the worst of them',
  'by slopes': 'of the lengths, the corners that the slopes of each result point to',
}

const cornersNote = ({ solved, tried }: Envelope): string => `${solved} equilibria: ${TRIED[tried]}`

const residualsOf = ({ residual }: Hanging, load: HungLoad | undefined) => {
  const weight = load?.weight ?? 1
  return [
    { title: 'ΣF on the piece', value: residual.force, unit: 'N' as const, tolerance: 1e-6 * weight },
    {
      title: 'ΣM on the piece about its centre of gravity',
      value: residual.moment,
      unit: 'N m' as const,
      tolerance: 1e-5 * weight,
    },
    ...(load?.spreader === undefined
      ? []
      : [
          {
            title: 'ΣM on the spreader about the hook',
            value: residual.spreaderMoment,
            unit: 'N m' as const,
            tolerance: 1e-5 * weight,
          },
        ]),
  ]
}

/** Everything the equilibrium is worked from; an open one keeps the result open and says where. */
export function inputsOf(rig: Rig): Record<string, Answer> {
  const legs = rig.legs.flatMap((leg): [string, Answer][] => [
    [`${leg.id}: length`, leg.length],
    [`${leg.id}: stiffness EA`, leg.stiffness],
    ...(leg.linkId === undefined ? [] : ([[`${leg.id}: stroke of its link`, strokeOf(leg)]] as [string, Answer][])),
    ...pointLeaves(leg),
  ])
  const spreader: [string, Answer][] =
    Object.keys(rig.nodes).length === 0 ? [] : [['weight of the spreader', rig.spreaderWeight]]
  return { 'load on the legs': rig.weight, ...Object.fromEntries([...spreader, ...legs]), ...rig.missing }
}

const pointLeaves = ({ id, lower }: RigLeg): [string, Answer][] =>
  lower === undefined
    ? []
    : lower.point.at.map((coordinate: Given, k: number) => [`${id}: ${'xyz'[k]} of ${lower.id}`, coordinate])

const toleranceInputs = (rig: Rig): Record<string, Answer> =>
  Object.fromEntries([
    ...rig.legs.filter((leg) => leg.linkId === undefined).map((leg) => [`${leg.id}: length tolerance`, leg.tolerance]),
    ['lower load on the legs', rig.lowerWeight],
  ])

const strokeOf = (leg: RigLeg): Answer<'m'> =>
  knownOr(leg.link?.stroke, 'm', pointerOf('stock', leg.linkId ?? '', 'stroke'))

/** The arrangement in numbers; undefined where one is missing. */
function loadOf(rig: Rig, weight: number | undefined): HungLoad | undefined {
  if (weight === undefined || weight <= 0 || Object.keys(rig.missing).length > 0) return undefined
  const below = rig.legs.filter((leg) => !leg.above).map((leg) => legBelow(rig, leg))
  const top = rig.legs.filter((leg) => leg.above).map((leg) => legAbove(rig, leg))
  if ([...below, ...top].includes(undefined)) return undefined
  const load: HungLoad = { legs: below as ElasticLeg[], weight, cog: inBody(rig, rig.cogMachine) }
  const ends = Object.values(rig.nodes)
  if (ends.length === 0) return load
  if (rig.spreaderWeight.value === undefined) return undefined
  const cog = scale(
    ends.reduce<Vec3>((s, e) => [s[0] + e[0], s[1] + e[1], s[2] + e[2]], [0, 0, 0]),
    1 / ends.length,
  )
  return { ...load, spreader: { weight: rig.spreaderWeight.value, cog, top: top as ElasticLeg[] } }
}

function legBelow(rig: Rig, leg: RigLeg): ElasticLeg | undefined {
  const [length, stiffness] = [leg.length.value, leg.stiffness.value]
  if (length === undefined || stiffness === undefined || leg.lower === undefined) return undefined
  const to = inBody(rig, leg.lower.at)
  return leg.node === undefined
    ? { to, length, stiffness }
    : { to, length, stiffness, from: rig.nodes[leg.node] as Vec3 }
}

function legAbove(rig: Rig, leg: RigLeg): ElasticLeg | undefined {
  const [length, stiffness] = [leg.length.value, leg.stiffness.value]
  return length === undefined || stiffness === undefined
    ? undefined
    : { to: rig.nodes[leg.node as string] as Vec3, length, stiffness }
}

interface SetLinks {
  load: HungLoad
  hang: Hang
  links: readonly number[]
}

/** Half of the tilt that the project allows need not be taken away by links drawn unequally. */
const enoughOf = ({ settings }: Pick): number => (settings.tilt?.value ?? 0) / 2

/** Legs as they are, or with their level links set. */
function withLinks(load: HungLoad, rig: Rig, enough: number): SetLinks | undefined {
  const below = rig.legs.filter((leg) => !leg.above)
  const links = below.flatMap((leg, i) => (leg.linkId === undefined ? [] : [{ leg: i, stroke: strokeOf(leg).value }]))
  if (links.length === 0) return { load, hang: hang(load), links: [] }
  if (links.some((link) => link.stroke === undefined)) return undefined
  const set = levelled(load, links as Link[], enough)
  return { load: set.load, hang: set.hang, links: set.settings }
}

function linkSettings(rig: Rig, settings: readonly number[], inputs: Record<string, Answer>): LinkSetting[] {
  return rig.legs
    .filter((leg) => !leg.above && leg.linkId !== undefined)
    .map((leg, k) => ({
      leg: leg.id,
      item: leg.linkId as string,
      stroke: strokeOf(leg),
      setting: found({
        unit: 'm',
        value: settings[k],
        method:
          'length of each link, within its stroke, at which the piece hangs as it is meant to: all alike as far as that is enough',
        inputs,
        residuals: [],
      }),
    }))
}

interface Box {
  half: Vec3 | undefined
  inputs: Record<string, Answer>
}

/** Box about the centre of gravity: the shift the project allows for, or its own uncertainty times the coverage factor. */
function boxOf({ settings, set }: Pick): Box {
  if (settings.cogShift !== undefined) {
    const shift = settings.cogShift.value as number
    return { half: [shift, shift, shift], inputs: { 'shift of the centre of gravity': settings.cogShift } }
  }
  const coverage = knownOr(settings.coverage, '1', '/settings/cogShift')
  const [x, y, z] = set.cogUncertainty
  const k = coverage.value
  return {
    half: k === undefined ? undefined : [k * x, k * y, k * z],
    inputs: {
      'coverage factor': coverage,
      'uncertainty of the centre of gravity': stated('m', Math.hypot(x, y, z), 'from the mass roll-up'),
    },
  }
}

function tolerancesOf(rig: Rig, { half }: Box): Tolerances | undefined {
  const legs = [...rig.legs.filter((leg) => !leg.above), ...rig.legs.filter((leg) => leg.above)]
  // a leg with a level link is set on the load: its own error is taken up
  const lengths = legs.map((leg) => (leg.linkId === undefined ? leg.tolerance.value : 0))
  const [low, high] = [rig.lowerWeight.value, rig.weight.value]
  if (half === undefined || low === undefined || high === undefined || lengths.includes(undefined)) return undefined
  return { weight: [low, high], cog: half, lengths: lengths as number[], stiffness: STIFFNESS }
}

/** How far the centre of gravity lies below the lowest point the piece hangs by, as it hangs, m; negative above it. */
export function dropBelowPoints({ load, hang: hung }: Suspension): number | undefined {
  if (load === undefined || hung === undefined) return undefined
  const levels = load.legs.map((leg) => dot(leg.to, unit(hung.up)))
  return Math.min(...levels) - dot(load.cog, hung.up)
}
