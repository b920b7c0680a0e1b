import type { Verdict } from '@shieldwright/engine/working/check.ts'
import type { Patch } from '@shieldwright/engine/working/patch.ts'
import type { SiUnit } from '@shieldwright/engine/working/unit.ts'
import type { NumberAt } from '../engine/protocol.ts'

/** A line of the sum on the hook. */
export interface SumLine {
  label: string
  value: number | undefined
  plusMinus?: number | undefined
  basis: string
  /** Its working. */
  at?: NumberAt
  /** What a line is made of, set in beneath it. */
  inner?: boolean
}

/** One angle of a turn; pulls in N, undefined where nothing holds the piece. */
export interface TurnPointView {
  angle: number
  main: number | undefined
  tail: number | undefined
  mainLean: number
  tailLean: number
  apart: number
}

type Point = readonly [number, number]

export interface TurnView {
  course: readonly TurnPointView[]
  /** Critical angles, with the pull that they mean, N. */
  marks: readonly { event: string; angle: number; pull?: number }[]
  /** Ranges that no pair of pulls holds, with the force on the tail points that would, N. */
  lost: readonly { from: number; to: number; restraint: number }[]
  /** What each hook may pull, N. */
  limits: { main: number | undefined; tail: number | undefined }
  piece: { loops: readonly (readonly Point[])[]; main: Point | undefined; tail: Point | undefined; side: number }
  /** The worst lean, from plumb, that the plan allows, rad. */
  lean: number | undefined
}

/** Stages of a turn about a pivot on the bay, drawn; and in words, for those who hear the page. */
export interface PivotView {
  drawing: string
  words: readonly string[]
  /** What the bay takes at most. */
  most: string
  units: { length: string; force: string }
}

/** A temporary work under a lift: who designed, checked and let it be loaded, and when; `open` where that is not entered. */
export interface WorkView {
  id: string
  name: string
  category: string
  designed: string
  checked: string
  permitToLoad: string
  approvals: readonly string[]
}

/** Most in one leg of a bridle, N, by equilibrium and by rules of thumb. */
export interface BridleView {
  hook: string
  rules: readonly { label: string; tension: number | undefined }[]
  governs: string | undefined
}

/** A change of the rigging that brings the piece level. */
export interface LevelOffer {
  kind: string
  text: string
  tilt: number | undefined
  patch: Patch
}

/** An allowance between net mass and design load. */
export interface AllowanceView {
  title: string
  value: number | undefined
  unit: SiUnit
  enters: { hook: string; rigging: string; beams: string; ground: string }
  clause: string
  note: string
}

/** The most used of what one kind of check looks at: lugs, welds, beams, bolts. */
export interface StructureView {
  /** Id of the check. */
  id: string
  /** What it asks, and of what it is the worst. */
  asks: string
  of: string
  use: number | undefined
  verdict: Verdict
}

/** Reactions of the header beams at the two rails for places of the hook. */
export interface HeaderView {
  system: string
  /** Site x of the rails, m. */
  rails: readonly [number, number]
  spots: readonly { label: string; x: number; low: number | undefined; high: number | undefined }[]
}

/** A time with its working; s, undefined where something is missing for it. */
export interface TimeAt {
  value: number | undefined
  at: NumberAt
}

/** One stage of the way in time. */
export interface StageView {
  name: string
  takes: TimeAt
  /** From the load being taken. */
  until: number | undefined
  /** Level of the centre of gravity at its end, m, and how far it moves in plan. */
  level: number | undefined
  plan: number | undefined
  /** Longest way out of the wind, and to where. */
  shelter: TimeAt & { position: string }
  /** To safety when power, or a jack or winch, fails. */
  power: TimeAt
  unit: TimeAt
}

export interface WayView {
  stages: readonly StageView[]
  /** Stage from 0 in which the point of no return lies. */
  noReturn: TimeAt & { stage: number | undefined; stated: boolean }
  window: TimeAt
  positions: readonly { name: string; from: number | undefined; to: number | undefined }[]
  /** Whether the machine holds the load without power. */
  holds: string
}

/** One line of what holds the load: a unit, a foot, a figure of a chart. */
export interface HolderLine {
  label: string
  value: number | undefined
  unit: SiUnit
  /** What it may be, where something limits it. */
  limit?: number | undefined
}

/** What holds the load in this lift: chart as read, strand units, feet of the machine. */
export interface HolderView {
  title: string
  /** How it was read, or what it stands for. */
  words: string
  lines: readonly HolderLine[]
}

/** What the page of one lift shows beside its checks. */
export interface LiftPageView {
  id: string
  piece: string
  /** Steps of the order that this lift carries out, and where along the order they end. */
  along: number | undefined
  /** Stops along the order, out and back again, from which it begins and at which it ends. */
  span: readonly [number, number] | undefined
  lines: readonly SumLine[]
  /** Hook load, and what the rating counts beyond it. */
  total: SumLine
  beyond: readonly SumLine[]
  /** What the rating counts, and what it is held against. */
  demand: SumLine
  allowed: SumLine
  /** Id of the check of the main hook. */
  hookCheck: { id: string; verdict: Verdict } | undefined
  unexplained: { value: number; at: NumberAt } | undefined
  tilt: string
  legBalance: string
  bridles: readonly BridleView[]
  levelling: readonly LevelOffer[]
  allowances: readonly AllowanceView[]
  structures: readonly StructureView[]
  headers: readonly HeaderView[]
  holders: readonly HolderView[]
  drawings: { hanging: string; plan: string }
  wind: readonly { label: string; value: number | undefined; unit: SiUnit; at: NumberAt }[]
  sail: string
  /** Ids of the checks of this lift and of the ground under it. */
  checks: readonly string[]
  turn: TurnView | undefined
  pivot: PivotView | undefined
  critical: string
  criteria: readonly { text: string; met: string }[]
  arranged: readonly { text: string; what: string; source: string }[]
  /** Temporary works that it rests on, as the sheet has them. */
  works: readonly WorkView[]
  steps: readonly { words: string; hold?: string }[]
  cautions: readonly string[]
  duration: number | undefined
  way: WayView
}
