import { expect, test } from 'vitest'
import { stream } from '../numeric/random.ts'
import { meanOf } from '../numeric/statistics.ts'
import { modelOf, programmeOf, task, WORK } from '../programme/programme.fixture.ts'
import { driveDays, forecastBreakthrough } from './breakthrough.ts'
import { simulated, small } from './risk.fixture.ts'

const driveOf = (more: Record<string, unknown> = {}) =>
  modelOf({
    programme: programmeOf({
      drive: {
        stages: [
          { to: '30 m', rate: '3 m/d' },
          { to: '130 m', rate: '10 m/d' },
        ],
        ...more,
      },
    }),
  }).project.programme?.drive as NonNullable<NonNullable<ReturnType<typeof modelOf>['project']['programme']>['drive']>

const meanDays = (more: Record<string, unknown>): number => {
  const random = stream(1, 'drive')
  const drive = driveOf(more)
  return meanOf(Array.from({ length: 4000 }, () => driveDays(drive, random)))
}

test('without variation and stoppages a drive takes length over rate, stage by stage', () => {
  expect(driveDays(driveOf(), stream(1, 'x'))).toBeCloseTo(10 + 10, 9)
})

test('stoppages add their chance times their mean for each day driven', () => {
  // 20 days at 0.1 a day of 1, 2, 6 days (mean 3): 6 days
  expect(meanDays({ stoppages: { perDay: 0.1, days: [1, 2, 6] } })).toBeCloseTo(26, 0)
})

test('days that vary about the mean rate leave the mean length of the drive nearly as it was', () => {
  expect(meanDays({ variation: 0.45 })).toBeCloseTo(20, 0)
})

test('breakthrough comes after the restart by the days of the drive', () => {
  const made = small({
    programme: programmeOf({
      activities: { A: task({ calendar: 'always', days: [2, 2, 2] }) },
      work: { ...WORK, drive: { calendar: 'always' } },
      drive: { stages: [{ to: '30 m', rate: '3 m/d' }] },
      restart: 'A',
    }),
  })
  const forecast = forecastBreakthrough(simulated(made), made.programme, made.model, { seed: 1 })
  expect(forecast?.breakthrough.p50).toBeCloseTo((2 + 10) * 86_400, 3)
  expect(forecast?.dates.p80).toBe('2031-11-15')
})

test('no drive, no forecast', () => {
  const made = small({ programme: programmeOf({ activities: { A: task() } }) })
  expect(forecastBreakthrough(simulated(made), made.programme, made.model, { seed: 1 })).toBeUndefined()
})
