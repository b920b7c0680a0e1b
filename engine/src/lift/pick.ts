import type { MassResult, MassState, SetMass } from '../mass/index.ts'
import type {
  Arrangement,
  Bay,
  Lift,
  Machine,
  Model,
  Move,
  Piece,
  Programme,
  ReadProject,
  Settings,
  Shaft,
  System,
  TemporaryWork,
  Transport,
} from '../model/index.ts'
import type { Pose } from '../numeric/vector.ts'
import type { StripResult, StripStep } from '../strip/index.ts'
import type { Subject } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'

export type Hook = System['hooks'][string]
type Work = NonNullable<Programme['work']>
type Shifts = Programme['calendars'][string]['shifts']

/** A hook with what hangs the piece from it, and where each stands in the file. */
export interface Hooked {
  id: string
  /** Its name within the lift: its id, with its machine where both machines of a lift call their hooks the same. */
  key: string
  system: System
  systemId: string
  systemAt: string
  hook: Hook
  hookAt: string
  rigging: Arrangement | undefined
  riggingAt: string
}

/** One lift with everything it names, and nothing else: the identity of its fields says when it must be worked again. */
export interface Pick {
  id: string
  at: string
  lift: Lift
  piece: Piece
  pieceAt: string
  set: SetMass
  state: MassState
  main: Hooked
  tail: Hooked | undefined
  bay: Bay | undefined
  bayAt: string
  /** Poses of the piece along the steps that this lift carries out, from the pose as found, site frame. */
  track: readonly Pose[]
  /** Moves of those steps. */
  moves: readonly Move[]
  /** It goes the way of its steps from its end to its beginning. */
  homeward: boolean
  /** The trailer it is set on, or taken from, beside its bay. */
  trailer: Transport | undefined
  /** The lift before leaves it hanging; the next lift goes on with it hanging. */
  takenHanging: boolean
  leftHanging: boolean
  /** Lifts before and after it between which the piece is not set down, in the order they come. */
  before: readonly Pick[]
  after: readonly Pick[]
  /** Fixed things in the shaft that are gone before the first of them. */
  gone: ReadonlySet<string>
  /** The piece's parts in its path through the shaft; a lift on a bay has none. */
  inShaft: boolean
  machine: Machine | undefined
  shaft: Shaft | undefined
  settings: Settings
  gear: ReadProject['gear']
  stock: ReadProject['stock']
  /** There is a programme, which knows on which days the plan has it. */
  isPlanned: boolean
  setUp: Work['setUp'] | undefined
  /** Longest stretch of shifts that follow each other, s, and where they are named; other days of the week are the plan's. */
  shift: number | undefined
  shiftAt: string
  /** The shifts of that calendar, as it gives them. */
  shifts: Shifts | undefined
  windPolicy: Programme['windPolicy']
  climate: ReadProject['climate']
  utilities: ReadProject['utilities']
  /** Temporary works that it rests on: those that carry it, its machines or its bay. */
  works: readonly { id: string; work: TemporaryWork }[]
  subject: Subject
  near: number
}

/** What a lift is worked from: a pick, whose entities keep their identity while nothing in them changed. */
export function pickOf(model: Model, masses: MassResult, strip: StripResult, id: string): Pick {
  const { before, after } = hangingOn(model.project, strip, id)
  const chain = [...before, id, ...after].map(
    (other, i, all): Pick => ({
      ...pickAlone(model, masses, strip, other),
      takenHanging: i > 0,
      leftHanging: i < all.length - 1,
    }),
  )
  const at = before.length
  return { ...(chain[at] as Pick), before: chain.slice(0, at), after: chain.slice(at + 1) }
}

