import { expect, test } from 'vitest'
import { stream } from '../numeric/random.ts'
import { meanOf } from '../numeric/statistics.ts'
import { modelOf, programmeOf, task, WORK } from '../programme/programme.fixture.ts'
import { forecastBreakthrough } from './breakthrough.ts'
import { courseOf, driveOnce } from './driveRun.ts'
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

type Drive = ReturnType<typeof driveOf>

/** Mean working days of a drive over many runs, m at the end of the last reach. */
const daysOf = (drive: Drive, runs = 4000): number => {
  const { course } = courseOf(drive)
  if (course === undefined) throw new Error('no course')
  const random = stream(1, 'drive')
  const [marks, reached] = [course.due.slice(-1), new Float64Array(1)]
  return meanOf(
    Array.from({ length: runs }, () => {
      driveOnce(course, marks, reached, random)
      return reached[0] as number
    }),
  )
}
const meanDays = (more: Record<string, unknown>): number => daysOf(driveOf(more))

test('without variation and stoppages a drive takes length over rate, reach by reach', () => {
  expect(daysOf(driveOf(), 1)).toBeCloseTo(10 + 10, 9)
})

test('a reach with a ring cycle advances by it', () => {
  // 2 m bored at 35 mm/min in 57.143 min, 45 min to build, 20 min more, three quarters available: 17.684 m a day (derived)
  const cycle = { speed: '35 mm/min', build: '45 min', other: '20 min', available: 0.75 }
  expect(daysOf(driveOf({ ring: '2 m', stages: [{ to: '176.84 m', cycle }] }), 1)).toBeCloseTo(10, 3)
})

test('a crew that learns takes the rings of the curve, and its floor', () => {
  // first ring 10 h, 90 % per doubling on the unit model, floor 6 h, 40 rings: 267.311901 h (derived)
  const stages = [{ to: '80 m', rate: '8 m/d' }]
  const learning = { model: 'unit', rate: 0.9, first: 10 / 6 }
  expect(daysOf(driveOf({ ring: '2 m', stages, learning }), 1) * 24).toBeCloseTo(267.311901, 4)
  const slower = daysOf(driveOf({ ring: '2 m', stages, learning: { ...learning, model: 'cumulative average' } }), 1)
  expect(slower * 24).toBeLessThan(267.31)
})

test('learning without the length of a ring cannot be told, and says where it is missing', () => {
  const learning = { model: 'unit', rate: 0.9, first: 1.5 }
  expect(courseOf(driveOf({ learning }))).toEqual({ missing: '/programme/drive/ring' })
})

test('interventions come at their distance, not at the end, and maintenance lengthens every day', () => {
  const interventions = { tools: { what: 'Change of tools', every: '50 m', days: [2, 2, 2] } }
  expect(daysOf(driveOf({ interventions }), 1)).toBeCloseTo(20 + 2 * 2, 9)
  expect(daysOf(driveOf({ maintenance: 0.2 }), 1)).toBeCloseTo(25, 9)
})

test('a pace drawn once spreads the end of a long drive, where days that vary even out', () => {
  const spreadOf = (more: Record<string, unknown>): number => {
    const made = small({
      programme: programmeOf({
        activities: { A: task({ calendar: 'always', days: [2, 2, 2] }) },
        work: { ...WORK, drive: { calendar: 'always' } },
        drive: { stages: [{ to: '1000 m', rate: '10 m/d' }], ...more },
        restart: 'A',
      }),
    })
    const days = forecastBreakthrough(simulated(made), made.programme, made.model, { seed: 1 })?.days
    return (days?.p90 ?? 0) - (days?.p10 ?? 0)
  }
  expect(spreadOf({ pace: [0.8, 1, 1.4] })).toBeGreaterThan(2 * spreadOf({ variation: 0.45 }))
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
