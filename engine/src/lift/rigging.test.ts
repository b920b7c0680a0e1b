import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Vec3 } from '../numeric/vector.ts'
import type { Check } from '../working/check.ts'
import type { LiftOutcome } from './lift.ts'
import { type Document, outcome } from './small.fixture.ts'

const checkOf = (of: LiftOutcome, id: string): Check => {
  const check = of.checks.find((c) => c.id === id)
  if (check === undefined) throw new Error(`no check ${id}`)
  return check
}
const capacity = (id: string, change?: (d: Document) => void): number =>
  checkOf(outcome('out', change), id).capacity.value as number

const LEG = 'lift.leg.tension/out/main/leg 1'
const SHACKLE = 'lift.component.use/out/main/shackle'
/** Of the shackle, 15 t, N. */
const RATED = 15_000 * 9.80665

test('a choked leg is rated for what its angle leaves, a basket for twice the cosine of its sides', () => {
  const straight = capacity(LEG)
  const laid = (hitch: Document) =>
    capacity(LEG, (d) => {
      Object.assign(d.lifts.out.rigging.legs[0], hitch)
    })
  expect(laid({ hitch: 'choke', chokeAngle: '100 deg' }) / straight).toBeCloseTo(0.65, 9)
  expect(laid({ hitch: 'choke', chokeAngle: '130 deg' }) / straight).toBeCloseTo(0.8, 9)
  expect(laid({ hitch: 'basket', basketAngle: '30 deg' }) / straight).toBeCloseTo(2 * Math.cos(Math.PI / 6), 9)
})

test('US rules rate an open choke of wire rope at three quarters', () => {
  const us = capacity(LEG, (d) => {
    d.settings.riggingRules = 'US'
    Object.assign(d.lifts.out.rigging.legs[0], { hitch: 'choke', chokeAngle: '130 deg' })
  })
  expect(us / capacity(LEG)).toBeCloseTo(0.75, 9)
})

test('a bridle of four counts 2.1 by European rules and three times the cosine by US ones, never both', () => {
  const rule = (rules: string) =>
    outcome('out', (d) => {
      d.settings.riggingRules = rules
    })
  const one = capacity(LEG)
  const european = rule('European')
  expect((checkOf(european, 'lift.leg.rule/out/main/rule').capacity.value as number) / one).toBeCloseTo(2.1, 9)
  const us = rule('US')
  const beta = Math.max(...us.legs.map((l) => l.angle.value as number))
  expect((checkOf(us, 'lift.leg.rule/out/main/rule').capacity.value as number) / one).toBeCloseTo(3 * Math.cos(beta), 6)
  for (const o of [european, us]) expect(o.bridles[0]?.governs).toBeDefined()
})

test('an item rated under the other rules is a finding that names it, and nothing is converted', () => {
  const of = outcome('out', (d) => {
    d.stock.shackle.rules = 'US'
  })
  const check = checkOf(of, 'lift.rigging.family/out/main')
  expect(check.verdict).toBe('fail')
  expect(JSON.stringify(check)).toMatch(/shackle.*rated by US rules, the project goes by European/)
  expect(checkOf(of, 'lift.component.use/out/main/shackle').capacity.value).toBe(
    checkOf(outcome('out'), 'lift.component.use/out/main/shackle').capacity.value,
  )
})

test('of a lift that states no day, the days of its certificates are left to the plan, and it says so', () => {
  const undated = outcome('out', (d) => {
    delete d.lifts.out.on
    d.stock.sling.certificateUntil = '2020-01-01'
  })
  const made = undated.checks.find((c) => c.kind === 'lift.stock.certificate')
  expect(made?.verdict).toBe('pass')
  expect(made?.assumptions.join(' ')).toContain('the programme holds the days of each paper')
  const unplanned = outcome('out', (d) => {
    delete d.lifts.out.on
    delete d.programme
  })
  expect(unplanned.checks.find((c) => c.kind === 'lift.stock.certificate')?.verdict).toBe('open')
})

test('a certificate that runs out before the day of the lift fails and says what cures it', () => {
  const check = checkOf(
    outcome('out', (d) => {
      d.stock.sling.certificateUntil = '2031-11-19'
    }),
    'lift.stock.certificate/out/main',
  )
  expect(check.verdict).toBe('fail')
  expect(JSON.stringify(check)).toMatch(/ran out on 2031-11-19, the lift is on 2031-11-20; examine it before/)
})

test('a shackle pulled 45° out of line keeps seven tenths of its rating, beyond that half', () => {
  const aside = (side: string) =>
    capacity(SHACKLE, (d) => {
      d.lifts.out.rigging.legs[0].side = side
    })
  expect(aside('45 deg')).toBeCloseTo(0.7 * RATED, 3)
  expect(aside('50 deg')).toBeCloseTo(0.5 * RATED, 3)
})