function pickAlone({ project, near }: Model, masses: MassResult, strip: StripResult, id: string): Pick {
  const lift = required(project.lifts[id], `lift ${id}`)
  const piece = required(project.pieces[lift.piece], `piece ${lift.piece}`)
  const { set, state } = carried(masses, lift)
  const bayId = lift.bay ?? piece.bay
  const steps = stepsOf(project, strip, id)
  const alike = lift.tail?.hook === lift.hook && (lift.tail.system ?? lift.system) !== lift.system
  return {
    id,
    at: pointerOf('lifts', id),
    lift,
    piece,
    pieceAt: pointerOf('pieces', lift.piece),
    set,
    state,
    main: hooked(
      project,
      { systemId: lift.system, id: lift.hook, alike },
      lift.rigging,
      pointerOf('lifts', id, 'rigging'),
    ),
    tail:
      lift.tail === undefined
        ? undefined
        : hooked(
            project,
            { systemId: lift.tail.system ?? lift.system, id: lift.tail.hook, alike },
            lift.tail.rigging,
            pointerOf('lifts', id, 'tail', 'rigging'),
          ),
    bay: bayId === undefined ? undefined : project.bays[bayId],
    bayAt: bayId === undefined ? pointerOf('lifts', id, 'bay') : pointerOf('bays', bayId),
    track: trackOf(steps),
    moves: steps.flatMap((step) => step.moves),
    homeward: isHomeward(project, lift, steps, id),
    trailer: trailerOf(project, lift.piece, bayId),
    takenHanging: false,
    leftHanging: false,
    before: [],
    after: [],
    gone: goneBefore(project, steps[0]?.step),
    inShaft: lift.kind === 'out' || lift.kind === 'back',
    machine: project.machine,
    shaft: project.shaft,
    settings: project.settings,
    gear: project.gear,
    stock: project.stock,
    isPlanned: project.programme !== undefined,
    setUp: project.programme?.work?.setUp,
    ...shiftOf(project, lift),
    windPolicy: project.programme?.windPolicy,
    climate: project.climate,
    utilities: project.utilities,
    works: worksUnder(project.temporaryWorks, id, lift, bayId),
    subject: { pointer: pointerOf('lifts', id), id, name: `${piece.name}, ${lift.kind}` },
    near,
  }
}

/** Identities of everything a pick holds: lists by their items, for those are made anew. */
export const identityOf = (pick: Pick): unknown[] => {
  const { main, tail, track, moves, gone, works, subject, before, after, shifts, ...rest } = pick
  const hanging = [...before, ...after].flatMap((other) => identityOf(other))
  const under = works.flatMap(({ id, work }) => [id, work])
  const lists = [...track, ...moves, [...gone].join(), shifts?.join(), ...under, subject.name, ...hanging]
  return [...Object.values(rest), ...Object.values(main), ...Object.values(tail ?? {}), ...lists]
}

/** The lift without where it is set down or taken from, and without day and weather: what hangs from its hooks is worked from this alone. */
export const onHook = (pick: Pick): Pick => ({
  ...pick,
  bay: undefined,
  trailer: undefined,
  before: [],
  after: [],
  works: [],
  shift: undefined,
  shifts: undefined,
  setUp: undefined,
  windPolicy: undefined,
  climate: undefined,
})

function worksUnder(
  works: ReadProject['temporaryWorks'],
  id: string,
  { system, tail }: Lift,
  bay: string | undefined,
): Pick['works'] {
  return Object.entries(works).flatMap(([key, work]) => {
    const { lifts, systems, bays } = work.carries
    const rests =
      lifts.includes(id) ||
      systems.some((carried) => carried === system || carried === tail?.system) ||
      (bay !== undefined && bays.includes(bay))
    return rests ? [{ id: key, work }] : []
  })
}

function hooked(
  project: ReadProject,
  { systemId, id, alike }: { systemId: string; id: string; alike: boolean },
  rigging: Arrangement | undefined,
  riggingAt: string,
): Hooked {
  const system = required(project.systems[systemId], `system ${systemId}`)
  return {
    id,
    key: alike ? `${systemId}.${id}` : id,
    system,
    systemId,
    systemAt: pointerOf('systems', systemId),
    hook: required(system.hooks[id], `hook ${id} of ${systemId}`),
    hookAt: pointerOf('systems', systemId, 'hooks', id),
    rigging,
    riggingAt,
  }
}

/** A piece once weighed goes on as weighed; its first lift is planned, and checked, on what was known before. */
function carried(masses: MassResult, lift: Lift): { set: SetMass; state: MassState } {
  const known = required(masses.pieces[lift.piece], `mass of piece ${lift.piece}`)
  if (lift.as === 'returned') return { set: known.returned, state: 'returned' }
  if (lift.kind !== 'out' && known.weighed !== undefined) return { set: known.weighed, state: 'weighed' }
  return { set: known.found, state: 'found' }
}

function stepsOf(project: ReadProject, strip: StripResult, lift: string): StripStep[] {
  return strip.steps.filter(({ step }) => {
    const adopted = project.steps[step]
    return adopted !== undefined && (adopted.lift === lift || adopted.back === lift)
  })
}

