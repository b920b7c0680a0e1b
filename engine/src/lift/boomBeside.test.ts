import { describe, expect, test } from 'vitest'
import type { Check } from '../working/check.ts'
import { boomBeside } from './boom.formulas.ts'
import type { Change } from './fixture.ts'
import { withBoom, withSecondCrane } from './overhead.fixture.ts'
import { type Document, outcome } from './small.fixture.ts'

const besideOf = (change: Change): Check | undefined =>
  outcome('out', change).checks.find(({ kind }) => kind === 'lift.path.boom-beside')
const gapOf = (change: Change): number => besideOf(change)?.capacity.value as number

const HALF = Math.hypot(1.2, 1.6) / 2

/** A boom of 40 m from (30, 0) over the shaft, and a mast of this height under it, 8 m from the slewing centre. */
const mast =
  (height: number): Change =>
  (d) => {
    Object.assign(d.systems.tower, { standings: [['30 m', '0 m']], setUp: { boom: '40 m' } })
    d.lifts.out.landing = ['0 m', '0.5 m', '0 m']
    d.bays.side = { centre: ['22 m', '0 m'], size: ['3 m', '3 m'], level: '0 m', allowable: '100 kPa' }
    d.bays.side.stored = {
      mast: { what: 'mast', centre: ['22 m', '0 m'], size: ['0.02 m', '0.02 m'], height: `${height} m` },
    }
  }

describe('what stands on the site and the boom of a crane', () => {
  test('are apart by the distance of the top of a mast from the line of the boom, less half of its diagonal', () => {
    const theta = Math.acos((30 - 1) / 40)
    // 8 m out and 6 m high: 7 m from the pin, 4 m above that
    const off = 7 * Math.sin(theta) - 4 * Math.cos(theta)
    const gap = gapOf(withBoom(mast(6)))
    expect(gap).toBeLessThanOrEqual(off - HALF + 0.01)
    expect(gap).toBeGreaterThan(off - HALF - 0.05)
  })

  test('come nearer the higher it stands, and meet where it stands as high as the boom', () => {
    const gaps = [2, 6, 10, 20].map((height) => gapOf(withBoom(mast(height))))
    expect(gaps).toEqual([...gaps].sort((a, b) => b - a))
    expect(gaps.at(-1)).toBeCloseTo(-HALF, 6)
    expect(besideOf(withBoom(mast(20)))?.verdict).toBe('fail')
  })

  test('what is cleared away for the lift is not there', () => {
    const cleared = besideOf(
      withBoom((d) => {
        mast(20)(d)
        d.bays.side.stored.mast.clearedFor = ['out']
      }),
    )
    expect(cleared).toBeUndefined()
  })

  test('wires are struck as high as they hang, live or dead, and are taken for endless where nobody says', () => {
    const wires = (height: string | undefined): Change =>
      withBoom((d) => {
        const line = [
          ['4 m', '-50 m'],
          ['4 m', '50 m'],
        ]
        d.utilities = { wire: { what: 'overhead line', line, height, voltage: '20 kV', deadOnLifts: 'its owner' } }
      })
    expect(besideOf(wires('40 m'))?.verdict).toBe('fail')
    // under the boom: 8 m beside its centre it is above 12 m, and the load is lifted over them at its own risk
    expect(besideOf(wires('3 m'))?.verdict).toBe('pass')
    expect(besideOf(wires(undefined))?.reasons.join()).toContain('/utilities/wire/height')
  })
})

describe('another crane', () => {
  const missing = (change: (d: Document) => void): Check =>
    besideOf((d) => {
      withSecondCrane(25)(d)
      change(d)
    }) as Check

  test('parked with its boom away is 33 m less its counterweight and the reach of the boom off', () => {
    const check = missing(() => {})
    expect(check.verdict).toBe('pass')
    expect(check.capacity.value as number).toBeGreaterThan(33 - 4 - 14.5)
  })

  test.each<[string, (d: Document) => void]>([
    ['/systems/second/parked/over', (d) => delete d.systems.second.parked],
    ['/systems/second/setUp/boom', (d) => delete d.systems.second.setUp],
    ['/systems/second/tailRadius', (d) => delete d.systems.second.tailRadius],
    ['/systems/second/parked/standing', (d) => d.systems.second.standings.push(['46 m', '9 m'])],
  ])('whose boom may be in reach is open without %s', (pointer, change) => {
    // with its boom laid over the way it would be struck, so that it matters where it is
    const check = missing(change)
    expect(check.verdict).toBe('open')
    expect(check.reasons.join()).toContain(pointer)
  })

  test('that is not there, or out of reach wherever it turns, needs nothing said', () => {
    expect(
      missing((d) => {
        d.systems.second.parked = { away: true }
      }),
    ).toBeUndefined()
    const far = missing((d) => {
      d.systems.second.standings = [['120 m', '8 m']]
      delete d.systems.second.parked
    })
    expect(far.verdict).toBe('pass')
  })
})

