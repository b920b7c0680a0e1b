import { applyPatch, type Patch } from '@shieldwright/engine/working/patch.ts'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { LoggedChange } from '../host.ts'
import type { Trial } from '../state.ts'
import { afterRedo, afterUndo, movedOn, NO_HISTORY, recalled, remembered, withEdit } from './history.ts'
import { editsAtFault, movedOnto, withFurther, withoutEdits } from './trial.ts'

const kept = { parts: { hub: { mass: '40 t' }, rim: { mass: '9 t' } }, order: ['a', 'b'] }

function tried(...patches: Patch[]): Trial {
  let trial: Trial | undefined
  for (const patch of patches) {
    const next = withFurther(kept, trial, patch, `edit of ${patch[0]?.path}`)
    if ('problems' in next) throw new Error(JSON.stringify(next.problems))
    trial = next.trial
  }
  return trial as Trial
}

const replace = (path: string, value: unknown): Patch => [{ op: 'replace', path, value }]
const logged = (patch: Patch): LoggedChange => ({ revision: 2, at: '', by: 'other', why: 'theirs', patch })

test('edits are looked at together; one that is typed back to what is kept is none', () => {
  const both = tried(replace('/parts/hub/mass', '41 t'), replace('/parts/rim/mass', '10 t'))
  expect(both.patch).toHaveLength(2)
  expect(both.what).toBe('edit of /parts/hub/mass; edit of /parts/rim/mass')
  const back = tried(
    replace('/parts/hub/mass', '41 t'),
    replace('/parts/rim/mass', '10 t'),
    replace('/parts/hub/mass', '40 t'),
  )
  expect(back.patch).toEqual(replace('/parts/rim/mass', '10 t'))
  expect(back.what).toBe('edit of /parts/rim/mass')
})

test('an edit whose own text is wrong is taken out, and the others stand', () => {
  const both = tried(replace('/parts/hub/mass', 'x'), replace('/parts/rim/mass', '10 t'))
  const wrong = editsAtFault(both, [{ pointer: '/parts/hub/mass', found: '"x"', expected: 'a mass with its unit' }])
  expect(wrong.map((e) => e.pointer)).toEqual(['/parts/hub/mass'])
  expect(withoutEdits(kept, both, wrong)?.patch).toEqual(replace('/parts/rim/mass', '10 t'))
})

test('a problem that an edit makes elsewhere leaves it where it is', () => {
  const gone = tried([{ op: 'remove', path: '/parts/hub' }])
  expect(editsAtFault(gone, [{ pointer: '/pieces/head/parts/0', found: '"hub"', expected: 'a part' }])).toEqual([])
})

test('an edit is moved onto a change it does not meet, and says both values where it meets one', () => {
  const mine = tried(replace('/parts/hub/mass', '41 t'))
  const moved = movedOnto(kept, mine, [logged(replace('/parts/rim/mass', '8 t'))])
  expect(moved).toMatchObject({ trial: { document: { parts: { hub: { mass: '41 t' }, rim: { mass: '8 t' } } } } })
  expect(movedOnto(kept, mine, [logged(replace('/parts/hub/mass', '39 t'))])).toMatchObject({
    conflict: {
      clashes: [{ pointer: '/parts/hub/mass', before: '40 t', mine: '41 t', theirs: '39 t' }],
      changed: [{ by: 'other', why: 'theirs' }],
    },
  })
})

test('moved onto a change, an edit gives the same as the change put on top of the edit', () => {
  const place = fc.constantFrom('/parts/hub/mass', '/parts/rim/mass', '/order')
  let compared = 0
  fc.assert(
    fc.property(place, place, fc.nat(), fc.nat(), (a, b, x, y) => {
      const [mine, theirs] = [replace(a, `${x} t`), replace(b, `${y} kip`)]
      const moved = movedOnto(kept, tried(mine), [logged(theirs)])
      if ('conflict' in moved) {
        expect(a).toBe(b)
        return
      }
      compared++
      const other = applyPatch((applyPatch(kept, mine) as { document: unknown }).document, theirs)
      expect({ document: moved.trial.document }).toEqual(other)
    }),
  )
  expect(compared).toBeGreaterThan(20)
})

test('undo and redo walk the same way back and forth; a new edit ends what could be redone', () => {
  const edit = (revision: number) => ({ revision, what: `${revision}`, forward: [], inverse: [], touched: [] })
  const two = withEdit(withEdit(NO_HISTORY, edit(2)), edit(3))
  expect(afterRedo(afterUndo(two))).toEqual(two)
  expect(withEdit(afterUndo(two), edit(5))).toEqual({ done: [edit(2), edit(5)], undone: [] })
  expect(recalled(remembered(afterUndo(two)), [edit(2), edit(3), edit(4)])).toEqual(afterUndo(two))
  expect(afterUndo(NO_HISTORY)).toEqual(NO_HISTORY)
})

test('an edit can be taken back only while what it left still stands there', () => {
  const touched = [{ pointer: '/parts/hub/mass', before: '38 t', after: '40 t' }]
  expect(movedOn(kept, touched, 'after')).toEqual([])
  expect(movedOn(kept, touched, 'before')).toEqual(touched)
})
