import { createHash } from 'node:crypto'
import { expect, test } from 'vitest'
import { type BasisChange, basisChanges, basisOf, figuresOf, type Signed } from './basis.ts'
import { demoDocument } from './demo.fixture.ts'
import { startDerivation, tryChange } from './derivation.ts'
import type { Stages } from './derive.ts'
import { sameContent } from './working/memory.ts'
import type { Patch } from './working/patch.ts'

const digest = (text: string): string => createHash('sha256').update(text).digest('hex')
const start = startDerivation(demoDocument())
const stages = start.derived.stages as Stages
const sheet: Signed = { kind: 'lift-sheet', subject: 'motor-04-out' }
const signed = basisOf(stages, sheet, digest)

const after = (patch: Patch): Stages => {
  const changed = tryChange(start, patch).derivation?.derived.stages
  if (changed === undefined) throw new Error('the edit leaves no project')
  return changed
}

const changesAfter = (patch: Patch, of: Signed = sheet): BasisChange[] => {
  const basis = of === sheet ? signed : basisOf(stages, of, digest)
  if (basis === undefined) throw new Error('nothing to sign')
  return basisChanges(basis, after(patch), of, digest)
}

test('what was signed a moment ago stands, and the same value in another unit is the same', () => {
  expect(changesAfter([])).toEqual([])
  expect(changesAfter([{ op: 'replace', path: '/lifts/motor-04-out/radius', value: '25400 mm' }])).toEqual([])
})

test('edits of other things leave a lift sheet standing', () => {
  const elsewhere: Patch = [
    { op: 'replace', path: '/lifts/crown-out/note', value: 'with another crew' },
    { op: 'replace', path: '/programme/activities/B060/days', value: [30, 40, 60] },
    { op: 'add', path: '/programme/today', value: '2031-12-01' },
    { op: 'replace', path: '/parts/FS-CR/mass/value', value: '48 t' },
    { op: 'remove', path: `/services/${Object.keys(demoDocument().services)[0]}` },
  ]
  for (const operation of elsewhere) expect([operation.path, changesAfter([operation])]).toEqual([operation.path, []])
})

test('what a lift carries and hangs from overtakes its sheet, by the address that was edited', () => {
  const edits: [string, unknown][] = [
    ['/parts/MD-MOT/mass/value', '3.9 t'],
    ['/lifts/motor-04-out/radius', '26 m'],
    ['/pieces/motor-04/points/front/rated', '1.9 t'],
    ['/stock/RG-S8/rated', '3 t'],
  ]
  for (const [path, value] of edits)
    expect(changesAfter([{ op: 'replace', path, value }]).map(({ at }) => at)).toEqual(
      expect.arrayContaining([expect.stringMatching(new RegExp(`^${path}`))]),
    )
})

test('while the basis is the same, every figure is, whichever part changes its mass', () => {
  const figures = figuresOf(stages, sheet)
  let [stood, fell] = [0, 0]
  const massed = Object.entries(demoDocument().parts).filter(
    ([, part]) => (part.mass as { value?: unknown } | undefined)?.value,
  )
  for (const id of [...massed.slice(0, 12).map(([part]) => part), 'MD-MOT']) {
    const edited = tryChange(start, [{ op: 'replace', path: `/parts/${id}/mass/value`, value: '2.345 t' }]).derivation
      ?.derived.stages
    if (edited === undefined) continue // The mass does not fit the shape: no project, nothing to compare.
    const stands = basisChanges(signed as never, edited, sheet, digest).length === 0
    if (stands) expect([id, sameContent(figuresOf(edited, sheet), figures)]).toEqual([id, true])
    stood += Number(stands)
    fell += Number(!stands)
  }
  expect(stood).toBeGreaterThan(8)
  expect(fell).toBeGreaterThan(0)
})

test('a record is bound to all that it holds, and to nothing beside it', () => {
  const of: Signed = { kind: 'test', subject: `/tests/${Object.keys(stages.model.project.tests)[0]}` }
  expect(changesAfter([{ op: 'replace', path: '/lifts/crown-out/note', value: 'x' }], of)).toEqual([])
  const changed = changesAfter([{ op: 'replace', path: `${of.subject}/test`, value: 'Another test' }], of)
  expect(changed).toMatchObject([{ what: 'input', at: `${of.subject}/test` }])
  expect(basisOf(stages, { kind: 'test', subject: '/tests/none' }, digest)).toBeUndefined()
})

test('another engine overtakes, and a subject that is gone as well', () => {
  const older = { ...(signed as NonNullable<typeof signed>), engine: '0.0.1' }
  expect(basisChanges(older, stages, sheet, digest)).toMatchObject([{ what: 'engine', before: '0.0.1' }])
  expect(basisChanges(older, stages, { ...sheet, subject: 'gone' }, digest)).toMatchObject([{ what: 'subject' }])
})
