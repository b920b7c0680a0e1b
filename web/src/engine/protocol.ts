import type { Verdict } from '@shieldwright/engine/working/check.ts'
import type { Patch } from '@shieldwright/engine/working/patch.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import type { UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import type { Working } from '@shieldwright/engine/working/show.ts'
import type { SiUnit } from '@shieldwright/engine/working/unit.ts'
import type { CampaignAsk, CampaignView, TimesView } from '../campaign/view.ts'
import type { LiftPageView } from '../lift/pageView.ts'
import type { CardView } from '../scene/card.ts'
import type { StepClearances } from '../scene/clearance.ts'
import type { Scene } from '../scene/scene.ts'
import type {
  DocumentView,
  GroundView,
  PageAsk,
  PageView,
  PictureAsk,
  RangeView,
  SitePictureView,
} from '../site/view.ts'
import type { NearestView, OrderView } from '../strip/orderView.ts'
import type { SummaryDelta } from './delta.ts'

/** A check as the page shows it: plain numbers, the working is asked for when it is opened. */
export interface CheckView {
  id: string
  kind: string
  stage: string
  pointer: string
  subject: string
  subjectName: string
  title: string
  unit: SiUnit
  demand: number | undefined
  capacity: number | undefined
  utilisation: number | undefined
  verdict: Verdict
  reasons: readonly string[]
  decidedBy: string
  cautions: readonly string[]
  assumptions: readonly string[]
  /** What it rests on and what it stops: for what does not pass. */
  follows?: FollowsView
}

/** A finding's way along the line: the first stage it rests on, how far it reaches, and the activity it stops next. */
export interface FollowsView {
  from: string
  reaches: string
  /** Absent when no activity to come hangs on it. */
  stops: { activity: string; name: string; lift: string | undefined; at: number } | undefined
}

export interface ChainLine {
  label: string
  value: number | undefined
  pointer: string | undefined
  basis: string | undefined
}

export interface LiftView {
  id: string
  piece: string
  name: string
  /** As short as the strip of lifts needs it. */
  short: string
  kind: string
  /** It brings its piece back along a step of the order. */
  goesBack: boolean
  hook: string
  hookLoad: number | undefined
  rated: number | undefined
  chain: readonly ChainLine[]
  legs: readonly {
    id: string
    tension: number | undefined
    worst: number | undefined
    angle: number | undefined
    slack: boolean
  }[]
  tilt: number | undefined
  heightNeeded: number | undefined
  heightAvailable: number | undefined
  clearance: { gap: number | undefined; to: string } | undefined
  turning: readonly {
    angle: number
    main: number | undefined
    tail: number | undefined
    mainLean: number
    tailLean: number
  }[]
  wind: number | undefined
  duration: number | undefined
  critical: boolean | undefined
  criteria: readonly { text: string; met: boolean | undefined }[]
  verdict: Verdict
}

export interface StepView {
  step: string
  piece: string
  name: string
  lift: string | undefined
  moves: number
  parts: number
  joints: number
  services: number
  gap: number | undefined
  gapTo: string | undefined
  failures: readonly string[]
}

export interface PieceView {
  id: string
  name: string
  parts: number
  found: number | undefined
  uncertainty: number | undefined
  weighed: number | undefined
  returned: number | undefined
  cog: readonly [number, number, number]
}

export interface ActivityView {
  id: string
  name: string
  phase: string
  /** Milliseconds since 1970, UTC. */
  start: number
  finish: number
  earlyFinish: number
  totalFloat: number
  critical: boolean
  /** In the plan, where waiting for a resource is a link like any other; s of working time. */
  planFloat: number
  freeFloat?: number
  /** How its duration follows from site and rate. */
  basis?: string | undefined
  /** On the driving path of the plan. */
  drives: boolean
  /** What it waits for in the plan, through a link or through a resource that is handed over. */
  waitsFor: { activity: string; resource: string | undefined } | undefined
  /** End of the day by which it is promised. */
  promised: number | undefined
  /** What a planner would ask about it, and nobody has answered. */
  asked: readonly string[]
  needs: string
  from: readonly string[]
  lift: string | undefined
  holdPoint: string | undefined
}

