import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { poseOfMachine } from '../model/index.ts'
import { apply, type Mat3, place } from '../numeric/vector.ts'
import { missingUnder, restsOn } from '../working/answer.ts'
import { freshMemory } from '../working/memory.ts'
import { block, cubeAt, known, massOf, modelOf, POSE, projectOf, SETTINGS } from './mass.fixture.ts'
import { mass } from './mass.ts'
import { ringSector } from './solid.fixture.ts'

const cube = (x: number, y: number, z: number, m = '7.85 t', more = {}) =>
  block({ solids: [cubeAt(x, y, z)], mass: known(m), ...more })
const diagonal = (m: Mat3): number[] => [m[0][0], m[1][1], m[2][2]]
const close = (got: readonly number[], due: readonly number[], digits = 6): void => {
  for (const [i, x] of got.entries()) expect(x).toBeCloseTo(due[i] as number, digits)
}

describe('two bodies', () => {
  const { machine } = massOf({ parts: { a: cube(0, 0, 0, '3 t'), b: cube(4, 0, 0, '1 t') } })

  test('weigh their sum, and balance between them', () => {
    expect(machine.net.value).toBe(4000)
    close(machine.cogMachine, [1, 0, 0])
  })

  test('turn about their centre as the parallel-axis theorem says: Σ I + m₁m₂/(m₁+m₂) d²', () => {
    close(diagonal(machine.inertia), [4000 / 6, 4000 / 6 + 750 * 16, 4000 / 6 + 750 * 16])
  })
})

test('a set and what is left of it add up to the machine: mass, moment and inertia', () => {
  const place = fc.tuple(
    fc.integer({ min: -9, max: 9 }),
    fc.integer({ min: -9, max: 9 }),
    fc.integer({ min: -9, max: 9 }),
  )
  fc.assert(
    fc.property(fc.array(fc.tuple(place, fc.integer({ min: 1, max: 15 })), { minLength: 3, maxLength: 9 }), (rows) => {
      const parts = Object.fromEntries(rows.map(([[x, y, z], t], i) => [`p${i}`, cube(x, y, z, `${t} t`)]))
      const result = massOf({ parts })
      const ids = Object.keys(parts)
      const [some, rest] = [result.ofSet(ids.slice(0, 2), 'found'), result.ofSet(ids.slice(2), 'found')]
      const [a, b] = [some.net.value as number, rest.net.value as number]
      const whole = result.machine
      expect(a + b).toBeCloseTo(whole.net.value as number, 6)
      for (const i of [0, 1, 2] as const) {
        expect(a * some.cogMachine[i] + b * rest.cogMachine[i]).toBeCloseTo((a + b) * whole.cogMachine[i], 4)
        const d2 = [0, 1, 2]
          .filter((j) => j !== i)
          .reduce((s, j) => s + ((some.cogMachine[j] as number) - (rest.cogMachine[j] as number)) ** 2, 0)
        const sum = some.inertia[i][i] + rest.inertia[i][i] + ((a * b) / (a + b)) * d2
        expect(sum / whole.inertia[i][i]).toBeCloseTo(1, 9)
      }
    }),
    { numRuns: 40 },
  )
})

describe('like parts around the axis', () => {
  const spoke = block({
    solids: [
      { shape: 'radial box', along: ['0 m', '1 m'], radius: '3 m', radial: '1 m', across: '1 m', angle: '17 deg' },
    ],
    mass: known('2 t'),
    pattern: { kind: 'around the axis', count: 6, step: '60 deg' },
  })
  const result = massOf({ parts: { spoke } })

  test('balance on the axis', () => close(result.machine.cogMachine, [0.5, 0, 0], 12))

  test('turn alike about every line across the axis', () => {
    expect(result.machine.inertia[1][1]).toBeCloseTo(result.machine.inertia[2][2], 6)
    expect(result.machine.inertia[1][2]).toBeCloseTo(0, 6)
  })

  test('some of them balance off it, where they are', () => {
    const three = result.ofSet(['spoke-01', 'spoke-02', 'spoke-03'], 'found')
    expect(three.net.value).toBe(6000)
    const middle = ((17 + 60) * Math.PI) / 180
    const arm = (3 * (1 + 2 * Math.cos(Math.PI / 3))) / 3
    close(three.cogMachine, [0.5, arm * Math.cos(middle), arm * Math.sin(middle)], 9)
  })

  test('share one figure, so that their uncertainties add straight', () => {
    expect(result.machine.uncertaintyIndependent.value).toBeCloseTo(6 * 2000 * 0.04, 9)
  })

  test('and do not move the centre of the whole by it', () => close(result.machine.cogUncertainty, [0, 0, 0], 12))

  test('rest on the count in the pattern', () => {
    expect(restsOn(result.machine.net)).toContain('/parts/spoke/pattern/count')
  })
})

