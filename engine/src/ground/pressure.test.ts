import { expect, test } from 'vitest'
import type { Ground, Shaft } from '../model/index.ts'
import { missingUnder } from '../working/answer.ts'
import type { Patch } from '../working/patch.ts'
import { siteModel } from './ground.fixture.ts'
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
