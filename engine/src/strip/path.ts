import type { MassResult } from '../mass/index.ts'
import type { Model } from '../model/index.ts'
import { extentGap } from '../numeric/hull.ts'
import { AT_REST, type Pose } from '../numeric/vector.ts'
import type { Memory } from '../working/memory.ts'
import { boreMeetings } from './bore.ts'
import { boreOf, type Obstruction, obstructionsOf } from './fixed.ts'
import { legsOf } from './leg.ts'
import { type Meeting, type Mover, meetings, type Stander, viewsFrom } from './meet.ts'
import { overlapsAsFound, overlapTolerance, pairKey } from './overlap.ts'
import { allCells, machineInSite, type PartCells } from './shape.ts'
import { type PlacedStep, SHAFT } from './standing.ts'

/** How near a part has to come to be noted, m; fixed things in the shaft are noted from farther. */
const REACH = { part: 0.5, obstruction: 10 } as const
const RESOLUTION = 0.001

/** Everything a piece meets on its way: collisions first, then gaps, the least first. */
export interface Path {
  blocks: readonly Meeting[]
  gaps: readonly Meeting[]
}

/** What every step's path reads of the model, gathered once. */
export interface Surroundings {
  cells: ReadonlyMap<string, PartCells>
  machine: Pose
  tolerance: number
  obstructions: readonly Obstruction[]
  bore: ReturnType<typeof boreOf>
  /** Pairs of solids that overlap as found and may. */
  ignores: (part: string, own: number, standing: string, other: number) => boolean
}

/** The model as paths meet it. Nothing here hangs from a mass. */
export function surroundingsOf(model: Model, mass: MassResult, memory: Memory): Surroundings {
  const cells = allCells(model, mass, memory)
  const machine = machineInSite(model, memory)
  const tolerance = overlapTolerance(model).value as number
  const obstructions = obstructionsOf(model, machine, memory)
  const { shaft } = model.project
  const bore = memory.once('strip-bore', [shaft], () => boreOf(model.project))
  const overlaps = overlapsAsFound(model, mass, memory)
  const ignored = memory.once('strip-ignoredNow', [overlaps], () =>
    memory.settled('strip-ignored', ignoredSolids(overlaps)),
  )
  const ignores = memory.once('strip-ignores', [ignored], () => ignoring(ignored))
  return memory.once('strip-surroundings', [cells, machine, tolerance, obstructions, bore, ignores], () => ({
    cells,
    machine,
    tolerance,
    obstructions,
    bore,
    ignores,
  }))
}

/** For each pair of parts that may overlap, the solids that do: `i/j` with the part of the lesser id first. */
type Ignored = Readonly<Record<string, readonly string[]>>

const ignoredSolids = (overlaps: ReturnType<typeof overlapsAsFound>): Ignored =>
  Object.fromEntries(
    overlaps
      .filter(({ accepted, depth }) => accepted !== undefined && depth <= accepted)
      .map(({ parts, solids }) => [
        pairKey(...parts),
        solids.map(([i, j]) => (parts[0] < parts[1] ? `${i}/${j}` : `${j}/${i}`)),
      ]),
  )

const ignoring =
  (ignored: Ignored): Surroundings['ignores'] =>
  (part, own, standing, other) =>
    ignored[pairKey(part, standing)]?.includes(part < standing ? `${own}/${other}` : `${other}/${own}`) === true

/** The way of one step: what it strikes and what it comes near, among what stands where it stands. */
export function pathOf(
  placed: PlacedStep,
  index: number,
  order: readonly string[],
  around: Surroundings,
  memory: Memory,
): Path {
  const { step } = placed.order
  const mover = moverOf(placed, around, memory)
  const standing = standingFixed(placed, index, order, around)
  const met = [
    ...[...placed.staying].flatMap(([id, pose]) => {
      const cells = around.cells.get(id) as PartCells
      if (!comesNear(mover, pose, cells)) return []
      return memory.once(`strip-meet/${step}/${id}`, [mover, cells, pose, around.ignores], () => [
        meetings(mover, partStander(cells, pose, around)),
      ])
    }),
    memory.once(`strip-fixed/${step}`, [mover, around.bore, placed.group, ...standing], () =>
      fixedMeetings(mover, placed, index, order, around),
    ),
  ]
  return memory.once(`strip-path/${step}`, met, () => sorted(met.flat()))
}

/** Whether the bounds of a way come within reach of a part: most of a machine is far from any one way. */
const comesNear = (mover: Mover, pose: Pose, { extent }: PartCells): boolean =>
  mover.parts.length > 0 && viewsFrom(mover, pose).some(({ whole }) => extentGap(whole, extent) <= mover.limits.reach)

const sorted = (met: readonly Meeting[]): Path => ({
  blocks: met.filter(({ verdict }) => verdict !== 'clear').sort((a, b) => a.move - b.move),
  gaps: met.filter(({ verdict }) => verdict === 'clear').sort((a, b) => a.gap - b.gap),
})

/** The piece of a step as it moves. */
export function moverOf({ order, moving, poses }: PlacedStep, around: Surroundings, memory: Memory): Mover {
  const parts = [...moving.keys()].map((id) => around.cells.get(id) as PartCells)
  const inputs = [around.machine, around.tolerance, poses, order.moves, ...parts]
  return memory.once(`strip-mover/${order.step}`, inputs, () => ({
    parts,
    legs: legsOf(order.moves, poses),
    machine: around.machine,
    limits: { tolerance: around.tolerance, reach: REACH.part, resolution: RESOLUTION },
    views: new Map(),
  }))
}

/** A part as something that stands. */
export const partStander = (cells: PartCells, pose: Pose, { ignores }: Pick<Surroundings, 'ignores'>): Stander => ({
  id: cells.id,
  kind: 'part',
  cells: cells.solids,
  meshes: cells.meshes,
  extent: cells.extent,
  pose,
  ignores: (part, own, other) => ignores(part, own, cells.id, other),
})

/** Obstructions stand until the step named. On the surface there are none. */
function standingFixed({ group }: PlacedStep, index: number, steps: readonly string[], { obstructions }: Surroundings) {
  if (group !== SHAFT) return []
  return obstructions.filter(({ removedBefore }) => {
    const gone = removedBefore === undefined ? -1 : steps.indexOf(removedBefore)
    return gone < 0 || index < gone
  })
}

/** What a piece in the shaft meets of obstructions, bore and slab. */
export function fixedMeetings(
  mover: Mover,
  placed: PlacedStep,
  index: number,
  steps: readonly string[],
  around: Surroundings,
): readonly Meeting[] {
  if (placed.group !== SHAFT) return []
  const far = { ...mover, limits: { ...mover.limits, reach: REACH.obstruction } }
  return [
    ...standingFixed(placed, index, steps, around).flatMap(({ id, cell }) => meetings(far, standerOf(id, cell))),
    ...(around.bore === undefined ? [] : boreMeetings(mover, around.bore)),
  ]
}

const standerOf = (id: string, cell: Obstruction['cell']): Stander => ({
  id,
  kind: 'obstruction',
  cells: [{ index: 0, cell }],
  meshes: [],
  extent: cell.extent,
  pose: AT_REST,
  ignores: () => false,
})
