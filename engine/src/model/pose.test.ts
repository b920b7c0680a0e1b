import fc from 'fast-check'
import { expect, test } from 'vitest'
import { inverse, type Mat3, norm, place, subtract, type Vec3 } from '../numeric/vector.ts'
import { given } from '../working/answer.ts'
import { poseOfMachine } from './pose.ts'

const DEG = Math.PI / 180

function machineAt({ roll = 0, pitch = 0, yaw = 0, origin = [0, 0, 0] as Vec3 }) {
  const point = origin.map((x, i) => given('m', `/machine/pose/origin/${i}`, x)) as never
  const angle = (name: string, value: number) => given('rad', `/machine/pose/${name}`, value * DEG)
  return {
    pose: {
      origin: point,
      roll: angle('roll', roll),
      pitch: angle('pitch', pitch),
      yaw: angle('yaw', yaw),
      survey: {},
    },
  }
}

const rounded = (v: Vec3) => v.map((x) => Number(x.toFixed(6)) + 0)

test('a machine without roll, pitch and yaw stands as its frame', () => {
  expect(place(poseOfMachine(machineAt({ origin: [2, 3, -29] })), [1, 1, 1])).toEqual([3, 4, -28])
})

test('nose up lifts the front', () => {
  expect(rounded(place(poseOfMachine(machineAt({ pitch: 90 })), [1, 0, 0]))).toEqual([0, 0, 1])
})

test('yaw to the left turns the front to +y, which is left', () => {
  expect(rounded(place(poseOfMachine(machineAt({ yaw: 90 })), [1, 0, 0]))).toEqual([0, 1, 0])
})

test('roll is right-handed about the axis forward: left goes up', () => {
  expect(rounded(place(poseOfMachine(machineAt({ roll: 90 })), [0, 1, 0]))).toEqual([0, 0, 1])
})

test('roll is turned first, then pitch, then yaw', () => {
  // By hand: (0,1,0) rolled by 90 deg is (0,0,1); nose up by 90 deg it is (-1,0,0); yawed by 90 deg (0,-1,0).
  expect(rounded(place(poseOfMachine(machineAt({ roll: 90, pitch: 90, yaw: 90 })), [0, 1, 0]))).toEqual([0, -1, 0])
})

test('the pose of the recovery puts its axis and crown where a hand calculation does', () => {
  // cos and sin of 0.3 deg, -0.1 deg and 1.4 deg, worked to seven figures by hand.
  const pose = poseOfMachine(machineAt({ roll: 1.4, pitch: 0.3, yaw: -0.1, origin: [2.95, 0.04, -29.42] }))
  expect(rounded(place(pose, [1, 0, 0]))).toEqual([3.949985, 0.038255, -29.414764])
  expect(rounded(place(pose, [0, 0, 1]))).toEqual([2.944723, 0.015577, -28.420312])
})

test('a pose keeps distances, and its inverse brings every point back', () => {
  const angle = fc.double({ min: -180, max: 180, noNaN: true })
  const metres = fc.double({ min: -50, max: 50, noNaN: true })
  const point = fc.tuple(metres, metres, metres)
  fc.assert(
    fc.property(angle, angle, angle, point, point, point, (roll, pitch, yaw, origin, p, q) => {
      const pose = poseOfMachine(machineAt({ roll, pitch, yaw, origin }))
      expect(norm(subtract(place(pose, p), place(pose, q)))).toBeCloseTo(norm(subtract(p, q)), 9)
      place(inverse(pose), place(pose, p)).forEach((x, i) => {
        expect(x).toBeCloseTo(p[i] as number, 9)
      })
      expect(determinant(pose.turn)).toBeCloseTo(1, 12)
    }),
  )
})

const determinant = ([a, b, c]: Mat3): number =>
  a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0]) + a[2] * (b[0] * c[1] - b[1] * c[0])
