import fc from 'fast-check'
import { expect, test } from 'vitest'
import { inversePatch, meetingPlaces, touchedBy, touchedPlaces } from './inverse.ts'
import { applyPatch, type Operation, type Patch } from './patch.ts'
import { pointerOf } from './pointer.ts'

const document = {
  parts: { hub: { mass: '40 t', solids: [{ r: 1 }, { r: 2 }] }, rim: { mass: '9 t', solids: [{ r: 3 }] } },
  order: ['a', 'b', 'c'],
  near: 0.9,
}

const done = (from: unknown, patch: Patch): unknown => {
  const patched = applyPatch(from, patch)
  if ('problems' in patched) throw new Error(JSON.stringify(patched.problems))
  return patched.document
}

test('a list is as long after an edit is taken back as before it', () => {
  const patch: Patch = [
    { op: 'add', path: '/order/1', value: 'x' },
    { op: 'remove', path: '/order/0' },
    { op: 'add', path: '/order/-', value: 'y' },
    { op: 'move', from: '/order/0', path: '/order/2' },
  ]
  const changed = done(document, patch)
  expect(changed).toMatchObject({ order: ['b', 'c', 'x', 'y'] })
  expect(done(changed, inversePatch(document, patch))).toEqual(document)
})

test('what was put over something comes back as it was, what was put where nothing stood is gone', () => {
  const patch: Patch = [
    { op: 'add', path: '/near', value: 0.95 },
    { op: 'add', path: '/parts/new', value: {} },
    { op: 'copy', from: '/parts/hub', path: '/parts/rim' },
  ]
  expect(done(done(document, patch), inversePatch(document, patch))).toEqual(document)
})

test('two edits of one list meet, two fields of one part do not, a part meets its own field', () => {
  const places = (patch: Patch) => touchedPlaces(document, patch)
  const first: Patch = [{ op: 'add', path: '/order/0', value: 'x' }]
  const last: Patch = [{ op: 'replace', path: '/order/2', value: 'y' }]
  expect(meetingPlaces(places(last), places(first))).toEqual(['/order/2'])
  const mass: Patch = [{ op: 'replace', path: '/parts/hub/mass', value: '41 t' }]
  const solid: Patch = [{ op: 'replace', path: '/parts/hub/solids/0/r', value: 4 }]
  const gone: Patch = [{ op: 'remove', path: '/parts/hub' }]
  expect(meetingPlaces(places(mass), places(solid))).toEqual([])
  expect(meetingPlaces(places(mass), places(gone))).toEqual(['/parts/hub/mass'])
  expect(touchedBy(document, mass)).toEqual([{ pointer: '/parts/hub/mass', before: '40 t', after: '41 t' }])
})

test('a name that begins like another is another place', () => {
  expect(meetingPlaces(['/parts/hub'], ['/parts/hub-2'])).toEqual([])
})

/** Random operations that can be done on a document of names and lists three levels deep. */
const tree = fc.dictionary(
  fc.constantFrom('a', 'b', 'c'),
  fc.dictionary(fc.constantFrom('d', 'e'), fc.array(fc.nat(9), { maxLength: 3 })),
)
const steps = fc.array(fc.tuple(fc.nat(4), fc.nat(20), fc.nat(20), fc.nat(99)), { minLength: 1, maxLength: 4 })

function placesIn(value: unknown, path: readonly string[] = []): string[][] {
  if (typeof value !== 'object' || value === null) return [[...path]]
  const inner = Object.entries(value).flatMap(([key, v]) => placesIn(v, [...path, key]))
  return path.length === 0 ? inner : [[...path], ...inner]
}

function randomPatch(start: unknown, choices: readonly (readonly [number, number, number, number])[]): Operation[] {
  let current = start
  return choices.flatMap(([kind, a, b, value]): Operation[] => {
    const places = placesIn(current)
    const from = places[a % Math.max(1, places.length)]
    const to = places[b % Math.max(1, places.length)]
    if (from === undefined || to === undefined) return []
    const [path, other] = [pointerOf(...from), pointerOf(...to)]
    const operation: Operation = [
      { op: 'replace', path, value } as const,
      { op: 'remove', path } as const,
      { op: 'add', path, value: { n: [value] } } as const,
      { op: 'move', from: other, path } as const,
      { op: 'copy', from: other, path } as const,
    ][kind] as Operation
    const patched = applyPatch(current, [operation])
    if ('problems' in patched) return []
    current = patched.document
    return [operation]
  })
}

test('any patch is taken back whole', () => {
  let compared = 0
  fc.assert(
    fc.property(tree, steps, (start, choices) => {
      const patch = randomPatch(start, choices)
      compared += patch.length
      expect(done(done(start, patch), inversePatch(start, patch))).toEqual(start)
    }),
    { numRuns: 500 },
  )
  expect(compared).toBeGreaterThan(500)
})

test('edits of places that do not meet give the same in either order', () => {
  let compared = 0
  fc.assert(
    fc.property(tree, steps, steps, (start, one, two) => {
      const [mine, theirs] = [randomPatch(start, one), randomPatch(start, two)]
      if (mine.length === 0 || theirs.length === 0) return
      if (meetingPlaces(touchedPlaces(start, mine), touchedPlaces(start, theirs)).length > 0) return
      compared += 1
      expect(done(done(start, theirs), mine)).toEqual(done(done(start, mine), theirs))
    }),
    { numRuns: 1500 },
  )
  expect(compared).toBeGreaterThan(100)
})
