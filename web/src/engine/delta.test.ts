import { changeDerivation, startDerivation } from '@shieldwright/engine'
import type { Patch } from '@shieldwright/engine/working/patch.ts'
import { expect, test } from 'vitest'
import { demoDocument } from '../../../engine/src/demo.fixture.ts'
import { applyDelta, deltaBetween } from './delta.ts'
import type { Summary } from './protocol.ts'
import { summaryOf } from './view.ts'

const begun = startDerivation(demoDocument())
const before = summaryAfter([])

function summaryAfter(patch: Patch): Summary {
  const { derivation } = changeDerivation(begun, patch)
  if (derivation?.derived.stages === undefined) throw new Error("the test's own change does not fit")
  return summaryOf(derivation.derived.stages)
}

function firstWeighing(): string {
  return Object.keys(demoDocument().weighings)[0] as string
}

const CHANGES: readonly (readonly [string, Patch])[] = [
  ['a heavier part', [{ op: 'replace', path: '/parts/CH-HUB/mass/value', value: '45 t' }]],
  ['another title', [{ op: 'replace', path: '/about/title', value: 'Another' }]],
  ['a weighing that is gone', [{ op: 'remove', path: `/weighings/${firstWeighing()}` }]],
  ['another order', [{ op: 'move', from: '/order/3', path: '/order/4' }]],
]

for (const [what, patch] of CHANGES) {
  test(`after ${what} the summary put together from what changed is the whole summary`, () => {
    const after = summaryAfter(patch)
    expect(applyDelta(before, structuredClone(deltaBetween(before, after)))).toEqual(after)
  })
}

test('what one mass does not change does not cross, and keeps its identity', () => {
  const after = summaryAfter([{ op: 'replace', path: '/parts/CH-HUB/mass/value', value: '45 t' }])
  const delta = deltaBetween(before, after)
  const sent = (delta.lists.checks ?? []).filter((item) => typeof item !== 'number')
  expect(sent.length).toBeGreaterThan(3)
  expect(sent.length).toBeLessThan(before.checks.length / 2)
  const applied = applyDelta(before, structuredClone(delta))
  expect(delta.lists.nearPaths?.filter((item) => typeof item !== 'number') ?? []).toEqual([])
  expect(applied.checks.filter((c, i) => c === before.checks[i]).length).toBe(before.checks.length - sent.length)
})
