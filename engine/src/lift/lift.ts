import type { MassResult, MassState } from '../mass/index.ts'
import type { Model } from '../model/index.ts'
import type { Vec3 } from '../numeric/vector.ts'
import type { StripResult } from '../strip/index.ts'
import type { Answer, Term } from '../working/answer.ts'
import type { Check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import type { Allowance } from './allowances.ts'
import { pieceHull } from './bodies.ts'
import { boomBesideChecks } from './boomBesideChecks.ts'
import type { Bridle } from './bridle.ts'
import type { ChartRead } from './chartChecks.ts'
import type { Feet } from './feet.ts'
import type { HeaderResult } from './header.ts'
import type { HoldingPosition, PointOfNoReturn, Refuge } from './holding.ts'
import type { LevelProposal } from './levelling.ts'
import type { SecondMachine } from './machines.ts'
import { outcomeOf } from './outcome.ts'
import type { Overhead } from './overhead.ts'
import { identityOf, pickOf } from './pick.ts'
import type { PivotOnGround } from './pivotOf.ts'
import type { LiftStage } from './stages.ts'
import { type NearestStanding, standingOf, surroundingsOf } from './standing.ts'
import type { TailLeg } from './tailRig.ts'
import type { UnitGroup } from './units.ts'
import { registerChecks } from './works.ts'
import type { ExclusionZone } from './zone.ts'

/** One leg of the rigging as it hangs. */
export interface LegResult {
  id: string
  /** Nominal, and the worst over length tolerances and the box of mass and centre of gravity. */
  tension: Answer<'N'>
  worst: Answer<'N'>
  /** From the vertical. */
  angle: Answer<'rad'>
  slack: boolean
  /** Item of stock, and its level link where it has one, with the length that this adds. */
  item: string
  link?: { item: string; setting: Answer<'m'> }
  /** Names of its ends: a point of the piece or gear, a node of the spreader; the hook where no node is named. */
  to: string
  from?: string
  /** Ends as the piece hangs, from the hook, site axes, m; for drawings. */
  ends?: readonly [lower: Vec3, upper: Vec3]
}

/** One stage of a turn: both hooks' shares at an angle from upright. */
export interface TurnStage {
  angle: number
  main: Answer<'N'>
  tail: Answer<'N'>
  /** Angle of each hoist line from plumb, rad. */
  mainLean: number
  tailLean: number
  /** Plan distance of the hooks, m. */
  apart: number
  /** False where no pair of pulls holds the piece at this angle. */
  held: boolean
}

/** Everything a lift sheet shows of one lift. */
export interface LiftOutcome {
  id: string
  piece: string
  kind: 'out' | 'turn' | 'move' | 'back'
  /** Which mass it carries. */
  state: MassState
  system: string
  hook: string
  /** Mass chain of the hook load, each line once. */
  hookLoad: Answer<'kg'>
  lines: readonly Term<'kg'>[]
  /** What the rating is held against: with block and dynamics where the rating asks for them. */
  demand: Answer<'kg'>
  /** Rated load it is held against. */
  rated: Answer<'kg'>
  /** The part of it that the plan may use. */
  allowed: Answer<'kg'>
  legs: readonly LegResult[]
  /** Legs of the tail hook of a turn, at its worst pull; none otherwise. */
  tailLegs: readonly TailLeg[]
  tilt: Answer<'rad'>
  worstTilt: Answer<'rad'>
  /** Height chain under the hook. */
  height: { needed: Answer<'m'>; available: Answer<'m'>; below: Answer<'m'> }
  /** Least clearance through the shaft: gap, to what, where, by which part, and whether as found or as it hangs. */
  clearance?: { gap: Answer<'m'>; to: string; at: Vec3; part: string; as: string }
  /** Items of stock that carry it, on either hook; tag lines carry nothing. */
  items: readonly string[]
  /** How many it takes of each item of stock, on both hooks together. */
  takes: Readonly<Record<string, number>>
  /** Gear that it hangs from. */
  gear: readonly string[]
  /** Temporary works that it rests on. */
  works: readonly string[]
  /** The nearest that it comes to what stands on the bays; absent where nothing does, or where that is open. */
  nearestStanding?: NearestStanding
  /** How the rigging hangs, the boom, and where either comes nearest. */
  overhead: Overhead
  turning: readonly TurnStage[]
  /** What a piece turned about an edge or trunnion on the bay puts on it. */
  pivot?: PivotOnGround
  allowableWind: Answer<'m/s'>
  wind: readonly Term<'m/s'>[]
  /** Largest projected area, m², and the heading that the wind blows to, rad from site x. */
  sail: { area: Answer<'m2'>; heading: number }
  /** Hook time of the whole lift: hoist, travel, set-up. */
  duration: Answer<'s'>
  /** The way in time, from the load being taken: pick, rise, travel, turn, lower, land. */
  stages: readonly LiftStage[]
  pointOfNoReturn: PointOfNoReturn
  /** Where the piece can wait, and per stage and failure the nearest of them. */
  holdingPositions: readonly HoldingPosition[]
  refuges: readonly Refuge[]
  /** Where nobody may be while it goes on; for drawings and for what the programme does at the same time. */
  zone: ExclusionZone
  /** Critical or standard, with the criteria that say so; undefined when a fact is missing. */
  critical: boolean | undefined
  criteria: readonly { text: string; met: boolean | undefined }[]
  /** What its class demands to be arranged, each with what is, and where the demand comes from. */
  arranged: readonly { text: string; what: string | undefined; source: string }[]
  /** Hook over the centre of gravity before the first move and after each, site frame, m. */
  places: readonly { label: string; at: Vec3 }[]
  /** Bridles of three legs and more to one hook: equilibrium, the rules of thumb beside it, and which governs. */
  bridles: readonly Bridle[]
  /** Changes of the rigging that bring a piece level which hangs out of level by more than half of what is allowed. */
  levelling: readonly LevelProposal[]
  /** From net mass to design load: every allowance once, with its clause and what it enters. */
  allowances: readonly Allowance[]
  /** Strand units or winches of each hook that hangs from some. */
  units: readonly UnitGroup[]
  /** Charts of the crane as read for this lift. */
  charts: readonly ChartRead[]
  /** Everything that the machine carries below its head: hook load, blocks, rigging of a tail hook. */
  underHead: Answer<'kg'>
  /** What the feet of the machine bear; the ground stage takes it from there. */
  feet?: Feet
  /** Largest radius passed, of a crane. */
  radius?: Answer<'m'>
  /** The second of two machines that share the piece; `underHead` and `feet` are then of the first with its largest share. */
  second?: SecondMachine
  /** Reactions of the header beams of the towers it hangs from, at the rails and on the legs, for each place of the hook. */
  headers: readonly HeaderResult[]
  /** Of the checks of what carries the load, the one with the largest use. */
  governing?: string
  checks: readonly Check[]
}

export interface LiftResult {
  checks: readonly Check[]
  lifts: Readonly<Record<string, LiftOutcome>>
}

/** Every lift of the project, each worked again only when something it carries, hangs from or goes past has changed. */
export function lift(model: Model, mass: MassResult, strip: StripResult, memory: Memory): LiftResult {
  const { lifts, pieces, temporaryWorks } = model.project
  const ids = Object.keys(lifts)
  const picks = new Map(ids.map((id) => [id, pickOf(model, mass, strip, id)]))
  const surroundings = surroundingsOf(model, mass, strip, picks, memory)
  const outcomes = [...picks].map(([id, pick]) => {
    const hull = pieceHull(model, mass, pick.lift.piece, memory)
    const identity = [...identityOf(pick), hull]
    const alone = memory.once(`lift/${id}`, identity, () => outcomeOf(pick, hull, memory))
    const nameOf = (piece: string): string => pieces[piece]?.name ?? piece
    const things = surroundings.of(id)
    const among = standingOf(pick, hull, things, nameOf, memory)
    const boom = boomBesideChecks(model, pick, hull, { things, nameOf }, memory)
    return memory.once(`lift-among/${id}`, [alone, among, boom], () => ({
      ...alone,
      ...among,
      checks: [...alone.checks, ...among.checks, ...boom],
    }))
  })
  const register = registerChecks(temporaryWorks, model.near, memory)
  return memory.once('lift-all', [...outcomes, register], () => ({
    checks: [...outcomes.flatMap((outcome) => outcome.checks), ...register],
    lifts: Object.fromEntries(ids.map((id, i) => [id, outcomes[i]])) as LiftResult['lifts'],
  }))
}
