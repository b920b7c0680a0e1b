import { expect, test } from 'vitest'
import type { Ground, Shaft } from '../model/index.ts'
import { stated } from '../working/answer.ts'
import type { Patch } from '../working/patch.ts'
import { basePlug } from './base.ts'
import { checkOf, groundOf, siteModel } from './ground.fixture.ts'
import { layersDown, verticalStress } from './pressure.ts'
import { wallRing } from './wall.ts'

/** Shaft and ground of an invented large recovery, as its generator gives them. */
function largeShaft(): { shaft: Shaft; ground: Ground } {
  const layer = (name: string, top: number, bottom: number, weight: number) => ({
    name,
    top: `${top} m`,
    bottom: `${bottom} m`,
    unitWeight: `${weight} kN/m3`,
  })
  const patch: Patch = [
    { op: 'replace', path: '/shaft/excavation', value: '-38.58 m' },
    { op: 'replace', path: '/shaft/slabTop', value: '-36.28 m' },
    { op: 'replace', path: '/shaft/wall/toe', value: '-46 m' },
    { op: 'replace', path: '/shaft/wall/pileDiameter', value: '1.5 m' },
    { op: 'replace', path: '/shaft/wall/piles', value: 64 },
    { op: 'replace', path: '/shaft/wall/ringDiameter', value: '21.6 m' },
    { op: 'replace', path: '/shaft/wall/verticality', value: 0.00333 },
    { op: 'replace', path: '/shaft/wall/settingOut', value: '0.025 m' },
    {
      op: 'replace',
      path: '/ground/layers',
      value: {
        G1: layer('made ground', 0, -2.6, 18.5),
        G2: layer('soft clay', -2.6, -9.4, 16.4),
        G3: layer('sand', -9.4, -15.8, 19.2),
        G4: layer('till', -15.8, -27.3, 21.3),
        G5: layer('gravelly sand', -27.3, -33.9, 20.8),
        G6: layer('hard clay', -33.9, -48.2, 20.5),
        G7: layer('silty sand', -48.2, -61, 20.3),
      },
    },
    {
      op: 'replace',
      path: '/ground/water',
      value: { W3: { layers: ['G7'], head: '-7.1 m', drawnDown: '-31.5 m' } },
    },
  ]
  const { shaft, ground } = siteModel(patch).project
  return { shaft: shaft as Shaft, ground: ground as Ground }
}

// Cross-check against figures of the generator of the invented demo, each recomputed by hand from its layers.
test('the large shaft: 760.7 kPa at the base, plug 197.2 kPa, water 403.2 kPa at rest and 163.8 kPa drawn down', () => {
  const { shaft, ground } = largeShaft()
  const total = verticalStress(layersDown(ground), stated('m', -38.58, 'base'))
  expect((total.value as number) / 1000).toBeCloseTo(760.7, 1)
  const plug = basePlug(shaft, ground)
  const weight = plug?.weight.value as number
  expect(weight / 1000).toBeCloseTo(197.2, 1)
  const [off, on] = (plug?.states ?? []).map((s) => s.pressure.value as number) as [number, number]
  expect([off / 1000, on / 1000].map((p) => Number(p.toFixed(1)))).toEqual([403.2, 163.8])
  expect([weight / off, weight / on].map((f) => Number(f.toFixed(3)))).toEqual([0.489, 1.204])
})

test('the large shaft: piles overlap 1.061 m thick as set out, 0.617 m at the base when two lean apart by 0.154 m each', () => {
  const { shaft } = largeShaft()
  const ring = wallRing(shaft)
  expect(ring.nominal.value).toBeCloseTo(1.061, 3)
  expect(ring.deviationAt(shaft.excavation).value).toBeCloseTo(0.1535, 3)
  // 0.6173 m with a verticality of 1 in 300, as the generator has it; its file rounds that to 0.00333, which gives 0.6179
  expect(Math.abs((ring.thicknessAt(shaft.excavation).value as number) - 0.617)).toBeLessThan(0.001)
})

const use = (patch: Patch, of = 'wells-on') => checkOf('ground.base.uplift', patch, of).utilisation as number

test('a lower head lifts less; a heavier plug holds more', () => {
  const now = use([])
  expect(use([{ op: 'replace', path: '/ground/water/lower/drawnDown', value: '-22 m' }])).toBeLessThan(now)
  expect(use([{ op: 'replace', path: '/ground/layers/clay/unitWeight', value: '21 kN/m3' }])).toBeLessThan(now)
})

test('a deeper excavation leaves a thinner plug', () => {
  const now = use([])
  expect(use([{ op: 'replace', path: '/shaft/excavation', value: '-21 m' }])).toBeGreaterThan(now)
})

test('without the factors the uplift is open and names who decides', () => {
  const open = checkOf('ground.base.uplift', [{ op: 'remove', path: '/ground/factors' }], 'wells-on')
  expect(open.verdict).toBe('open')
  expect(open.decidedBy).toBe('ground engineer')
  expect(open.reasons).toContain('/ground/factors/upliftStabilising is not given')
})

test('the head at the moment the time runs out is the head at which the uplift check reaches one', () => {
  const time = checkOf('ground.wells.time').capacity.value as number
  const [rest, drawn, tau] = [-8, -20, 36_000]
  const head = rest - (rest - drawn) * Math.exp(-time / tau)
  expect(use([{ op: 'replace', path: '/ground/water/lower/drawnDown', value: `${head} m` }])).toBeCloseTo(1, 9)
})

test('a base that has already failed leaves no time', () => {
  const time = checkOf('ground.wells.time', [{ op: 'replace', path: '/ground/water/lower/drawnDown', value: '-9 m' }])
  expect(time.capacity.value).toBe(0)
  expect(time.verdict).toBe('fail')
})

test('a base that holds with the wells off asks for no time', () => {
  const patch: Patch = [{ op: 'replace', path: '/ground/water/lower/head', value: '-15 m' }]
  expect(groundOf(patch).checks.map((c) => c.kind)).not.toContain('ground.wells.time')
})

test('the machine on the cradle is never counted against uplift', () => {
  const heavier = use([{ op: 'replace', path: '/materials/steel/density', value: '15000 kg/m3' }])
  expect(heavier).toBe(use([]))
})

test('an excavation that reaches the aquifer has no plug to check', () => {
  const deep: Patch = [
    { op: 'replace', path: '/shaft/excavation', value: '-27 m' },
    { op: 'replace', path: '/shaft/wall/toe', value: '-30 m' },
  ]
  const kinds = groundOf(deep).checks.map((c) => c.kind)
  expect(kinds).not.toContain('ground.base.uplift')
})

test('fill in the shaft is what lets the wells stop', () => {
  expect(checkOf('ground.slab.uplift').verdict).toBe('pass')
  expect(checkOf('ground.slab.uplift', [{ op: 'remove', path: '/shaft/fill' }]).verdict).toBe('fail')
})
