export type LinkType = 'FS' | 'SS' | 'FF' | 'SF'

/** A predecessor, how it binds, and its lag: elapsed, or on the calendar named. */
export interface Link {
  to: string
  type: LinkType
  lag: number
  calendar?: string
}

/** What an activity does in the recovery. */
export type ActivityKind =
  | 'typed'
  | 'mark'
  | 'isolate'
  | 'part'
  | 'open'
  | 'rig'
  | 'wait'
  | 'wait back'
  | 'lift'
  | 'turn'
  | 'land'
  | 'change'
  | 'rig back'
  | 'turn back'
  | 'lift back'
  | 'release'
  | 'close'
  | 'reconnect'
  | 'energise'
  | 'test'
  | 'drive'
  | 'cure'
  | 'milestone'

/** One activity of the plan. Instants are seconds from the start of the programme, elapsed time. */
export interface Activity {
  id: string
  name: string
  kind: ActivityKind
  phase: string
  calendar: string
  /** Clock time in the shifts of its calendar: least, most likely, greatest, s. */
  work: readonly [number, number, number]
  /** False: it lies within one working stretch. */
  interruptible: boolean
  after: readonly Link[]
  needs: Readonly<Record<string, number>>
  /** Where it came from: pointers into the project file. */
  from: readonly string[]
  step?: string
  piece?: string
  lift?: string
  /** Pointers of the inputs without which its duration is not known; it then counts as nothing, and checks are open. */
  unknown?: readonly string[]
  /** Elapsed seconds: not to start before, to have started by, not to finish before, promised to be finished by. */
  notBefore?: number
  startBy?: number
  finishNotBefore?: number
  finishBy?: number
  /** Calendars within whose hours it stays besides its own: curfews, closed roads. */
  within?: readonly string[]
  /** How its duration follows, in words with numbers, where it follows from site and rate. */
  basis?: string
  fixedCost: number
  holdPoint?: string
  /** What was decided about it and no longer fits, in words. */
  idle?: readonly string[]
  /** At the data date; its work is then what is left, and what its resources have cost so far is a fixed cost. */
  state?: 'under way' | 'done'
}

export type Activities = Readonly<Record<string, Activity>>

/** Dates of one activity. */
export interface Scheduled {
  /** Resource-feasible plan. */
  start: number
  finish: number
  /** Without resources. */
  earlyStart: number
  earlyFinish: number
  lateStart: number
  lateFinish: number
  /** In working time of the activity's own calendar, against the restart for what leads to it, else against the end. */
  totalFloat: number
  freeFloat: number
  /** Total less free: what its successors lose when it is taken. */
  interferingFloat: number
  /** Left when predecessors come as late and successors as early as they may. */
  independentFloat: number
  /** On the longest path to the restart, without resources. */
  critical: boolean
  /** The same in the plan, where waiting for a resource is a link like any other. */
  planFloat: number
  planCritical: boolean
  /** What it waits for in the plan: an activity, through a link or through the resource it hands over. */
  waitsFor?: { activity: string; resource?: string }
}
