import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { model } from '../model/index.ts'
import { freshMemory } from '../working/memory.ts'
import { applyPatch } from '../working/patch.ts'
import { problemText } from '../working/problem.ts'
import { keepBaseline } from './baseline.ts'
import { lookAhead } from './lookAhead.ts'
import { checkIn, programmeFor, programmeOf, task, underWay } from './programme.fixture.ts'
import type { ProgrammeResult } from './programme.ts'
import { localAt } from './zone.ts'

type Raw = Readonly<Record<string, unknown>>

// dates counted by hand: Monday 2031-11-03, days of 07:00 to 19:00, Monday to Friday
const at = (result: ProgrammeResult, seconds: number | undefined): string => {
  const { date, time } = localAt(result.solved?.zone as never, seconds ?? Number.NaN)
  return `${date} ${time}`
}
const dates = (result: ProgrammeResult, id: string): string =>
  `${at(result, result.plan[id]?.start)} to ${at(result, result.plan[id]?.finish)}`

/** A of two days, then B of two days, then C of one. */
const row = (more: Raw = {}, of: Raw = {}): Raw => ({
  programme: programmeOf({
    activities: {
      A: task({ days: [2, 2, 2] }),
      B: task({ days: [1, 2, 4], after: [{ to: 'A' }], ...of }),
      C: task({ after: [{ to: 'B' }] }),
    },
    restart: 'C',
    ...more,
  }),
})

describe('the plan at the data date', () => {
  test('without a data date nothing changes', () => {
    expect(dates(programmeFor(row()), 'C')).toBe('2031-11-07 07:00 to 2031-11-07 19:00')
  })

  test('what has happened stands as it happened, and the rest follows from it', () => {
    const result = programmeFor(
      row({ dataDate: '2031-11-03', progress: { A: { start: '2031-11-03T09:00', finish: '2031-11-03T16:00' } } }),
    )
    expect(dates(result, 'A')).toBe('2031-11-03 09:00 to 2031-11-03 16:00')
    expect(dates(result, 'B')).toBe('2031-11-04 07:00 to 2031-11-05 19:00')
    expect(dates(result, 'C')).toBe('2031-11-06 07:00 to 2031-11-06 19:00')
  })

  test('what has not begun does not begin before the data date', () => {
    const result = programmeFor(row({ dataDate: '2031-11-05' }))
    expect(dates(result, 'A')).toBe('2031-11-06 07:00 to 2031-11-07 19:00')
  })

  test('what is under way goes on from the data date for what is left of it', () => {
    const result = programmeFor(
      row({ dataDate: '2031-11-04T13:00', progress: { A: { start: '2031-11-03', remainingDays: 1.5 } } }),
    )
    // half a day on Tuesday, the whole of Wednesday
    expect(dates(result, 'A')).toBe('2031-11-03 07:00 to 2031-11-05 19:00')
    expect(dates(result, 'C')).toBe('2031-11-10 07:00 to 2031-11-10 19:00')
  })

  test('one figure of what is left takes the spread of the whole', () => {
    const result = programmeFor(
      row({
        dataDate: '2031-11-05',
        progress: { A: { start: '2031-11-03', finish: '2031-11-04' }, B: { start: '2031-11-05', remainingDays: 1 } },
      }),
    )
    expect(result.activities.B?.work).toEqual([0.5, 1, 2].map((d) => d * 12 * 3600))
  })

  test('what is left and was not said leaves the checks open, and names its place', () => {
    const result = programmeFor(row({ dataDate: '2031-11-03', progress: { A: { start: '2031-11-03' } } }))
    const check = checkIn(result, 'programme.plan.feasible')
    expect(check.verdict).toBe('open')
    expect(check.reasons.join()).toContain('/programme/progress/A/remainingDays')
    expect(dates(result, 'A')).toBe('2031-11-03 07:00 to 2031-11-04 19:00')
  })

  test('a lag from a start that has been runs from that start', () => {
    const of = { after: [{ to: 'A', type: 'SS', lag: '3 d' }] }
    const result = programmeFor(
      row({ dataDate: '2031-11-03', progress: { A: { start: '2031-11-03', remainingDays: 9 } } }, of),
    )
    expect(dates(result, 'B')).toBe('2031-11-06 07:00 to 2031-11-07 19:00')
  })

  test('what its resources have cost up to the data date is a fixed cost, and what is left keeps its price', () => {
    const crane = { crane: { name: 'Crane', kind: 'plant', capacity: 1, costPerDay: 100 } }
    const result = programmeFor({
      programme: programmeOf({
        resources: crane,
        activities: { A: task({ days: [3, 3, 3], needs: { crane: 1 }, fixedCost: 7 }) },
        dataDate: '2031-11-04',
        progress: { A: { start: '2031-11-03', remainingDays: 1 } },
      }),
    })
    expect(result.activities.A?.fixedCost).toBeCloseTo(207, 9)
  })

  test('progress is told in the zone of the programme, and an offset says which hour', () => {
    const zoned = (start: string) =>
      programmeFor({
        programme: programmeOf({
          timeZone: 'Europe/Paris',
          start: '2031-10-24',
          activities: { A: task({ calendar: 'always', days: [9, 9, 9] }) },
          dataDate: '2031-10-27',
          progress: { A: { start, remainingDays: 1 } },
        }),
      }).plan.A?.start
    // clocks go back on 2031-10-26 at 03:00: 02:30 comes twice, an hour apart
    expect((zoned('2031-10-26T02:30+01:00') ?? 0) - (zoned('2031-10-26T02:30+02:00') ?? 0)).toBe(3600)
    expect(zoned('2031-10-26T02:30')).toBe(zoned('2031-10-26T02:30+02:00'))
  })
})

