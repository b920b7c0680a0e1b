import { mass } from '../engine/src/mass/index.ts'
import { type Model, model } from '../engine/src/model/index.ts'
import { type Blocking, blockingOf, type FoundOrder, findOrder, verifyOrder } from '../engine/src/strip/index.ts'
import { freshMemory } from '../engine/src/working/memory.ts'
import { type Line, reported, timeAtMost } from './line.ts'
import { growthExponent } from './timed.ts'

/** What a run took of the processor, s: a busy machine adds nothing to it but what its caches cost. */
function spent<T>(run: () => T): { value: T; seconds: number } {
  const before = process.cpuUsage()
  const value = run()
  const { user, system } = process.cpuUsage(before)
  return { value, seconds: (user + system) / 1e6 }
}

/** Blocking of a document from scratch, its shapes included. */
export function blockingTime(document: unknown): { value: Blocking; seconds: number } {
  const memory = freshMemory()
  const read = model(document, memory).model as Model
  return spent(() => blockingOf(read, mass(read, memory), memory))
}

/** Pairs that are looked at, and again once one part of a document is made a little smaller. */
export function pairsAgain(before: unknown, after: unknown): { all: number; again: number } {
  const memory = freshMemory()
  const counted = (document: unknown): number => {
    const read = model(document, memory).model as Model
    blockingOf(read, mass(read, memory), memory)
    return memory.computed['strip-pair'] as number
  }
  const all = counted(before)
  return { all, again: counted(after) - all }
}

/** An order of every part of a lattice, the top layer first, straight up. */
export function verifyTime(count: number): number {
  const memory = freshMemory()
  const read = model(latticeOf(count), memory).model as Model
  const masses = mass(read, memory)
  const up = { kind: 'translate', by: [0, 0, 100] } as const
  const order = [...read.instances.byId.keys()].reverse().map((id) => ({ piece: id, parts: [id], moves: [up] }))
  return spent(() => verifyOrder(read, masses, order, memory)).seconds
}

/** The cheapest order of a document, and what it took to prove it. */
export function orderTime(document: unknown): { value: FoundOrder; seconds: number } {
  const memory = freshMemory()
  const read = model(document, memory).model as Model
  const masses = mass(read, memory)
  return spent(() => findOrder(read, masses, {}, memory))
}

const least = (runs: number, run: () => number): number => Math.min(...Array.from({ length: runs }, run))

/** Blocking, orders and their proof: what was found is held to, times are of the processor and reported against the goals. */
export function stripLines(demo: unknown): Line[] {
  const [small, large] = [250, 1000].map((n) => least(2, () => blockingTime(latticeOf(n)).seconds)) as [number, number]
  const order = orderTime(demo)
  const { pairs } = blockingTime(demo).value
  return [
    reported('pairs of the demo that touch or block', pairs.length, ''),
    timeAtMost('time of their blocking', 1000 * least(3, () => blockingTime(demo).seconds), 1000),
    timeAtMost('blocking of 1000 parts', 1000 * large, 30_000),
    reported('growth exponent from 250 parts', growthExponent(small, large, 4), ''),
    ...editedLines(),
    {
      what: 'cheapest order of the demo proven',
      value: `${order.value.proven}`,
      limit: 'true',
      holds: order.value.proven,
    },
    timeAtMost('time of it', 1000 * order.seconds, 10_000),
    reported('pieces, unions of them and steps aside it chose from', order.value.space.operations, ''),
    reported('states it looked into', order.value.looked, ''),
    timeAtMost('order of 200 steps verified', 1000 * least(5, () => verifyTime(200)), 200),
  ]
}

/** One of 1000 parts edited: no pair without it is looked at again. */
function editedLines(): Line[] {
  const [count, edited] = [1000, 555]
  const { all, again } = pairsAgain(latticeOf(count), latticeOf(count, edited))
  return [
    reported('pairs of 1000 parts looked at', all, ''),
    {
      ...reported('looked at again after one edit', again, ''),
      limit: `at most ${count - 1}`,
      holds: again > 0 && again < count,
    },
  ]
}

const metres = (...p: number[]): string[] => p.map((x) => `${x.toFixed(3)} m`)
const PITCH = 1.2

/** Blocks, rods and cones in a lattice as cubic as can be, each a hand from the next: so many parts, one of them replaced. */
export function latticeOf(count: number, replaced?: number): unknown {
  const side = Math.ceil(Math.cbrt(count))
  const parts = Array.from({ length: count }, (_, i) => {
    const at = [i % side, Math.floor(i / side) % side, Math.floor(i / side ** 2)].map((k) => k * PITCH)
    return [
      `part-${i}`,
      {
        name: 'Part',
        material: 'steel',
        solids: [solidAt(at as [number, number, number], i === replaced ? i + 1 : i)],
      },
    ]
  })
  return {
    schemaVersion: 1,
    about: { title: 'Lattice' },
    settings: { overlapTolerance: '2 mm', contactGap: '5 mm' },
    materials: { steel: { density: '7850 kg/m3' } },
    parts: Object.fromEntries(parts),
  }
}

function solidAt([x, y, z]: [number, number, number], i: number): unknown {
  if (i % 3 === 0) return { shape: 'box', centre: metres(x, y, z), size: metres(1, 1, 0.8) }
  if (i % 3 === 1)
    return { shape: 'cylinder', radius: '0.45 m', from: metres(x - 0.5, y, z), to: metres(x + 0.5, y, z) }
  return { shape: 'cone', radii: ['0.5 m', '0.3 m'], from: metres(x, y - 0.5, z), to: metres(x, y + 0.5, z) }
}