test('spacers make a wide jaw good, a lug too thick for it stays a finding', () => {
  const verdicts = (change: (d: Document) => void) =>
    outcome('out', change)
      .checks.filter((c) => c.kind === 'lift.shackle.jaw')
      .map((c) => c.verdict)
  const wide = (d: Document) => {
    d.stock.shackle.jaw = '60 mm'
  }
  expect(verdicts(wide)).toContain('fail')
  const spaced = (d: Document) => {
    wide(d)
    for (const leg of d.lifts.out.rigging.legs) leg.spacers = true
  }
  expect(verdicts(spaced)).not.toContain('fail')
  expect(
    verdicts((d) => {
      spaced(d)
      d.stock.shackle.jaw = '35 mm'
    }),
  ).toContain('fail')
})

/** A beam pinned to the hook, two slings from it to a lower beam, and from that the four legs. */
const inSeries = (d: Document): void => {
  d.gear = {
    upper: { name: 'Upper beam', kind: 'spreader', mass: '0.8 t', rated: '40 t' },
    lower: { name: 'Lower beam', kind: 'spreader', mass: '0.6 t', rated: '40 t' },
  }
  d.stock.sling.quantity = 6
  const rigging = d.lifts.out.rigging
  rigging.nodes = {
    'upper-front': { gear: 'upper', offset: ['1 m', '0 m', '-0.5 m'] },
    'upper-rear': { gear: 'upper', offset: ['-1 m', '0 m', '-0.5 m'] },
    'lower-front': { gear: 'lower', offset: ['1.2 m', '0 m', '-4.5 m'] },
    'lower-rear': { gear: 'lower', offset: ['-1.2 m', '0 m', '-4.5 m'] },
  }
  for (const leg of rigging.legs) leg.from = leg.to === 'a' || leg.to === 'd' ? 'lower-front' : 'lower-rear'
  rigging.legs.push(
    { item: 'sling', to: 'lower-front', from: 'upper-front' },
    { item: 'sling', to: 'lower-rear', from: 'upper-rear' },
  )
}

test('two spreaders in series hang, and the slings between them carry the lower one too', () => {
  const of = outcome('out', inSeries)
  expect(of.legs).toHaveLength(6)
  for (const leg of of.legs) expect(leg.tension.value).toBeGreaterThan(0)
  const vertical = (legs: readonly LiftOutcome['legs'][number][]): number =>
    legs.reduce((sum, l) => sum + (l.tension.value as number) * Math.cos(l.angle.value as number), 0)
  const [below, between] = [of.legs.slice(0, 4), of.legs.slice(4)]
  expect(vertical(between) - vertical(below)).toBeCloseTo(600 * 9.80665, 0)
  expect(checkOf(of, 'lift.hang.stability/out').verdict).toBe('pass')
})

test('a spreader in series is held to all that hangs below it, the lower spreader included', () => {
  const of = outcome('out', inSeries)
  const use = (gear: string): number => checkOf(of, `lift.component.use/out/main/${gear}`).demand.value as number
  expect(use('upper') - use('lower')).toBeCloseTo(600 * 9.80665, 0)
})

test('two hooks with a spreader each share the piece as without, and their spreaders hang from their own hooks', () => {
  const tandem = (d: Document): void => {
    d.gear = {
      one: { name: 'Bar one', kind: 'spreader', mass: '0.4 t', rated: '30 t' },
      two: { name: 'Bar two', kind: 'spreader', mass: '0.4 t', rated: '30 t' },
    }
    const on = (gear: string, points: string[]) => ({
      nodes: {
        left: { gear, offset: ['0 m', '0.9 m', '-0.4 m'] },
        right: { gear, offset: ['0 m', '-0.9 m', '-0.4 m'] },
      },
      legs: points.map((to, k) => ({ item: 'sling', to, from: k === 0 ? 'left' : 'right' })),
    })
    d.lifts.out.rigging = on('one', ['a', 'd'])
    d.lifts.out.tail = { hook: 'tail', rigging: on('two', ['b', 'c']) }
    d.parts.block.solids[0].centre[0] = '0.3 m'
  }
  const of = outcome('out', tandem)
  const share = (hook: string): number => checkOf(of, `lift.hook.use/out/${hook}`).demand.value as number
  const load = 21_000 + 4 * 60
  expect(share('main') / (load * (1.5 / 2.4) + 120 + 400)).toBeCloseTo(1, 2)
  expect(share('tail') / (load * (0.9 / 2.4) + 120 + 400)).toBeCloseTo(1, 2)
  // plumb drops, half of the hook's share each
  for (const leg of of.legs) expect(leg.angle.value).toBeLessThan(0.02)
})

