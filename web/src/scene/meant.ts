import { readPointer } from '@shieldwright/engine/working/pointer.ts'
import type { Scene } from './scene.ts'

/** Items that stand for an entity: a part, all of a piece, what a lift or a step moves, a system with its hooks. */
export function itemsMeant(scene: Scene, pointer: string | undefined): readonly number[] {
  if (pointer === undefined) return []
  const exact = scene.items.flatMap((item, i) => (item.pointer === pointer ? [i] : []))
  if (exact.length > 0) return exact
  const [collection, id = ''] = readPointer(pointer) ?? []
  const piece = pieceMeant(scene, pointer)
  if (piece !== undefined) {
    const own = new Set(scene.pieces[piece]?.parts ?? [])
    return scene.items.flatMap((item, i) => (item.layer === 'machine' && own.has(item.id) ? [i] : []))
  }
  if (collection !== 'parts') return []
  return scene.items.flatMap((item, i) =>
    item.layer === 'machine' && (item.id === id || isOf(item.id, id)) ? [i] : [],
  )
}

/** Instances are named after their entry, with a number behind it. */
const isOf = (instance: string, entry: string): boolean =>
  instance.startsWith(`${entry}-`) && /^\d+$/.test(instance.slice(entry.length + 1))

/** The piece that an entity is, or moves; a step by its own name. */
export function pieceMeant(scene: Scene, pointer: string): string | undefined {
  const [collection, id = ''] = readPointer(pointer) ?? []
  if (collection === 'pieces') return scene.pieces[id] === undefined ? undefined : id
  if (collection === 'lifts') return scene.lifts[id]
  if (collection === 'steps') return scene.steps.find((s) => s.step === id)?.piece
  return undefined
}
