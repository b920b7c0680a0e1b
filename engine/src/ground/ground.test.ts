import { expect, test } from 'vitest'
import { freshMemory, sameContent } from '../working/memory.ts'
import type { Patch } from '../working/patch.ts'
import { groundOf } from './ground.fixture.ts'

const replace = (path: string, value: unknown): Patch => [{ op: 'replace', path, value }]

test.each([
  ['a mass', replace('/parts/block/solids/0/size/0', '2.2 m')],
  ['a water level', replace('/ground/water/upper/head', '-1.5 m')],
  ['a bay', replace('/bays/B/allowable', '180 kPa')],
  ['the wall', replace('/shaft/wall/verticality', 0.003)],
  ['a lift', replace('/lifts/aside/radius', '6.2 m')],
  ['the order', replace('/order', [])],
  ['a missing factor', [{ op: 'remove', path: '/ground/factors' }]],
] as const)('after %s changed, what is worked out again equals what is worked out afresh', (_, patch) => {
  const memory = freshMemory()
  groundOf([], memory)
  expect(sameContent(groundOf(patch, memory), groundOf(patch))).toBe(true)
})

test('a new mass works out again only what carries it: wall, base and decisions stay as they are', () => {
  const memory = freshMemory()
  groundOf([], memory)
  const before = { ...memory.computed }
  groundOf(
    [{ op: 'add', path: '/parts/block/mass', value: { value: '40 t', basis: 'weighed', uncertainty: 0.01 } }],
    memory,
  )
  const again = (family: string) => (memory.computed[family] ?? 0) - (before[family] ?? 0)
  for (const family of [
    'ground-wall',
    'ground-shaft',
    'ground-bore',
    'ground-outline',
    'ground-decisions',
    'ground-places',
    'ground-towers',
  ]) {
    expect([family, again(family)]).toEqual([family, 0])
  }
  for (const family of ['ground-landing', 'ground-wall-load', 'ground-legs']) expect(again(family)).toBeGreaterThan(0)
})

test('nothing changed: nothing is worked out again', () => {
  const memory = freshMemory()
  groundOf([], memory)
  const before = { ...memory.computed }
  groundOf([], memory)
  const again = Object.entries(memory.computed).filter(
    ([family, n]) => family.startsWith('ground') && n !== before[family],
  )
  expect(again.map(([family]) => family).filter((f) => !['ground-field'].includes(f))).toEqual([])
})

test('the same site twice gives the same ground', () => {
  expect(sameContent(groundOf(), groundOf())).toBe(true)
})

test('every check has a unique id and carries a caution', () => {
  const { checks } = groundOf()
  expect(new Set(checks.map((c) => c.id)).size).toBe(checks.length)
  for (const c of checks) expect(c.cautions.length, c.id).toBeGreaterThan(0)
})

test('the step that presses most on the wall is named', () => {
  const { governing, steps } = groundOf()
  expect(governing).toBe('take')
  expect(steps[0]?.wall?.pressure.value).toBeGreaterThan(0)
})

test('each step says what stands where: machine on the cradle, legs at both ends of the lift, piece on its bay, trailer, plant, the crane that is parked', () => {
  const loads = groundOf().steps[0]?.loads ?? []
  const kinds = loads.map((l) => l.kind)
  expect([...new Set(kinds)].sort()).toEqual(['crane', 'leg', 'machine', 'piece', 'plant', 'trailer'])
  expect(kinds.filter((k) => k === 'leg').length).toBe(8)
  const lifting = loads.filter((l) => l.kind === 'leg' && l.when.includes('lifting'))
  expect(lifting.every((l) => Math.abs(l.at[1]) === 3)).toBe(true)
})

test('a load that is unknown leaves the pressure on the wall open at its step', () => {
  const result = groundOf([{ op: 'remove', path: '/pieces/block/retained' }])
  const surcharge = result.checks.find((c) => c.kind === 'ground.wall.surcharge')
  expect(surcharge?.verdict).toBe('open')
  expect(surcharge?.reasons).toContain('/pieces/block/retained is not given')
})

test('a project without shaft and ground has no ground checks and no steps that press', () => {
  const result = groundOf([
    { op: 'remove', path: '/shaft' },
    { op: 'remove', path: '/ground' },
    { op: 'remove', path: '/cradle' },
  ])
  expect(result.checks.filter((c) => c.kind.startsWith('ground.ring') || c.kind.startsWith('ground.base'))).toEqual([])
  expect(result.steps.every((s) => s.wall === undefined)).toBe(true)
})

test('the ten decisions are listed, recorded or missing', () => {
  expect(groundOf().decisions.map((d) => d.recorded)).toEqual(Array(10).fill(true))
  const missing = groundOf([{ op: 'remove', path: '/ground/decisions/G4' }]).decisions.filter((d) => !d.recorded)
  expect(missing.map((d) => d.id)).toEqual(['G4'])
})
