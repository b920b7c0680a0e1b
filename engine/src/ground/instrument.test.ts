import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { given } from '../working/answer.ts'
import type { Operation, Patch } from '../working/patch.ts'
import { checkOf, groundOf } from './ground.fixture.ts'
import { aheadOf, type Reading, reachedOn, trendOf } from './trend.ts'

const DAY = 86_400
const put = (path: string, value: unknown): Operation => ({ op: 'add', path, value })
const S1 = '/ground/instruments/S1'
const stateOf = (patch: Patch = []) => {
  const state = groundOf(patch).instruments.find(({ id }) => id === 'S1')
  if (state === undefined) throw new Error('S1 is gone')
  return state
}

describe('levels', () => {
  const read = (mm: number) => stateOf([put(`${S1}/readings`, { '2031-11-24': `${mm} mm` })])

  test('the highest level that is passed says what the plan demands; at a level it is not yet passed', () => {
    expect([5, 6, 6.1, 10.1, 14.1].map((mm) => read(mm).at)).toEqual([undefined, undefined, 'alert', 'action', 'alarm'])
    expect(read(12).demands).toBe('stop excavating')
  })

  test('what is past a level fails with the level and the demand, and where nothing is written says so', () => {
    const past = put(`${S1}/readings`, { '2031-11-24': '11 mm' })
    const said = checkOf('ground.instrument.reading', [past]).reasons
    expect(said[0]).toMatch(/^past the action level, 10\.0\smm$/)
    expect(said[1]).toBe('the plan demands: stop excavating')
    const mute = checkOf('ground.instrument.reading', [past, put(`${S1}/plan`, {})])
    expect(mute.reasons[1]).toBe('the plan demands: nothing is written for the action level')
  })

  test('levels that fall from alert to alarm watch for a fall', () => {
    const head = (now: string): Patch => [
      put('/ground/instruments/P1', {
        what: 'piezometer under the houses',
        measures: 'head',
        alert: '-3 m',
        action: '-3.5 m',
        alarm: '-4 m',
        readings: { '2031-11-24': now },
      }),
    ]
    expect(checkOf('ground.instrument.reading', head('-2.9 m'), 'P1').verdict).toBe('pass')
    expect(checkOf('ground.instrument.reading', head('-3.6 m'), 'P1').verdict).toBe('fail')
  })

  test('levels in no order are refused at the instrument', () => {
    expect(() => groundOf([put(`${S1}/action`, '20 mm')])).toThrow(
      /\/ground\/instruments\/S1: found alert, action and alarm at 6\.0\smm, 20\.0\smm, 14\.0\smm, expected levels that rise/,
    )
  })
})

describe('trend', () => {
  const line = (values: readonly (readonly [day: number, value: number])[]): Reading[] =>
    values.map(([day, value]) => ({ on: String(day), at: day * DAY * 1000, answer: given('m', '', value) }))

  test('readings on a line are drawn on along it, to the day of each level', () => {
    // 1 mm a week, last read 3 mm on 24 November: 6 mm three weeks later, 14 mm eleven weeks later
    expect(stateOf().reached).toEqual({ alert: '2031-12-15', action: '2032-01-12', alarm: '2032-02-09' })
    expect(checkOf('ground.instrument.trend').demand.value).toBeCloseTo(0.005, 12)
  })

  test('least squares by hand: 0, 2, 1 at days 0, 1, 2 rise by 0.5 a day about a mean of 1', () => {
    const trend = trendOf(line([[0, 0], [1, 2], [2, 1]])) // biome-ignore format: readings as a list
    expect((trend?.speed as number) * DAY).toBeCloseTo(0.5, 12)
    expect(trend?.value).toBeCloseTo(1.5, 12)
  })

  test('no other line is nearer to the readings, and both sums of least squares close', () => {
    const millimetres = fc.integer({ min: -500, max: 500 }).map((mm) => mm / 1000)
    const reading = fc.tuple(fc.integer({ min: 0, max: 400 }), millimetres)
    const several = fc.uniqueArray(reading, { minLength: 3, maxLength: 9, selector: ([day]) => day })
    const nudge = fc.tuple(millimetres, millimetres)
    fc.assert(
      fc.property(several, nudge, (days, [up, faster]) => {
        const trend = trendOf(line([...days].sort(([a], [b]) => a - b)))
        if (trend === undefined) return false
        const end = trend.readings.at(-1)?.at as number
        const misfit = (value: number, speed: number) =>
          trend.readings
            .map(({ at, answer }) => (answer.value as number) - value - (speed * (at - end)) / 1000)
            .reduce((s, d) => s + d * d, 0)
        const best = misfit(trend.value, trend.speed)
        const { residuals } = aheadOf(trend, given('s', '', DAY))
        return (
          best <= misfit(trend.value + up, trend.speed + faster / DAY) + 1e-12 &&
          residuals.every((r) => Math.abs(r.value) <= r.tolerance)
        )
      }),
    )
  })

  test('two readings, or readings that go away from the level, give no day', () => {
    expect(trendOf(line([[0, 1], [1, 2]]))).toBeUndefined() // biome-ignore format: readings as a list
    const falling = trendOf(line([[0, 3], [1, 2], [2, 1]])) // biome-ignore format: readings as a list
    expect(falling && reachedOn(falling, 4, 'UTC')).toBeUndefined()
  })
})

describe('the step under way', () => {
  const begun = (entry: object): Patch => [put('/programme/progress', { 'take.out': entry })]

  test('asks for its own readings: five days after the last one is in time, and too late while the piece hangs', () => {
    expect(checkOf('ground.instrument.due').verdict).toBe('pass')
    const under = checkOf('ground.instrument.due', begun({ start: '2031-11-28' }))
    expect(under.verdict).toBe('fail')
    expect(under.assumptions[0]).toContain('The step "take" is under way')
  })

  test('before any data date nothing is due', () => {
    const due = groundOf([{ op: 'remove', path: '/programme/dataDate' }]).checks.filter(
      ({ kind }) => kind === 'ground.instrument.due',
    )
    expect(due).toEqual([])
  })
})