test('a ring is the sum of its sectors', () => {
  const sector = (from: number, to: number) =>
    block({ mass: undefined, solids: [ringSector(4, 6, [0, 3], [from, to])] })
  const split = massOf({ parts: { a: sector(0, 100), b: sector(100, 230), c: sector(230, 360) } }).machine
  const whole = massOf({ parts: { a: sector(0, 360) } }).machine
  expect(split.net.value).toBeCloseTo(whole.net.value as number, 6)
  close(split.cogMachine, whole.cogMachine, 9)
  for (const i of [0, 1, 2] as const) close(split.inertia[i], whole.inertia[i], 5)
})

test('any pose of the machine leaves mass and principal moments, and carries the centre along', () => {
  const angle = fc.integer({ min: -180, max: 180 })
  fc.assert(
    fc.property(angle, fc.integer({ min: -80, max: 80 }), angle, (roll, pitch, yaw) => {
      const pose = { ...POSE, roll: `${roll} deg`, pitch: `${pitch} deg`, yaw: `${yaw} deg` }
      const parts = { a: cube(1, 2, 3, '5 t'), b: cube(-4, 0, 1, '2 t') }
      const memory = freshMemory()
      const model = modelOf(projectOf({ parts, machine: { pose } }), memory)
      const set = mass(model, memory).machine
      const still = massOf({ parts }).machine
      const moved = poseOfMachine(model.project.machine as never)
      close(set.cogSite, place(moved, still.cogMachine), 9)
      close(
        set.cogSiteWorking.map((c) => c.value as number),
        set.cogSite,
        9,
      )
      expect(set.net.value).toBe(still.net.value)
      const trace = (m: Mat3): number => m[0][0] + m[1][1] + m[2][2]
      expect(trace(set.inertia) / trace(still.inertia)).toBeCloseTo(1, 9)
      const v = [0.3, -0.5, 0.8] as const
      const turned = apply(moved.turn, v)
      const about = (m: Mat3, d: readonly [number, number, number]): number =>
        apply(m, d).reduce((sum, x, i) => sum + x * (d[i] as number), 0)
      expect(about(set.inertia, turned) / about(still.inertia, v)).toBeCloseTo(1, 9)
    }),
    { numRuns: 40 },
  )
})

test('bounds are as tight turned as at rest', () => {
  const parts = { it: block({ solids: [ringSector(2, 3, [0, 1], [0, 360])] }) }
  const quarter = massOf({ parts, machine: { pose: { ...POSE, pitch: '45 deg', yaw: '0 deg' } } }).machine
  const reach = 3 * Math.SQRT1_2
  close(quarter.boundsSite.min, [2 - reach, -3, -20 - reach], 9)
  close(quarter.boundsSite.max, [2 + reach + Math.SQRT1_2, 3, -20 + reach + Math.SQRT1_2], 9)
  close(quarter.boundsMachine.min, [0, -3, -3], 12)
})

