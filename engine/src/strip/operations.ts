import type { Model } from '../model/index.ts'
import type { Memory } from '../working/memory.ts'
import type { Exit } from './exit.ts'
import { jointSides, jointWork, type Work } from './joint.ts'
import type { Clause, Operation } from './precedence.ts'
import { serviceEnds, serviceWork } from './service.ts'
import { leftLoose } from './support.ts'

/** A piece that may be taken, with its ways out. */
export interface Candidate {
  id: string
  piece: string
  parts: ReadonlySet<string>
  exits: readonly Exit[]
  /** It is only put aside, and stays in the shaft: no target is reached by it. */
  aside?: true
  /** What holds it there. */
  support?: string
}

/** What an order costs, in weighted seconds. */
export interface Costs {
  ofPiece(candidate: Pick<Candidate, 'parts' | 'aside'>): number
  /** Of a second of work on joints and services. */
  ofWork: number
  /** Of a temporary support under parts that nothing else could take before. */
  ofSupport: number
}

/** Each piece costs the same, and a second of work one. */
export const plainCosts = (handling: number): Costs => ({ ofPiece: () => handling, ofWork: 1, ofSupport: 0 })

/** Why a clause stands: what has to be out of the way, and what for. */
export interface Reason {
  kind: 'blocks' | 'hides' | 'hangs on it' | 'is carried by'
  /** The part that has to go; for `is carried by` the piece itself, which leaves within a larger one first. */
  about: string
  /** The joint whose fasteners it hides. */
  joint?: string
}

/** Reasons of an operation, beside its needs and the clauses of its ways. */
export interface Reasons {
  needs: readonly Reason[]
  ways: readonly (readonly Reason[])[]
}

/** Operations over candidate pieces, and what it costs to open what they open, s. */
export interface Compiled {
  operations: readonly Operation[]
  items: Readonly<Record<string, number>>
  reasons: Readonly<Record<string, Reasons>>
  /** Parts that a piece leaves hanging on nothing, and that no piece could take before: they want a support. */
  unsupported: Readonly<Record<string, readonly string[]>>
}

/** A clause with its reason. */
interface Reasoned {
  clause: Clause
  why: Reason
}

/**
 * Geometry, joints and services as and/or precedence. A blocker is out of the way once something has parted it from the
 * piece: it went, or the piece went in something larger that left it behind.
 *
 * @param costs what moving a piece costs, s, and the weight of working time
 * @param bearing parts that rest on the cradle; what a piece alone ties to them is taken before it, where it can be
 */
export function compiled(
  model: Model,
  candidates: readonly Candidate[],
  costs: Costs,
  bearing: ReadonlySet<string>,
  memory: Memory,
): Compiled {
  const joints = jointSides(model, memory)
  const services = serviceEnds(model, memory)
  const cuts = [
    ...joints.map(({ id, sides, hiddenBy }) => ({ id, item: `joint ${id}`, sides, hiddenBy })),
    ...services.map(({ id, from, to }) => ({ id, item: `service ${id}`, sides: [from, to] as const, hiddenBy: [] })),
  ]
  const named = memory.settled('strip/ids', [...model.instances.byId.keys()])
  const looseBy = new Map(
    candidates.map((c) => {
      const key = `strip/left-loose/${c.id}`
      const parts = memory.settled(key, [...c.parts])
      return [c.id, memory.once(key, [named, parts, joints, bearing], () => leftLoose(named, c.parts, joints, bearing))]
    }),
  )
  const leaves = (id: string, part: string): boolean => looseBy.get(id)?.includes(part) === true
  const made = candidates.map((candidate) => {
    const crossing = cuts.filter(({ sides }) => isCut(candidate.parts, sides))
    const loose = (looseBy.get(candidate.id) ?? []).map((part) => ({
      // A larger piece that leaves the part hanging just the same is no help.
      clause: parting(candidate, part, candidates).filter((other) => !leaves(other, part)),
      why: { kind: 'hangs on it' as const, about: part },
    }))
    const unsupported = loose
      .filter(({ clause, why }) => clause.length === 0 && !isCarriedWith(candidate, why.about, candidates))
      .map(({ why }) => why.about)
    const needs: readonly Reasoned[] = [
      ...crossing.flatMap((cut) => hiderClauses(candidate, cut, candidates)),
      ...loose.filter(({ clause }) => clause.length > 0),
    ]
    const ways = candidate.exits.map((exit) => wayClauses(candidate, exit, candidates))
    const operation: Operation = {
      id: candidate.id,
      cost: costs.ofPiece(candidate) + (unsupported.length > 0 ? costs.ofSupport : 0),
      opens: crossing.map(({ item }) => item),
      needs: needs.map(({ clause }) => clause),
      ways: ways.map((way) => way.map(({ clause }) => clause)),
    }
    const reasons: Reasons = { needs: needs.map(({ why }) => why), ways: ways.map((way) => way.map(({ why }) => why)) }
    return { operation, reasons, unsupported }
  })
  return {
    operations: made.map(({ operation }) => operation),
    items: itemCosts(model, costs.ofWork, memory),
    reasons: Object.fromEntries(made.map(({ operation, reasons }) => [operation.id, reasons])),
    unsupported: Object.fromEntries(made.map(({ operation, unsupported }) => [operation.id, unsupported])),
  }
}

