import { expect, test } from 'vitest'
import { mass } from '../mass/index.ts'
import { freshMemory } from '../working/memory.ts'
import type { Operation, Patch } from '../working/patch.ts'
import { checkOf, groundOf, plainLifts, plainStrip, siteModel } from './ground.fixture.ts'
import { groundRanges } from './ranges.ts'

const put = (path: string, value: unknown): Operation => ({ op: 'add', path, value })
const CLAY = '/ground/layers/clay'
const RANGES: Patch = [
  put(`${CLAY}/range`, { undrained: ['100 kPa', '220 kPa'], young: ['30 MPa', '80 MPa'] }),
  put('/ground/water/lower/range', { head: ['-9 m', '-6 m'], drawnDown: ['-22 m', '-17 m'] }),
]

function rangesOf(patch: Patch) {
  const memory = freshMemory()
  const model = siteModel(patch, memory)
  const masses = mass(model, memory)
  return groundRanges(model, { mass: masses, strip: plainStrip(model), lift: plainLifts(model, masses) }, memory)
}

test('without a range nothing moves', () => {
  expect(rangesOf([])).toEqual([])
})

test('each end is what the check says of a project with that value, and the worst what it says with all of them', () => {
  const found = rangesOf(RANGES)
  const heave = found.find(({ kind }) => kind === 'ground.base.heave')
  expect(heave?.moves.map(({ pointer }) => pointer)).toEqual([`${CLAY}/undrained`])
  const weak = checkOf('ground.base.heave', [put(`${CLAY}/undrained`, '100 kPa')])
  expect(heave?.moves[0]?.low.use).toBeCloseTo(weak.utilisation as number, 12)

  const time = found.find(({ kind }) => kind === 'ground.wells.time')
  expect(time?.moves.map(({ pointer }) => pointer).sort()).toEqual([
    '/ground/water/lower/drawnDown',
    '/ground/water/lower/head',
  ])
  const both = [put('/ground/water/lower/head', '-6 m'), put('/ground/water/lower/drawnDown', '-17 m')]
  expect(time?.worst.use).toBeCloseTo(checkOf('ground.wells.time', both).utilisation as number, 12)
  for (const check of found)
    for (const { low, high } of check.moves)
      expect(check.worst.use ?? Infinity).toBeGreaterThanOrEqual(Math.max(low.use ?? 0, high.use ?? 0) - 1e-12)
})

test('a modulus moves settlements, and the tilt that what stands beside a bay brings, and no wall', () => {
  const kinds = rangesOf([put(`${CLAY}/range`, { young: ['30 MPa', '80 MPa'] })]).map(({ kind }) => kind)
  expect(new Set(kinds)).toEqual(new Set(['ground.bay.settlement', 'ground.bay.tilt']))
})

test('a best estimate outside its range, or a range without one, is refused where it stands', () => {
  expect(() => siteModel([put(`${CLAY}/range`, { undrained: ['160 kPa', '220 kPa'] })])).toThrow(
    /layers\/clay\/range\/undrained: found 160\.0\skPa to 220\.0\skPa, expected lowest and highest about the best estimate, 150/,
  )
  expect(() => siteModel([put(`${CLAY}/range`, { permeability: ['1e-9 m/s', '1e-8 m/s'] })])).toThrow(
    'and no best estimate',
  )
})

/** What people decide who are not the ground engineer, or what is measured and not decided. */
const NOT_OF_THE_GROUND =
  /^ground\.(bore\.(clear|machine)|decision|drive-in\.roll|fill\.volume|haul\.(vehicle|payload|line)|line\.clearance)$/

test('every check that reads the ground or the wall names the decisions it rests on, by whom and when', () => {
  const silent = groundOf()
    .checks.filter(({ kind }) => !NOT_OF_THE_GROUND.test(kind))
    .filter((c) => !c.assumptions.some((a) => /^Rests on G\d+ \(ground engineer, 2031-10-01\)/.test(a)))
  expect(silent.map(({ id }) => id)).toEqual([])
})

test.each([
  ['missing', [{ op: 'remove', path: '/ground/decisions/G3' }], '/ground/decisions/G3 is not given'],
  ['without a day', [{ op: 'remove', path: '/ground/decisions/G3/on' }], '/ground/decisions/G3/on is not given'],
  [
    'withdrawn',
    [{ op: 'add', path: '/ground/decisions/G3/withdrawn', value: 'new borehole' }],
    '/ground/decisions/G3 is withdrawn',
  ],
] as const)(
  'while a decision is %s nothing that rests on it passes, and what fails fails all the same',
  (_, patch, reason) => {
    const rests = groundOf().checks.filter((c) => c.assumptions.some((a) => /^Rests on .*G3 /.test(a)))
    const after = new Map(groundOf([...patch]).checks.map((c) => [c.id, c]))
    expect(rests.filter((c) => c.verdict === 'pass').length).toBeGreaterThan(3)
    for (const { id, verdict } of rests) {
      const now = after.get(id)
      expect([id, now?.verdict]).toEqual([id, verdict === 'fail' ? 'fail' : 'open'])
      if (verdict === 'pass') expect(now?.reasons).toEqual([reason])
    }
    const others = groundOf().checks.filter(
      (c) => !rests.includes(c) && c.id !== 'ground.decision/G3' && !rests.some((r) => r.id === c.id),
    )
    for (const { id, verdict } of others) expect([id, after.get(id)?.verdict]).toEqual([id, verdict])
  },
)
