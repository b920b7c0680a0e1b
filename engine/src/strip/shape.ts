import type { MassResult } from '../mass/index.ts'
import type { Instance, Model, Part } from '../model/index.ts'
import { poseOfInstance, poseOfMachine } from '../model/index.ts'
import { boundsOf, type MeshBody } from '../numeric/body.ts'
import { type Cell, cellOf } from '../numeric/cell.ts'
import { cutOf } from '../numeric/cut.ts'
import { type Extent, extentAround } from '../numeric/hull.ts'
import { AT_REST, distance, type Pose, type Vec3 } from '../numeric/vector.ts'
import { type Answer, found } from '../working/answer.ts'
import type { Memory } from '../working/memory.ts'

/** A part's solids ready for contact and sweep, machine frame, as found. */
export interface PartCells {
  id: string
  /** One cell for each solid that adds, with its place in the list of the file. */
  solids: readonly { index: number; cell: Cell }[]
  extent: Extent
  /** Solids given as meshes: their inside is for a point test. */
  meshes: readonly { index: number; body: MeshBody; pose: Pose }[]
  /** The same text for the same solids in the same place, to a micrometre; made when it is first asked for. */
  outline(): string
}

type Solids = MassResult['parts'][string]['shape']['solids']

/** Cells of one instance. They hang from its solids and its place alone: a new mass leaves them as they are. */
export function partCells(model: Model, mass: MassResult, id: string, memory: Memory): PartCells {
  const instance = model.instances.byId.get(id) as Instance
  const { solids } = (mass.parts[instance.entry] as MassResult['parts'][string]).shape
  return memory.once(`strip-cells/${id}`, [solids, instance.turn, ...instance.shift], () =>
    cellsOf(id, solids, poseOfInstance(instance)),
  )
}

/** Cells of solids in a pose. */
export function cellsOf(id: string, solids: readonly Pick<Solids[number], 'op' | 'body'>[], pose: Pose): PartCells {
  const cuts = solids.filter(({ op }) => op === 'cut').map(({ body }) => cutOf(body, pose))
  const cells = solids.flatMap(({ op, body }, index) => {
    const cell = op === 'add' ? cellOf(body, pose, cuts) : undefined
    return cell === undefined ? [] : [{ index, cell }]
  })
  let outline: string | undefined
  return {
    id,
    solids: cells,
    extent: extentAround(cells.map(({ cell }) => cell.extent)),
    meshes: solids.flatMap(({ op, body }, index) =>
      op === 'add' && body.kind === 'mesh' ? [{ index, body, pose }] : [],
    ),
    outline: () => {
      outline ??= outlineOf(solids, pose)
      return outline
    },
  }
}

/** Figures to a micrometre, a microradian; a mesh by its counts and the sums of its corners. */
function outlineOf(solids: readonly Pick<Solids[number], 'op' | 'body'>[], pose: Pose): string {
  return JSON.stringify([solids.map(({ op, body }) => ({ op, body })), pose], (key, value) => {
    if (key === 'mesh') return [value.triangles.length, value.vertices.length, ...sumOfCorners(value.vertices)]
    return typeof value === 'number' ? Math.round(1e6 * value) + 0 : value
  })
}

const sumOfCorners = (vertices: readonly Vec3[]): number[] =>
  [0, 1, 2].map((i) => vertices.reduce((sum, v, k) => sum + (v[i] as number) * (1 + (k % 7)), 0))

/** Every instance's cells, by id. Gathered once for all who ask of the same model. */
export function allCells(model: Model, mass: MassResult, memory: Memory): ReadonlyMap<string, PartCells> {
  return memory.once('strip-cellsNow', [model.instances, mass.parts], () => {
    const cells = [...model.instances.byId.keys()].map((id) => partCells(model, mass, id, memory))
    return memory.once('strip-allCells', cells, () => new Map(cells.map((c) => [c.id, c])))
  })
}

/** Where the machine frame stands in the site; the site's own frame when the file places no machine. */
export function machineInSite({ project }: Model, memory: Memory): Pose {
  const pose = project.machine?.pose
  return memory.once('strip-machine', [pose], () => (pose === undefined ? AT_REST : poseOfMachine({ pose })))
}

/** The shape of each entry as an input of a result: the size of its outline, with every dimension it rests on. */
export function shapeAnswers(model: Model, mass: MassResult, memory: Memory): Readonly<Record<string, Answer>> {
  return memory.once('strip-shapesNow', [model.project.parts, mass.parts], () => {
    const entries = Object.keys(model.project.parts)
    const shapes = entries.map((entry) => {
      const { solids } = (mass.parts[entry] as MassResult['parts'][string]).shape
      const pattern = model.project.parts[entry]?.pattern
      return memory.once(`strip-shape/${entry}`, [solids, pattern], () => shapeAnswer(solids, pattern))
    })
    return memory.once('strip-shapes', shapes, () =>
      Object.fromEntries(entries.map((e, i) => [e, shapes[i] as Answer])),
    )
  })
}

function shapeAnswer(solids: Solids, pattern: Part['pattern']): Answer<'m'> {
  const { min, max } = boundsOf(
    solids.map((s) => s.body),
    AT_REST,
  )
  const step = pattern === undefined ? [] : [pattern.step].flat()
  const leaves = [...solids.flatMap((s) => s.leaves), ...step]
  return found({
    unit: 'm',
    value: distance(min, max),
    method: 'diagonal of the outline of the solids as they stand in the file',
    inputs: Object.fromEntries(leaves.map((leaf) => [leaf.pointer, leaf])),
    residuals: [],
  })
}
