import type { Verdict } from '@shieldwright/engine/working/check.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'

/** What stands in the way of a step. */
export interface FailureView {
  reason: string
  /** Part of the piece that meets it. */
  part: string | undefined
  blockers: readonly { id: string; name: string }[]
  /** The blocked direction in words of the site: "up and forward". */
  towards: string | undefined
}

/** Something to be opened or parted before a step; s. */
export interface WorkView {
  id: string
  name: string
  off: number | undefined
  on: number | undefined
  note: string
}

/** Bolts of one joint as they are tightened on the return; SI. */
export interface BoltUpView {
  joint: string
  between: string
  /** Count, thread, class and method in words: "12 × M36 10.9, hydraulic tension". */
  bolts: string
  target: number | undefined
  least: number | undefined
  most: number | undefined
  /** Tension of each pass, and what the tool is set to. */
  passes: readonly {
    share: number
    tension: number | undefined
    torque?: number | undefined
    pressure?: number | undefined
  }[]
  /** Bolts in the order of one pass, those taken at once together; empty where their places are not known. */
  strokes: readonly (readonly number[])[]
  recheck: string
  notes: readonly string[]
}

/** An isolation that a step parts services under. */
export interface IsolationView {
  id: string
  what: string
  storedEnergy?: string
  /** Acts in their order, with the day each is signed. */
  acts: readonly { act: string; on: string | undefined }[]
}

export interface OrderStepView {
  step: string
  piece: string
  name: string
  lift: string | undefined
  /** It is put aside and stays. */
  stays: boolean
  parts: readonly string[]
  joints: readonly WorkView[]
  services: readonly WorkView[]
  isolations: readonly IsolationView[]
  /** What runs out of the services parted, m³. */
  drained: number
  /** Bolts to be closed when the piece has come back. */
  boltUp: readonly BoltUpView[]
  /** Hours of joints and services, s. */
  off: number
  gap: number | undefined
  gapTo: string | undefined
  failures: readonly FailureView[]
  verdict: Verdict
  /** What is open, and who decides. */
  open: readonly string[]
  /** What else fails at a step whose way is free, with its reason. */
  failing: readonly { title: string; reason: string }[]
}

/** An order verified step by step: the one adopted, or one that is being looked at. */
export interface OrderView {
  adopted: boolean
  feasible: boolean
  steps: readonly OrderStepView[]
  problems: readonly Problem[]
}

/** An order that was looked for. */
export interface FoundOrderView {
  feasible: boolean
  steps: readonly FoundStepView[]
  /** s; work on joints and services off and on, and handling of each piece. */
  cost: number
  bound: number
  proven: boolean
  moveSpace: string
  /** What cannot be got out at all, and what it waits for. */
  stuck: readonly string[]
  looked: number
  /** The same cost of the order that the file adopts, s. */
  adoptedCost: number
  /** Pieces of the file that it lifts as one, and the file does not. */
  newPieces: readonly { id: string; pieces: readonly string[] }[]
  /** The least with every piece of the file lifted alone, s. */
  apartCost: number | undefined
  /** How many orders of the same pieces are free as well, in digits; unknown where there are too many to count. */
  orders: string | undefined
  /** Temporary supports it asks for, in words. */
  supports: readonly string[]
  /** Orders that differ in kind: which piece they do without, what they take instead, s. */
  others: readonly { without: string; instead: readonly string[]; cost: number }[]
  /** Targets that nothing reaches, with the smallest set of pieces that wait for one another. */
  prevented: readonly { target: string; because: readonly string[] }[]
}

/** Nearest to an order that fails, one that works. */
export interface NearestView {
  steps: readonly { piece: string; stays: boolean; moves: readonly unknown[] }[]
  moved: readonly string[]
  added: readonly string[]
  dropped: readonly string[]
  /** What mends each fault, in words, by the step that has it. */
  mends: readonly { step: string; fault: string; mend: string }[]
  moveSpace: string
}

export interface FoundStepView {
  piece: string
  stays: boolean
  /** As they are written in a file. */
  moves: readonly unknown[]
  failures: readonly string[]
}
