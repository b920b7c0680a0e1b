import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Ground } from '../model/index.ts'
import { given, stated } from '../working/answer.ts'
import { freshMemory } from '../working/memory.ts'
import type { Patch } from '../working/patch.ts'
import { bayCourse, edgesOf, mostSettled, mostTipped, pressingInOrder, settledBy } from './bayCourse.ts'
import { checkOf, groundOf, siteModel } from './ground.fixture.ts'
import { bayTilt, rigidCircle } from './settlement.formulas.ts'
import { baySettlement } from './settlement.ts'
import { asPoints, bayPressing, type Pressing, perNewton, pressingAt, settlementAt } from './trough.ts'
import { outsideAt } from './wallLoad.ts'

const soil = siteModel().project.ground as Ground
const load = (more: Partial<Pressing> = {}, force = 1e6): Pressing => ({
  id: 'load',
  what: 'load',
  at: [0, 0],
  size: [6, 4],
  level: 0,
  forces: [{ label: 'load', answer: stated('N', force, 'a load') }],
  ...more,
})
const at = (x: number, y: number, level = 0) => ({ at: [x, y] as const, level })
const settled = (pressing: readonly Pressing[], x: number, y: number, level = 0): number =>
  settlementAt(soil, pressing, at(x, y, level)) as number

const metres = fc.double({ min: -40, max: 40, noNaN: true })
const side = fc.double({ min: 1, max: 20, noNaN: true })

describe('settlement of the ground beside loads', () => {
  test('is that of each load added up', () => {
    const [a, b] = [load({ at: [8, 3] }), load({ at: [-5, 9], size: [3, 10] }, 4e5)]
    expect(settled([a, b], 1, 2)).toBeCloseTo(settled([a], 1, 2) + settled([b], 1, 2), 15)
  })

  test('of a load cut in two is that of the whole, wherever the cut and wherever one looks', () => {
    fc.assert(
      fc.property(metres, metres, side, side, fc.double({ min: 0.1, max: 0.9, noNaN: true }), (x, y, a, b, cut) => {
        const whole = perNewton(soil, load({ size: [a, b] }), at(x, y)) as number
        const left = load({ size: [a * cut, b], at: [-a / 2 + (a * cut) / 2, 0] })
        const right = load({ size: [a * (1 - cut), b], at: [a / 2 - (a * (1 - cut)) / 2, 0] })
        const parts =
          cut * (perNewton(soil, left, at(x, y)) as number) + (1 - cut) * (perNewton(soil, right, at(x, y)) as number)
        const most = perNewton(soil, load({ size: [a, b] }), at(0, 0)) as number
        expect(Math.abs(parts - whole)).toBeLessThan(1e-9 * most)
      }),
    )
  })

  test('is alike on all four sides of a load, and most at its middle', () => {
    fc.assert(
      fc.property(metres, metres, (x, y) => {
        const here = settled([load()], x, y)
        for (const [sx, sy] of [[-1, 1], [1, -1], [-1, -1]] as const) // biome-ignore format: three mirrors
          expect(settled([load()], sx * x, sy * y)).toBeCloseTo(here, 12)
        expect(here).toBeLessThanOrEqual(settled([load()], 0, 0) + 1e-12)
      }),
    )
  })

  test('is downwards everywhere under a load, and goes to nothing far away', () => {
    fc.assert(
      fc.property(side, side, fc.double({ min: -0.5, max: 0.5 }), fc.double({ min: -0.5, max: 0.5 }), (a, b, u, v) => {
        fc.pre(Number.isFinite(u + v))
        expect(perNewton(soil, load({ size: [a, b] }), at(u * a, v * b))).toBeGreaterThan(0)
      }),
    )
    expect(Math.abs(settled([load()], 2000, 0))).toBeLessThan(1e-4 * settled([load()], 0, 0))
  })

  test('goes with the load and against the stiffness', () => {
    const stiff = {
      ...soil,
      layers: Object.fromEntries(Object.entries(soil.layers).map(([id, l]) => [id, doubled(l)])),
    }
    expect(settled([load({}, 2e6)], 5, 1)).toBeCloseTo(2 * settled([load()], 5, 1), 12)
    expect(perNewton(stiff, load(), at(5, 1))).toBeCloseTo((perNewton(soil, load(), at(5, 1)) as number) / 2, 16)
  })

  test('is the same by the displacement of points that the load is cut into (Boussinesq)', () => {
    let compared = 0
    fc.assert(
      fc.property(metres, metres, fc.constantFrom(0, -4, -13), (x, y, level) => {
        const place = at(x, y, level)
        const [one, other] = [perNewton(soil, load(), place) as number, asPoints(soil, load(), place) as number]
        const most = perNewton(soil, load(), at(0, 0, level)) as number
        expect(Math.abs(one - other)).toBeLessThan(0.1 * most)
        if (Math.abs(x) > 4 || Math.abs(y) > 3) expect(Math.abs(one - other)).toBeLessThan(0.01 * most)
        compared++
      }),
    )
    expect(compared).toBeGreaterThan(50)
  })

  test('far off is that of a point, whatever the plan', () => {
    const point = perNewton(soil, load({ size: undefined }), at(70, 20)) as number
    expect((perNewton(soil, load(), at(70, 20)) as number) / point).toBeCloseTo(1, 2)
  })

  test('on ground that never ends, a square settles at its middle between a rigid and a flexible round pad of its area', () => {
    const [E, nu, r] = [5e7, 0.3, Math.sqrt(36 / Math.PI)]
    const layer = {
      ...(soil.layers.sand as Ground['layers'][string]),
      bottom: given('m', '/bottom', -1e6),
      young: given('Pa', '/young', E),
      poisson: given('1', '/poisson', nu),
    }
    const even: Ground = { ...soil, layers: { layer } }
    const middle = perNewton(even, load({ size: [6, 6] }), at(0, 0)) as number
    const rigid = rigidCircle.value({ P: 1, r, E, nu })
    // flexible over rigid: 4/π, and a square at its middle a little less than a circle
    expect(middle / rigid).toBeGreaterThan(1.2)
    expect(middle / rigid).toBeLessThan(4 / Math.PI)
  })

  test('under a load without a plan nobody can say', () => {
    expect(settlementAt(soil, [load({ size: undefined })], at(0.2, 0))).toBeUndefined()
    expect(settlementAt(soil, [load({ size: undefined })], at(4, 0))).toBeGreaterThan(0)
  })

  test('leaves out what is compressed above a place that stands deeper', () => {
    expect(settled([load()], 0, 0, -10)).toBeLessThan(settled([load()], 0, 0))
    expect(settled([load()], 0, 0, -40)).toBe(0)
  })
})