/** On a bay the lifts may have a calendar of their own. */
function shiftOf(
  { programme }: ReadProject,
  { kind }: Lift,
): { shift: Pick['shift']; shiftAt: string; shifts: Pick['shifts'] } {
  const inShaft = kind === 'out' || kind === 'back'
  const rule = inShaft ? undefined : programme?.work?.bayLifts
  const id = (rule ?? programme?.work?.lifts)?.calendar
  if (id === undefined)
    return { shift: undefined, shiftAt: pointerOf('programme', 'work', 'lifts', 'calendar'), shifts: undefined }
  const calendar = programme?.calendars[id]
  return {
    shift: calendar === undefined ? undefined : longestShift(calendar),
    shiftAt: pointerOf('programme', 'calendars', id, 'shifts'),
    shifts: calendar?.shifts,
  }
}

const DAY = 86_400

/** Longest stretch of shifts that follow each other without a break, s. */
const longestShift = ({ shifts }: { shifts: Shifts }): number =>
  Math.min(DAY, Math.max(0, ...stretchesOf(shifts).map(([begin, end]) => end - begin)))

/** Stretches of shifts that follow each other without a break: seconds after midnight, one over midnight runs past a day. */
export function stretchesOf(shifts: Shifts): (readonly [number, number])[] {
  const inOrder = shifts.map(([from, to]) => [secondsOf(from), secondsOf(to)] as const).sort((a, b) => a[0] - b[0])
  const stretches: [number, number][] = []
  for (const [from, to] of inOrder) {
    const until = to > from ? to : to + DAY
    const last = stretches.at(-1)
    if (last !== undefined && from <= last[1]) last[1] = Math.max(last[1], until)
    else stretches.push([from, until])
  }
  return stretches
}

const secondsOf = (time: string): number => Number(time.slice(0, 2)) * 3600 + Number(time.slice(3)) * 60

/** The lift that brings a piece back goes the way of its steps from the end; one that no step names, by its kind. */
const isHomeward = (project: ReadProject, lift: Lift, steps: readonly StripStep[], id: string): boolean =>
  steps.length === 0 ? lift.kind === 'back' : steps.every(({ step }) => project.steps[step]?.lift !== id)

const trailerOf = ({ transports }: ReadProject, piece: string, bay: string | undefined): Transport | undefined =>
  Object.values(transports).find(({ takes, to }) => takes.includes(piece) && bay !== undefined && to.includes(bay))

/** Lifts of one piece that follow each other on one hook, where one of them turns it: it hangs from the first to the last. */
function hangingOn(project: ReadProject, strip: StripResult, id: string): { before: string[]; after: string[] } {
  const pairs = strip.steps.slice(1).flatMap(({ step }, k): [string, string][] => {
    const [first, second] = [project.steps[strip.steps[k]?.step as string], project.steps[step]]
    if (first === undefined || second === undefined || first.piece !== second.piece) return []
    const out = staysOnHook(project, first.lift, second.lift)
    const back = staysOnHook(project, first.back, second.back)
    return [
      ...(out ? [[first.lift, second.lift] as [string, string]] : []),
      ...(back ? [[second.back, first.back] as [string, string]] : []),
    ]
  })
  return { before: chained(id, new Map(pairs.map(([a, b]) => [b, a]))).reverse(), after: chained(id, new Map(pairs)) }
}

function staysOnHook({ lifts }: ReadProject, first: string | undefined, second: string | undefined): boolean {
  const [a, b] = [lifts[first ?? ''], lifts[second ?? '']]
  return (
    a !== undefined &&
    b !== undefined &&
    first !== second &&
    b.kind === 'turn' &&
    a.system === b.system &&
    a.hook === b.hook
  )
}

/** What follows from link to link, each once. */
function chained(from: string, next: ReadonlyMap<string, string>): string[] {
  const found: string[] = []
  let at = next.get(from)
  while (at !== undefined && at !== from && !found.includes(at)) {
    found.push(at)
    at = next.get(at)
  }
  return found
}

/** One step after the other; the first pose of a later step is the last of the one before. */
const trackOf = (steps: readonly StripStep[]): Pose[] =>
  steps.flatMap((step, i) => (i === 0 ? step.poses : step.poses.slice(1)))

/** Obstructions taken out before a step of the order; without a step, none. */
function goneBefore({ shaft, order }: ReadProject, step: string | undefined): ReadonlySet<string> {
  const at = step === undefined ? -1 : order.indexOf(step)
  const gone = Object.entries(shaft?.obstructions ?? {}).filter(([, { removedBefore }]) => {
    const removed = removedBefore === undefined ? -1 : order.indexOf(removedBefore)
    return removed >= 0 && removed <= at
  })
  return new Set(gone.map(([id]) => id))
}

/** The model has made sure that what is named is there. */
function required<T>(value: T | undefined, what: string): T {
  if (value === undefined) throw new Error(`lift: ${what} is not there`)
  return value
}
