import type { MassResult } from '../mass/index.ts'
import { idsMeant, type Model, poseOfInstance } from '../model/index.ts'
import type { Memory } from '../working/memory.ts'
import { type Hull, hullOf } from './hull.ts'

/** Outside of a piece from the solids of its parts; undefined where nothing solid is known. */
export function pieceHull(
  { project, instances }: Model,
  mass: MassResult,
  piece: string,
  memory: Memory,
): Hull | undefined {
  const ids = (project.pieces[piece]?.parts ?? []).flatMap((id) => idsMeant(instances, id))
  const placed = ids.flatMap((id) => {
    const instance = instances.byId.get(id)
    return instance === undefined ? [] : [{ instance, shape: mass.parts[instance.entry]?.shape }]
  })
  if (placed.length === 0 || placed.some(({ shape }) => shape === undefined)) return undefined
  if (placed.every(({ shape }) => shape?.bodies.length === 0)) return undefined
  const identity = placed.flatMap(({ instance, shape }) => [shape, instance.turn, ...instance.shift])
  return memory.once(`lift-hull/${piece}`, [ids.join(), ...identity], () =>
    hullOf(
      placed.flatMap(({ instance, shape }) =>
        (shape?.bodies ?? []).map((body) => ({ part: instance.id, body, pose: poseOfInstance(instance) })),
      ),
    ),
  )
}