describe('out of sequence', () => {
  const ahead = (logic: string) =>
    programmeFor(
      row({
        dataDate: '2031-11-03',
        progress: {
          A: { start: '2031-11-03', remainingDays: 3 },
          B: { start: '2031-11-03', remainingDays: 1, logic },
        },
      }),
    )

  test('what is left waits for the predecessor all the same, and is asked about', () => {
    const result = ahead('retained')
    expect(dates(result, 'B')).toBe('2031-11-03 07:00 to 2031-11-07 19:00')
    const check = checkIn(result, 'programme.network.health', 'out-of-sequence')
    expect(check.verdict).toBe('fail')
    expect(result.progress?.outOfSequence.map(({ text }) => text)).toEqual([
      'B began before the end of A: what is left still waits for A',
    ])
  })

  test('released, it goes on', () => {
    expect(dates(ahead('released'), 'B')).toBe('2031-11-03 07:00 to 2031-11-04 19:00')
  })

  test('what waits for something done too early waits for what that should have waited for', () => {
    const result = programmeFor(
      row({
        dataDate: '2031-11-03',
        progress: {
          A: { start: '2031-11-03', remainingDays: 2 },
          B: { start: '2031-11-03', finish: '2031-11-03' },
        },
      }),
    )
    expect(dates(result, 'B')).toBe('2031-11-03 07:00 to 2031-11-03 19:00')
    expect(dates(result, 'C')).toBe('2031-11-06 07:00 to 2031-11-06 19:00')
  })

  test('known to the day, the same day is in order', () => {
    const result = programmeFor(
      row({
        dataDate: '2031-11-04',
        progress: { A: { start: '2031-11-03', finish: '2031-11-04' }, B: { start: '2031-11-04', remainingDays: 2 } },
      }),
    )
    expect(result.progress?.outOfSequence).toEqual([])
  })

  test('progress of an activity that the network no longer has is listed, not dropped', () => {
    const result = programmeFor(row({ dataDate: '2031-11-03', progress: { 'S9.out': { finish: '2031-11-03' } } }))
    expect(result.progress?.lost).toEqual(['S9.out'])
    expect(checkIn(result, 'programme.network.health', 'progress-lost').verdict).toBe('fail')
  })
})

describe('against the baseline', () => {
  test('a plan kept as a baseline and held against itself has not slipped', () => {
    const before = row()
    const kept = keepBaseline(programmeFor(before), { id: 'first', name: 'First', made: '2031-11-01' })
    const patched = applyPatch({ ...before, programme: { baselines: {}, ...(before.programme as Raw) } }, kept ?? [])
    if (!('document' in patched)) throw new Error('not patched')
    const result = programmeFor(patched.document as Raw)
    expect(Object.values(result.slippage?.slips ?? {}).map(({ finish }) => finish)).toEqual([0, 0, 0])
    expect(result.slippage?.restart?.slip).toBe(0)
    expect(result.slippage?.causes).toEqual([])
  })

  test('the causes along the driving path add up to the slip of the restart', () => {
    const days = fc.integer({ min: 1, max: 6 })
    const held = fc.record({ a: days, late: fc.integer({ min: 0, max: 5 }), b: days, extra: fc.boolean() })
    fc.assert(
      fc.property(held, ({ a, late, b, extra }) => {
        const before = row()
        const kept = keepBaseline(programmeFor(before), { id: 'first', name: 'First', made: '2031-11-01' })
        const typed = (before as { programme: Raw }).programme
        const more = extra ? { X: task({ days: [b, b, b], after: [{ to: 'A' }] }) } : {}
        const activities = { ...(typed.activities as Raw), ...more } as Record<string, Raw>
        if (extra) activities.B = { ...activities.B, after: [{ to: 'X' }] }
        const start = `2031-11-0${3 + Math.min(late, 4)}`
        const result = programmeFor({
          programme: {
            ...typed,
            activities,
            dataDate: '2031-11-07',
            progress: { A: { start, remainingDays: a } },
            baselines: { first: (kept as unknown as [{ value: unknown }])[0].value },
          },
        })
        const sum = result.slippage?.causes.reduce((total, c) => total + c.seconds, 0) ?? Number.NaN
        expect(sum).toBeCloseTo(result.slippage?.restart?.slip ?? Number.NaN, 3)
        expect(sum).not.toBe(0)
      }),
      { numRuns: 40 },
    )
  })

  test('what is due and not done in time is missed, and lowers the execution index', () => {
    const result = programmeFor(underWay('2031-11-04', { dataDate: '2031-11-04' }))
    const missed = checkIn(result, 'programme.network.health', 'missed')
    // A and B due, B not done
    expect(missed.demand.value).toBe(0.5)
    expect(checkIn(result, 'programme.network.health', 'execution-index').capacity.value).toBe(0.5)
    expect(checkIn(programmeFor(underWay('2031-11-04')), 'programme.network.health', 'missed').verdict).toBe('pass')
  })

  test('a delay on record stands beside the cause it belongs to', () => {
    const result = programmeFor(
      underWay('2031-11-04', {
        dataDate: '2031-11-05',
        progress: {},
        delays: { D1: { what: 'Flood', cause: 'burst main', from: '2031-11-03', to: '2031-11-05', activities: ['A'] } },
      }),
    )
    expect(result.slippage?.causes.map(({ activity, kind, delays }) => [activity, kind, ...delays])).toEqual([
      ['A', 'began late', 'D1'],
    ])
  })
})

