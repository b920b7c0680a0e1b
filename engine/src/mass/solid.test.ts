import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { model } from '../model/index.ts'
import { boundsOf, holdsPoint, supportOf } from '../numeric/body.ts'
import { auditMesh, type Mesh, meshIntegrals } from '../numeric/mesh.ts'
import {
  apply,
  dot,
  type Mat3,
  multiply,
  norm,
  place,
  rotationAbout,
  scale,
  transpose,
  type Vec3,
} from '../numeric/vector.ts'
import { freshMemory } from '../working/memory.ts'
import { cubeAt, projectOf } from './mass.fixture.ts'
import {
  boxMesh,
  frustum,
  outward,
  type Profile,
  ringProfile,
  ringSector,
  solidOf,
  turnedProfile,
} from './solid.fixture.ts'
import { type SolidShape, solidShape } from './solid.ts'

const NO_MESHES = new Map<string, Mesh>()
const shapeOf = (raw: Parameters<typeof solidOf>[0]): SolidShape => solidShape(solidOf(raw), NO_MESHES)
const volumeOf = (shape: SolidShape): number => shape.volume.value as number

/** Two tessellations, and what they tend to: the error of an inscribed polygon falls with the square of its sides. */
function limitOf(mesh: (steps: number) => Mesh) {
  const [coarse, fine] = [60, 120].map((n) => {
    const raw = mesh(n)
    const integrals = meshIntegrals(outward(raw, meshIntegrals(raw).volume))
    return { raw, integrals }
  }) as [
    { raw: Mesh; integrals: ReturnType<typeof meshIntegrals> },
    { raw: Mesh; integrals: ReturnType<typeof meshIntegrals> },
  ]
  const to = (a: number, b: number): number => (4 * b - a) / 3
  const [a, b] = [coarse.integrals, fine.integrals]
  return {
    closed: auditMesh(fine.raw).closed,
    volume: to(a.volume, b.volume),
    centroid: a.centroid.map((x, i) => to(x, b.centroid[i] as number)),
    spread: a.spread.map((row, i) => row.map((x, j) => to(x, (b.spread[i] as Vec3)[j] as number))),
  }
}

const semicircle: Profile = Array.from({ length: 481 }, (_, k) => {
  const angle = (Math.PI * k) / 480
  return [1.5 - 2 * Math.cos(angle), 2 * Math.sin(angle)] as const
})

