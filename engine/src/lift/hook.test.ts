import { expect, test } from 'vitest'
import { restsOn } from '../working/answer.ts'
import { worstOfKind } from './fixture.ts'
import { type Document, outcome } from './small.fixture.ts'

const hookOf = (d: Document) => d.systems.tower.hooks.main

test('the hook load is the piece, its allowance, what is left in it, and every item between it and the hook, each once', () => {
  const { hookLoad, lines } = outcome('out')
  // 20 t, 5 % allowance, nothing left in; 4 slings of 60 kg, 4 shackles of 15 kg, 2 lines of a gram, a hook of 80 kg: by hand
  expect(hookLoad.value).toBeCloseTo(20_000 + 1_000 + 4 * 60 + 4 * 15 + 2 * 0.001 + 80, 6)
  expect(new Set(lines.map((l) => l.label)).size).toBe(lines.length)
})

test('muck left in the piece hangs on the hook as well', () => {
  const more = outcome('out', (d) => {
    d.pieces.block.retained = '900 kg'
  })
  expect((more.hookLoad.value as number) - (outcome('out').hookLoad.value as number)).toBeCloseTo(900, 6)
})

test('the block counts only where the rating is that of the head above it', () => {
  const below = outcome('out').demand.value as number
  const above = outcome('out', (d) => {
    hookOf(d).basis.point = 'above the block'
  }).demand.value as number
  expect(above - below).toBeCloseTo(1_000, 6)
})

test('dynamics enter once: on the load where the rating does not hold them, and then on the block too', () => {
  const out = outcome('out', (d) => {
    hookOf(d).basis = { dynamics: 'not included', point: 'above the block' }
  })
  expect(out.demand.value).toBeCloseTo(1.05 * ((out.hookLoad.value as number) + 1_000), 6)
})

test.each(['dynamics', 'point'])('a rating that does not say its %s is open, and says so by its address', (field) => {
  const use = worstOfKind('lift.hook.use', (d) => {
    delete hookOf(d).basis[field]
  })
  expect(use.verdict).toBe('open')
  expect(use.reasons).toContain(`/systems/tower/hooks/main/basis/${field} is not given`)
})

test('the hook load stays known while the basis of the rating is not', () => {
  const out = outcome('out', (d) => {
    hookOf(d).basis = {}
  })
  expect(out.hookLoad.value).toBeDefined()
  expect(out.demand.value).toBeUndefined()
})

test('a missing mass of a sling makes the load open, and names the sling', () => {
  const use = worstOfKind('lift.hook.use', (d) => {
    delete d.pieces.block.retained
  })
  expect(use.reasons).toContain('/pieces/block/retained is not given')
})

test('the hook load rests on the mass of the part, the allowance and every item', () => {
  const leaves = restsOn(outcome('out').hookLoad)
  for (const pointer of [
    '/parts/block/mass/value',
    '/settings/allowance/calculated',
    '/stock/sling/mass',
    '/stock/shackle/mass',
    '/pieces/block/retained',
  ])
    expect(leaves).toContain(pointer)
})

test('a critical lift is held to the limit of critical lifts, another to the whole rating', () => {
  expect(outcome('out').critical).toBe(true)
  expect(outcome('out').allowed.value).toBeCloseTo(0.9 * 40_000, 6)
  const standard = outcome('out', (d) => {
    d.lifts.out.facts.nonRoutineRigging = false
  })
  expect(standard.critical).toBe(false)
  expect(standard.allowed.value).toBe(40_000)
  const held = outcome('out', (d) => {
    d.lifts.out.facts.nonRoutineRigging = false
    d.lifts.out.facts.otherReason = true
  })
  expect(held.critical).toBe(true)
})

test('a criterion that is not answered leaves the class open, unless another says critical already', () => {
  const open = outcome('out', (d) => {
    d.lifts.out.facts.nonRoutineRigging = false
    delete d.lifts.out.facts.hazardous
  })
  expect(open.critical).toBeUndefined()
  expect(open.allowed.value).toBeCloseTo(0.9 * 40_000, 6)
})

test('a heavier piece uses more of every leg, hook and lug that carries it', () => {
  const heavy = outcome('out', (d) => {
    d.parts.block.mass.value = '21.4 t'
  })
  const before = new Map(outcome('out').checks.map((c) => [c.id, c.utilisation]))
  for (const kind of ['lift.hook.use', 'lift.leg.tension', 'lift.lug.strength', 'lift.component.use'])
    for (const c of heavy.checks.filter((x) => x.kind === kind))
      expect(c.utilisation).toBeGreaterThan(before.get(c.id) as number)
})

test('people hoisted on a machine that is not for persons fail the demands of the class', () => {
  const check = worstOfKind('lift.class.demands', (d) => {
    d.lifts.out.facts.persons = true
  })
  expect(check.verdict).toBe('fail')
  expect(check.reasons.join()).toContain('not for persons')
})

test('a crane is rated by the row of its chart at the largest radius that the load passes', () => {
  const crane = (radius: string) =>
    outcome('out', (d) => {
      d.systems.tower.kind = 'crawler crane'
      delete hookOf(d).rated
      delete hookOf(d).travel
      hookOf(d).chart = [
        { radius: '1 m', rated: '90 t' },
        { radius: '20 m', rated: '60 t' },
        { radius: '24 m', rated: '45 t' },
      ]
      // 21 m from the load in the shaft, 1 m from the bay
      d.systems.tower.standings = [['0 m', '21 m']]
      d.lifts.out.standing = 0
      d.lifts.out.radius = radius
    })
  expect(crane('10 m').rated.value).toBe(45_000)
  expect(crane('30 m').rated.value).toBe(0)
  expect(crane('30 m').checks.find((c) => c.kind === 'lift.hook.use')?.verdict).toBe('fail')
})
