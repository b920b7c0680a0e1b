import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { readText } from '../model/text.ts'
import { modelOf, programmeFor } from './programme.fixture.ts'
import { shiftsAt } from './shift.ts'

const DAY = 86_400
const file = new URL('../../../examples/under-way/project.yaml', import.meta.url)
const document = readText(readFileSync(file, 'utf8')).document as Record<string, unknown>
const result = programmeFor(document)

test('the example under way is nine days late, and its causes add up to them, the work that took longer before all', () => {
  const { slippage, progress } = result
  // 9 days: from 6 October 17:00, as agreed, to 15 October 17:00
  expect((slippage?.restart?.slip as number) / DAY).toBeCloseTo(9, 1)
  const parts = slippage?.causes ?? []
  expect(parts.reduce((sum, c) => sum + c.seconds, 0)).toBeCloseTo(slippage?.restart?.slip as number, 3)
  expect(parts.find((c) => c.activity === 'C010')).toMatchObject({ seconds: 3 * DAY })
  expect(parts.some((c) => c.activity === 'C040' && c.delays.includes('rig'))).toBe(true)
  expect(Object.keys(progress?.actual ?? {})).toEqual(['C010', 'C030', 'C040', 'C060'])
})

test('at its data date the late shift is at the piles, and the day crew comes back to the wells in the morning', () => {
  const typed = modelOf(document).project.programme as NonNullable<ReturnType<typeof modelOf>['project']['programme']>
  const shifts = shiftsAt(result, typed, result.progress?.dataDate as number)
  expect(shifts.map(({ calendar, isUnderWay, work }) => [calendar, isUnderWay, ...work.map(({ id }) => id)])).toEqual([
    ['double', true, 'C040'],
    ['surface', false, 'C060'],
  ])
})