describe('a closed mesh of ever more facets tends to the closed form', () => {
  const FLANGE: Profile = [
    [0, 0.5],
    [3, 0.5],
    [3, 1],
    [1, 1.2],
    [1, 2],
    [0, 2],
  ]
  const metresOf = (profile: Profile) => profile.map(([x, r]) => [`${x} m`, `${r} m`])
  /** The arc of a sphere of radius 2 m from its rim, 1.2 m along from the centre, to its top. */
  const dish: Profile = [
    [2, 0],
    ...Array.from({ length: 201 }, (_, k): [number, number] => {
      const angle = (Math.acos(0.6) * (200 - k)) / 200
      return [0.8 + 2 * Math.cos(angle), 2 * Math.sin(angle)]
    }),
  ]
  const cases: [string, SolidShape, (steps: number) => Mesh][] = [
    [
      'ring',
      shapeOf(ringSector(2, 3, [1, 5], [0, 360])),
      (n) => turnedProfile(ringProfile(2, 3, [1, 5]), 0, 2 * Math.PI, n),
    ],
    [
      'ring sector across the crown',
      shapeOf(ringSector(5.9, 6.1, [-2, 1], [70, 130])),
      (n) => turnedProfile(ringProfile(5.9, 6.1, [-2, 1]), (70 * Math.PI) / 180, (60 * Math.PI) / 180, n),
    ],
    [
      'ring sector of more than half a turn',
      shapeOf(ringSector(1, 4, [0, 1], [20, 290])),
      (n) => turnedProfile(ringProfile(1, 4, [0, 1]), (20 * Math.PI) / 180, (270 * Math.PI) / 180, n),
    ],
    [
      'frustum',
      shapeOf(frustum(3, 1, [-1, 0, 0], [3, 0, 0])),
      (n) =>
        turnedProfile(
          ringProfile(0, 3, [-1, 3]).map(([x, r]) => [x, r && x === 3 ? 1 : r]),
          0,
          2 * Math.PI,
          n,
        ),
    ],
    [
      'sphere',
      shapeOf({ shape: 'sphere', radius: '2 m', centre: ['1.5 m', '0 m', '0 m'] }),
      (n) => turnedProfile(semicircle, 0, 2 * Math.PI, n),
    ],
    [
      'turned flange with a hub',
      shapeOf({
        shape: 'revolution',
        from: ['0 m', '0 m', '0 m'],
        to: ['1 m', '0 m', '0 m'],
        profile: metresOf(FLANGE),
      }),
      (n) => turnedProfile(FLANGE, 0, 2 * Math.PI, n),
    ],
    [
      'the same written the other way round',
      shapeOf({
        shape: 'revolution',
        from: ['0 m', '0 m', '0 m'],
        to: ['9 m', '0 m', '0 m'],
        profile: metresOf([...FLANGE].reverse()),
      }),
      (n) => turnedProfile(FLANGE, 0, 2 * Math.PI, n),
    ],
    [
      'dished end',
      shapeOf({ shape: 'spherical cap', radius: '1.6 m', from: ['2 m', '0 m', '0 m'], to: ['2.8 m', '0 m', '0 m'] }),
      (n) => turnedProfile(dish, 0, 2 * Math.PI, n),
    ],
  ]
  test.each(cases)('%s', (name, shape, mesh) => {
    const limit = limitOf(mesh)
    const digits = name === 'sphere' || name === 'dished end' ? 4e-5 : 3e-6
    expect(limit.volume / volumeOf(shape) - 1).toBeCloseTo(0, -Math.log10(digits))
    for (const axis of [0, 1, 2]) expect(limit.centroid[axis]).toBeCloseTo(shape.centroid[axis] as number, 4)
    const size = norm([shape.spread[0][0], shape.spread[1][1], shape.spread[2][2]])
    for (const [i, row] of shape.spread.entries())
      for (const [j, x] of row.entries())
        expect(((limit.spread[i] as number[])[j] as number) / size).toBeCloseTo(x / size, 4)
  })

  test('the meshes of rings are closed and wound one way round', () => {
    expect(limitOf((n) => turnedProfile(ringProfile(2, 3, [1, 5]), 0, 2 * Math.PI, n)).closed).toBe(true)
    expect(limitOf((n) => turnedProfile(ringProfile(2, 3, [1, 5]), 0, 1, n)).closed).toBe(true)
  })
})

const angle = fc.double({ min: -7, max: 7, noNaN: true })
const coordinate = fc.double({ min: -20, max: 20, noNaN: true })
const length = fc.double({ min: 0.1, max: 8, noNaN: true })
const turn = fc
  .tuple(angle, angle, angle)
  .map(([a, b, c]) => multiply(rotationAbout('z', a), multiply(rotationAbout('y', b), rotationAbout('x', c))))
const point = fc.tuple(coordinate, coordinate, coordinate)

const seenFrom = (m: Mat3, t: Mat3): Mat3 => multiply(multiply(t, m), transpose(t))
const near = (got: readonly number[], due: readonly number[], size = 1): void => {
  for (const [i, x] of got.entries()) expect(x / size).toBeCloseTo((due[i] as number) / size, 8)
}