const doubled = (l: Ground['layers'][string]): Ground['layers'][string] => ({
  ...l,
  young: given('Pa', '/young', 2 * (l.young?.value as number)),
})

/** Course of the bay of the small site. */
function courseOf(patch: Patch = []) {
  const memory = freshMemory()
  const model = siteModel(patch, memory)
  const outside = groundOf(patch, memory).steps.map((step) => outsideAt(step, memory))
  return bayCourse(model, 'B', pressingInOrder(model, outside, memory), memory)
}

describe('settlement of a bay over the campaign', () => {
  test('is at its most what the check holds against the limit', () => {
    const most = mostSettled(courseOf())
    expect(most?.others.length).toBeGreaterThan(0)
    expect(settledBy(most as never)).toBeCloseTo(checkOf('ground.bay.settlement').demand.value as number, 12)
  })

  test('under its own loads alone is that of the field at its middle', () => {
    const model = siteModel()
    const [step] = groundOf().steps
    const own = pressingAt(model, step?.loads ?? [], 'set down').filter(({ id }) => id === 'B')
    const place = bayPressing('B', model.project.bays.B as never)
    const set = courseOf().find(({ when }) => when === 'set down')
    expect(own).toHaveLength(1)
    expect(settlementAt(soil, own, place)).toBeCloseTo(set?.own as number, 15)
  })

  test('comes from what stands beside it even before anything is on it', () => {
    const lifting = courseOf().find(({ when }) => when === 'lifting')
    expect(lifting?.own).toBe(0)
    expect(lifting?.beside).toBeGreaterThan(0)
  })

  test('grows with a stockpile beside it, the more the nearer that stands', () => {
    const pile = (y: string): Patch => [
      { op: 'add', path: '/ground/plant/spoil', value: { what: 'spoil', centre: ['0 m', y], size: ['8 m', '8 m'], mass: '400 t' } }, // biome-ignore format: one heap
    ]
    const demand = (patch: Patch = []): number => checkOf('ground.bay.settlement', patch).demand.value as number
    expect(demand(pile('60 m'))).toBeGreaterThan(demand())
    expect(demand(pile('35 m'))).toBeGreaterThan(demand(pile('60 m')))
  })

  test('is open while the mass of what stands beside it is not known', () => {
    const stored = { what: 'spoil', centre: ['0 m', '40 m'], size: ['3 m', '3 m'], height: '2 m' }
    const other = { centre: ['0 m', '40 m'], size: ['6 m', '6 m'], level: '0 m', allowable: '100 kPa', stored: { spoil: stored } } // biome-ignore format: one bay
    expect(checkOf('ground.bay.settlement', [{ op: 'add', path: '/bays/C', value: other }]).verdict).toBe('open')
  })
})

