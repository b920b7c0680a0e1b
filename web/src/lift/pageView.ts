import type { Verdict } from '@shieldwright/engine/working/check.ts'
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
  /** What each hook may pull, N. */
  limits: { main: number | undefined; tail: number | undefined }
  piece: { loops: readonly (readonly Point[])[]; main: Point | undefined; tail: Point | undefined; side: number }
  /** The worst lean, from plumb, that the plan allows, rad. */
  lean: number | undefined
}

/** What the page of one lift shows beside its checks. */
export interface LiftPageView {
  id: string
  piece: string
  /** Steps of the order that this lift carries out, and where along the order they end. */
  along: number | undefined
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
  drawings: { hanging: string; plan: string }
  wind: readonly { label: string; value: number | undefined; unit: SiUnit; at: NumberAt }[]
  sail: string
  /** Ids of the checks of this lift and of the ground under it. */
  checks: readonly string[]
  turn: TurnView | undefined
  critical: string
  criteria: readonly { text: string; met: string }[]
  steps: readonly { words: string; hold?: string }[]
  cautions: readonly string[]
  duration: number | undefined
}
