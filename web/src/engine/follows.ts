import type { Stages } from '@shieldwright/engine'
import type { Activity } from '@shieldwright/engine/programme/index.ts'
import { type Answer, inputsOf } from '@shieldwright/engine/working/answer.ts'
import type { Check } from '@shieldwright/engine/working/check.ts'
import { sameItems } from '@shieldwright/engine/working/memory.ts'
import { readPointer } from '@shieldwright/engine/working/pointer.ts'
import type { FollowsView } from './protocol.ts'
import { STAGES, type StageName } from './stages.ts'

/** Work done on the way back: what a finding about a returned piece stops. */
const BACK: ReadonlySet<string> = new Set(['rig back', 'wait back', 'turn back', 'lift back', 'release'])
const MAIN: ReadonlySet<string> = new Set(['lift', 'turn', 'lift back', 'turn back', 'typed', 'test'])

/** What was last told, and of what: a check that was not worked out again follows and stops what it did. */
let last: { from: readonly unknown[]; told: WeakMap<Check, FollowsView> } | undefined

/** What a finding rests on, and what it stops: for one state of the project. */
export function followsIn(stages: Stages): (check: Check) => FollowsView {
  const { programme, model } = stages
  const { pieces, about } = model.project
  const from = [programme.activities, programme.plan, programme.origin, model.project.programme, pieces, about]
  if (last === undefined || !sameItems(last.from, from)) last = { from, told: new WeakMap() }
  const { told } = last
  const follows = workedOutIn(stages)
  return (check) => {
    const view = told.get(check) ?? follows(check)
    told.set(check, view)
    return view
  }
}

function workedOutIn(stages: Stages): (check: Check) => FollowsView {
  const activities = Object.values(stages.programme.activities).filter((a) => stages.programme.plan[a.id] !== undefined)
  const zero = Date.parse(stages.programme.origin ?? '')
  const today = Date.parse(stages.model.project.programme?.today ?? stages.model.project.about.date ?? '')
  const startOf = (a: Activity): number => zero + (stages.programme.plan[a.id]?.start ?? 0) * 1000
  const isToCome = (a: Activity): boolean => !(zero + (stages.programme.plan[a.id]?.finish ?? 0) * 1000 <= today) // No date given: all is to come.
  return (check) => {
    const concerned = activities.filter(concernedBy(check, stages))
    const main = concerned.filter((a) => MAIN.has(a.kind))
    const next = earliest((main.length > 0 ? main : concerned).filter(isToCome), startOf)
    const drives = next !== undefined && stages.programme.plan[next.id]?.planCritical === true
    return {
      from: firstRead(check),
      reaches: next === undefined ? (check.stage as StageName) : drives ? 'risk' : 'programme',
      stops: next && { activity: next.id, name: next.name, lift: next.lift, at: startOf(next) },
    }
  }
}

function earliest(activities: readonly Activity[], startOf: (a: Activity) => number): Activity | undefined {
  return activities.reduce<Activity | undefined>(
    (best, a) => (best === undefined || startOf(a) < startOf(best) ? a : best),
    undefined,
  )
}

type Concerned = (activity: Activity) => boolean

