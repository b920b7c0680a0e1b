import { expect, test } from 'vitest'
import { type ShapeMesh, shapeMesh } from './shapeMesh.ts'
import { type SolidShape, shapePoints } from './solids.ts'
import { domeProfile, extrudedShape } from './swept.ts'

/** Volume that triangles enclose, each seen from outside anticlockwise: Σ a·(b×c)/6. */
function volumeOf({ positions: p, index }: ShapeMesh): number {
  let sum = 0
  for (let k = 0; k < index.length; k += 3) {
    const [i, j, l] = [index[k], index[k + 1], index[k + 2]].map((n) => (n as number) * 3) as [number, number, number]
    const at = (n: number): number => p[n] as number
    sum +=
      at(i) * (at(j + 1) * at(l + 2) - at(j + 2) * at(l + 1)) -
      at(i + 1) * (at(j) * at(l + 2) - at(j + 2) * at(l)) +
      at(i + 2) * (at(j) * at(l + 1) - at(j + 1) * at(l))
  }
  return sum / 6
}

/** Share by which a regular polygon of chords falls short of its circle: within the sagitta the shapes are drawn with. */
const CHORD_LOSS = 0.02

const SOLIDS: readonly { name: string; solid: SolidShape; volume: number }[] = [
  {
    name: 'a box turned by 30°',
    solid: { shape: 'box', centre: [1, 2, 3], size: [2, 3, 4], turn: Math.PI / 6 },
    volume: 24,
  },
  {
    name: 'a third of a ring',
    solid: { shape: 'ring sector', inner: 5, outer: 6, along: [0, 2], angles: [0.2, 0.2 + (2 * Math.PI) / 3] },
    volume: ((36 - 25) * Math.PI * 2) / 3,
  },
  {
    name: 'a whole ring',
    solid: { shape: 'ring sector', inner: 5, outer: 6, along: [0, 2], angles: [0, 2 * Math.PI] },
    volume: (36 - 25) * Math.PI * 2,
  },
  {
    name: 'a cone askew',
    solid: { shape: 'cylinder', radii: [2, 1], from: [0, 0, 0], to: [3, 0, 4] },
    volume: (Math.PI * 5 * (4 + 2 + 1)) / 3,
  },
  { name: 'a ball', solid: { shape: 'sphere', radius: 3, centre: [1, 1, 1] }, volume: 36 * Math.PI },
  {
    name: 'a section of a rectangle, turned: a ring',
    solid: {
      shape: 'turned',
      from: [0, 0, 0],
      to: [0, 0, 1],
      profile: [
        [0, 2],
        [0, 3],
        [1, 3],
        [1, 2],
      ],
    },
    volume: 5 * Math.PI,
  },
  {
    name: 'a dome half as high as it is wide: half a ball',
    solid: { shape: 'turned', from: [0, 0, 0], to: [2, 0, 0], profile: domeProfile(2, 2) },
    volume: (2 / 3) * Math.PI * 8,
  },
  {
    name: 'an angle drawn out',
    solid: extrudedShape(
      [
        [0, 0],
        [2, 0],
        [2, 1],
        [1, 1],
        [1, 3],
        [0, 3],
      ],
      'y',
      [1, 4],
      0.3,
    ),
    volume: 4 * 3,
  },
]

for (const { name, solid, volume } of SOLIDS) {
  test(`${name} is closed, faces outwards and holds its volume`, () => {
    const held = volumeOf(shapeMesh([solid]))
    expect(held).toBeLessThanOrEqual(volume * (1 + 1e-9))
    expect(held).toBeGreaterThan(volume * (1 - CHORD_LOSS * (solid.shape === 'sphere' ? 2 : 1)))
  })
}

test('moved away from the origin, a closed shape holds the same volume: no face is missing or turned over', () => {
  for (const { solid } of SOLIDS) {
    const mesh = shapeMesh([solid])
    const moved = { ...mesh, positions: mesh.positions.map((x, i) => x + [100, -70, 40][i % 3]!) }
    expect(volumeOf(moved)).toBeCloseTo(volumeOf(mesh), 6)
  }
})

test('points of a solid reach as far as its triangles do', () => {
  for (const { solid } of SOLIDS) {
    const { positions } = shapeMesh([solid])
    for (let k = 0; k < 3; k++) {
      const drawn = Math.max(...positions.filter((_, i) => i % 3 === k))
      const bound = Math.max(...shapePoints(solid).map((p) => p[k as 0 | 1 | 2]))
      expect(bound).toBeGreaterThan(drawn - 0.06)
    }
  }
})
