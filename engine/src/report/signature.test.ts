import { expect, test } from 'vitest'
import { signatureOf } from './report.fixture.ts'

test('a signature stands while all that it signed is as it was; one thing that is another overtakes it, and is named', () => {
  expect(signatureOf([]).verdict).toBe('pass')
  const overtaken = signatureOf([{ what: 'input', at: '/parts/crown/mass/value' }], 'revision 7, planner')
  expect(overtaken.verdict).toBe('fail')
  expect(overtaken.reasons).toEqual(['overtaken by revision 7, planner', 'input /parts/crown/mass/value is another'])
})

test('where a project has faults nothing can be held against it: open, never a pass', () => {
  expect(signatureOf(undefined).verdict).toBe('open')
})