test('a fitting in line lengthens its leg', () => {
  const of = (fittings: string[]) =>
    outcome('out', (d) => {
      d.stock.swivel = { kind: 'swivel', quantity: 4, rated: '20 t', mass: '10 kg', length: '0.3 m' }
      for (const leg of d.lifts.out.rigging.legs) leg.fittings = fittings
    })
  const [bare, longer] = [of([]), of(['swivel'])]
  expect((longer.height.below.value as number) - (bare.height.below.value as number)).toBeGreaterThan(0.3)
  expect(checkOf(longer, 'lift.component.use/out/main/leg 1/swivel').verdict).toBe('pass')
})

test('a heavier piece never lowers a use', () => {
  const uses = (tonnes: number): Map<string, number> => {
    const of = outcome('out', (d) => {
      d.parts.block.mass.value = `${tonnes} t`
    })
    const carrying = ['lift.leg.tension', 'lift.leg.rule', 'lift.component.use', 'lift.hook.use', 'lift.lug.strength']
    return new Map(
      of.checks.filter((c) => carrying.includes(c.kind)).map((c) => [c.id, c.utilisation as number] as const),
    )
  }
  fc.assert(
    fc.property(fc.integer({ min: 5, max: 25 }), fc.integer({ min: 1, max: 10 }), (tonnes, more) => {
      const [light, heavy] = [uses(tonnes), uses(tonnes + more)]
      expect(light.size).toBeGreaterThan(10)
      for (const [id, use] of light) expect(heavy.get(id), id).toBeGreaterThanOrEqual(use - 1e-12)
    }),
    { numRuns: 8 },
  )
})

test('lengths and masses written in US units give the same pulls', () => {
  const si = outcome('out')
  const us = outcome('out', (d) => {
    d.stock.sling.length = `${4 / 0.3048} ft`
    d.stock.sling.rated = `${15_000 / 0.45359237} lb`
    d.parts.block.mass.value = `${20_000 / 453.59237} kip`
    d.stock.sling.stiffness = `${20e6 / 4.4482216152605} lbf`
  })
  for (const [i, leg] of si.legs.entries())
    expect((us.legs[i]?.worst.value as number) / (leg.worst.value as number)).toBeCloseTo(1, 9)
})

test('every allowance of a lift stands once, with its clause, and a rating that holds dynamics takes none on the load', () => {
  const { allowances } = outcome('out')
  expect(new Set(allowances.map((a) => a.id)).size).toBe(allowances.length)
  for (const a of allowances) expect(a.clause.text).not.toBe('')
  expect(allowances.find((a) => a.id === 'dynamics')?.enters.hook).toBe('rating')
  const bare = outcome('out', (d) => {
    d.systems.tower.hooks.main.basis.dynamics = 'not included'
  })
  const dynamics = bare.allowances.find((a) => a.id === 'dynamics')
  expect(dynamics?.enters.hook).toBe('load')
  expect(dynamics?.value.value).toBe(1.05)
  const unstated = outcome('out', (d) => {
    delete d.systems.tower.hooks.main.basis.dynamics
  })
  expect(unstated.allowances.find((a) => a.id === 'dynamics')?.value.value).toBeUndefined()
})

test('what hangs on both hooks at once has to be there for both: four slings are enough for a turn, three are not', () => {
  const counts = (quantity: number): [unknown, unknown][] => {
    const of = outcome('turn', (d) => {
      d.stock.sling.quantity = quantity
    })
    return ['main', 'tail'].map((hook) => {
      const { demand, verdict } = checkOf(of, `lift.stock.count/turn/${hook}/sling`)
      return [demand.value, verdict]
    })
  }
  expect(counts(4)).toEqual([
    [4, 'pass'],
    [4, 'pass'],
  ])
  expect(counts(3)).toEqual([
    [4, 'fail'],
    [4, 'fail'],
  ])
})

test('a leg that leans out of the plane of its lug takes from the shackle what a side pull takes, and no more within 5°', () => {
  const at = (degrees: number) =>
    capacity(SHACKLE, (d) => {
      const ends = outcome('out').legs[0]?.ends
      const [from, to] = ends as readonly [Vec3, Vec3]
      const span = to.map((k, i) => k - (from[i] as number))
      const long = Math.hypot(...span)
      // across the leg within the plane of x and y, then so far towards the leg
      const level = Math.hypot(span[0] as number, span[1] as number)
      const across = [-(span[1] as number) / level, (span[0] as number) / level, 0]
      const lean = (degrees * Math.PI) / 180
      const axis = across.map((k, i) => k * Math.cos(lean) + ((span[i] as number) / long) * Math.sin(lean))
      for (const id of ['b', 'c', 'd']) delete d.pieces.block.points[id].lug
      d.pieces.block.points.a.lug.axis = axis
    })
  expect(at(3)).toBeCloseTo(RATED, 3)
  expect(at(20)).toBeCloseTo(0.7 * RATED, 3)
  expect(at(60)).toBeCloseTo(0.5 * RATED, 3)
})

