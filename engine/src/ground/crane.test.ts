import fc from 'fast-check'
import { expect, test } from 'vitest'
import { type LiftOutcome, trackLoad } from '../lift/index.ts'
import { stated } from '../working/answer.ts'
import { freshMemory } from '../working/memory.ts'
import { trackPressure } from './crane.formulas.ts'
import { allowableAt } from './crane.ts'
import { checkOf, groundOf, siteModel } from './ground.fixture.ts'
import { distanceToLine } from './line.ts'

const pressure = (W: number, e: number, theta: number, L: number): number =>
  trackPressure.value({ P: trackLoad.value({ W, e, theta, gauge: 6 }), e, theta, L, b: 1 })

test('a crane balanced over its middle presses evenly on both tracks, whichever way it slews', () => {
  fc.assert(
    fc.property(fc.double({ min: 0, max: Math.PI / 2, noNaN: true }), (theta) => {
      expect(pressure(1e6, 0, theta, 8)).toBeCloseTo(1e6 / 16, 6)
    }),
  )
})

test('on its nearer track alone a crane presses twice the mean, over the side', () => {
  expect(pressure(1e6, 3, Math.PI / 2, 8)).toBeCloseTo(1e6 / 8, 6)
  expect(trackLoad.broken({ W: 1e6, e: 3.1, theta: Math.PI / 2, gauge: 6 })).not.toEqual([])
})

test('a load off centre along the track lifts no pressure below zero: at L/3 off, contact is half and pressure four times', () => {
  expect(pressure(1e6, 3, 0, 9) / pressure(1e6, 0, 0, 9)).toBeCloseTo(4, 6)
})

test('a pad governs where the crane stands on it, the platform elsewhere, and off both the limit is open', () => {
  const { ground } = siteModel().project
  expect(allowableAt(ground, [16, 0]).value).toBe(150_000)
  expect(allowableAt(ground, [16, 20]).value).toBe(60_000)
  expect(allowableAt(ground, [16, -20]).value).toBeUndefined()
})

test('without its own centre of gravity a crane on tracks is open; one on outriggers stands as far out as it can, and says so', () => {
  expect(checkOf('ground.crane.pressure', [{ op: 'remove', path: '/systems/crane/ownOffset' }]).verdict).toBe('open')
  const guessed = checkOf('ground.crane.pressure', [
    { op: 'remove', path: '/systems/crane/ownOffset' },
    { op: 'remove', path: '/systems/crane/tracks' },
    { op: 'add', path: '/systems/crane/outriggers', value: { base: ['6 m', '6 m'], mat: ['3 m', '3 m'] } },
  ])
  // by hand: 0.65 is the first guess; over the corner of a square base, as it comes to tip over a side, one float bears √½ of
  // g × (80 t + 1 t block + 32.97 t with 5 % on 31.4 t), over 9 m²
  expect(guessed.demand.value).toBeCloseTo((Math.SQRT1_2 * 9.80665 * (80_000 + 1000 + 32_970)) / 9, 0)
  expect(guessed.assumptions.join(' ')).toMatch(/First guess/)
})

test('a longer radius or a heavier piece presses more', () => {
  const use = (path: string, value: unknown) =>
    checkOf('ground.crane.pressure', [{ op: 'replace', path, value }]).demand.value as number
  const now = checkOf('ground.crane.pressure').demand.value as number
  expect(use('/lifts/aside/radius', '6.5 m')).toBeGreaterThan(now)
  expect(use('/materials/steel/density', '8200 kg/m3')).toBeGreaterThan(now)
})

test('plan distance to a line is to its nearest piece, or to its end', () => {
  const corner: [number, number][] = [
    [0, 0],
    [10, 0],
    [10, 10],
  ]
  expect(distanceToLine([5, 3], corner)).toBe(3)
  expect(distanceToLine([-3, -4], corner)).toBe(5)
  expect(distanceToLine([12, 8], corner)).toBe(2)
})

test('a line that is dead on lift days needs no distance', () => {
  const near = { op: 'replace', path: '/lifts/aside/radius', value: '20 m' } as const
  expect(checkOf('ground.line.clearance', [near]).verdict).toBe('fail')
  const dead = { op: 'add', path: '/utilities/wire/deadOnLifts', value: 'grid owner, permit each lift day' } as const
  expect(checkOf('ground.line.clearance', [near, dead]).verdict).toBe('pass')
})

