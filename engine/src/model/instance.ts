import { freshMemory, type Memory } from '../working/memory.ts'
import type { Part, ReadProject } from './schema/project.ts'

/** One part as it stands in the machine: an entry of the file, or one of its pattern. */
export interface Instance {
  id: string
  entry: string
  part: Part
  /** Place in the pattern, from 0. */
  index: number
  /** From the entry's own place to this one, machine frame: turned about +x, then shifted. */
  turn: number
  shift: readonly [number, number, number]
}

/** Instances by id, and the instances of each entry. */
export interface Instances {
  byId: ReadonlyMap<string, Instance>
  ofEntry: ReadonlyMap<string, readonly Instance[]>
}

/** Every part of the machine, patterns written out: `CH-SPK` with six becomes `CH-SPK-01` … `CH-SPK-06`. */
export function instancesOf(parts: ReadProject['parts'], memory: Memory = freshMemory()): Instances {
  const all = memory.each('model/instances', parts, [], instancesOfEntry)
  return memory.once('model/instances/maps', [all], () => ({
    ofEntry: new Map(Object.keys(parts).map((entry, i) => [entry, all[i] as readonly Instance[]])),
    byId: new Map(all.flat().map((instance) => [instance.id, instance])),
  }))
}

function instancesOfEntry(entry: string, part: Part): Instance[] {
  const { pattern } = part
  if (pattern === undefined) return [{ id: entry, entry, part, index: 0, turn: 0, shift: [0, 0, 0] }]
  const digits = Math.max(2, String(pattern.count).length)
  return Array.from({ length: pattern.count }, (_, index) => ({
    id: `${entry}-${String(index + 1).padStart(digits, '0')}`,
    entry,
    part,
    index,
    turn: pattern.kind === 'around the axis' ? index * (pattern.step.value as number) : 0,
    shift:
      pattern.kind === 'along a line'
        ? (pattern.step.map((s) => index * (s.value as number)) as [number, number, number])
        : [0, 0, 0],
  }))
}

/** Instance ids meant by an id: all of an entry, or the one named; empty when it is neither. */
export function idsMeant(instances: Instances, id: string): readonly string[] {
  return instances.ofEntry.get(id)?.map((i) => i.id) ?? (instances.byId.has(id) ? [id] : [])
}
