import { solidShape } from '@shieldwright/engine/mass/index.ts'
import { solidOf } from '@shieldwright/engine/mass/solid.fixture.ts'
import { expect, test } from 'vitest'
import { redrawn } from './redrawn.ts'

type Raw = Parameters<typeof solidOf>[0]

const SHAPES: [string, Raw][] = [
  ['cylinder', { shape: 'cylinder', radius: '0.5 m', from: ['1.95 m', '0 m', '0 m'], to: ['2.6 m', '0.4 m', '0 m'] }],
  ['cone', { shape: 'cone', radii: ['3 ft', '2 ft'], from: ['0 m', '0 m', '0 m'], to: ['0 m', '1 m', '1 m'] }],
  ['cone to a point', { shape: 'cone', radii: ['0 m', '2 m'], from: ['0 m', '0 m', '0 m'], to: ['3 m', '0 m', '0 m'] }],
  [
    'ring',
    { shape: 'ring sector', inner: '0.5 m', outer: '1.45 m', along: ['1.25 m', '2.6 m'], angles: ['0 deg', '360 deg'] },
  ],
  [
    'ring written from the front',
    { shape: 'ring sector', inner: '1 m', outer: '2 m', along: ['2 m', '1 m'], angles: ['-90 deg', '270 deg'] },
  ],
  ['box', { shape: 'box', centre: ['1 m', '-2 m', '30 cm'], size: ['2 m', '1500 mm', '1 ft'] }],
  [
    'box on a ray',
    {
      shape: 'radial box',
      along: ['1.25 m', '2.6 m'],
      radius: '3.575 m',
      radial: '4.25 m',
      across: '0.95 m',
      angle: '30 deg',
    },
  ],
]

test.each(SHAPES)('a %s drawn as a line has the volume, the centre and the spread that it had', (_, raw) => {
  const line = redrawn({ ...raw, fill: 0.4, op: 'cut' }, 'SI')
  if (line === undefined) throw new Error('not drawn')
  expect(line).toMatchObject({ fill: 0.4, op: 'cut' })
  const [was, is] = [solidOf(raw), solidOf({ ...line, fill: undefined, op: 'add' })].map((s) =>
    solidShape(s, new Map()),
  )
  if (was === undefined || is === undefined) throw new Error('no shape')
  // Lengths are written to 0.01 mm.
  expect((is.volume.value ?? 0) / (was.volume.value ?? 1)).toBeCloseTo(1, 4)
  for (const [i, c] of was.centroid.entries()) expect(is.centroid[i]).toBeCloseTo(c, 4)
  for (const [i, row] of was.spread.entries())
    for (const [j, s] of row.entries()) expect(is.spread[i]?.[j]).toBeCloseTo(s, 4)
})

test('a part of a ring, a sphere and a solid that is half typed stay as they are', () => {
  const sector = {
    shape: 'ring sector',
    inner: '1 m',
    outer: '2 m',
    along: ['0 m', '1 m'],
    angles: ['0 deg', '90 deg'],
  }
  expect(redrawn(sector, 'SI')).toBeUndefined()
  expect(redrawn({ shape: 'sphere', radius: '1 m', centre: ['0 m', '0 m', '0 m'] }, 'SI')).toBeUndefined()
  expect(redrawn({ shape: 'cylinder', radius: '', from: ['', '', ''], to: ['', '', ''] }, 'SI')).toBeUndefined()
})
