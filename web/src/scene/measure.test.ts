import { expect, test } from 'vitest'
import { axisEnds, snapped, spansOf } from './measure.ts'
import type { SceneItem } from './sceneItem.ts'

test('three across, four along and twelve up lie thirteen apart', () => {
  expect(spansOf({ from: [1, 1, 1], to: [4, 5, 13] })).toEqual({ distance: 13, dx: 3, dy: 4, dz: 12 })
})

test('a measure holds on to the nearest corner within reach, and else stays where it was pointed', () => {
  const away = ([x]: readonly [number, number, number]): number => x
  expect(
    snapped(
      [9, 9, 9],
      [
        [8, 0, 0],
        [4, 0, 0],
      ],
      away,
    ),
  ).toEqual({ at: [4, 0, 0], held: true })
  expect(snapped([9, 9, 9], [[80, 0, 0]], away)).toEqual({ at: [9, 9, 9], held: false })
})

test('a ring is measured from the middle of its faces', () => {
  const solids = [{ shape: 'ring sector', inner: 2, outer: 3, along: [0.5, 1.5], angles: [0, 6] }] as const
  expect(axisEnds({ solids } as unknown as SceneItem)).toEqual([
    [0.5, 0, 0],
    [1.5, 0, 0],
  ])
})
