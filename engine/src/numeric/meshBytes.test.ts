import { expect, test } from 'vitest'
import type { Mesh } from './mesh.ts'
import { meshBytes, meshOfBytes } from './meshBytes.ts'

test('a mesh comes back from its bytes to the last digit, with the way it lies', () => {
  const mesh: Mesh = {
    vertices: [
      [0.1, -2e-17, 1e9],
      [1 / 3, Math.PI, -0.5],
      [7, 8, 9],
      [1, 1, 1],
    ],
    triangles: [
      [0, 1, 2],
      [3, 2, 1],
    ],
  }
  expect(meshOfBytes(meshBytes(mesh).buffer)).toEqual(mesh)
  expect(meshOfBytes(meshBytes({ ...mesh, axes: 'y up' }).buffer)).toEqual({ ...mesh, axes: 'y up' })
})