describe('a rigid motion carries centroid and second moments along and leaves the volume', () => {
  test('of a frustum along any axis', () => {
    fc.assert(
      fc.property(length, length, length, turn, point, (r1, r2, h, t, shift) => {
        const upright = shapeOf(frustum(r1, r2, [0, 0, 0], [h, 0, 0]))
        const end = place({ turn: t, shift }, [h, 0, 0])
        const moved = shapeOf(frustum(r1, r2, shift, end))
        expect(volumeOf(moved) / volumeOf(upright)).toBeCloseTo(1, 9)
        near(moved.centroid, place({ turn: t, shift }, upright.centroid), 20)
        near(moved.spread.flat(), seenFrom(upright.spread, t).flat(), 20)
      }),
      { numRuns: 60 },
    )
  })

  test('of a mesh, far from the origin as well', () => {
    fc.assert(
      fc.property(length, length, length, turn, point, (a, b, c, t, shift) => {
        const mesh = boxMesh([0, 0, 0], [a, b, c])
        const far = scale(shift, 50)
        const moved = { ...mesh, vertices: mesh.vertices.map((v) => place({ turn: t, shift: far }, v)) }
        const [here, there] = [meshIntegrals(mesh), meshIntegrals(moved)]
        expect(there.volume / here.volume).toBeCloseTo(1, 8)
        near(there.centroid, place({ turn: t, shift: far }, here.centroid), 1000)
        near(there.spread.flat(), seenFrom(here.spread, t).flat(), 20)
      }),
      { numRuns: 60 },
    )
  })

  test('of a ring sector about its own axis', () => {
    fc.assert(
      fc.property(
        length,
        length,
        fc.integer({ min: 1, max: 359 }),
        fc.integer({ min: -359, max: 0 }),
        (r, t, sweep, from) => {
          const first = shapeOf(ringSector(r, r + t, [0, 1], [0, sweep]))
          const turned = shapeOf(ringSector(r, r + t, [0, 1], [from, from + sweep]))
          const by = rotationAbout('x', (from * Math.PI) / 180)
          near(turned.centroid, apply(by, first.centroid), 10)
          near(turned.spread.flat(), seenFrom(first.spread, by).flat(), 100)
        },
      ),
      { numRuns: 60 },
    )
  })
})

test('a mesh and the box it is drawn from agree', () => {
  const mesh = boxMesh([-0.5, -0.5, -0.5], [0.5, 0.5, 0.5])
  const meshes = new Map([['cube', mesh]])
  const raw = { shape: 'mesh', file: 'cube', scale: '1 m', at: ['3 m', '2 m', '1 m'] }
  const [drawn, box] = [solidShape(solidOf(raw, meshes), meshes), shapeOf(cubeAt(3, 2, 1))]
  expect(volumeOf(drawn)).toBeCloseTo(volumeOf(box), 12)
  near(drawn.centroid, box.centroid)
  near(drawn.spread.flat(), box.spread.flat())
})

test('a mesh in millimetres is as large as the same one in metres', () => {
  const mesh = boxMesh([0, 0, 0], [1000, 2000, 500])
  const meshes = new Map([['plate', mesh]])
  const shape = solidShape(solidOf({ shape: 'mesh', file: 'plate', scale: '1 mm' }, meshes), meshes)
  expect(volumeOf(shape)).toBeCloseTo(1, 12)
  near(shape.centroid, [0.5, 1, 0.25])
})

describe('which way a mesh lies', () => {
  /** Half a metre to the left, two up, three forward, by the axes of glTF 2.0 (specification, 3.4; from memory). */
  const mesh: Mesh = { ...boxMesh([0, 0, 0], [0.5, 2, 3]), axes: 'y up' }
  const meshes = new Map([['block', mesh]])
  const raw = { shape: 'mesh', file: 'block', scale: '1 m', at: ['10 m', '0 m', '0 m'] }

  test('one that lies y up is brought over: forward along x, left along y, up along z, and nothing mirrored', () => {
    const shape = solidShape(solidOf({ ...raw, axes: 'y up' }, meshes), meshes)
    near(shape.centroid, [11.5, 0.25, 1])
    expect(volumeOf(shape)).toBeCloseTo(3, 12)
  })

  test('one that was written in the frame of the machine is taken as it stands', () => {
    near(solidShape(solidOf({ ...raw, axes: 'machine' }, meshes), meshes).centroid, [10.25, 1, 1.5])
  })

  test('glTF that does not say is refused, and no axis is changed in silence', () => {
    const parts = { part: { name: 'Part', material: 'steel', solids: [raw] } }
    const { problems } = model(projectOf({ parts }), freshMemory(), meshes)
    expect(problems.map((p) => p.pointer)).toEqual(['/parts/part/solids/0/axes'])
  })

  test('a mesh that a change adds is looked for like one of a part', () => {
    const added = { mass: '10 kg', basis: 'estimated', solids: [raw] }
    const change = { what: 'More', kind: 'stiffen', parts: ['part'], status: 'approved', added }
    const parts = { part: { name: 'Part', material: 'steel', solids: [cubeAt(0, 0, 0)] } }
    const { problems } = model({ ...projectOf({ parts }), changes: { C1: change } }, freshMemory(), meshes)
    expect(problems.map((p) => p.pointer)).toContain('/changes/C1/added/solids/0/axes')
  })
})

