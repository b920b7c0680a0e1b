import type { MassResult } from '../mass/index.ts'
import { idsMeant, type Model } from '../model/index.ts'
import { type Encounter, encounter, type Limits } from '../numeric/encounter.ts'
import { straightMotion } from '../numeric/motion.ts'
import { extentPairs } from '../numeric/prune.ts'
import { AT_REST } from '../numeric/vector.ts'
import { type Answer, stated } from '../working/answer.ts'
import type { Memory } from '../working/memory.ts'
import { buriedDepth } from './buried.ts'
import { allCells, type PartCells } from './shape.ts'

type PlacedSolid = Parameters<typeof buriedDepth>[0]

/** Two instances that overlap as found, or are not known not to. */
export interface Overlap {
  parts: readonly [string, string]
  /** Sure lower bound where they overlap, greatest it may be where that is open, m. */
  depth: number
  verdict: 'struck' | 'open'
  at: Encounter['at']
  /** Solids that overlap, by their place in the lists of the two parts. */
  solids: readonly (readonly [number, number])[]
  /** Depth that the file accepts; undefined where it accepts none. */
  accepted: number | undefined
}

const TOLERANCE = stated('m', 0.002, 'no overlapTolerance is set: 2 mm is taken (common practice, no source)')
const CONTACT = stated('m', 0.005, 'no contactGap is set: 5 mm is taken (common practice, no source)')

/** Overlap of rough models that is tolerated. */
export const overlapTolerance = ({ project }: Model): Answer<'m'> => project.settings.overlapTolerance ?? TOLERANCE
/** Gap across which two faces still count as touching. */
export const contactGap = ({ project }: Model): Answer<'m'> => project.settings.contactGap ?? CONTACT

/** Pairs of instances whose overlap the file accepts, with the depth: `a|b` with the ids in order. */
export function acceptedOverlaps({ project, instances }: Model, memory: Memory): ReadonlyMap<string, number> {
  return memory.once('strip-acceptedNow', [project.parts, instances], () => {
    const lists = Object.values(project.parts).map((p) => p.overlapAccepted)
    const ids = memory.settled('strip/ids', [...instances.byId.keys()])
    return memory.once('strip-accepted', [ids, ...lists], () => acceptedIn(project.parts, instances))
  })
}

function acceptedIn(parts: Model['project']['parts'], instances: Model['instances']): ReadonlyMap<string, number> {
  const depths = new Map<string, number>()
  for (const [entry, part] of Object.entries(parts))
    for (const { with: other, depth } of part.overlapAccepted)
      for (const a of idsMeant(instances, entry))
        for (const b of idsMeant(instances, other)) depths.set(pairKey(a, b), depth.value as number)
  return depths
}

/** One name for a pair, whichever way round. */
export const pairKey = (a: string, b: string): string => (a < b ? `${a}|${b}` : `${b}|${a}`)

/** Parts of the same shape in the same place, two or more together: one slip of the file, and no overlap to measure. */
export function coincidentParts(cells: Iterable<PartCells>): readonly (readonly string[])[] {
  const parts = [...cells]
  const alike = new Set<PartCells>()
  for (const [i, j] of extentPairs(parts.map((p) => p.extent))) {
    const [a, b] = [parts[i], parts[j]] as [PartCells, PartCells]
    if (coincide(a, b)) alike.add(a).add(b)
  }
  const places = new Map<string, string[]>()
  for (const part of parts)
    if (alike.has(part)) places.set(part.outline(), [...(places.get(part.outline()) ?? []), part.id])
  return [...places.values()]
}

/** Above what a micrometre in the figures of an outline makes of its bounds, m. */
const BOUNDS_APART = 0.001

/** Whether two are the same shape in the same place. Their bounds tell most apart before any text is made of them. */
const coincide = (a: PartCells, b: PartCells): boolean =>
  a.extent.every((x, i) => Math.abs(x - (b.extent[i] as number)) < BOUNDS_APART) && a.outline() === b.outline()

/** Every overlap as found, deeper than the tolerance; parts that coincide are for `coincidentParts`. */
export function overlapsAsFound(model: Model, mass: MassResult, memory: Memory): readonly Overlap[] {
  const cells = allCells(model, mass, memory)
  const tolerance = overlapTolerance(model).value as number
  const accepted = acceptedOverlaps(model, memory)
  return memory.once('strip-overlaps', [cells, tolerance, accepted], () => {
    const parts = [...cells.values()]
    return extentPairs(parts.map((p) => p.extent))
      .flatMap(([i, j]) => {
        const [a, b] = [parts[i], parts[j]] as [PartCells, PartCells]
        if (coincide(a, b)) return []
        return memory.once(`strip-overlap/${a.id}/${b.id}`, [a, b, tolerance], () => overlapOf(a, b, tolerance)) ?? []
      })
      .map((overlap) => ({ ...overlap, accepted: accepted.get(pairKey(...overlap.parts)) }))
  })
}

/** The deepest overlap of two parts beyond the tolerance, with the solids that overlap; undefined when there is none. */
export function overlapOf(a: PartCells, b: PartCells, tolerance: number): Omit<Overlap, 'accepted'> | undefined {
  const limits = { tolerance, reach: 0, resolution: tolerance, deepest: true }
  const met = a.solids.flatMap((p) =>
    b.solids.map((q) => ({
      solids: [p.index, q.index] as const,
      found: overlapOfSolids([a, p], [b, q], limits),
    })),
  )
  const worst = met.filter(({ found }) => found.verdict !== 'clear')
  const struck = worst.filter(({ found }) => found.verdict === 'struck')
  const deepest = (struck.length > 0 ? struck : worst).reduce<Encounter | undefined>(
    (most, { found }) => (most === undefined || found.depth > most.depth ? found : most),
    undefined,
  )
  if (deepest === undefined) return undefined
  return {
    parts: [a.id, b.id],
    depth: deepest.depth,
    verdict: struck.length > 0 ? 'struck' : 'open',
    at: deepest.at,
    solids: worst.map(({ solids }) => solids),
  }
}

/** By the surfaces of the two; where these do not cross, by what lies inside a mesh. */
function overlapOfSolids(a: PlacedSolid, b: PlacedSolid, limits: Limits): Encounter {
  const found = encounter([a[1].cell], [b[1].cell], straightMotion(AT_REST, [0, 0, 0]), limits)
  const buried = found.verdict === 'clear' ? buriedDepth(a, b, limits.tolerance) : undefined
  return buried === undefined ? found : { ...found, ...buried, verdict: 'struck', gap: 0 }
}