/** Which activities a finding stops: those of its lift, piece, step, delivery, or those that name its address. */
function concernedBy(check: Check, stages: Stages): Concerned {
  const { project } = stages.model
  const [collection = '', id = ''] = readPointer(check.subject.pointer) ?? []
  const words = check.id.split('/').slice(1)
  const isBack = words.includes('returned') || check.kind === 'strip.step.return'
  const way: Concerned = isBack ? (a) => BACK.has(a.kind) : () => true
  switch (collection) {
    case 'lifts':
      return (a) => a.lift === id
    case 'pieces':
      return (a) => a.piece === id && way(a)
    case 'steps':
      return (a) => a.step === id && way(a)
    case 'parts': {
      const pieces = Object.entries(project.pieces).flatMap(([p, { parts }]) => (parts.includes(id) ? [p] : []))
      return (a) => a.piece !== undefined && pieces.includes(a.piece)
    }
    case 'programme':
      if (check.subject.pointer.startsWith('/programme/deliveries/')) return waitingFor(check.subject.id, stages)
      return (a) => a.from.includes(check.subject.pointer)
    default: {
      const typed = project.programme?.activities ?? {}
      const named = (a: Activity): boolean => (typed[a.id]?.concerns ?? []).some((p) => isAt(check.subject.pointer, p))
      // What names the address as its concern goes before what merely takes its days from there.
      if (Object.values(stages.programme.activities).some(named)) return named
      return (a) => a.from.some((p) => isAt(check.subject.pointer, p)) || isStep(a, words)
    }
  }
}

const isAt = (pointer: string, place: string): boolean => pointer === place || pointer.startsWith(`${place}/`)

const isStep = (a: Activity, words: readonly string[]): boolean =>
  (a.step !== undefined && words.includes(a.step)) || (a.lift !== undefined && words.includes(a.lift))

function waitingFor(id: string, { model }: Stages): Concerned {
  const delivery = model.project.programme?.deliveries[id]
  if (delivery === undefined) return () => false
  const { neededBy, neededByChanges, neededByReturn } = delivery
  return (a) =>
    neededBy.includes(a.id) ||
    neededByChanges.some((c) => a.id === `change.${c}`) ||
    (a.step !== undefined && neededByReturn.includes(a.step) && (a.kind === 'lift back' || a.kind === 'turn back'))
}

/** First stage that reads an input of the finding; margins and other settings are read everywhere and say nothing. */
function firstRead({ stage, demand, capacity }: Check): StageName {
  const first = Math.min(STAGES.indexOf(stage as StageName), firstUnder(demand), firstUnder(capacity))
  return STAGES[first] as StageName
}

/** Place of the first stage that reads an input under an answer; what two findings share is looked into once. */
function firstUnder(answer: Answer): number {
  if (answer.kind === 'given') {
    const place = STAGES.indexOf(stageReading(answer.pointer))
    return place > 0 ? place : STAGES.length
  }
  const known = firstOf.get(answer)
  if (known !== undefined) return known
  const first = Math.min(STAGES.length, ...inputsOf(answer).map(([, input]) => firstUnder(input)))
  firstOf.set(answer, first)
  return first
}

const firstOf = new WeakMap<Answer, number>()

const READ_IN: Readonly<Record<string, StageName>> = {
  about: 'project',
  settings: 'project',
  machine: 'model',
  parts: 'model',
  materials: 'mass',
  shaft: 'model',
  pieces: 'mass',
  weighings: 'mass',
  changes: 'mass',
  joints: 'strip',
  ends: 'strip',
  services: 'strip',
  isolations: 'strip',
  steps: 'strip',
  order: 'strip',
  lifts: 'lift',
  temporaryWorks: 'lift',
  systems: 'lift',
  gear: 'lift',
  stock: 'lift',
  climate: 'lift',
  transports: 'lift',
  ground: 'ground',
  cradle: 'ground',
  bays: 'ground',
  utilities: 'ground',
  programme: 'programme',
  tests: 'programme',
  diary: 'programme',
  inspections: 'programme',
  welds: 'programme',
  boltRecords: 'programme',
  liftLog: 'report',
  punchList: 'programme',
  issuedBooks: 'report',
  belowGround: 'programme',
  risks: 'risk',
  correlations: 'risk',
}

/** The stage that first reads an address of the project file. */
export function stageReading(pointer: string): StageName {
  const [collection = '', , field] = readPointer(pointer) ?? []
  if (collection === 'parts' && field !== 'solids' && field !== 'mesh' && field !== 'pattern') return 'mass'
  return READ_IN[collection] ?? 'project'
}