const BEND = 'lift.sling.bend/out/main/leg 1'

test('a rope bends over the bow of its shackle: the thinner the bow, the less it is rated for', () => {
  const over = (bow: string) =>
    capacity(BEND, (d) => {
      d.stock.shackle.bow = bow
    })
  // 1 − 0.5/√(D/d): 0.646 at 2, 0.592 at 1.5
  expect(over('45 mm') / over('60 mm')).toBeCloseTo((1 - 0.5 / Math.sqrt(1.5)) / (1 - 0.5 / Math.sqrt(2)), 9)
  const thinner = capacity(BEND, (d) => {
    d.stock.thin = {
      kind: 'shackle',
      quantity: 4,
      rated: '15 t',
      mass: '10 kg',
      pin: '58 mm',
      bow: '45 mm',
      jaw: '48 mm',
    }
    d.lifts.out.rigging.legs[0].fittings = ['thin']
  })
  expect(thinner).toBeCloseTo(over('45 mm'), 6)
})

test('a rope over less than its own thickness fails in plain words, unless its maker rates it for that bend', () => {
  const over = (bow: string, more: Document = {}) =>
    outcome('out', (d) => {
      Object.assign(d.stock.shackle, { bow })
      Object.assign(d.stock.sling, { body: '30 mm', ...more })
    }).checks.find((c) => c.id === BEND)
  const thin = over('24 mm')
  expect(thin?.verdict).toBe('fail')
  expect(thin?.reasons.join()).toMatch(/bends over 24\smm, thinner than its own 30\smm/)
  expect(over('30 mm')?.capacity.value).toBeGreaterThan(0)
  // 24/30: rated at 0.8 and below, not at 0.9
  expect(over('24 mm', { ratedBend: 0.8 })?.capacity.value).toBeGreaterThan(0)
  expect(over('24 mm', { ratedBend: 0.9 })?.verdict).toBe('fail')
})

test('a rope of which nobody says what bend its rating assumes is open, unless its eyes have thimbles', () => {
  const verdictOf = (change: (d: Document) => void) => outcome('out', change).checks.find((c) => c.id === BEND)
  const unsaid = (d: Document) => {
    delete d.stock.sling.ratedBend
  }
  expect(verdictOf(unsaid)?.verdict).toBe('open')
  expect(JSON.stringify(verdictOf(unsaid))).toContain('/stock/sling/ratedBend')
  expect(
    verdictOf((d) => {
      delete d.stock.shackle.bow
    })?.verdict,
  ).toBe('open')
  expect(
    verdictOf((d) => {
      unsaid(d)
      d.stock.sling.thimbles = true
    }),
  ).toBeUndefined()
})

test('a lug bears by the thinnest pin of the shackles on its own legs, and each of them must pass its hole', () => {
  const twoKinds = (d: Document) => {
    d.stock.thin = {
      kind: 'shackle',
      quantity: 4,
      rated: '15 t',
      mass: '10 kg',
      pin: '20 mm',
      bow: '30 mm',
      jaw: '48 mm',
    }
    d.lifts.out.rigging.others = d.lifts.out.rigging.others.filter((o: Document) => o.item !== 'shackle')
    for (const [i, leg] of d.lifts.out.rigging.legs.entries()) leg.fittings = [i === 0 ? 'thin' : 'shackle']
  }
  const bears = (point: string, change: (d: Document) => void) =>
    capacity(`lift.lug.strength/out/main/${point}`, change)
  const all = (d: Document) => {
    twoKinds(d)
    for (const leg of d.lifts.out.rigging.legs) leg.fittings = ['shackle']
  }
  expect(bears('a', twoKinds)).toBeLessThan(bears('a', all))
  expect(bears('b', twoKinds)).toBe(bears('b', all))
  const pins = outcome('out', twoKinds).checks.filter((c) => c.kind === 'lift.shackle.pin')
  expect(pins.map((c) => c.demand.value)).toEqual([0.02, 0.06, 0.06, 0.06])
})

test('a sling that is counted beside the legs is held to all that hangs there', () => {
  const of = outcome('out', (d) => {
    d.stock.ring = { kind: 'wire rope grommet', quantity: 1, rated: '1 t', mass: '5 kg' }
    d.lifts.out.rigging.others.push({ item: 'ring', count: 1, onLegs: false })
  })
  expect(checkOf(of, 'lift.component.use/out/main/ring').verdict).toBe('fail')
})
