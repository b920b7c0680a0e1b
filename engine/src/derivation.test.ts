import fc from 'fast-check'
import { expect, test } from 'vitest'
import { demoDocument } from './demo.fixture.ts'
import { changeDerivation, type Derivation, keepTried, startDerivation, type Tried, tryChange } from './derivation.ts'
import { derive } from './derive.ts'
import type { Operation, Patch } from './working/patch.ts'
import { at } from './working/pointer.ts'
import { firstDifference } from './working/sameResult.fixture.ts'

const demo = demoDocument()
const start = startDerivation(demo)

const idOf = (section: 'parts' | 'joints' | 'services' | 'stock' | 'bays' | 'weighings' | 'lifts') =>
  fc.constantFrom(...Object.keys(demo[section]))

const replace = (path: string, value: unknown): Operation => ({ op: 'replace', path, value })
const metres = (least: number, most: number) => fc.double({ min: least, max: most, noNaN: true }).map((m) => `${m} m`)

/** What people do to a project in a day, and what they do by mistake. */
const edit: fc.Arbitrary<Operation> = fc.oneof(
  fc
    .record({ id: idOf('parts'), t: fc.double({ min: 0.01, max: 90, noNaN: true }) })
    .map(({ id, t }) => replace(`/parts/${id}/mass/value`, `${t} t`)),
  fc.record({ id: idOf('bays'), x: metres(4, 30) }).map(({ id, x }) => replace(`/bays/${id}/size/0`, x)),
  fc
    .record({ id: idOf('bays'), x: metres(-40, 40), y: metres(18, 40) })
    .map(({ id, x, y }) => replace(`/bays/${id}/centre`, [x, y])),
  fc
    .record({ id: idOf('stock'), length: metres(1, 20) })
    .map(({ id, length }): Operation => ({ op: 'add', path: `/stock/${id}/length`, value: length })),
  fc
    .record({ id: idOf('parts'), fill: fc.double({ min: 0.1, max: 1, noNaN: true }) })
    .map(({ id, fill }): Operation => ({ op: 'add', path: `/parts/${id}/solids/0/fill`, value: fill })),
  metres(0, 0.3).map((shift) => replace('/settings/cogShift', shift)),
  fc
    .record({ id: idOf('lifts'), item: idOf('stock') })
    .map(({ id, item }) => replace(`/lifts/${id}/rigging/legs/0/item`, item)),
  metres(-33, -25).map((z) => replace('/machine/pose/origin/2', z)),
  metres(16, 22).map((d) => replace('/shaft/clearDiameter', d)),
  fc
    .nat({ max: demo.order.length - 2 })
    .map((i): Operation => ({ op: 'move', from: `/order/${i}`, path: `/order/${i + 1}` })),
  idOf('joints').map((id): Operation => ({ op: 'remove', path: `/joints/${id}` })),
  idOf('services').map((id): Operation => ({ op: 'remove', path: `/services/${id}` })),
  idOf('weighings').map((id): Operation => ({ op: 'remove', path: `/weighings/${id}` })),
  idOf('parts').map((id): Operation => ({ op: 'remove', path: `/parts/${id}/mass` })),
  idOf('parts').map((id) => replace(`/parts/${id}/mass`, 412)),
  idOf('lifts').map((id) => replace(`/lifts/${id}/piece`, 'nothing-of-that-name')),
  fc
    .record({ id: fc.constantFrom('B060', 'B050', 'B080'), days: fc.integer({ min: 5, max: 90 }) })
    .map(({ id, days }) => replace(`/programme/activities/${id}/days`, [days, days + 10, days + 30])),
  fc.constant(replace('/about/title', 'Another title')),
)

const isPossible = (document: unknown, operation: Operation): boolean =>
  operation.op === 'add' || at(document, operation.op === 'move' ? operation.from : operation.path) !== undefined

test('after any edits, what is derived step by step equals what is derived afresh, problems included', () => {
  let compared = 0
  fc.assert(
    fc.property(fc.array(edit, { minLength: 1, maxLength: 4 }), (edits) => {
      let derivation: Derivation = tryChange(start, []).derivation as Derivation
      for (const operation of edits) {
        if (!isPossible(derivation.document, operation)) continue
        derivation = changeDerivation(derivation, [operation]).derivation as Derivation
        compared++
      }
      expect(firstDifference(derivation.derived, derive(derivation.document))).toBeUndefined()
    }),
    { numRuns: 6 },
  )
  expect(compared).toBeGreaterThan(6)
})

test('a change and its undoing leave everything as it was', () => {
  const weight = '/parts/CH-HUB/mass/value'
  const there = changeDerivation(tryChange(start, []).derivation as Derivation, [replace(weight, '40 t')])
  const back = changeDerivation(there.derivation as Derivation, [replace(weight, at(demo, weight))])
  expect(firstDifference(back.derivation?.derived, start.derived)).toBeUndefined()
})

test('what is tried leaves the derivation, its document and its memory as they were', () => {
  const kept = demoDocument()
  const computed = { ...start.memory.computed }
  const tried = tryChange(start, [replace('/parts/CH-HUB/mass/value', '40 t')]) as { derivation: Derivation }
  expect(firstDifference(tried.derivation.derived, start.derived)).toBeDefined()
  expect(start.memory.computed).toEqual(computed)
  expect(start.document).toEqual(kept)
  const again = tryChange(start, [])
  expect(firstDifference(again.derivation?.derived, start.derived)).toBeUndefined()
})

test('a bay moved a little: how a piece hangs, its way in the shaft and who is under a lift stay as they are, most sheets too', () => {
  const [x, y] = (demo.bays.B3 as { centre: [string, string] }).centre
  const near = [x, `${Number.parseFloat(y) + 0.5} m`]
  const { derivation } = tryChange(start, [replace('/bays/B3/centre', near)]) as { derivation: Tried }
  const { computed } = derivation.memory
  for (const family of ['lift-hung', 'lift-rigged', 'lift-way', 'lift-way-hung', 'programme-under'])
    expect([family, computed[family] ?? 0]).toEqual([family, 0])
  const lifts = Object.keys(demo.lifts).length
  for (const family of ['lift-among', 'report']) {
    expect(computed[family]).toBeGreaterThan(0)
    expect([family, (computed[family] ?? 0) < lifts / 4]).toEqual([family, true])
  }
})

test('a change that was tried and kept equals one derived afresh, and the next change is as cheap as after any other', () => {
  const weight = '/parts/CH-HUB/mass/value'
  const begun = startDerivation(demo)
  const kept = keepTried(tryChange(begun, [replace(weight, '40 t')]).derivation as Tried)
  expect(kept.memory).toBe(begun.memory)
  expect(firstDifference(kept.derived, derive(kept.document))).toBeUndefined()
  const counted = { ...kept.memory.computed }
  changeDerivation(kept, [])
  expect(kept.memory.computed).toEqual(counted)
})

test('the same document gives the same results, whoever asks', () => {
  expect(firstDifference(derive(demoDocument()), start.derived)).toBeUndefined()
})

test('a patch that cannot be applied gives its problem and no derivation', () => {
  const patch: Patch = [{ op: 'remove', path: '/parts/no-such-part' }]
  expect(tryChange(start, patch)).toMatchObject({ problems: [{ pointer: '/parts/no-such-part' }] })
})