export interface Summary {
  title: string
  invented: boolean
  date: string | undefined
  near: number
  checks: readonly CheckView[]
  lifts: readonly LiftView[]
  steps: readonly StepView[]
  pieces: readonly PieceView[]
  activities: readonly ActivityView[]
  /** Every path beside the longest one that has little float, least first; float and work in s. */
  nearPaths?: readonly {
    float: number
    /** The activity that has that float. */
    tightest: string
    work: number
    activities: readonly string[]
    leaves: string | undefined
    joins: string | undefined
  }[]
  progress?: ProgressView | undefined
  restart: number | undefined
  restartUnlimited: number | undefined
  bound: { at: number; reason: string } | undefined
  proven: boolean
  /** The day that the project stands at, not the reader's own. */
  today: number | undefined
  overview: OverviewView
}

/** Where the work stands; instants in milliseconds since 1970, UTC. */
export interface ProgressView {
  dataDate: number | undefined
  done: number
  underWay: number
  /** Activities in all. */
  of: number
  /** Begun before what it should have waited for. */
  outOfSequence: readonly { activity: string; text: string }[]
  /** Entries for activities that are no longer in the programme. */
  lost: readonly string[]
  /** Of the restart against the baseline, s, and what makes it up along the driving path. */
  slip:
    | {
        baseline: string
        made: string
        restartWas: number | undefined
        seconds: number | undefined
        causes: readonly { activity: string; kind: string; seconds: number; delays: readonly string[] }[]
      }
    | undefined
  /** Kept as a record. */
  delays: readonly { id: string; what: string; cause: string; from: string; to: string | undefined }[]
  aheadFrom: number
  /** The shift under way, or the next, of every calendar with work in it. */
  shifts: readonly ShiftView[]
  ahead: readonly AheadView[]
}

/** A shift of a calendar with what runs in it, by the hour. */
export interface ShiftView {
  calendar: string
  start: number
  end: number
  isUnderWay: boolean
  work: readonly (AheadView & { from: number; until: number })[]
}

/** One line of the weeks ahead. */
export interface AheadView {
  id: string
  name: string
  state: 'goes on' | 'starts'
  start: number
  finish: number
  drives: boolean
  float: number
  holdPoint: string | undefined
  /** Under way within a day of the data date. */
  today: boolean
}

/** What a reader who has never seen the project is told first; figures in SI, undefined where not given. */
export interface OverviewView {
  bore: number | undefined
  /** Top of the base slab below the collar, positive. */
  depth: number | undefined
  parts: number
  heaviest: { lift: string; name: string; load: number } | undefined
}

export interface Moved {
  check: CheckView
  before: CheckView | undefined
}

/** A mass or a load that a change moves; values in SI. */
export interface FigureMoved {
  stage: string
  /** Address of the piece or lift. */
  pointer: string
  name: string
  what: string
  unit: SiUnit
  before: number | undefined
  after: number | undefined
}

/** An activity whose start a change moves; instants in UTC milliseconds. */
export interface StartMoved {
  id: string
  name: string
  critical: boolean
  before: number | undefined
  after: number | undefined
}

/** What a change does to one stage: moves a result, is read there without moving one, or is not read. */
export type Reach = 'moved' | 'read' | 'none'

export interface Preview {
  problems: readonly Problem[]
  moved: readonly Moved[]
  /** Checks that are no longer there. */
  gone: readonly CheckView[]
  restartBefore: number | undefined
  restartAfter: number | undefined
  /** Masses and loads that move, largest move first. */
  figures: readonly FigureMoved[]
  /** Starts of activities that move, those that drive the restart first. */
  starts: readonly StartMoved[]
  /** Ids of checks that read the change and stay as they are. */
  read: readonly string[]
  /** How many checks there are in all. */
  results: number
  reach: Readonly<Record<string, Reach>>
  /** First stage that read the change. */
  origin: string | undefined
  milliseconds: number
}

