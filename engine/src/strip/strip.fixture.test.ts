import { expect, test } from 'vitest'
import { stripKinds } from './kinds.ts'
import { fixtures } from './strip.fixture.ts'

test.each(stripKinds.map(({ id }) => id))('%s passes, fails and is open', (id) => {
  const { pass, fail, open } = fixtures[id] ?? {}
  expect(['pass', 'near']).toContain(pass?.().verdict)
  const failed = fail?.()
  expect(failed?.verdict).toBe('fail')
  expect(failed?.reasons.length).toBeGreaterThan(0)
  expect(open?.().verdict).toBe('open')
})