test('a mesh that is not closed has no volume', () => {
  const whole = boxMesh([0, 0, 0], [1, 1, 1])
  const meshes = new Map([['open', { ...whole, triangles: whole.triangles.slice(1) }]])
  const shape = solidShape(solidOf({ shape: 'mesh', file: 'open', scale: '1 m' }, meshes), meshes)
  expect(shape.volume.value).toBeUndefined()
})

test('a beam of an L section weighs what two boxes weigh, wherever it lies', () => {
  const outline = [
    ['1 m', '2 m'],
    ['4 m', '2 m'],
    ['4 m', '2.5 m'],
    ['1.5 m', '2.5 m'],
    ['1.5 m', '5 m'],
    ['1 m', '5 m'],
  ]
  for (const [axis, place] of [
    ['z', (a: number, b: number, c: number): Vec3 => [a, b, c]],
    ['x', (a: number, b: number, c: number): Vec3 => [c, a, b]],
    ['y', (a: number, b: number, c: number): Vec3 => [b, c, a]],
  ] as const)
    for (const corners of [outline, [...outline].reverse()]) {
      const beam = shapeOf({ shape: 'extrusion', axis, between: ['7 m', '1 m'], outline: corners })
      const box = (from: Vec3, to: Vec3) => {
        const [p, q] = [place(...from), place(...to)]
        return shapeOf({
          shape: 'box',
          centre: p.map((x, i) => `${(x + (q[i] as number)) / 2} m`),
          size: p.map((x, i) => `${(q[i] as number) - x} m`),
        })
      }
      const parts = [box([1, 2, 1], [4, 2.5, 7]), box([1, 2.5, 1], [1.5, 5, 7])]
      const V = parts.reduce((sum, b) => sum + volumeOf(b), 0)
      const centre = [0, 1, 2].map((i) =>
        parts.reduce((sum, b) => sum + (volumeOf(b) * (b.centroid[i] as number)) / V, 0),
      )
      expect(volumeOf(beam)).toBeCloseTo(V, 9)
      near(beam.centroid, centre)
      for (let i = 0; i < 3; i++)
        for (let j = 0; j < 3; j++) {
          const about = parts.reduce((sum, b) => {
            const off = (k: number): number => (b.centroid[k] as number) - (centre[k] as number)
            return sum + (volumeOf(b) / V) * (((b.spread[i] as Vec3)[j] as number) + off(i) * off(j))
          }, 0)
          expect((beam.spread[i] as Vec3)[j]).toBeCloseTo(about, 9)
        }
    }
})

