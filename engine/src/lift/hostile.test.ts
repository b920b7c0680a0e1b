import { describe, expect, test } from 'vitest'
import type { Check } from '../working/check.ts'
import type { Change } from './fixture.ts'
import { withBoom } from './overhead.fixture.ts'
import { type Document, outcome } from './small.fixture.ts'

const checkOf = (lift: 'out' | 'turn', id: string, change: Change = () => {}): Check =>
  outcome(lift, change).checks.find((c) => c.id === id) as Check
const demandOf = (...asked: Parameters<typeof checkOf>): number => checkOf(...asked).demand.value as number

describe('what a checker tries on a plan', () => {
  const units =
    (at: Record<string, string[]>): Change =>
    (d: Document) => {
      d.systems.tower.hooks.main.units = {
        kind: 'strand unit',
        at,
        rated: '60 t',
        stiffness: '300 MN',
        difference: '5 mm',
        anchors: 2,
      }
    }

  test('a hook on one unit alone drops its load where that is lost, however strong it is', () => {
    expect(checkOf('out', 'lift.units.lost/out/main', units({ U1: ['0 m', '0 m'] })).verdict).toBe('fail')
    const pair = units({ U1: ['-1 m', '0 m'], U2: ['1 m', '0 m'] })
    expect(checkOf('out', 'lift.units.lost/out/main', pair).verdict).not.toBe('open')
  })

  test('units that stand nowhere leave their loads open', () => {
    expect(checkOf('out', 'lift.units.lost/out/main', units({})).verdict).toBe('open')
  })

  test('a point of no return set as late as one likes does not do away with the forecast: until there, it goes back', () => {
    const window = (noReturn: string | undefined): number =>
      demandOf('out', 'lift.time.fits/out/wind', (d) => {
        if (noReturn !== undefined) d.lifts.out.noReturn = noReturn
      })
    expect(window('99 h')).toBeGreaterThanOrEqual(window(undefined))
    expect(window('1 min')).toBeGreaterThan(window(undefined))
  })

  test('legs of a tail hook that lie flat pull harder, and are asked for their angle', () => {
    const short =
      (length: string): Change =>
      (d) => {
        d.stock.short = { ...d.stock.sling, length }
        for (const leg of d.lifts.turn.tail.rigging.legs) leg.item = 'short'
      }
    const tension = (length: string): number => demandOf('turn', 'lift.leg.tension/turn/tail/leg 1', short(length))
    // points at ±0.9 m under one hook: cos β = √(1 − (0.9 / L)²)
    const cosine = (l: number): number => Math.sqrt(1 - (0.9 / l) ** 2)
    expect(tension('1 m') / tension('4 m')).toBeCloseTo(cosine(4) / cosine(1), 9)
    expect(checkOf('turn', 'lift.leg.angle/turn/tail/legs', short('1 m')).verdict).toBe('fail')
    expect(checkOf('turn', 'lift.leg.angle/turn/tail/legs', short('0.8 m')).verdict).toBe('open')
  })

  test('legs of a tail hook are held to its worst pull, the centre of gravity anywhere in its box', () => {
    const o = outcome('turn', (d) => {
      d.settings.cogShift = '200 mm'
    })
    const load = o.checks.find((c) => c.id === 'lift.turn.worst-share/turn/tail')?.demand.value as number
    const rigging = 2 * 60 + 1000
    const leg = o.checks.find((c) => c.id === 'lift.leg.tension/turn/tail/leg 1')?.demand.value as number
    expect(2 * leg).toBeGreaterThanOrEqual((load - rigging) * 9.80665)
  })

  test('fewer stages on the sheet do not make a lug stronger', () => {
    const use = (step: string): number =>
      demandOf('turn', 'lift.lug.weld/turn/main/g', (d) => {
        d.lifts.turn.turn.step = step
      })
    expect(use('90 deg')).toBeCloseTo(use('15 deg'), 9)
  })

  test('the wind finds a plate that is turned up from lying flat as large as it stands', () => {
    const sail = (to: string): number =>
      outcome('turn', (d) => {
        d.parts.block.solids.push({ shape: 'box', centre: ['0 m', '0 m', '0 m'], size: ['8 m', '2 m', '0.2 m'] })
        d.lifts.turn.turn.to = to
      }).sail.area.value as number
    expect(sail('90 deg')).toBeGreaterThan(sail('5 deg'))
    // upright: 8 m high and 2 m wide
    expect(sail('90 deg')).toBeGreaterThanOrEqual(16)
  })

  const wire =
    (x: number): Change =>
    (d) => {
      d.utilities = {
        wire: {
          what: 'overhead line',
          line: [
            [`${x} m`, '-50 m'],
            [`${x} m`, '50 m'],
          ],
          height: '11 m',
          voltage: '20 kV',
        },
      }
    }
  const lineOf = (change: Change): Check => checkOf('out', 'lift.path.live-line/out/wire', withBoom(change))

  test('a live line behind a crane is as near as its counterweight', () => {
    const behind: Change = (d) => {
      wire(18)(d)
      d.systems.tower.tailRadius = '5 m'
    }
    // standing at x 12
    expect(lineOf(behind).capacity.value).toBeCloseTo(18 - 12 - 5, 9)
  })

  test('how near a crane comes to a live line is open while nobody says on which of its places it stands', () => {
    const unsaid = lineOf((d) => {
      wire(18)(d)
      d.systems.tower.standings.push(['-12 m', '8 m'])
      delete d.lifts.out.standing
      d.lifts.out.radius = '15 m'
    })
    expect(unsaid.reasons).toContain('/lifts/out/standing is not given')
  })

  // 14.4 m over the shaft, 17.0 m over the bay
  const charted = (radii: string[]): Check =>
    checkOf(
      'out',
      'lift.crane.chart-range/out/main',
      withBoom((d) => {
        const { main } = d.systems.tower.hooks
        delete main.rated
        const rows = radii.map((radius, i) => ({ radius, rated: `${60 - i} t` }))
        main.charts = { main: { boom: '30 m', rows } }
      }),
    )

  test('a load nearer than the first row of a chart is as little rated as one beyond its last', () => {
    expect(charted(['14 m', '18 m']).verdict).toBe('pass')
    const near = charted(['15 m', '18 m'])
    expect(near.verdict).toBe('fail')
    expect(near.reasons.join()).toContain('the chart runs from 15.0 m to 18.0 m; keep the load 0.6 m farther out')
  })

  test('a radius that is stated too short does not bring a crane nearer, which has one place to stand', () => {
    const { radius } = outcome(
      'out',
      withBoom((d) => {
        delete d.lifts.out.standing
        d.lifts.out.radius = '9 m'
      }),
    )
    expect(radius?.value).toBeCloseTo(17, 1)
  })

  test('with its centre of gravity anywhere in a box wider than its points a piece turns over', () => {
    const corners = (shift: string): Check =>
      checkOf('out', 'lift.hang.stability/out/corners', (d) => {
        d.settings.cogShift = shift
      })
    // points 1.2 m ahead and 0.9 m beside
    expect(corners('100 mm').verdict).toBe('pass')
    expect(corners('1.5 m').verdict).toBe('fail')
  })

  test('without a trial lift nobody sees how a piece hangs: its worst tilt has to do', () => {
    const tilted = (change: Change): string =>
      checkOf('out', 'lift.hang.tilt/out', (d) => {
        d.settings.cogShift = '200 mm'
        change(d)
      }).verdict
    expect(tilted(() => {})).toBe('pass')
    expect(
      tilted((d) => {
        delete d.lifts.out.arranged.trial
      }),
    ).toBe('fail')
  })

  test('a night shift sees no daylight, however long the day is', () => {
    const light = (shifts: string[][], lit = false): Check =>
      checkOf('out', 'lift.time.fits/out/daylight', (d) => {
        Object.assign(d.programme.calendars.day, { shifts, hoursPerDay: 8 })
        d.lifts.out.lit = lit
      })
    expect(light([['07:00', '19:00']]).verdict).toBe('pass')
    expect(light([['19:00', '06:00']]).verdict).toBe('fail')
    expect(light([['19:00', '06:00']]).capacity.value).toBe(0)
    // lit, it needs none
    expect(light([['19:00', '06:00']], true)).toBeUndefined()
    // two shifts that meet are one stretch
    expect(
      light([
        ['06:00', '14:00'],
        ['14:00', '22:00'],
      ]).capacity.value,
    ).toBeCloseTo(light([['00:00', '23:59']]).capacity.value as number, 6)
  })

  test('a leg flatter than 30° from level is refused, whatever the project sets', () => {
    const flat: Change = (d) => {
      d.settings.legAngle = '80 deg'
      d.stock.sling.length = '1.65 m'
    }
    expect(checkOf('out', 'lift.leg.angle/out/leg 1', flat).verdict).toBe('fail')
    expect(checkOf('turn', 'lift.leg.angle/turn/tail/legs', flat).capacity.value).toBeCloseTo(Math.PI / 3, 9)
  })

  test('a hook that hoists persons may use half of its rating', () => {
    const allowed = (persons: boolean): number =>
      checkOf('out', 'lift.hook.use/out/main', (d) => {
        d.lifts.out.facts.persons = persons
        d.systems.tower.forPersons = true
        delete d.settings.criticalUse
      }).capacity.value as number
    expect(allowed(true)).toBeCloseTo(allowed(false) / 2, 6)
  })

  test('a reading coarser than the band is no second means of knowing the weight', () => {
    const demands = (accuracy: number): string =>
      checkOf('out', 'lift.class.demands/out', (d) => {
        // a band of 5 %
        d.systems.tower.hooks.main.accuracy = accuracy
      }).verdict
    expect(demands(0.05)).toBe('pass')
    expect(demands(0.06)).toBe('fail')
  })

  test('a stress report on a lighter piece counts in proportion, and of a piece that comes back it has to say for which mass', () => {
    const use = (mass: string | undefined, as: string): number | undefined =>
      checkOf('out', 'lift.piece.stress/out', (d) => {
        d.lifts.out.as = as
        if (mass !== undefined) d.pieces.block.stress.mass = mass
      }).demand.value
    // 20 t with an allowance of 5 %
    expect(use('10.5 t', 'found')).toBeCloseTo(2 * 0.5, 9)
    expect(use('30 t', 'returned')).toBeCloseTo(0.5, 9)
    expect(use(undefined, 'found')).toBe(0.5)
    expect(use(undefined, 'returned')).toBeUndefined()
  })

  test('an edge is sharp whose radius is smaller than the sling is thick; covered, it is none', () => {
    const round =
      (laid: object): Change =>
      (d) => {
        const legs = d.lifts.out.rigging.legs as object[]
        for (const leg of legs) Object.assign(leg, { hitch: 'basket', basketAngle: '10 deg', ...laid })
      }
    const verdict = (laid: object): string | undefined =>
      checkOf('out', 'lift.sling.edge/out/main/edges', round(laid))?.verdict
    // ropes of 30 mm
    expect(verdict({ edge: '29 mm' })).toBe('fail')
    expect(verdict({ edge: '30 mm' })).toBe('pass')
    expect(verdict({})).toBe('open')
    expect(verdict({ padded: 'half shells of pipe' })).toBe('pass')
    expect(checkOf('out', 'lift.sling.edge/out/main/edges')).toBeUndefined()
  })

  test('what is left in a piece is told by how far its box lets it run, and is watched in a turn', () => {
    const loose = checkOf('turn', 'lift.piece.loose/turn', (d) => {
      d.pieces.block.retained = '1 t'
    })
    // 22 t × 20 mm / 1 t
    expect(loose.assumptions.join()).toMatch(/1\.0\s?t left in the piece .* shift of them by 0\.4\s?m/)
    expect(loose.cautions.join()).toMatch(/run as the piece turns/)
  })

  test('a lug on a part that is not in the piece holds nothing', () => {
    const on = (change: Change): Check => checkOf('out', 'lift.point.on-piece/out', change)
    // the lugs stand on the bracket, 3 m over the block: with it in the piece, and without
    const withBracket =
      (parts: string[]): Change =>
      (d) => {
        const solids = [{ shape: 'box', centre: ['0 m', '0 m', '3 m'], size: ['3 m', '2 m', '0.1 m'] }]
        d.parts.bracket = { ...d.parts.block, name: 'Bracket', solids, mass: { ...d.parts.block.mass, value: '2 t' } }
        d.pieces.block.parts = parts
        for (const id of ['a', 'b', 'c', 'd']) d.pieces.block.points[id].at[2] = '3.1 m'
      }
    expect(on(withBracket(['block', 'bracket'])).verdict).toBe('pass')
    const left = on(withBracket(['block']))
    expect(left.verdict).toBe('fail')
    expect(left.reasons.join()).toMatch(/a lies 2\.10\s?m off the parts of this piece/)
  })

  test('the tail hook of a turn has to go as high as its points do, with its slings', () => {
    const tail = (highest: string): Check =>
      checkOf('turn', 'lift.height.hook/turn/tail', (d) => {
        d.systems.tower.hooks.tail.highest = highest
      })
    expect(tail('16 m').verdict).toBe('pass')
    expect(tail('3 m').verdict).toBe('fail')
    // slings of 4 m, 0.9 m to either side: the hook stands √(4² − 0.9²) m above its points
    const longer = checkOf('turn', 'lift.height.hook/turn/tail', (d) => {
      d.stock.longer = { ...d.stock.sling, length: '5 m' }
      for (const leg of d.lifts.turn.tail.rigging.legs) leg.item = 'longer'
    })
    const more = (longer.demand.value as number) - (tail('16 m').demand.value as number)
    expect(more).toBeCloseTo(Math.sqrt(5 ** 2 - 0.9 ** 2) - Math.sqrt(4 ** 2 - 0.9 ** 2), 9)
  })

  test('a frame bolted to the piece without a centre of gravity leaves the load of its hook open', () => {
    const complete = checkOf('turn', 'lift.hook.load-complete/turn/main', (d) => {
      d.gear = { FR: { name: 'Frame', kind: 'turning frame', mass: '6 t', rated: '60 t' } }
      d.lifts.turn.rigging.gear = ['FR']
    })
    expect(complete.verdict).toBe('open')
    expect(complete.reasons.join()).toContain('/gear/FR/cog')
  })

  test('a piece is set down on its bay, all of it, and not in the air', () => {
    const landed = (landing: string[]): Check =>
      checkOf('out', 'lift.landing.on-bay/out', (d) => {
        d.lifts.out.landing = landing
      })
    // a block of 3 × 2 m on a bay of 8 × 8 m about (0, 20)
    expect(landed(['2.4 m', '20 m', '0 m']).verdict).toBe('pass')
    const beyond = landed(['3.5 m', '20 m', '0 m'])
    expect(beyond.verdict).toBe('fail')
    expect(beyond.reasons.join()).toMatch(/reaches 1\.00\s?m beyond its bay/)
    expect(landed(['0 m', '20 m', '1.2 m']).verdict).toBe('pass')
    expect(landed(['0 m', '20 m', '5 m']).verdict).toBe('fail')
    expect(landed(['0 m', '20 m', '-1 m']).verdict).toBe('fail')
  })

  test.each<[string, Change, RegExp]>([
    [
      'a share of the rating above one',
      (d) => {
        d.systems.tower.planned = 7.5
      },
      /\/systems\/tower\/planned/,
    ],
    [
      'a hoist factor below one',
      (d) => {
        d.systems.tower.dynamicFactor = 0.2
      },
      /dynamicFactor/,
    ],
    [
      'a load factor below one',
      (d) => {
        d.systems.tower.headerBeam.factor = 0
      },
      /headerBeam\/factor/,
    ],
    [
      'a piece without drag',
      (d) => {
        d.lifts.out.drag = 0
      },
      /\/lifts\/out\/drag/,
    ],
    [
      'air without weight',
      (d) => {
        d.settings.airDensity = '0 kg/m3'
      },
      /airDensity/,
    ],
    [
      'a load test in percent',
      (d) => {
        d.systems.tower.tested.factor = 125
      },
      /tested\/factor/,
    ],
    [
      'a line that nobody had earthed',
      (d) => {
        wire(6)(d)
        d.utilities.wire.deadOnLifts = ''
      },
      /deadOnLifts/,
    ],
    [
      'a stress report without a name',
      (d) => {
        d.pieces.block.stress = { use: 0.1, report: ' ', signedBy: '' }
      },
      /stress/,
    ],
    [
      'a planner of blanks',
      (d) => {
        d.lifts.out.arranged.plannedBy = ' '
      },
      /plannedBy/,
    ],
    [
      'a travel from the greater end',
      (d) => {
        d.systems.tower.hooks.main.travel = ['5 m', '-5 m']
      },
      /travel/,
    ],
  ])('%s is refused where it is written', (_, change, where) => {
    expect(() => outcome('out', change)).toThrow(where)
  })
})