describe('uncertainty', () => {
  const big = (x: number, m: string) => block({ solids: [cubeAt(x, 0, 0, 4)], mass: known(m) })
  const parts = { a: big(0, '420 t'), b: big(2, '260 t') }

  test('independent figures combine by root sum of squares, figures that err together add', () => {
    const { machine } = massOf({ parts })
    expect(machine.uncertaintyIndependent.value).toBeCloseTo(Math.hypot(16.8e3, 10.4e3), 6)
    expect(machine.uncertaintyCorrelated.value).toBeCloseTo(27.2e3, 6)
    expect(machine.uncertainty).toBe(machine.uncertaintyIndependent)
  })

  test('the project says which one counts', () => {
    const { machine } = massOf({ parts, settings: { ...SETTINGS, uncertainty: 'correlated' } })
    expect(machine.uncertainty).toBe(machine.uncertaintyCorrelated)
    expect(machine.lower.value).toBeCloseTo(680e3 - 27.2e3, 6)
  })

  test('one part heavier than thought pulls the centre towards it: (c_i − c)/M · u_i', () => {
    const { machine } = massOf({ parts })
    const c = (2 * 260) / 680
    expect(machine.cogUncertainty[0]).toBeCloseTo(Math.hypot((c / 680) * 16.8, ((2 - c) / 680) * 10.4), 12)
    expect(machine.cogUncertaintyWorking[0].value).toBeCloseTo(machine.cogUncertainty[0], 12)
  })

  test('where all err together each pulls with its worse sign, for in step they would cancel', () => {
    const { machine } = massOf({ parts, settings: { ...SETTINGS, uncertainty: 'correlated' } })
    const c = (2 * 260) / 680
    expect(machine.cogUncertainty[0]).toBeCloseTo((c / 680) * 16.8 + ((2 - c) / 680) * 10.4, 12)
    expect(machine.cogUncertaintyWorking[0].value).toBeCloseTo(machine.cogUncertainty[0], 12)
  })

  test('a missing uncertainty leaves uncertainty and lower mass open, and the mass known', () => {
    const bare = { a: cube(0, 0, 0, '1 t'), b: block({ mass: known('2 t', { uncertainty: undefined }) }) }
    const { machine } = massOf({ parts: bare })
    expect(machine.net.value).toBe(3000)
    expect(machine.uncertainty.value).toBeUndefined()
    expect(machine.lower.value).toBeUndefined()
    expect(missingUnder(machine.uncertainty)).toEqual(['/parts/b/mass/uncertainty'])
    expect(machine.cogUncertaintyWorking[0].value).toBeUndefined()
  })
})

describe('allowance', () => {
  test('follows the basis of each mass', () => {
    const parts = {
      a: cube(0, 0, 0, '10 t'),
      b: cube(2, 0, 0, '10 t', { mass: known('10 t', { basis: 'estimated' }) }),
    }
    expect(massOf({ parts }).machine.allowance.value).toBeCloseTo(10e3 * 0.05 + 10e3 * 0.1, 6)
  })

  test('a basis without one in the settings leaves the design mass open, naming it', () => {
    const { machine } = massOf({ parts: { a: cube(0, 0, 0, '1 t') }, settings: { allowance: { weighed: 0.02 } } })
    expect(machine.design.value).toBeUndefined()
    expect(missingUnder(machine.design)).toEqual(['/settings/allowance/calculated'])
    expect(machine.net.value).toBe(1000)
  })
})

test('the design mass of a set counts what is retained in the pieces that lie in it, once', () => {
  const parts = { a: cube(0, 0, 0), b: cube(2, 0, 0), c: cube(4, 0, 0) }
  const pieces = {
    both: { name: 'Both', parts: ['a', 'b'], retained: '300 kg' },
    inner: { name: 'Inner', parts: ['a'], retained: '200 kg' },
    other: { name: 'Other', parts: ['c'], retained: '50 kg' },
  }
  const result = massOf({ parts, pieces })
  expect(result.machine.retained.value).toBe(350)
  expect(result.ofSet(['a', 'c'], 'found').retained.value).toBe(250)
  expect(result.ofSet(['b'], 'found').retained.value).toBe(0)
})

test('without a pose the site frame is open, and the machine frame is not', () => {
  const { machine } = massOf({ parts: { a: cube(1, 0, 0) } })
  expect(machine.cogSiteWorking[0].value).toBeUndefined()
  expect(missingUnder(machine.cogSiteWorking[2])).toContain('/machine/pose/pitch')
  expect(machine.cogMachineWorking[0].value).toBe(1)
})
