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

/** Operations over candidate pieces, and what it costs to open what they open, s. */
export interface Compiled {
  operations: readonly Operation[]
  items: Readonly<Record<string, number>>
}

/**
 * Geometry, joints and services as and/or precedence. A blocker is out of the way once something has parted it from the
 * piece: it went, or the piece went in something larger that left it behind.
 *
 * @param handling cost of each piece moved, s
 * @param bearing parts that rest on the cradle; what a piece alone ties to them is taken before it, where it can be
 */
export function compiled(
  model: Model,
  candidates: readonly Candidate[],
  handling: number,
  bearing: ReadonlySet<string>,
  memory: Memory,
): Compiled {
  const joints = jointSides(model, memory)
  const services = serviceEnds(model, memory)
  const cuts = [
    ...joints.map(({ id, sides, hiddenBy }) => ({ item: `joint ${id}`, sides, hiddenBy })),
    ...services.map(({ id, from, to }) => ({ item: `service ${id}`, sides: [from, to] as const, hiddenBy: [] })),
  ]
  const ids = [...model.instances.byId.keys()]
  const operations = candidates.map((candidate): Operation => {
    const crossing = cuts.filter(({ sides }) => isCut(candidate.parts, sides))
    return {
      id: candidate.id,
      cost: handling,
      opens: crossing.map(({ item }) => item),
      needs: [
        ...crossing.flatMap(({ sides, hiddenBy }) => hiderClauses(candidate, sides, hiddenBy, candidates)),
        ...leftLoose(ids, candidate.parts, joints, bearing)
          .map((part) => parting(candidate, part, candidates))
          .filter((clause) => clause.length > 0),
      ],
      ways: candidate.exits.map((exit) => wayClauses(candidate, exit, candidates)),
    }
  })
  return { operations, items: itemCosts(model, memory) }
}

function itemCosts(model: Model, memory: Memory): Record<string, number> {
  const total = ({ off, on }: Work): number => (off.value ?? 0) + (on.value ?? 0)
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

/** A hidden joint opens once what hides it has gone from the joint, or the other side has. */
function hiderClauses(
  candidate: Candidate,
  sides: Sides,
  hiders: readonly string[],
  candidates: readonly Candidate[],
): Clause[] {
  const ends = sides.flat()
  const across = ends.filter((id) => !candidate.parts.has(id)).flatMap((id) => parting(candidate, id, candidates))
  const joint: Candidate = { ...candidate, parts: new Set(ends) }
  return hiders.map((hider) => [...new Set([...parting(joint, hider, candidates), ...across])])
}

function wayClauses(
  candidate: Candidate,
  { blockers, from }: Exit,
  candidates: readonly Candidate[],
): readonly Clause[] {
  const clauses = blockers.map((blocker) => parting(candidate, blocker, candidates))
  if (from === 'shaft') return clauses
  const carriers = candidates.filter(
    (other) =>
      other.aside !== true &&
      other.parts.size > candidate.parts.size &&
      [...candidate.parts].every((part) => other.parts.has(part)),
  )
  return [...clauses, carriers.map(({ id }) => id)]
}
