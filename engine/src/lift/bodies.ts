import type { MassResult } from '../mass/index.ts'
import { idsMeant, type Model, poseOfInstance } from '../model/index.ts'
import type { Memory } from '../working/memory.ts'
import { type Hull, hullOf } from './hull.ts'

/** Outside of a piece from the solids of its parts; undefined where nothing solid is known. */
export const pieceHull = (model: Model, mass: MassResult, piece: string, memory: Memory): Hull | undefined =>
  partsHull(
    model,
    mass,
    (model.project.pieces[piece]?.parts ?? []).flatMap((id) => idsMeant(model.instances, id)),
    { key: piece, memory },
  )

/** The same of any parts, by their ids, remembered under a key. */
export function partsHull(
  { instances }: Model,
  mass: MassResult,
  ids: readonly string[],
  { key, memory }: { key: string; memory: Memory },
): Hull | undefined {
  const placed = ids.flatMap((id) => {
    const instance = instances.byId.get(id)
    return instance === undefined ? [] : [{ instance, shape: mass.parts[instance.entry]?.shape }]
  })
  if (placed.length === 0 || placed.some(({ shape }) => shape === undefined)) return undefined
  if (placed.every(({ shape }) => shape?.bodies.length === 0)) return undefined
  const identity = placed.flatMap(({ instance, shape }) => [shape, instance.turn, ...instance.shift])
  return memory.once(`lift-hull/${key}`, [ids.join(), ...identity], () =>
    hullOf(
      placed.flatMap(({ instance, shape }) =>
        (shape?.bodies ?? []).map((body) => ({ part: instance.id, body, pose: poseOfInstance(instance) })),
      ),
    ),
  )
}
