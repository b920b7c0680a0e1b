import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Body } from '../numeric/body.ts'
import {
  AT_REST,
  apply,
  IDENTITY,
  multiply,
  type Pose,
  place,
  rotationAbout,
  transpose,
  unit,
  type Vec3,
} from '../numeric/vector.ts'
import { hungPose } from './clearance.ts'
import { hullOf, levelsOf, planDirection, reachOf } from './hull.ts'
import { bodyTurn, posesAlong } from './path.ts'
import type { Pick } from './pick.ts'
import { largestSail, largestTwist, sailAt, sailsOf } from './sail.ts'
import { type Document, outcome } from './small.fixture.ts'

const box = (half: Vec3, centre: Vec3 = [0, 0, 0]): Body => ({ kind: 'box', centre, half, turn: IDENTITY })
const hull = (...bodies: Body[]) => hullOf(bodies.map((body, i) => ({ part: `p${i}`, body, pose: AT_REST })))

describe('reach of a hull', () => {
  test('is that of its farthest corner, whichever way it is turned', () => {
    const real = (min: number, max: number) => fc.double({ min, max, noNaN: true })
    fc.assert(
      fc.property(real(-3, 3), real(-3, 3), real(-3, 3), real(0, 6), (a, b, c, heading) => {
        const turn = multiply(rotationAbout('z', a), multiply(rotationAbout('y', b), rotationAbout('x', c)))
        const pose: Pose = { turn, shift: [1, -2, 3] }
        const d = planDirection(heading)
        const corners = [-2, 2].flatMap((x) => [-1, 1].flatMap((y) => [-0.5, 0.5].map((z): Vec3 => [x, y, z])))
        const most = Math.max(...corners.map((p) => place(pose, p)).map((p) => p[0] * d[0] + p[1] * d[1]))
        expect(reachOf(hull(box([2, 1, 0.5])), pose, d).reach).toBeCloseTo(most, 9)
      }),
    )
  })

  test('is that of the solid that reaches farthest, and names its part', () => {
    const two = hull(box([1, 1, 1]), box([1, 1, 1], [5, 0, 0]))
    expect(reachOf(two, AT_REST, [1, 0, 0])).toMatchObject({ reach: 6, part: 'p1' })
    expect(reachOf(two, AT_REST, [-1, 0, 0])).toMatchObject({ reach: 1, part: 'p0' })
    // whichever is looked at first
    expect(reachOf(two, AT_REST, [1, 0, 0], 1)).toMatchObject({ reach: 6, part: 'p1' })
    expect(levelsOf(two, AT_REST)).toEqual({ low: -1, high: 1 })
  })
})

describe('sail', () => {
  test('of a box broadside is its side, and of one seen along its diagonal the diagonal times its height', () => {
    const b = hull(box([3, 2, 1]))
    expect(sailAt(b, IDENTITY, 0).area).toBeCloseTo(4 * 2, 1)
    expect(sailAt(b, IDENTITY, Math.PI / 2).area).toBeCloseTo(6 * 2, 1)
    // outline drawn from outside in 24 directions: never too small, a few per cent too large
    const diagonal = (6 * Math.SQRT1_2 + 4 * Math.SQRT1_2) * 2
    expect(sailAt(b, IDENTITY, Math.PI / 4).area).toBeGreaterThanOrEqual(diagonal - 0.2)
    expect(sailAt(b, IDENTITY, Math.PI / 4).area).toBeLessThan(1.05 * diagonal)
  })

  test('of a disc on edge is its circle', () => {
    const disc: Body = { kind: 'ring sector', inner: 0, outer: 6, rear: 0, front: 1, start: 0, sweep: 2 * Math.PI }
    const { area, heading } = largestSail(sailsOf(hull(disc), IDENTITY))
    expect(area / (Math.PI * 36)).toBeCloseTo(1, 1)
    expect(area).toBeGreaterThan(Math.PI * 36 * 0.995)
    expect(heading).toBe(0)
  })

  test('of two solids one behind the other counts what is seen once', () => {
    const behind = hull(box([1, 2, 1]), box([1, 2, 1], [5, 0, 0]))
    expect(sailAt(behind, IDENTITY, 0).area).toBeCloseTo(8, 1)
    expect(sailAt(behind, IDENTITY, Math.PI / 2).area).toBeCloseTo(8, 1)
  })
})

describe('the wind turns a piece', () => {
  test('by its area times how far the middle of it lies beside the hook, and not at all about its own middle', () => {
    const b = hull(box([1, 3, 1]))
    const sails = sailsOf(b, IDENTITY)
    expect(largestTwist(sails, IDENTITY, [0, 0, 0]).twist).toBeCloseTo(0, 6)
    // 6 × 2 m seen along x, hung half a metre to its left
    const share = largestTwist(sails, IDENTITY, [0, 0.5, 0]).twist / (12 * 0.5)
    expect(share).toBeGreaterThan(0.999)
    // outlines are drawn from outside: a few per cent too large
    expect(share).toBeLessThan(1.05)
  })

  test('no differently when piece and point are turned together a quarter about the plumb line', () => {
    const quarter = rotationAbout('z', Math.PI / 2)
    const b = hull(box([1, 3, 1], [2, 1, 0]))
    const [still, turned] = [IDENTITY, quarter].map((turn) => largestTwist(sailsOf(b, turn), turn, [1, 0.4, 3]).twist)
    expect((turned as number) / (still as number)).toBeCloseTo(1, 6)
  })
})