/** A number of the page whose working can be opened. */
export type NumberAt =
  | { check: string }
  | {
      lift: string
      figure:
        | 'hookLoad'
        | 'demand'
        | 'rated'
        | 'allowed'
        | 'tilt'
        | 'worstTilt'
        | 'allowableWind'
        | 'duration'
        | 'line'
        | 'wind'
        | 'main'
        | 'tail'
        | 'needed'
        | 'available'
        | 'below'
        | 'clearance'
        | 'sail'
        | 'stage'
        | 'noReturn'
        | 'window'
        | 'refuge'
      /** Which line of the hook load, limit of the wind, stage of the turn or of the way, or way to safety. */
      of?: number
    }
  | {
      piece: string
      state: 'found' | 'weighed' | 'returned'
      figure: 'net' | 'retained' | 'uncertainty' | 'expected' | 'design' | 'lower' | 'unexplained'
    }

/** One answer on the way down a working. */
export interface TrailStep {
  label: string
  value: string
}

/** An input that a number rests on, and the way down to it. */
export interface RestsOn {
  pointer: string
  path: readonly string[]
  missing: boolean
}

export interface WorkingView {
  working: Working
  /** From the number down to what is shown. */
  trail: readonly TrailStep[]
  /** Whose verification cases hold its methods. */
  stage: string
  restsOn: readonly RestsOn[]
  /** Inputs beyond those listed. */
  more: number
  /** An input of the project file: where it stands. */
  leaf?: { pointer: string; basis: string | undefined }
}

/** A simulation's result; instants in UTC milliseconds. */
export interface RiskView {
  runs: number
  seed: number
  p10: number
  p50: number
  p80: number
  p90: number
  mean: number
  /** Intervals that hold the percentile with 95 % confidence. */
  band50: readonly [number, number]
  band80: readonly [number, number]
  /** Restarts of the runs in rising order, thinned to equal shares of the runs. */
  curve: readonly number[]
  cost: Readonly<Record<'p10' | 'p50' | 'p80' | 'p90' | 'mean', number>>
  /** Standard error of each percentile and of the mean, d. */
  error: Readonly<Record<'p10' | 'p50' | 'p80' | 'p90' | 'mean', number>>
  /** The same restart were the site to decide anew whenever something ends. */
  listed: Readonly<Record<'p10' | 'p50' | 'p80' | 'p90' | 'mean', number>> | undefined
  /** What one more day costs at the P50 and at the P80 restart. */
  day: Readonly<Record<'p50' | 'p80', number>>
  /** Where paths meet, and what it costs that the latest decides, d. */
  merges: readonly { id: string; name: string; paths: number; days: number }[]
  /** The drive after it: distance in m, and when it is reached. */
  course: readonly { at: number; p10: number; p50: number; p80: number }[]
  reaches: readonly { to: number; p50: number; p80: number }[]
  /** False starts of the lifts of a run, on average. */
  falseStarts: number
  drivers: readonly { id: string; name: string; share: number }[]
  /** Mean wait for wind over all lifts of a run, s. */
  windWait: number
  /** Inputs that are missing; lifts that found no window; risks none of whose activities is in the network. */
  open: readonly string[]
  stuck: readonly string[]
  lost: readonly string[]
  method: string
  notes: readonly string[]
}

/** What each measure buys, and what each of the largest drivers costs. */
export interface WhatIfView {
  measures: readonly MeasureView[]
  still: readonly { id: string; name: string; savedP50: number; savedP80: number; errorP80: number }[]
}

/** What one mitigation or option buys by itself. */
export interface MeasureView {
  id: string
  kind: 'mitigation' | 'option'
  name: string
  price: number
  savedP50: number
  savedP80: number
  /** Standard error of the days saved at P80. */
  errorP80: number
  /** Price of one day of the P80; absent where none is saved. */
  perDay?: number
  /** Change of the mean cost, price included. */
  costChange: number
}

/** What a solid comes to; in SI, machine frame. Undefined where an input is missing. */
export interface SolidView {
  /** Area that its line goes round; absent for a shape that has no such line. */
  section: number | undefined
  volume: number | undefined
  mass: number | undefined
  /** Centre of the solid by itself. */
  centre: readonly [number, number, number]
  /** The part it belongs to; absent for what a change adds. */
  part?: {
    /** By its solids, and as the file states it. */
    computed: number | undefined
    stated: number | undefined
    basis: string | undefined
    centre: readonly [number | undefined, number | undefined, number | undefined]
  }
}