describe('tilt of a bay from what stands beside it', () => {
  const pile = (x: string, y: string): Patch => [
    { op: 'add', path: '/ground/plant/spoil', value: { what: 'spoil', centre: [x, y], size: ['8 m', '8 m'], mass: '400 t' } }, // biome-ignore format: one heap
  ]
  const tilt = (patch: Patch = []): number => checkOf('ground.bay.tilt', patch).demand.value as number

  test('is added to that of the piece, and is the slope between the middles of its edges by the field', () => {
    const model = siteModel()
    const bay = model.project.bays.B as NonNullable<typeof model.project.bays.B>
    const tipped = mostTipped(courseOf()) as NonNullable<ReturnType<typeof mostTipped>>
    const { level } = bayPressing('B', bay)
    const others = groundOf()
      .steps.filter(({ step }) => step === tipped.step)
      .flatMap(({ loads }) => pressingAt(model, loads, tipped.when).filter(({ id }) => id !== 'B'))
    const [w1, w2, w3, w4] = edgesOf(bay).map((at) => settlementAt(soil, others, { at, level }) as number) as [number, number, number, number] // biome-ignore format: four edges
    const slope = Math.hypot((w1 - w2) / (bay.size[0].value as number), (w3 - w4) / (bay.size[1].value as number))
    expect(slope).toBeGreaterThan(0)
    expect(tipped.lean).toBeCloseTo(slope, 12)
    const { bays, steps } = groundOf()
    const load = bays.find(({ id }) => id === 'B') as (typeof bays)[number]
    const [w, P] = [baySettlement(soil, load).value as number, load.total.value as number]
    const A = (bay.size[0].value as number) * (bay.size[1].value as number)
    const own = steps.flatMap(
      ({ landing }) =>
      landing?.bay !== 'B' ? [] : [bayTilt.value({ w, P, A, W: landing.weight.value as number, e: landing.offset.value as number })], // biome-ignore format: one piece
    )
    expect(tilt()).toBeCloseTo(Math.max(...own) + slope, 12)
  })

  test('a heap to one side tips it more than the same heap farther off on that side', () => {
    const [, y = 0] = siteModel().project.bays.B?.centre.map((c) => c.value as number) ?? []
    expect(tilt(pile('0 m', `${y + 12} m`))).toBeGreaterThan(tilt(pile('0 m', `${y + 30} m`)))
  })

  test('is open while the mass of what stands beside it is not known', () => {
    const stored = { what: 'spoil', centre: ['0 m', '40 m'], size: ['3 m', '3 m'], height: '2 m' }
    const other = { centre: ['0 m', '40 m'], size: ['6 m', '6 m'], level: '0 m', allowable: '100 kPa', stored: { spoil: stored } } // biome-ignore format: one bay
    expect(checkOf('ground.bay.tilt', [{ op: 'add', path: '/bays/C', value: other }]).verdict).toBe('open')
  })
})
