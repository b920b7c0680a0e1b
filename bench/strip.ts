import { mass } from '../engine/src/mass/index.ts'
import { type Model, model } from '../engine/src/model/index.ts'
import { type Blocking, blockingOf } from '../engine/src/strip/index.ts'
import { freshMemory } from '../engine/src/working/memory.ts'

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

const metres = (...p: number[]): string[] => p.map((x) => `${x.toFixed(3)} m`)
const PITCH = 1.2

/** Blocks, rods and rings in a lattice as cubic as can be, each a hand from the next: so many parts. */
export function latticeOf(count: number): unknown {
  const side = Math.ceil(Math.cbrt(count))
  const parts = Array.from({ length: count }, (_, i) => {
    const at = [i % side, Math.floor(i / side) % side, Math.floor(i / side ** 2)].map((k) => k * PITCH)
    return [`part-${i}`, { name: 'Part', material: 'steel', solids: [solidAt(at as [number, number, number], i)] }]
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
