import type { MassResult } from '../mass/index.ts'
import { idsMeant, type Model, poseOfInstance } from '../model/index.ts'
import type { Memory } from '../working/memory.ts'
import { type Hull, hullOf } from './hull.ts'

/** Outside of a piece from the solids of its parts; undefined where nothing solid is known. */
export function pieceHull(model: Model, mass: MassResult, piece: string, memory: Memory): Hull | undefined {
  const { instances, project } = model
  const parts = project.pieces[piece]?.parts
  const meant = memory.once(`lift-parts/${piece}`, [parts, instances], () => {
    const ids = (parts ?? []).flatMap((id) => idsMeant(instances, id))
    return { ids, entries: [...new Set(ids.map((id) => instances.byId.get(id)?.entry))] }
  })
  const shapes = meant.entries.map((entry) => (entry === undefined ? undefined : mass.parts[entry]?.shape))
  return memory.once(`lift-piece-hull/${piece}`, [meant, ...shapes], () =>
    partsHull(model, mass, meant.ids, { key: piece, memory }),
  )
}

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