const bodies: [string, SolidShape][] = [
  [
    'turned flange',
    shapeOf({
      shape: 'revolution',
      from: ['1 m', '0 m', '0 m'],
      to: ['1 m', '2 m', '1 m'],
      profile: [
        ['0 m', '0.5 m'],
        ['2 m', '0.5 m'],
        ['2 m', '1 m'],
        ['0.5 m', '1 m'],
        ['0.5 m', '2 m'],
        ['0 m', '2 m'],
      ],
    }),
  ],
  [
    'dished end',
    shapeOf({ shape: 'spherical cap', radius: '2 m', from: ['0 m', '1 m', '0 m'], to: ['1 m', '1 m', '1 m'] }),
  ],
  [
    'extruded angle',
    shapeOf({
      shape: 'extrusion',
      axis: 'x',
      between: ['0 m', '2 m'],
      turn: '30 deg',
      outline: [
        ['0 m', '0 m'],
        ['2 m', '0 m'],
        ['2 m', '1 m'],
        ['1 m', '1 m'],
        ['1 m', '2 m'],
        ['0 m', '2 m'],
      ],
    }),
  ],
  ['ring sector', shapeOf(ringSector(2, 3, [0, 1], [30, 100]))],
  ['wide ring sector', shapeOf(ringSector(2, 3, [0, 1], [-100, 150]))],
  ['whole ring', shapeOf(ringSector(2, 3, [0, 1], [0, 360]))],
  ['cylinder', shapeOf(frustum(1, 1, [0, 1, 2], [2, 0, 3]))],
  ['cone', shapeOf(frustum(2, 0, [0, 1, 2], [2, 0, 3]))],
  ['sphere', shapeOf({ shape: 'sphere', radius: '2 m', centre: ['1 m', '2 m', '3 m'] })],
  ['box', shapeOf(cubeAt(1, 2, 3))],
  [
    'radial box',
    shapeOf({
      shape: 'radial box',
      along: ['0 m', '2 m'],
      radius: '3 m',
      radial: '1 m',
      across: '0.5 m',
      angle: '40 deg',
    }),
  ],
]

/** Points of a body, taken from a box about it by a fixed low-discrepancy sequence. */
function pointsIn({ body }: SolidShape, count: number): Vec3[] {
  const { min, max } = boundsOf([body], { turn: rotationAbout('x', 0), shift: [0, 0, 0] })
  const at = (n: number, base: number): number => {
    let [value, share] = [0, 1]
    for (let k = n; k > 0; k = Math.floor(k / base)) {
      share /= base
      value += share * (k % base)
    }
    return value
  }
  return Array.from({ length: count }, (_, n): Vec3 => {
    const unitPoint = [at(n + 1, 2), at(n + 1, 3), at(n + 1, 5)]
    return [0, 1, 2].map(
      (i) => (min[i] as number) + (unitPoint[i] as number) * ((max[i] as number) - (min[i] as number)),
    ) as unknown as Vec3
  }).filter((p) => holdsPoint(body, p))
}

describe.each(bodies)('the support of a %s', (_, shape) => {
  const points = pointsIn(shape, 40_000)

  test('is reached, and by no point passed, in any direction', () => {
    fc.assert(
      fc.property(turn, (t) => {
        const direction = apply(t, [1, 0, 0])
        const reach = supportOf(shape.body, direction)
        const most = Math.max(...points.map((p) => dot(p, direction)))
        expect(most).toBeLessThanOrEqual(reach + 1e-9)
        expect(reach - most).toBeLessThan(0.25)
      }),
      { numRuns: 40 },
    )
  })

  test('encloses a share of its box that agrees with its volume', () => {
    const { min, max } = boundsOf([shape.body], { turn: rotationAbout('x', 0), shift: [0, 0, 0] })
    const box = (max[0] - min[0]) * (max[1] - min[1]) * (max[2] - min[2])
    expect((points.length / 40_000) * box).toBeCloseTo(volumeOf(shape), 1)
    const mean = points.reduce<number[]>((sum, p) => sum.map((s, i) => s + (p[i] as number) / points.length), [0, 0, 0])
    for (const [i, x] of mean.entries()) expect(Math.abs(x - (shape.centroid[i] as number))).toBeLessThan(0.02)
  })
})

test('the inner corner of a narrow ring sector counts when one looks from the axis', () => {
  const shape = shapeOf(ringSector(2, 3, [0, 1], [80, 100]))
  expect(-supportOf(shape.body, [0, 0, -1])).toBeCloseTo(2 * Math.cos((10 * Math.PI) / 180), 12)
  expect(supportOf(shape.body, [0, 0, 1])).toBeCloseTo(3, 12)
})
