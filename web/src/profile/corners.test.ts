import type { Polygon } from '@shieldwright/engine/numeric/polygon.ts'
import { describe, expect, test } from 'vitest'
import {
  cornersAt,
  drawnAt,
  edgeLength,
  editWords,
  faultOf,
  movedCorner,
  placesOf,
  pulledTo,
  withAdded,
  withMoved,
  withoutCorner,
} from './corners.ts'

const RECTANGLE = [
  ['0 m', '500 mm'],
  ['2 ft', '500 mm'],
  ['2 ft', '1 m'],
  ['0 m', '1 m'],
]
const of = (profile: unknown) => cornersAt({ profile }, '/profile') ?? []

test('the lines that are drawn are those of solids, of parts and of what a change adds', () => {
  expect(drawnAt('/parts/a/solids/0/profile')).toBe('revolution')
  expect(drawnAt('/changes/c/added/solids/2/outline')).toBe('extrusion')
  expect(drawnAt('/ground/soil/profile')).toBeUndefined()
})

test('corners are read in their own units, and a line with one that cannot be read is not drawn', () => {
  expect(placesOf(of(RECTANGLE))[1]?.[0]).toBeCloseTo(0.6096, 12)
  expect(cornersAt({ profile: [['0 m', 'a lot']] }, '/profile')).toBeUndefined()
})

test('a corner that moves keeps the unit it was typed in, and the coordinate that did not move keeps its text', () => {
  const [first, second] = of(RECTANGLE)
  if (first === undefined || second === undefined) throw new Error('no corners')
  expect(movedCorner(first, [0, 0.45], 'US').texts).toEqual(['0 m', '450 mm'])
  expect(movedCorner(second, [0.9144, 0.5], 'SI').texts).toEqual(['3 ft', '500 mm'])
})

test('a corner that is added lies half-way along its edge and changes nothing of the line; taken away again it is as before', () => {
  const corners = of(RECTANGLE)
  for (let i = 0; i < corners.length; i++) {
    const more = withAdded(corners, i, 'SI')
    expect(more).toHaveLength(5)
    expect(edgeLength(more, i)).toBeCloseTo(edgeLength(corners, i) / 2, 9)
    expect(withoutCorner(more, i + 1)).toEqual(corners)
  }
})

describe('what goes round no solid is refused by name', () => {
  const square: Polygon = [
    [0, 0],
    [1, 0],
    [1, 1],
    [0, 1],
  ]
  const bow: Polygon = [
    [0, 0],
    [1, 1],
    [1, 0],
    [0, 1],
  ]
  test('a square is none of these', () => expect(faultOf(square, 'extrusion')).toBeUndefined())
  test.each<[string, Polygon, RegExp]>([
    ['a bow', bow, /edge 1–2 meets edge 3–4/],
    ['a corner beyond the axis', square.map(([x, r]) => [x, r - 0.5]), /Corner 1 lies beyond the axis/],
    ['two corners', square.slice(0, 2), /three are due/],
    ['an edge that runs back along itself', [...square.slice(0, 2), [0.5, 0], [1, 1]], /folds back on/],
  ])('%s', (_, line, said) => expect(faultOf(line, 'revolution')).toMatch(said))
  test('an outline may lie on either side of its origin', () =>
    expect(
      faultOf(
        square.map(([a, b]) => [a, b - 0.5]),
        'extrusion',
      ),
    ).toBeUndefined())
})

test('a pulled corner comes to the grid, or level with another corner that is near, and keeps the direction it was not pulled in', () => {
  const how = { by: 0.05, reach: 0.02 }
  const [x, y] = pulledTo([0, 0.333], [0.718, 0.334], [], how)
  expect(x).toBeCloseTo(0.7, 12)
  expect(y).toBe(0.333)
  expect(pulledTo([0, 0], [0.718, 0.5], [[0.731, 3]], how)[0]).toBe(0.731)
})

test('an edit says which corner went where, or how many', () => {
  const moved = withMoved(of(RECTANGLE), 2, [0.6096, 1.2], 'SI').map((c) => c.texts)
  expect(editWords(RECTANGLE, moved)).toBe('corner 3, 2 ft, 1 m → 2 ft, 1.2 m')
  expect(editWords(RECTANGLE, moved.slice(1))).toBe('4 corners → 3 corners')
})