/** What it costs to open each joint and part each service, and to close them again, weighted s. */
export function itemCosts(model: Model, weight: number, memory: Memory): Record<string, number> {
  const total = ({ off, on }: Work): number => weight * ((off.value ?? 0) + (on.value ?? 0))
  return Object.fromEntries([
    ...Object.entries(jointWork(model, memory)).map(([id, work]) => [`joint ${id}`, total(work)] as const),
    ...Object.entries(serviceWork(model, memory)).map(([id, work]) => [`service ${id}`, total(work)] as const),
  ])
}

type Sides = readonly [readonly string[], readonly string[]]

/** An end outside the machine stays. */
const isCut = (parts: ReadonlySet<string>, [a, b]: Sides): boolean =>
  a.some((id) => parts.has(id)) !== b.some((id) => parts.has(id))

/** Pieces other than this one that part `blocker` from its parts. */
function parting({ id, parts }: Candidate, blocker: string, candidates: readonly Candidate[]): Clause {
  const holdsAll = (other: Candidate): boolean => [...parts].every((part) => other.parts.has(part))
  const takesApart = (other: Candidate): boolean =>
    other.parts.has(blocker) ? !holdsAll(other) : other.aside !== true && holdsAll(other)
  return candidates.filter((other) => other.id !== id && takesApart(other)).map((other) => other.id)
}

/** A part that lies with the piece in a larger one on the surface hangs on nothing there. */
const isCarriedWith = ({ parts }: Candidate, part: string, candidates: readonly Candidate[]): boolean =>
  candidates.some(
    (other) => other.aside !== true && other.parts.has(part) && [...parts].every((own) => other.parts.has(own)),
  )

/** A cut through a joint or a service. */
interface Cut {
  id: string
  sides: Sides
  hiddenBy: readonly string[]
}

/** A hidden joint opens once what hides it has gone from the joint, or the other side has. */
function hiderClauses(
  candidate: Candidate,
  { id, sides, hiddenBy }: Cut,
  candidates: readonly Candidate[],
): Reasoned[] {
  const ends = sides.flat()
  const across = ends.filter((end) => !candidate.parts.has(end)).flatMap((end) => parting(candidate, end, candidates))
  const joint: Candidate = { ...candidate, parts: new Set(ends) }
  return hiddenBy.map((hider) => ({
    clause: [...new Set([...parting(joint, hider, candidates), ...across])],
    why: { kind: 'hides', about: hider, joint: id },
  }))
}

function wayClauses(
  candidate: Candidate,
  { blockers, from }: Exit,
  candidates: readonly Candidate[],
): readonly Reasoned[] {
  const clauses = blockers.map(
    (blocker): Reasoned => ({
      clause: parting(candidate, blocker, candidates),
      why: { kind: 'blocks', about: blocker },
    }),
  )
  if (from === 'shaft') return clauses
  const carriers = candidates.filter(
    (other) =>
      other.aside !== true &&
      other.parts.size > candidate.parts.size &&
      [...candidate.parts].every((part) => other.parts.has(part)),
  )
  return [...clauses, { clause: carriers.map(({ id }) => id), why: { kind: 'is carried by', about: candidate.id } }]
}
