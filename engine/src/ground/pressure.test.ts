import { expect, test } from 'vitest'
import type { Ground, Shaft } from '../model/index.ts'
import { missingUnder } from '../working/answer.ts'
import type { Patch } from '../working/patch.ts'
import { checkOf, siteModel } from './ground.fixture.ts'
import { wallLevels } from './pressure.ts'

const groundAfter = (patch: Patch = []) => siteModel(patch).project.ground as Ground
const bottom = (siteModel().project.shaft as Shaft).excavation
const levelsAfter = (patch: Patch = []) => wallLevels(groundAfter(patch), bottom)
const last = <T>(list: readonly T[]): T => list[list.length - 1] as T

test('total vertical stress is the weight of the layers above: 18 × 10 + 20 × 9.5 kPa (by hand)', () => {
  expect(last(levelsAfter()).vertical.value).toBeCloseTo(370_000, 6)
})

test('within a layer the pressure on the wall grows with depth', () => {
  for (const layer of ['sand', 'clay']) {
    const pressures = levelsAfter()
      .filter((l) => l.layer === layer)
      .map((l) => l.lateral.value as number)
    expect(pressures.length).toBeGreaterThan(3)
    expect(pressures).toEqual([...pressures].sort((a, b) => a - b))
  }
})

test('water stands hydrostatic in an aquifer at high tide and runs linearly through the clay below it', () => {
  const levels = levelsAfter()
  const pore = (layer: string, z: number) =>
    levels.find((l) => l.layer === layer && Math.abs((l.z.value as number) - z) < 1e-9)?.pore.value
  // by hand: head −2 + 0.3; 9.81 × 8.3 = 81.42 kPa at −10, 9.81 × 18 = 176.58 at −26, so 137.94 at −19.5
  expect(pore('sand', -10)).toBeCloseTo(81_423, 0)
  expect(pore('clay', -10)).toBeCloseTo(81_423, 0)
  expect(pore('clay', -19.5)).toBeCloseTo(81_423 + ((176_580 - 81_423) * 9.5) / 16, 0)
})

test('a higher water level presses more on the wall at every depth below it', () => {
  const before = levelsAfter()
  const after = levelsAfter([{ op: 'replace', path: '/ground/water/upper/head', value: '-1 m' }])
  before.forEach((level, i) => {
    expect(after[i]?.lateral.value ?? 0).toBeGreaterThanOrEqual(level.lateral.value as number)
  })
  expect(last(after).lateral.value).toBeGreaterThan(last(before).lateral.value as number)
})

test('ground at rest presses more than ground that is free to move', () => {
  const atRest = levelsAfter([{ op: 'replace', path: '/ground/earthPressure', value: 'at rest' }])
  const active = levelsAfter()
  expect(last(atRest).lateral.value).toBeGreaterThan(last(active).lateral.value as number)
})

test('a state of the earth pressure that nobody chose leaves every pressure open at its address', () => {
  for (const { lateral } of levelsAfter([{ op: 'remove', path: '/ground/earthPressure' }])) {
    expect(lateral.value).toBeUndefined()
    expect(missingUnder(lateral)).toContain('/ground/earthPressure')
  }
})

test('without any water level the pore pressure is open, not zero', () => {
  const levels = levelsAfter([{ op: 'replace', path: '/ground/water', value: {} }])
  expect(last(levels).pore.value).toBeUndefined()
})

test('an even load on the ground presses at every depth alike: K times the load, and the water not at all', () => {
  const [before, after] = [levelsAfter(), levelsAfter([{ op: 'add', path: '/ground/surcharge', value: '10 kPa' }])]
  before.forEach((level, i) => {
    const now = after[i] as (typeof after)[number]
    // active: tan²(45° − φ/2) of 33° and of 25°
    const K = Math.tan(Math.PI / 4 - ((level.layer === 'sand' ? 33 : 25) * Math.PI) / 360) ** 2
    expect(now.pore.value).toBe(level.pore.value)
    expect((now.vertical.value as number) - (level.vertical.value as number)).toBeCloseTo(10_000, 6)
    // cohesion may hold the clay back where it is pressed little
    if (level.layer === 'sand')
      expect((now.lateral.value as number) - (level.lateral.value as number)).toBeCloseTo(K * 10_000, 3)
  })
})

test('an even load on the ground uses more of the ring and of the base, and the checks say whether there is one', () => {
  const loaded: Patch = [{ op: 'add', path: '/ground/surcharge', value: '10 kPa' }]
  for (const kind of ['ground.ring.stress', 'ground.base.heave']) {
    const [without, with10] = [checkOf(kind), checkOf(kind, loaded)]
    expect(with10.utilisation).toBeGreaterThan(without.utilisation as number)
    expect(without.assumptions.join()).toContain('No even load on the ground behind the wall is given')
    expect(with10.assumptions.join()).toContain('With the even load on the ground')
  }
})
