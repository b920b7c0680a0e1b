import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { missingUnder } from '../working/answer.ts'
import type { LiftOutcome } from './lift.ts'
import { type Document, liftsOf, outcome } from './small.fixture.ts'

const MINUTE = 60
const minutes = (seconds: number | undefined): number => (seconds as number) / MINUTE
const times = ({ stages }: LiftOutcome): [string, number][] =>
  stages.map(({ name, time }) => [name, minutes(time.value)])
const positions = ({ holdingPositions }: LiftOutcome) =>
  Object.fromEntries(holdingPositions.map(({ name, from, to }) => [name, [minutes(from.value), minutes(to.value)]]))
const refuge = ({ refuges }: LiftOutcome, stage: number, failure: string) =>
  refuges.find((r) => r.stage === stage && r.failure === failure)

/** The block out and back again. */
const outAndBack = (change: (d: Document) => void = () => {}) => {
  const { lifts } = liftsOf((d) => {
    d.lifts.back = { ...structuredClone(d.lifts.out), kind: 'back', as: 'returned' }
    d.steps.S1.back = 'back'
    change(d)
  })
  return lifts as { out: LiftOutcome; back: LiftOutcome }
}
// By hand: 18 m at 20 m/h is 54 min; 20 m to the bay at 1 m/min is 20 min; the block's bottom stands 7 m over the bay: 21 min.
describe('a block of 2 m lifted 18 m out of a shaft and set on a bay 20 m away', () => {
  const out = outcome('out')

  test('rises 54 min, travels 20 min, is landed in 21 min', () => {
    expect(times(out).map(([name]) => name)).toEqual(['rise', 'travel', 'land'])
    for (const [i, due] of [54, 20, 21].entries()) expect(times(out)[i]?.[1]).toBeCloseTo(due, 9)
    expect(out.stages.at(-1)?.to).toEqual([0, 20, 1])
  })

  test('has its point of no return half of 95 min up, 15.83 m above its seat', () => {
    expect(minutes(out.pointOfNoReturn.time.value)).toBeCloseTo(47.5, 9)
    expect(out.pointOfNoReturn.at?.[2]).toBeCloseTo(-10 + (47.5 / 60) * 20, 9)
    expect(minutes(out.pointOfNoReturn.window.value)).toBeCloseTo(47.5, 9)
  })

  test('hangs sheltered until its top passes the collar, 9 m up after 27 min', () => {
    const at = positions(out)
    expect(at['in its seat']?.[0]).toBe(0)
    expect(at['hung low in the shaft']?.[1]).toBeCloseTo(27, 9)
    expect(at.landed?.[0]).toBeCloseTo(95, 9)
  })

  // nearest of shelter behind (27) and landing ahead (95): farthest at 61 min, 34 min from both, which lies in the travel
  test('is out of the wind within 27, 34 and 21 min of its three stages', () => {
    expect([0, 1, 2].map((i) => minutes(refuge(out, i, 'weather')?.time.value))).toEqual([
      expect.closeTo(27, 9),
      expect.closeTo(34, 9),
      expect.closeTo(21, 9),
    ])
  })

  test('a failure of power is open until the standby is known, and then waits for it', () => {
    const silent = outcome('out', (d) => {
      delete d.systems.tower.standby
    })
    const open = refuge(silent, 0, 'power')
    expect(open?.time.value).toBeUndefined()
    expect(missingUnder(open?.time as never)).toEqual(['/systems/tower/standby/power'])
    expect(open?.holds).toBeUndefined()
    const known = outcome('out', (d) => {
      d.systems.tower.standby = { holds: true, power: '10 min', unit: '2 h' }
    })
    // from 47.5 min the seat and the bay are both 47.5 min away; the shaft is no place for it to stay hanging
    expect(minutes(refuge(known, 0, 'power')?.time.value)).toBeCloseTo(10 + 47.5, 9)
    expect(minutes(refuge(known, 2, 'jack or winch')?.time.value)).toBeCloseTo(120 + 21, 9)
  })
})

