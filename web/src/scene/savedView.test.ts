import { model } from '@shieldwright/engine/model/index.ts'
import { freshMemory } from '@shieldwright/engine/working/memory.ts'
import { applyPatch } from '@shieldwright/engine/working/patch.ts'
import { expect, test } from 'vitest'
import { keptView, readView, type SavedView, viewsIn, writtenView } from './savedView.ts'

const view: SavedView = {
  name: 'Crown, from the drive',
  target: [1.5, -2, -20.25],
  around: -1.2,
  up: 0.3,
  distance: 42.5,
  parallel: true,
  hidden: ['ground', 'services'],
  through: true,
  ghost: false,
  section: { axis: 1, at: 0.5, flipped: true },
  selected: '/pieces/crown',
  along: 3.25,
}
const empty = { schemaVersion: 1, about: { title: 'Shaft' } }

test('a view is read back as it was kept, to a millimetre and a thousandth of a degree', () => {
  const back = readView(writtenView(view))
  expect(back.around).toBeCloseTo(view.around, 4)
  expect(back.up).toBeCloseTo(view.up, 4)
  expect({ ...back, around: 0, up: 0 }).toEqual({ ...view, around: 0, up: 0 })
})

test('a kept view makes a project that reads, and a second of the same name stands beside it', () => {
  let document: unknown = empty
  for (let n = 0; n < 2; n++) {
    const patched = applyPatch(document, keptView(document, view))
    if ('problems' in patched) throw new Error(patched.problems[0]?.expected)
    document = patched.document
  }
  expect(Object.keys(viewsIn(document))).toEqual(['crown-from-the-drive', 'crown-from-the-drive-2'])
  const read = model(document, freshMemory())
  expect(read.problems).toEqual([])
  expect(read.model?.project.views['crown-from-the-drive']?.distance.value).toBe(42.5)
})