test('mats bend as cantilevers beyond the track: by hand from the pressure under them, and thicker ones by the square less', () => {
  const q = checkOf('ground.crane.pressure').demand.value as number
  const bending = (patch: Parameters<typeof checkOf>[1] = []) => checkOf('ground.crane.mat', patch, 'bending').demand.value as number // biome-ignore format: one call
  // mat 2 m across a track of 1 m: 0.5 m beyond it on either side, 0.25 m thick
  expect(bending() / ((6 * ((q * 0.5 ** 2) / 2)) / 0.25 ** 2)).toBeCloseTo(1, 9)
  expect(checkOf('ground.crane.mat', [], 'shear').demand.value).toBeCloseTo((1.5 * q * (0.5 - 0.25)) / 0.25, 3)
  const thicker = [{ op: 'replace', path: '/systems/crane/mats/thickness', value: '0.5 m' } as const]
  expect(bending(thicker) / bending()).toBeCloseTo(1 / 4, 9)
})

test('a crane on tracks without mats has none to check; on floats the width of a float is asked for', () => {
  const mats = (patch: Parameters<typeof groundOf>[0]) =>
    groundOf(patch).checks.filter((c) => c.kind === 'ground.crane.mat')
  expect(mats([{ op: 'remove', path: '/systems/crane/tracks/mat' }])).toEqual([])
  const floats = mats([
    { op: 'remove', path: '/systems/crane/tracks' },
    { op: 'add', path: '/systems/crane/outriggers', value: { base: ['6 m', '6 m'], mat: ['2 m', '2 m'] } },
  ])
  expect(floats.map((c) => c.verdict)).toEqual(['open', 'open'])
  expect(floats[0]?.reasons.join()).toContain('/systems/crane/outriggers/float')
})

/** A second crane, 5 m farther out on the platform, that takes half of what the first takes. */
function withSecond(standing: number | undefined) {
  const patch = [
    { op: 'copy', from: '/systems/crane', path: '/systems/second' },
    {
      op: 'replace',
      path: '/systems/second/standings',
      value: [
        ['16 m', '20 m'],
        ['16 m', '0 m'],
      ],
    },
    { op: 'add', path: '/lifts/aside/tail', value: { system: 'second', hook: 'main', rigging: {}, ...(standing === undefined ? {} : { standing }) } }, // biome-ignore format: one change
  ] as Parameters<typeof groundOf>[0]
  return groundOf(patch, freshMemory(), ({ checks, lifts }) => {
    const { aside } = lifts as { aside: LiftOutcome }
    const half = stated('kg', (aside.underHead.value as number) / 2, 'half')
    const second = { system: 'second', hook: 'main', underHead: half, radius: stated('m', 6, 'radius') }
    return { checks, lifts: { ...lifts, aside: { ...aside, second } } }
  })
}

test('the second of two cranes that share a piece presses where it stands, by its own share', () => {
  const pressures = (of: ReturnType<typeof groundOf>) =>
    Object.fromEntries(of.checks.filter((c) => c.kind === 'ground.crane.pressure').map((c) => [c.id, c]))
  const of = withSecond(0)
  const ids = of.checks.map((c) => c.id)
  expect(ids.filter((id, i) => ids.indexOf(id) !== i)).toEqual([])
  const { 'ground.crane.pressure/aside/crane': first, 'ground.crane.pressure/aside/second': second } = pressures(of)
  expect(second?.demand.value).toBeLessThan(first?.demand.value as number)
  expect([first?.capacity.value, second?.capacity.value]).toEqual([150_000, 60_000])
  const unsaid = pressures(withSecond(undefined))['ground.crane.pressure/aside/second']
  expect(unsaid?.verdict).toBe('open')
  expect(of.checks.filter((c) => c.kind === 'ground.line.clearance').map((c) => c.id)).toContain(
    'ground.line.clearance/wire/aside/second',
  )
})

test('the ground reads the largest radius that the lift stage found, not the one that was planned', () => {
  const at = (radius: number) =>
    groundOf([], freshMemory(), ({ checks, lifts }) => {
      const { aside } = lifts as { aside: LiftOutcome }
      return { checks, lifts: { ...lifts, aside: { ...aside, radius: stated('m', radius, 'largest radius') } } }
    }).checks.find((c) => c.kind === 'ground.crane.pressure')?.demand.value as number
  expect(at(6)).toBe(checkOf('ground.crane.pressure').demand.value)
  expect(at(6.5)).toBeGreaterThan(at(6))
})