/** A drawing of the engine's, as SVG. */
export interface DrawnView {
  title: string
  svg: string
}

/** A formula by its id, and a check in whose working it stands. */
export interface FormulaView {
  id: string
  title: string
  usedIn: string | undefined
}

/** A project file: its document when it is sound, with what is in it in words; else everything that is wrong. */
export type FileRead =
  | { document: unknown; counts: string; problems: readonly [] }
  | { document?: undefined; problems: readonly Problem[] }

/** Requests to the engine's worker, and what each answers. */
export interface Requests {
  open: { ask: { document: unknown }; answer: { problems: readonly Problem[]; summary?: Summary } }
  preview: { ask: { patch: Patch }; answer: Preview }
  /** The text of a project file, read and looked through; nothing is opened. */
  file: { ask: { text: string }; answer: FileRead }
  /**
   * Holds the project after a patch; what it moved is told as a preview would have told it. From the worker comes what
   * changed of the summary; the client puts it together.
   */
  keep: {
    ask: { patch: Patch }
    answer: { problems: readonly Problem[]; summary?: Summary; delta?: SummaryDelta; preview?: Preview }
  }
  /** The published JSON Schema of a project file. */
  schema: { ask: Record<never, never>; answer: unknown }
  working: {
    ask: { of: NumberAt; path: readonly string[]; system: UnitSystem }
    answer: WorkingView | undefined
  }
  /** What the solid at an address comes to, as it stands or would stand with a patch. */
  solid: { ask: { pointer: string; patch: Patch | undefined }; answer: SolidView | undefined }
  scene: { ask: Record<never, never>; answer: Scene | undefined }
  /** The least clearance along the way of a step of the order, from 0, out and back. */
  clearances: { ask: { step: number }; answer: StepClearances | undefined }
  /** What is known of an entity at a place along the order; thorough: what stands in its way as well. */
  card: { ask: { pointer: string; along: number; thorough: boolean }; answer: CardView | undefined }
  /** All that the page of one lift shows beside its checks. */
  liftPage: { ask: { lift: string; system: UnitSystem }; answer: LiftPageView | undefined }
  /** The adopted order verified step by step, or as it would be with a patch. */
  order: { ask: { patch: Patch | undefined }; answer: OrderView }
  /** Nearest to the order that stands, or would stand with a patch, one that works; nothing where it works. */
  nearest: { ask: { patch: Patch | undefined }; answer: NearestView | undefined }
  /** Which piece waits for which along the adopted order. */
  precedence: { ask: Record<never, never>; answer: DrawnView | undefined }
  sheet: { ask: { lift: string }; answer: readonly DrawnView[] }
  /** Plan or sections of the site after a step of the order, drawn for the page. */
  site: { ask: PictureAsk; answer: SitePictureView | undefined }
  /** Loads, bays, other forms and decisions of the ground, at a step. */
  ground: { ask: { step: string | undefined }; answer: GroundView | undefined }
  /** How the checks of the ground move with the soil values and water levels that have a range. */
  ranges: { ask: Record<never, never>; answer: readonly RangeView[] }
  /** What can be put on paper. */
  documents: { ask: Record<never, never>; answer: readonly DocumentView[] }
  /** One page of a document as it is printed. */
  page: { ask: PageAsk; answer: PageView | undefined }
  formulas: { ask: Record<never, never>; answer: readonly FormulaView[] }
  campaign: { ask: CampaignAsk; answer: CampaignView | undefined }
  /** When the places along the order are reached in the plan. */
  times: { ask: Record<never, never>; answer: TimesView | undefined }
}

export type Ask<K extends keyof Requests> = Requests[K]['ask']
export type AnswerTo<K extends keyof Requests> = Requests[K]['answer']

export interface ToWorker {
  id: number
  kind: keyof Requests
  ask: unknown
}
export type FromWorker = { id: number; answer: unknown } | { id: number; fault: string }