const gapTo = (to: string, change?: (d: Document) => void): number =>
  outcome('out', change).checks.find((c) => c.id === `lift.path.clearance/out/${to}`)?.capacity.value as number

describe('a block of 3 × 2 m in a shaft of 12 m', () => {
  test('leaves to the wall what its corner leaves of the radius', () => {
    // hangs within a hundredth of a degree of how it lies; the corner is at (1.5, 1)
    expect(gapTo('wall', (d) => void delete d.settings.cogShift)).toBeCloseTo(6 - Math.hypot(1.5, 1), 2)
  })

  test('keeps from a duct at x 2.5 to 3, y 1 to 2 what lies between their sides', () => {
    expect(gapTo('duct', (d) => void delete d.settings.cogShift)).toBeCloseTo(1, 2)
  })

  test('keeps from a round duct what lies between its corner and the circle', () => {
    const round = gapTo('duct', (d) => {
      delete d.settings.cogShift
      d.shaft.obstructions.duct = {
        what: 'duct',
        x: ['2.5 m', '3.5 m'],
        y: ['1.5 m', '2.5 m'],
        z: ['-12 m', '1 m'],
        round: true,
      }
    })
    expect(round).toBeCloseTo(Math.hypot(3 - 1.5, 2 - 1) - 0.5, 2)
  })

  test('strikes what stands on the way of a move through it, even if it clears both ends', () => {
    const gap = gapTo('duct', (d) => {
      d.steps.S1.moves = [{ by: ['4.4 m', '0 m', '0 m'] }, { by: ['0 m', '0 m', '18 m'] }]
      d.shaft.obstructions.duct = { what: 'duct', x: ['2 m', '2.2 m'], y: ['-0.1 m', '0.1 m'], z: ['-12 m', '1 m'] }
    })
    expect(gap).toBeLessThan(0)
  })

  test('comes as much nearer to the wall as the machine stands off the middle', () => {
    const off = gapTo('wall', (d) => {
      delete d.settings.cogShift
      d.machine.pose.origin[0] = '0.5 m'
    })
    expect(off).toBeCloseTo(6 - Math.hypot(2, 1), 2)
  })

  test('needs the clearance, the allowance of the wall and the tolerance of the pose', () => {
    const check = outcome('out').checks.find((c) => c.id === 'lift.path.clearance/out/wall')
    const pose = Math.hypot(0.02, 0.02) + ((0.1 * Math.PI) / 180) * 2
    expect(check?.demand.value).toBeCloseTo(0.3 + 0.05 + pose, 9)
  })

  test('does not mind a thing that is taken out before its step', () => {
    const checks = outcome('out', (d) => {
      d.shaft.obstructions.duct.removedBefore = 'S1'
    }).checks
    expect(checks.some((c) => c.id === 'lift.path.clearance/out/duct')).toBe(false)
  })

  test('swings out when it hangs crooked', () => {
    const straight = gapTo('wall')
    const crooked = gapTo('wall', (d) => {
      d.stock.long = { ...d.stock.sling, length: '4.6 m' }
      d.lifts.out.rigging.legs[0].item = 'long'
      d.lifts.out.rigging.legs[3].item = 'long'
    })
    expect(crooked).toBeLessThan(straight)
  })
})

describe('a piece that hangs out of level', () => {
  const ZERO = { value: 0 }
  /** A piece driven straight, moved through these attitudes. */
  const moved = (...turns: Pose['turn'][]): Pick =>
    ({
      machine: { pose: { yaw: ZERO, pitch: ZERO, roll: ZERO, origin: [ZERO, ZERO, ZERO] } },
      lift: {},
      set: { cogMachine: [1, 2, 3] },
      track: turns.map((turn): Pose => ({ turn, shift: [0, 0, 0] })),
    }) as unknown as Pick
  const real = (min: number, max: number) => fc.double({ min, max, noNaN: true })

  test('takes its lean with it when it is slewed: what was plumb stays plumb, and its centre of gravity stays under the hook', () => {
    fc.assert(
      fc.property(real(-0.1, 0.1), real(-0.1, 0.1), real(-3, 3), (a, b, slew) => {
        const pick = moved(IDENTITY, rotationAbout('z', slew))
        const up = unit([a, b, 1])
        for (const pose of posesAlong(pick)) {
          const hung = hungPose(pick, pose, up)
          const plumb = apply(multiply(hung.turn, transpose(bodyTurn(pick))), up)
          plumb.forEach((k, i) => {
            expect(k).toBeCloseTo([0, 0, 1][i] as number, 9)
          })
          place(hung, [1, 2, 3]).forEach((k, i) => {
            expect(k).toBeCloseTo(place(pose, [1, 2, 3])[i] as number, 9)
          })
        }
      }),
    )
  })
})
