import type { Stages } from './derive.ts'
import { pieceHull } from './lift/bodies.ts'
import { outcomeOf } from './lift/outcome.ts'
import { pickOf } from './lift/pick.ts'
import { liftSheet } from './report/index.ts'
import { groundChecksOf } from './report/sheet/sheetChecks.ts'
import { ENGINE_VERSION } from './version.ts'
import { type CheckState, checkState } from './whatif.ts'
import { type Answer, inputsOf, leavesOf } from './working/answer.ts'
import type { Check } from './working/check.ts'
import { formulaById } from './working/formula.ts'
import { freshMemory } from './working/memory.ts'
import { at, child, pointerOf, readPointer } from './working/pointer.ts'
import { type Reads, readChanges, textOf, tracedReads } from './working/trace.ts'

/** What is signed: a lift's sheet by the lift's id, anything else by the address of its entity in the project file. */
export interface Signed {
  kind: SignedKind
  subject: string
}

/** Kinds of things that are signed. */
export const SIGNED_KINDS = ['lift-sheet', 'permit', 'hold-point', 'test', 'temporary-work', 'record'] as const
export type SignedKind = (typeof SIGNED_KINDS)[number]

/** The content that a signature binds to: while all of it is the same, what was signed would come out the same. */
export interface Basis {
  engine: string
  /** What the computation read of its input, by address in that input. */
  reads: Reads
  /** Inputs under the figures, by address in the project file: SI values as text. */
  inputs: Readonly<Record<string, string>>
  /** Formulas under the figures with the digest of their text; methods of algorithms, whose version is the engine's. */
  methods: Readonly<Record<string, string>>
  /** Digests of what counts as a whole: the shape of the piece, what the sheet says. */
  wholes: Readonly<Record<string, string>>
}

/** A part of a basis that is no longer what it was. */
export interface BasisChange {
  what: 'engine' | 'input' | 'method' | 'whole' | 'subject'
  /** Address in the project file where it is an input of it, else the name of the method or whole. */
  at: string
  before: string
  after: string
}

/** A figure as it stood when it was signed. */
export interface SignedFigure extends CheckState {
  title: string
  unit: string
}

/** Makes one short text of a long one, the same for the same: the host's SHA-256. */
export type Digest = (text: string) => string

/** What something signed rests on now; undefined when it is not there. */
export function basisOf(stages: Stages, signed: Signed, digest: Digest): Basis | undefined {
  const subject = subjectOf(stages, signed)
  if (subject === undefined) return undefined
  return {
    engine: ENGINE_VERSION,
    reads: subject.reads((text) => short(text, digest)),
    ...under(subject.checks, digest),
    wholes: mapped(subject.wholes(), digest),
  }
}

/** What of a basis has changed since; empty while the signature stands. Nothing is computed again but the words of a sheet. */
export function basisChanges(basis: Basis, stages: Stages, signed: Signed, digest: Digest): BasisChange[] {
  const subject = subjectOf(stages, signed)
  if (subject === undefined) return [{ what: 'subject', at: signed.subject, before: 'there', after: 'nothing' }]
  const places = placesIn(stages.model.project)
  const now = under(subject.checks, digest)
  const read = readChanges(basis.reads, subject.input, (text) => short(text, digest))
    .filter(({ address }) => !PASSING.has(address))
    .map(({ address, before, after }) => ({ address: placeOf(subject.input, address, places), before, after }))
  const changes = [
    ...differences('engine', { version: basis.engine }, { version: ENGINE_VERSION }),
    ...read.map(({ address, ...change }): BasisChange => ({ what: 'input', at: address, ...change })),
    ...differences('input', basis.inputs, now.inputs),
    ...differences('method', basis.methods, now.methods),
    ...differences('whole', basis.wholes, mapped(subject.wholes(), digest)),
  ]
  return [...new Map(changes.map((change) => [`${change.what} ${change.at}`, change])).values()]
}

/** The figures of something signed, by the id of their check. */
export function figuresOf(stages: Stages, signed: Signed): Record<string, SignedFigure> {
  const checks = subjectOf(stages, signed)?.checks ?? []
  return Object.fromEntries(checks.map((c) => [c.id, { title: c.title, unit: c.unit, ...checkState(c) }]))
}

/** What is signed: what it is computed from and what that reads of it, its checks, and what of it counts as a whole. */
interface Subject {
  input: object
  reads: (kept: (text: string) => string) => Reads
  checks: readonly Check[]
  wholes: () => Readonly<Record<string, string>>
}

function subjectOf(stages: Stages, { kind, subject }: Signed): Subject | undefined {
  return kind === 'lift-sheet' ? sheetSubject(stages, subject) : entitySubject(stages, subject)
}

