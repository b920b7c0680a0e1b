import fc from 'fast-check'
import { expect, test } from 'vitest'
import { freshMemory, sameContent } from '../working/memory.ts'
import type { Operation, Patch } from '../working/patch.ts'
import { groundOf } from './ground.fixture.ts'

/** Two bays more than the small site has, a stockpile on one of them: what stands on one presses on the others. */
const bayAt = (x: number, y: number) => ({
  centre: [`${x} m`, `${y} m`],
  size: ['5 m', '4 m'],
  level: '0 m',
  allowable: '200 kPa',
  settlement: '20 mm',
  tilt: '0.1 deg',
})
const heap = { what: 'segments', centre: ['-9 m', '24 m'], size: ['3 m', '3 m'], height: '2 m', mass: '70 t' }
const threeBays: Patch = [
  { op: 'add', path: '/bays/C', value: { ...bayAt(-9, 24), stored: { heap } } },
  {
    op: 'add',
    path: '/bays/D',
    value: { ...bayAt(10, 24), stored: { crates: { ...heap, centre: ['10 m', '24 m'] } } },
  },
]

const replace = (path: string, value: unknown): Operation => ({ op: 'replace', path, value })
const metres = (min: number, max: number) => fc.double({ min, max, noNaN: true }).map((v) => `${v} m`)

/** Each of them matters to something that is kept: a place, a size, a level, a force, a stiffness, a name, a limit. */
const edits: readonly fc.Arbitrary<Operation>[] = [
  ...['B', 'C', 'D'].flatMap((id) => [
    fc.record({ x: metres(-30, 30), y: metres(14, 40) }).map(({ x, y }) => replace(`/bays/${id}/centre`, [x, y])),
    fc.record({ a: metres(2, 8), b: metres(2, 8) }).map(({ a, b }) => replace(`/bays/${id}/size`, [a, b])),
    metres(-1, 1).map((z) => replace(`/bays/${id}/level`, z)),
  ]),
  metres(-20, -8).map((z) => replace('/bays/B/piles/toe', z)),
  fc.constant<Operation>({ op: 'remove', path: '/bays/B/piles' }),
  fc.integer({ min: 1, max: 200 }).map((t) => replace('/bays/C/stored/heap/mass', `${t} t`)),
  fc.constant<Operation>({ op: 'remove', path: '/bays/C/stored/heap/mass' }),
  fc.constantFrom('rings', 'pipes').map((what) => replace('/bays/C/stored/heap/what', what)),
  fc.constantFrom('Cube', 'Lump').map((name) => replace('/pieces/block/name', name)),
  fc.constantFrom('C', 'D').map((id) => replace('/lifts/out/bay', id)),
  fc.integer({ min: 10, max: 90 }).map((t) => replace('/ground/plant/silo/mass', `${t} t`)),
  fc.record({ x: metres(9, 30), y: metres(-9, 30) }).map(({ x, y }) => replace('/ground/plant/silo/centre', [x, y])),
  fc.integer({ min: 5, max: 60 }).map((m) => replace('/ground/layers/sand/young', `${m} MPa`)),
  fc.integer({ min: 5, max: 90 }).map((m) => replace('/ground/layers/clay/young', `${m} MPa`)),
  fc.constant<Operation>({ op: 'remove', path: '/ground/layers/clay/young' }),
  metres(-12, -4).map((x) => replace('/systems/tower/legs/A/x', x)),
  metres(-20, -2).map((z) => replace('/systems/tower/foundation/toe', z)),
  fc.constantFrom('Gantry', 'Tower').map((name) => replace('/systems/tower/name', name)),
  metres(11, 13).map((d) => replace('/shaft/clearDiameter', d)),
  metres(13, 14).map((d) => replace('/shaft/wall/ringDiameter', d)),
  metres(0.5, 1).map((b) => replace('/shaft/slabThickness', b)),
  fc
    .record({ x: metres(-20, 20), y: metres(14, 30) })
    .map(({ x, y }) => replace('/transports/trailer/at', [x, y, '1 m'])),
  metres(-8, -3).map((z) => replace('/utilities/sewer/axis', z)),
  fc.integer({ min: 1, max: 40 }).map((w) => replace('/bays/B/settlement', `${w} mm`)),
]
const edit = fc.oneof(...edits)

test('each edit by itself changes the ground, and what is kept after it equals the ground worked out afresh', () => {
  const memory = freshMemory()
  const plain = groundOf(threeBays, memory)
  for (const operation of edits.flatMap((e) => fc.sample(e, { seed: 1, numRuns: 1 }))) {
    const patch = [...threeBays, operation]
    const kept = groundOf(patch, memory.fork())
    expect([operation, sameContent(kept, groundOf(patch))]).toEqual([operation, true])
    expect([operation, sameContent(kept, plain)]).toEqual([operation, false])
  }
})

test('after any edits the ground as kept equals the ground worked out afresh', () => {
  let changed = 0
  const plain = groundOf(threeBays)
  fc.assert(
    fc.property(fc.array(edit, { minLength: 1, maxLength: 4 }), (edits) => {
      const memory = freshMemory()
      groundOf(threeBays, memory)
      let patch = threeBays
      let kept = plain
      for (const operation of edits) {
        const next = [...patch, operation]
        try {
          kept = groundOf(next, memory)
        } catch {
          continue // a site that is none: a bay on the shaft, something taken away twice
        }
        patch = next
        if (!sameContent(kept, plain)) changed++
      }
      expect(sameContent(kept, groundOf(patch))).toBe(true)
    }),
    { numRuns: 25 },
  )
  expect(changed).toBeGreaterThan(25)
})
