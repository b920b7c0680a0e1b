import { expect, test } from 'vitest'
import { aroundAll } from './around.ts'
import type { Point2 } from './convex.ts'

const square = (x: number, y: number, a: number): Point2[] => [
  [x, y],
  [x + a, y],
  [x + a, y + a],
  [x, y + a],
]
const lengthOf = (lines: readonly (readonly Point2[])[]): number =>
  lines
    .flatMap((l) => l.slice(1).map((p, i) => [l[i] as Point2, p] as const))
    .reduce((sum, [a, b]) => sum + Math.hypot(b[0] - a[0], b[1] - a[1]), 0)

test.each<[string, Point2[][], number, number]>([
  ['one alone is its own outline', [square(0, 0, 2)], 8, 1],
  ['two apart are two', [square(0, 0, 2), square(5, 0, 2)], 16, 2],
  ['two that overlap by a quarter lose the edges inside each other', [square(0, 0, 2), square(1, 1, 2)], 12, 1],
  ['one inside another is not seen', [square(0, 0, 4), square(1, 1, 1)], 16, 1],
  ['two alike are one', [square(0, 0, 2), square(0, 0, 2)], 8, 1],
])('of outlines together, %s', (_, outlines, length, lines) => {
  const around = aroundAll(outlines)
  expect(lengthOf(around)).toBeCloseTo(length, 4)
  expect(around).toHaveLength(lines)
})
