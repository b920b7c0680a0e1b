import { expect, test } from 'vitest'
import { demoDocument } from './demo.fixture.ts'
import { startDerivation } from './derivation.ts'
import { checkChanges, comparedDerivations, instantOf, settingPatch, whatIf } from './whatif.ts'
import { stated } from './working/answer.ts'
import { type Check, check } from './working/check.ts'
import type { Patch } from './working/patch.ts'
import { at } from './working/pointer.ts'

const demo = startDerivation(demoDocument())
const weight = '/parts/CH-HUB/mass/value'

test('a change of nothing changes nothing', () => {
  const same: Patch = [{ op: 'replace', path: weight, value: at(demo.document, weight) }]
  for (const patch of [[], same]) expect(whatIf(demo, patch).whatIf).toMatchObject({ changes: [] })
})

test('a changed mass changes checks, and counts before and after are those of the two derivations', () => {
  const { whatIf: change, derivation } = whatIf(demo, [{ op: 'replace', path: weight, value: '60 t' }])
  expect(change?.changes.length).toBeGreaterThan(0)
  expect(change).toEqual(comparedDerivations(demo, derivation as typeof demo).whatIf)
  const total = Object.values(change?.after.counts ?? {}).reduce((sum, n) => sum + n, 0)
  expect(total).toBe(derivation?.derived.stages?.checks.length)
})

test('looking from the other side exchanges before and after', () => {
  const { derivation } = whatIf(demo, [{ op: 'replace', path: weight, value: '60 t' }])
  const there = comparedDerivations(demo, derivation as typeof demo).whatIf
  const back = comparedDerivations(derivation as typeof demo, demo).whatIf
  const turned = new Map(back?.changes.map((c) => [c.check, [c.after, c.before]]))
  expect(new Map(there?.changes.map((c) => [c.check, [c.before, c.after]]))).toEqual(turned)
})

test('a change that leaves no sound project says why', () => {
  const { whatIf: change, problems } = whatIf(demo, [{ op: 'replace', path: weight, value: 412 }])
  expect(change).toBeUndefined()
  expect(problems).toEqual([expect.objectContaining({ pointer: weight, found: '412' })])
})

test('a check that came, went, moved in verdict or only in figures is told as that', () => {
  const before = [made('a', 0.5), made('b', 0.5), made('c', 0.5), made('d', 0.5)]
  const after = [made('a', 0.5), made('b', 0.6), made('c', 2), made('e', 0.5)]
  const changes = checkChanges(before, after)
  expect(changes.map(({ check: id, moved }) => [id, moved])).toEqual([
    ['mass.test/c', true],
    ['mass.test/e', true],
    ['mass.test/d', true],
    ['mass.test/b', false],
  ])
  expect(changes[0]).toMatchObject({
    before: { verdict: 'pass', demand: 0.5 },
    after: { verdict: 'fail', utilisation: 2 },
  })
  expect(changes[1]?.before).toBeUndefined()
  expect(changes[2]?.after).toBeUndefined()
})

test('values typed for a change are JSON where they read as JSON, and text otherwise', () => {
  const pairs = [
    ['/a', '605 t'],
    ['/b/c', '[1, "x"]'],
    ['/b/c/0', '2'],
    ['/d', '-0.1 deg'],
    ['/e', 'true'],
  ] as const
  expect(settingPatch({ a: '1 t', b: {} }, pairs)).toEqual([
    { op: 'replace', path: '/a', value: '605 t' },
    { op: 'add', path: '/b/c', value: [1, 'x'] },
    { op: 'replace', path: '/b/c/0', value: 2 },
    { op: 'add', path: '/d', value: '-0.1 deg' },
    { op: 'add', path: '/e', value: true },
  ])
})

test('instants count from the origin, and are unknown without one', () => {
  expect(instantOf('2031-11-03T06:00:00Z', 90_000)).toBe('2031-11-04T07:00:00.000Z')
  expect(instantOf(undefined, 0)).toBeNull()
  expect(instantOf('2031-11-03T06:00:00Z', Number.POSITIVE_INFINITY)).toBeNull()
})

function made(of: string, demand: number): Check {
  return check({
    kind: {
      id: 'mass.test',
      title: 'A test',
      stage: 'mass',
      source: { basis: 'derived', text: 'made for this test' },
      practice: [],
      decidedBy: 'nobody',
    },
    subject: { pointer: '', id: of, name: of },
    demand: stated('1', demand, 'demand'),
    capacity: stated('1', 1, 'capacity'),
    near: 0.9,
  })
}