/** A lift is worked again over an input that notes what is read of it. */
function sheetSubject(stages: Stages, id: string): Subject | undefined {
  const { lifts } = stages.lift
  const outcome = Object.hasOwn(lifts, id) ? lifts[id] : undefined
  if (outcome === undefined) return undefined
  const { model, mass, strip, ground } = stages
  const pick = pickOf(model, mass, strip, id)
  const hull = pieceHull(model, mass, pick.lift.piece, freshMemory())
  const steps = strip.steps.filter((step) => step.lift === id).map(({ step }) => step)
  return {
    input: { pick },
    reads: (kept) => tracedReads({ pick }, (noting) => outcomeOf(noting.pick, hull, freshMemory()), kept),
    checks: [...outcome.checks, ...groundChecksOf(ground, steps, id)],
    wholes: () => ({ 'shape of the piece': textOf(hull), sheet: textOf(liftSheet(stages, id), PRINTED_DIGITS) }),
  }
}

/** Anything in the file: all that it holds, and the checks on it. */
function entitySubject(stages: Stages, pointer: string): Subject | undefined {
  const entity = at(stages.model.project, pointer)
  if (entity === undefined || pointer === '') return undefined
  const within = (place: string): boolean => place === pointer || place.startsWith(`${pointer}/`)
  return {
    input: { entity },
    reads: (kept) => tracedReads({ entity }, (noting) => textOf(noting.entity), kept),
    checks: stages.checks.filter((check) => within(check.subject.pointer)),
    wholes: () => ({}),
  }
}

/**
 * The day that the work has reached, or begins on, passes by itself: no edit of what was signed. What goes out of date by it
 * shows in the checks.
 */
const PASSING = new Set(['/pick/today', '/pick/start'])
const PASSING_INPUTS = new Set(['/programme/today', '/programme/start'])

function under(checks: readonly Check[], digest: Digest): Pick<Basis, 'inputs' | 'methods'> {
  const answers = checks.flatMap(({ demand, capacity }) => [demand, capacity])
  const leaves = answers.flatMap(leavesOf).filter(({ pointer }) => !PASSING_INPUTS.has(pointer))
  return {
    inputs: Object.fromEntries(leaves.map(({ pointer, value }) => [pointer, textOf(value)])),
    methods: methodsUnder(answers, digest),
  }
}

function methodsUnder(answers: readonly Answer[], digest: Digest): Record<string, string> {
  const seen = new Set<Answer>()
  const methods: Record<string, string> = {}
  const go = (answer: Answer): void => {
    if (seen.has(answer)) return
    seen.add(answer)
    if (answer.kind === 'worked') methods[answer.formula] ??= digest(textOf(formulaById(answer.formula).text))
    if (answer.kind === 'found') methods[answer.method] = `engine ${ENGINE_VERSION}`
    for (const [, input] of inputsOf(answer)) go(input)
  }
  for (const answer of answers) go(answer)
  return methods
}

function differences(
  what: BasisChange['what'],
  was: Readonly<Record<string, string>>,
  is: Readonly<Record<string, string>>,
): BasisChange[] {
  return [...new Set([...Object.keys(was), ...Object.keys(is)])].flatMap((name) => {
    const [before, after] = [was[name] ?? 'nothing', is[name] ?? 'nothing']
    return before === after ? [] : [{ what, at: name, before, after }]
  })
}

const mapped = (texts: Readonly<Record<string, string>>, to: Digest): Record<string, string> =>
  Object.fromEntries(Object.entries(texts).map(([name, text]) => [name, to(text)]))

/** A sheet prints fewer: what differs only beyond them is the same sheet. */
const PRINTED_DIGITS = 9

/** Texts longer than this are kept as their digest. */
const LONGEST = 80

const short = (text: string, digest: Digest): string => (text.length > LONGEST ? digest(text) : text)

/** Where each object of a project stands in its file. */
function placesIn(project: object): ReadonlyMap<unknown, string> {
  const places = new Map<unknown, string>()
  const go = (value: unknown, pointer: string): void => {
    if (typeof value !== 'object' || value === null || places.has(value)) return
    places.set(value, pointer)
    for (const [name, inner] of Object.entries(value)) go(inner, pointer + pointerOf(name))
  }
  go(project, '')
  return places
}

/** The address in the project file of what an input calls by another; the input's own address for what was computed. */
function placeOf(input: object, address: string, places: ReadonlyMap<unknown, string>): string {
  const tokens = readPointer(address) ?? []
  for (let known = tokens.length; known > 0; known--) {
    const object = tokens.slice(0, known).reduce<unknown>(child, input)
    const place = places.get(object)
    // A quantity is one text in the file: what is inside of it has no address there.
    if (place !== undefined) return isGiven(object) ? place : place + pointerOf(...tokens.slice(known))
  }
  return address.replace(/^\/\w+/, '')
}

const isGiven = (value: unknown): boolean =>
  typeof value === 'object' && value !== null && 'kind' in value && value.kind === 'given' && 'pointer' in value