describe('times', () => {
  test('follow without a gap and sum to the hook time less the set-up, out and back', () => {
    for (const { stages, duration } of Object.values(outAndBack())) {
      expect(stages[0]?.start.value).toBe(0)
      for (const [i, stage] of stages.slice(1).entries()) expect(stage.start.value).toBe(stages[i]?.end.value)
      expect(duration.value).toBeCloseTo(6 * 3600 + (stages.at(-1)?.end.value as number), 6)
    }
  })

  test('back over the same way take as long as out, from its end to its beginning', () => {
    fc.assert(
      fc.property(
        fc.record({
          up: fc.integer({ min: 12, max: 25 }),
          aside: fc.integer({ min: -8, max: 8 }),
          y: fc.integer({ min: 12, max: 35 }),
        }),
        ({ up, aside, y }) => {
          const { out, back } = outAndBack((d) => {
            d.systems.tower.hooks.main.traverse = '0.5 m/min'
            d.steps.S1.moves = [{ by: ['0.4 m', '0 m', '0 m'] }, { by: ['0 m', '0 m', `${up} m`] }]
            d.bays.B1.centre = [`${aside} m`, `${y} m`]
          })
          expect(back.stages.map(({ from, to }) => [to, from]).reverse()).toEqual(
            out.stages.map(({ from, to }) => [from, to]),
          )
          expect(back.stages.at(-1)?.end.value).toBeCloseTo(out.stages.at(-1)?.end.value as number, 6)
        },
      ),
      { numRuns: 15 },
    )
  })

  test('a hook that lowers slower than it hoists moves the point of no return nearer to the seat', () => {
    const slow = outcome('out', (d) => {
      d.systems.tower.hooks.main.lowering = '10 m/h'
    })
    // back from t minutes of rise: 2t; on: 54 − t + 20 + 42: equal at 116/3
    expect(minutes(slow.pointOfNoReturn.time.value)).toBeCloseTo(116 / 3, 9)
  })

  test('at any speeds, back from the point of no return takes as long as on', () => {
    fc.assert(
      fc.property(fc.integer({ min: 5, max: 60 }), fc.integer({ min: 1, max: 30 }), (hoist, travel) => {
        const made = outcome('out', (d) => {
          d.systems.tower.hooks.main.speed = `${hoist} m/h`
          d.systems.tower.travelSpeed = `${travel} m/h`
        })
        const { time, window } = made.pointOfNoReturn
        expect(time.value as number).toBeCloseTo(window.value as number, 5)
      }),
      { numRuns: 15 },
    )
  })

  test('the project may name the point of no return', () => {
    const said = outcome('out', (d) => {
      d.lifts.out.noReturn = '30 min'
    })
    expect(said.pointOfNoReturn).toMatchObject({ stated: true, stage: 0 })
    expect(minutes(said.pointOfNoReturn.window.value)).toBeCloseTo(65, 9)
  })

  test('a speed that is not stated leaves the hook time and the point of no return open, and is named', () => {
    const open = outcome('out', (d) => {
      delete d.systems.tower.travelSpeed
    })
    for (const answer of [open.duration, open.pointOfNoReturn.time, open.pointOfNoReturn.window])
      expect(missingUnder(answer)).toContain('/systems/tower/travelSpeed')
  })
})

describe('a crane', () => {
  const crane = (change: (d: Document) => void = () => {}) =>
    outcome('out', (d) => {
      Object.assign(d.systems.tower, {
        kind: 'crawler crane',
        standings: [['0 m', '8 m']],
        slewSpeed: '30 deg/min',
        luffSpeed: '4 m/min',
      })
      d.lifts.out.standing = 0
      change(d)
    })

  // about (0, 8): from (0, 0), radius 8 m, to (0, 20), radius 12 m: half round at 30°/min, and 4 m out at 4 m/min
  test('slews the shorter way round its standing, then luffs', () => {
    const travel = crane().stages[1]
    expect(travel?.parts.map(({ label, answer }) => [label, minutes(answer.value)])).toEqual([
      ['slew', expect.closeTo(6, 9)],
      ['luff', expect.closeTo(1, 9)],
    ])
  })

  test('without a slewing speed its travel is open, and without a word on which of its standings it has', () => {
    const missing = (change: (d: Document) => void) => missingUnder(crane(change).duration)
    expect(missing((d) => delete d.systems.tower.slewSpeed)).toContain('/systems/tower/slewSpeed')
    const unsaid = (d: Document) => delete d.lifts.out.standing
    expect(missing(unsaid)).toEqual([])
    expect(
      missing((d) => {
        d.systems.tower.standings.push(['0 m', '30 m'])
        unsaid(d)
      }),
    ).toContain('/lifts/out/standing')
  })
})

describe('a piece that is turned before it is set down', () => {
  const turned = () =>
    liftsOf((d) => {
      d.steps.S1.moves.push({ by: ['0 m', '20 m', '0 m'] })
      d.steps.S2 = {
        piece: 'block',
        moves: [{ turn: '90 deg', axis: 'y', about: ['0 m', '20 m', '8 m'] }, { by: ['0 m', '0 m', '-6 m'] }],
        lift: 'turn',
      }
      d.order.push('S2')
    }).lifts as { out: LiftOutcome; turn: LiftOutcome }

  // out 54 + 20, turn 90° at 2°/min 45, lowering 6 m 18: 137 min, half of it 68.5 in the travel of the first lift
  test('hangs from the one lift to the other: one point of no return for both', () => {
    const { out, turn } = turned()
    expect(times(out)).toEqual([
      ['rise', expect.closeTo(54, 9)],
      ['travel', expect.closeTo(20, 9)],
    ])
    expect(times(turn)).toEqual([
      ['turn', expect.closeTo(45, 9)],
      ['land', expect.closeTo(18, 9)],
    ])
    expect(minutes(out.pointOfNoReturn.time.value)).toBeCloseTo(68.5, 9)
    expect(minutes(out.pointOfNoReturn.window.value)).toBeCloseTo(68.5, 9)
    expect(turn.pointOfNoReturn.time.value).toBe(0)
    expect(minutes(turn.pointOfNoReturn.window.value)).toBeCloseTo(63, 9)
    // landing is 63 − t ahead, the shelter of the shaft 47 + t behind: 55 from both after 8 min
    expect(minutes(refuge(turn, 0, 'weather')?.time.value)).toBeCloseTo(55, 9)
  })

  // landing lowers the block by 7 m in 21 min: the last 2 m of it in the last 6
  test('may wait low over its bay where the project says how low, which is nearer than the shaft and the ground', () => {
    const low = outcome('out', (d) => {
      d.settings.lowOverBay = '2 m'
    })
    const position = low.holdingPositions.find(({ name }) => name === 'hung low over the bay')
    expect(minutes(position?.to.value) - minutes(position?.from.value)).toBeCloseTo(6, 9)
    expect(position?.hangs).toBe(true)
    expect(low.holdingPositions.length).toBe(4)
  })
})
