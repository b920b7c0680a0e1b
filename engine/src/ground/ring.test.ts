import fc from 'fast-check'
import { expect, test } from 'vitest'
import { checkOf } from './ground.fixture.ts'
import { buckling, eccentricResistance, hoopStress, inwardMovement, lame, outOfRound, thrust } from './ring.formulas.ts'

const radius = fc.double({ min: 2, max: 20, noNaN: true })
const share = fc.double({ min: 0.01, max: 2, noNaN: true })
const pressure = fc.double({ min: 1e3, max: 2e6, noNaN: true })

test('a thick ring carries by hoop stress exactly what presses on it: ∫σ dr = p_o r_o − p_i r_i', () => {
  fc.assert(
    fc.property(radius, share, pressure, pressure, (r_i, k, p_o, p_i) => {
      const r_o = r_i * (1 + k)
      const slices = 400
      const dr = (r_o - r_i) / slices
      let sum = 0
      // Simpson's rule
      for (let i = 0; i < slices; i++) {
        const at = (r: number) => lame.value({ p_o, p_i, r_i, r_o, r })
        const r = r_i + i * dr
        sum += ((at(r) + 4 * at(r + dr / 2) + at(r + dr)) * dr) / 6
      }
      expect(Math.abs(sum - (p_o * r_o - p_i * r_i))).toBeLessThan(1e-8 * (p_o * r_o + p_i * r_i))
    }),
    { numRuns: 60 },
  )
})

test('a ring grows thin: the hoop stress at both faces goes to p r/t', () => {
  const [p_o, r_i, t] = [4e5, 10, 0.001]
  const r_o = r_i + t
  const mean = hoopStress.value({ N: thrust.value({ p: p_o, r_o }), t })
  for (const r of [r_i, r_o]) {
    expect(lame.value({ p_o, p_i: 0, r_i, r_o, r }) / mean).toBeCloseTo(1, 3)
  }
})

test('a ring grows without end: the hoop stress at the bore goes to twice the pressure (Kirsch, uniform field)', () => {
  expect(lame.value({ p_o: 1e5, p_i: 0, r_i: 1, r_o: 1e5, r: 1 })).toBeCloseTo(2e5, 0)
})

test('equal pressure inside and outside gives that pressure everywhere', () => {
  fc.assert(
    fc.property(radius, share, pressure, (r_i, k, p) => {
      const r_o = r_i * (1 + k)
      const value = lame.value({ p_o: p, p_i: p, r_i, r_o, r: (r_i + r_o) / 2 })
      expect(Math.abs(value / p - 1)).toBeLessThan(1e-9)
    }),
  )
})

test('the inner face of a ring is pressed harder than the outer one', () => {
  const ring = { p_o: 3e5, p_i: 0, r_i: 6, r_o: 6.8 }
  expect(lame.value({ ...ring, r: 6 })).toBeGreaterThan(lame.value({ ...ring, r: 6.8 }))
})

test('a thin ring moves inwards by p r²/(E t)', () => {
  const [p, r, t, E] = [1e5, 10, 0.01, 3e10]
  const sigma = lame.value({ p_o: p, p_i: 0, r_i: r - t / 2, r_o: r + t / 2, r: r - t / 2 })
  const w = inwardMovement.value({ sigma, r_i: r - t / 2, E, nu: 0 })
  expect(w / ((p * r * r) / (E * t))).toBeCloseTo(1, 2)
})

test('as the pressure nears the buckling pressure the moment of a ring out of round grows beyond bounds, then is unknown', () => {
  const p_cr = buckling.value({ E: 12e9, t: 0.6, r: 10 })
  const at = (use: number) => outOfRound.value({ p: use * p_cr, r: 10, w_0: 0.05, p_cr }) / use
  expect(at(0.9)).toBeGreaterThan(5 * at(0.1))
  expect(outOfRound.broken({ p: p_cr, r: 10, w_0: 0.05, p_cr })).not.toEqual([])
})

test('a plain section carries nothing once the thrust leaves it, and all of it on its centre', () => {
  const section = { f_cd: 15e6, t: 0.8, N: 1e6 }
  expect(eccentricResistance.value({ ...section, M: 0 })).toBeCloseTo(12e6, 3)
  expect(eccentricResistance.value({ ...section, M: 0.4e6 })).toBe(0)
})

test('thicker overlap, stronger concrete or less water: each lowers the use of the ring', () => {
  const use = (path: string, value: unknown) =>
    checkOf('ground.ring.stress', [{ op: 'replace', path, value }]).utilisation as number
  const now = checkOf('ground.ring.stress').utilisation as number
  expect(use('/shaft/wall/verticality', 0.001)).toBeLessThan(now)
  expect(use('/shaft/wall/strength', '40 MPa')).toBeLessThan(now)
  expect(use('/ground/water/lower/head', '-12 m')).toBeLessThan(now)
})

test('the use of stress and the use of thickness are one and the same figure', () => {
  expect(checkOf('ground.overlap.thickness').utilisation).toBeCloseTo(
    checkOf('ground.ring.stress').utilisation as number,
    12,
  )
})

test('a wall of panels loses thickness at its joints with depth, sprayed concrete does not', () => {
  const wall = (kind: string) => [
    { op: 'replace', path: '/shaft/wall/kind', value: kind } as const,
    { op: 'add', path: '/shaft/wall/thickness', value: '0.8 m' } as const,
    { op: 'replace', path: '/shaft/wall/piles', value: 24 } as const,
  ]
  const thickness = (kind: string) => checkOf('ground.overlap.thickness', wall(kind)).capacity.value as number
  // by hand: 6.4 + 0.8 − 6.4/cos 7.5° = 0.7448 m at the top; less 2 × (0.020 + 19.5 × 0.002) at the base
  expect(thickness('slurry panels')).toBeCloseTo(0.7448 - 0.118, 3)
  expect(thickness('sprayed')).toBe(0.8)
})