/** The block shared by the crane and a second one on the other side of it, each over its own two points. */
const shared = (change: Change = () => {}): Change =>
  withBoom((d) => {
    const legs = (points: string[]) => ({ legs: points.map((to) => ({ item: 'sling', to })) })
    d.lifts.out.rigging = legs(['a', 'd'])
    d.systems.second = { ...structuredClone(d.systems.tower), name: 'Second crane', standings: [['-12 m', '8 m']] }
    for (const id of ['tower', 'second']) d.systems[id].tailRadius = '4 m'
    d.lifts.out.tail = { system: 'second', hook: 'tail', rigging: legs(['b', 'c']), standing: 0 }
    d.systems.second.hooks.tail.blockSize = { width: '0.8 m', height: '1.5 m' }
    change(d)
  })

describe('two cranes that share a piece', () => {
  const of = (kind: string, change?: Change): Check[] =>
    outcome('out', shared(change)).checks.filter((c) => c.kind === kind)

  test('are each held apart from what hangs, and from the boom of the other', () => {
    expect(of('lift.path.boom').map(({ id }) => id)).toEqual(['lift.path.boom/out', 'lift.path.boom/out/second'])
    expect(of('lift.path.boom-beside').map(({ id }) => id)).toEqual([
      'lift.path.boom-beside/out',
      'lift.path.boom-beside/out/second',
    ])
  })

  test('have their heads as far apart as their points: 2.4 m, less both booms', () => {
    const [check] = of('lift.path.boom-beside')
    const told = Number(check?.assumptions.find((a) => a.startsWith('boom of'))?.match(/boom: (-?[\d.]+) m/)?.[1])
    expect(told).toBeCloseTo(2.4 - 2 * HALF, 1)
    expect(check?.verdict).toBe('fail')
  })

  // from (−14, 0) the boom of the first goes over the points of the second, 2.4 m on its side of its own, at some 20 m
  test('strike the hoist line of one another where one boom goes over the points of the other', () => {
    const lineGap = (head: string): number => {
      const [first] = of('lift.path.boom-beside', (d) => {
        d.systems.tower.standings = [['-14 m', '0 m']]
        d.systems.second.standings = [['0 m', '24 m']]
        d.systems.second.hooks.tail.head = head
      })
      return Number(
        first?.assumptions.find((a) => a.startsWith('hoist line of Second'))?.match(/boom: (-?[\d.]+) m/)?.[1],
      )
    }
    // half of the boom and half of the block
    expect(lineGap('30 m')).toBeCloseTo(-HALF - 0.4, 1)
    expect(lineGap('12 m')).toBeGreaterThan(1)
  })

  test('the second is open by its own figures, and the first because of them', () => {
    const [first, second] = of('lift.path.boom-beside', (d) => delete d.systems.second.boom.level)
    expect(second?.reasons.join()).toContain('/systems/second/boom/level')
    expect(first?.verdict).not.toBe('pass')
    const own = of('lift.path.boom', (d) => {
      d.systems.second.standings.push(['-14 m', '8 m'])
      delete d.lifts.out.tail.standing
    })[1]
    expect(own?.reasons).toContain('/lifts/out/tail/standing is not given')
  })

  test('the second reads its chart at the radius of its own hook', () => {
    const radius = outcome('out', shared()).second?.radius.value as number
    // from (−12, 8) to the middle of b and c over the shaft, (−1.2, 0), and over the bay, (−1.2, 20)
    expect(radius).toBeCloseTo(Math.hypot(10.8, 12), 1)
  })
})

test('a piece turned in the air comes nearer to the boom than upright or flat', () => {
  const bars: Change = withBoom((d) => {
    // up and over on one crane about points in the middle of a long bar: half turned it reaches both up and towards the crane
    d.systems.tower.standings = [['20 m', '0 m']]
    d.lifts.out.landing = ['0 m', '0.5 m', '0 m']
    d.parts.block.solids.push({ shape: 'box', centre: ['0 m', '0 m', '0 m'], size: ['10 m', '0.4 m', '0.4 m'] })
    d.steps.S1.moves = [{ by: ['0 m', '0 m', '18 m'] }, { turn: '-90 deg', axis: 'y', about: ['0 m', '0 m', '8 m'] }]
  })
  const check = outcome('out', bars).checks.find(({ kind }) => kind === 'lift.path.boom') as Check
  expect(check.assumptions.find((a) => a.startsWith('the piece'))).toMatch(/in the stage turn/)
})

test('the gap is the distance less half of the boom and half of what is round', () => {
  expect(boomBeside.value({ d: 10, h: 3, b: 4, r: 2 })).toBeCloseTo(10 - 2.5 - 2, 12)
})
