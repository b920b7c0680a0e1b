import { expect, test } from 'vitest'
import { NO_PREVIEW } from '../engine/noPreview.ts'
import type { CheckView, Moved } from '../engine/protocol.ts'
import { inOrder, restartWords, turnOf, turnsOf } from './moved.ts'

const moved = (id: string, was: CheckView['verdict'] | undefined, is: CheckView['verdict'], use = 1): Moved => ({
  check: { id, verdict: is, utilisation: use } as CheckView,
  before: was === undefined ? undefined : ({ id, verdict: was, utilisation: 0.5 } as CheckView),
})

test('an edit makes a finding newly fail, mends it, or only moves it', () => {
  expect(turnOf(moved('a', 'near', 'fail'))).toBe('newly FAIL')
  expect(turnOf(moved('a', undefined, 'fail'))).toBe('newly FAIL')
  expect(turnOf(moved('a', 'fail', 'near'))).toBe('mended')
  expect(turnOf(moved('a', 'fail', 'open'))).toBe('newly open')
  expect(turnOf(moved('a', 'near', 'pass'))).toBe('newly passing')
  expect(turnOf(moved('a', 'near', 'near'))).toBe('moves')
})

test('what newly fails is read first, then what moved furthest', () => {
  const all = [moved('small', 'pass', 'pass', 0.6), moved('far', 'pass', 'pass', 0.9), moved('bad', 'near', 'fail')]
  expect(inOrder(all).map((m) => m.check.id)).toEqual(['bad', 'far', 'small'])
  expect(turnsOf(all)).toEqual([
    ['newly FAIL', 1],
    ['moves', 2],
  ])
})

test('days of the restart are said as later or earlier', () => {
  const days = (before: number, after: number) =>
    restartWords({ ...NO_PREVIEW, restartBefore: before * 86_400_000, restartAfter: after * 86_400_000 })
  expect(days(10, 12.5)).toBe('restart 2.5 d later')
  expect(days(10, 8)).toBe('restart 2.0 d earlier')
  expect(days(10, 10.01)).toBe('restart stays')
})