test('a look-ahead holds what goes on and what starts within its weeks, and nothing that is done', () => {
  const long = { days: [5, 5, 5] }
  const result = programmeFor({
    programme: programmeOf({
      activities: {
        A: task(long),
        B: task({ ...long, after: [{ to: 'A' }] }),
        C: task({ ...long, after: [{ to: 'B' }] }),
        D: task({ ...long, after: [{ to: 'C' }] }),
      },
      dataDate: '2031-11-11',
      progress: { A: { start: '2031-11-03', finish: '2031-11-07' }, B: { start: '2031-11-10', remainingDays: 3 } },
    }),
  })
  const from = result.progress?.dataDate as number
  const of = (weeks: number) => lookAhead(result, from, weeks).map(({ id, state, ends }) => `${id} ${state} ${ends}`)
  expect(of(1)).toEqual(['B goes on true', 'C starts false'])
  expect(of(2)).toEqual(['B goes on true', 'C starts true', 'D starts false'])
})

describe('progress that cannot be', () => {
  const problemsOf = (more: Raw): string[] => {
    const read = model({ schemaVersion: 1, about: { title: 'Small' }, ...row(more) }, freshMemory())
    return read.problems.map(problemText)
  }
  const held = (progress: Raw) => problemsOf({ dataDate: '2031-11-05', progress: { A: progress } })

  test.each([
    [
      { start: '2031-11-04', finish: '2031-11-03' },
      '/programme/progress/A/finish: found "2031-11-03", expected a date not before its start, 2031-11-04',
    ],
    [
      { start: '2031-11-06' },
      '/programme/progress/A/start: found "2031-11-06", expected a date not after the data date, 2031-11-05',
    ],
    [{ start: '2031-11-01' }, 'expected a date not before the programme starts, 2031-11-03'],
    [
      { start: '2031-11-03', finish: '2031-11-04', remainingDays: 2 },
      '/programme/progress/A/remainingDays: found 2, expected none',
    ],
    [{ remainingDays: 2 }, '/programme/progress/A/start: found nothing, expected the date it began'],
    [{ start: '03.11.2031' }, 'ISO 8601), such as "2032-03-05T07:30"'],
    [{ start: '2031-02-30' }, 'ISO 8601)'],
    [{ start: '2031-11-03', remainingDays: -1 }, '/programme/progress/A/remainingDays'],
  ])('%j is named with its place and its cure', (progress, words) => {
    const said = held(progress)
    expect(said.length).toBeGreaterThan(0)
    expect(said.join('\n')).toContain(words)
  })

  test('progress without a data date cannot be read', () => {
    expect(problemsOf({ progress: { A: { start: '2031-11-03' } } })).toEqual([
      '/programme/dataDate: found nothing, expected the date up to which progress is known: without it no progress can be read, such as "2031-11-03"',
    ])
  })

  test('a baseline that ends before it begins, and one that is not there, are named', () => {
    const baselines = { first: { name: 'First', made: '2031-11-01', activities: { A: ['2031-11-05', '2031-11-04'] } } }
    expect(problemsOf({ baselines, baseline: 'frist' }).map((said) => said.slice(0, said.indexOf(':')))).toEqual(
      expect.arrayContaining(['/programme/baseline', '/programme/baselines/first/activities/A/1']),
    )
  })
})
