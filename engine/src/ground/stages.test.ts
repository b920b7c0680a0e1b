import { describe, expect, test } from 'vitest'
import type { Patch } from '../working/patch.ts'
import { checkOf, groundOf, siteModel } from './ground.fixture.ts'
import { headRunning, recoveryTime } from './wells.formulas.ts'

const replace = (path: string, value: unknown): Patch => [{ op: 'replace', path, value }]
const dug = (to: string, running: number) => checkOf('ground.base.stage', replace('/shaft/stages', [{ to, running }]))
const stopped = (top: string, running: number) =>
  checkOf('ground.wells.stop', replace('/shaft/fill/stops', [{ top, running }]))

describe('stages of the excavation', () => {
  test('at the full depth with all wells needed is the check of the base with the wells on', () => {
    const [stage, base] = [dug('-19.5 m', 2), checkOf('ground.base.uplift', [], 'wells-on')]
    expect(stage.utilisation).toBeCloseTo(base.utilisation as number, 12)
  })

  test('by hand: dug to -16 m with one of two wells, 10 m of clay against a head half way between -8 m and -20 m', () => {
    const stage = dug('-16 m', 1)
    expect(stage.capacity.value).toBeCloseTo(0.9 * 20_000 * 10, 6)
    expect(stage.demand.value).toBeCloseTo(9810 * (26 - 14), -3)
  })

  test('each well more and each metre less deep helps', () => {
    const use = (to: string, running: number) => dug(to, running).utilisation as number
    expect(use('-18 m', 2)).toBeLessThan(use('-18 m', 1))
    expect(use('-16 m', 1)).toBeLessThan(use('-18 m', 1))
  })

  test('more wells than are needed is outside the scaling, and open', () => {
    expect(dug('-16 m', 3).verdict).toBe('open')
  })
})

test('water that the wall encloses is open until somebody says how it is let out, and then the next below presses', () => {
  const pocket: Patch = [
    { op: 'replace', path: '/shaft/stages', value: [{ to: '-5 m', running: 2 }] },
    { op: 'replace', path: '/ground/layers/sand', value: layer('sand', '0 m', '-8 m') },
    { op: 'add', path: '/ground/layers/seam', value: layer('seam', '-8 m', '-10 m') },
    { op: 'add', path: '/ground/water/pocket', value: { layers: ['seam'], head: '-2 m' } },
    { op: 'remove', path: '/ground/water/upper' },
  ]
  const open = checkOf('ground.base.stage', pocket)
  expect([open.verdict, open.reasons]).toEqual(['open', ['/ground/water/pocket/letOut is not given']])
  const told = checkOf('ground.base.stage', [
    ...pocket,
    { op: 'add', path: '/ground/water/pocket/letOut', value: 'two holes, ground engineer' },
  ])
  expect(told.verdict).toBe('pass')
  expect(told.assumptions.join()).toContain('Water pocket inside the wall is let out: two holes')
})

const layer = (name: string, top: string, bottom: string) => ({
  name,
  top,
  bottom,
  unitWeight: '18 kN/m3',
  phi: '33 deg',
  k0: 0.46,
  young: '30 MPa',
  poisson: 0.3,
})

describe('stopping the wells', () => {
  test('the last stop under the whole fill is the check of the slab with the water restored', () => {
    expect(stopped('-12 m', 0).utilisation).toBeCloseTo(checkOf('ground.slab.uplift').utilisation as number, 12)
  })

  test('a well may be stopped sooner the higher the fill', () => {
    const use = (top: string) => stopped(top, 1).utilisation as number
    expect(use('-12 m')).toBeLessThan(use('-16 m'))
  })

  test('none stopped and none running are the heads of the pumping test; the water is back by 95 % after three time constants', () => {
    const heads = { head_n: -8, head_d: -20, n_d: 2 }
    expect([2, 1, 0].map((n) => headRunning.value({ ...heads, n }))).toEqual([-20, -14, -8])
    expect(recoveryTime.value({ tau: 36_000, s: 0.95 })).toBeCloseTo(36_000 * Math.log(20), 6)
    const form = groundOf().otherForms.find(({ title }) => /recover by 95/.test(title))
    expect(form?.answer.value).toBeCloseTo(36_000 * Math.log(20), 6)
  })

  test('fill below the slab is refused where it stands', () => {
    expect(() => siteModel(replace('/shaft/fill/stops', [{ top: '-18.5 m', running: 0 }]))).toThrow(
      '/shaft/fill/stops/0/top',
    )
  })
})
