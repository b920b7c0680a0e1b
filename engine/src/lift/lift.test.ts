import { describe, expect, test } from 'vitest'
import { mass } from '../mass/index.ts'
import { model } from '../model/index.ts'
import { strip } from '../strip/index.ts'
import { restsOn } from '../working/answer.ts'
import type { Check } from '../working/check.ts'
import { freshMemory, type Memory } from '../working/memory.ts'
import { applyPatch } from '../working/patch.ts'
import { liftKinds } from './kinds.ts'
import { fixtures } from './lift.fixture.ts'
import { type LiftResult, lift } from './lift.ts'
import { type Document, liftsOf, modelOf, outcome, smallProject } from './small.fixture.ts'

/** Two pieces side by side, each with its own lift. */
const twoPieces = (change: (d: Document) => void = () => {}): Document =>
  smallProject((d) => {
    d.parts.other = structuredClone(d.parts.block)
    d.parts.other.solids[0].centre[0] = '-4 m'
    d.pieces.other = { ...structuredClone(d.pieces.block), name: 'Other', parts: ['other'] }
    d.lifts.second = { ...structuredClone(d.lifts.out), piece: 'other' }
    d.steps.S2 = { ...structuredClone(d.steps.S1), piece: 'other', lift: 'second' }
    d.order.push('S2')
    change(d)
  })

/** A document with one value changed, all else shared. */
function patched(document: Document, path: string, value: unknown): Document {
  const result = applyPatch(document, [{ op: 'replace', path, value }])
  if ('problems' in result) throw new Error(JSON.stringify(result.problems))
  return result.document
}

const derived = (document: Document, memory: Memory): LiftResult => {
  const model = modelOf(document, memory)
  const masses = mass(model, memory)
  return lift(model, masses, strip(model, masses, memory), memory)
}

const plain = (result: LiftResult): unknown => JSON.parse(JSON.stringify(result))

describe('worked again', () => {
  test('only the lifts that carry the mass that changed', () => {
    const memory = freshMemory()
    const document = twoPieces()
    const first = derived(document, memory)
    const before = memory.computed.lift as number
    const next = derived(patched(document, '/parts/other/mass/value', '21 t'), memory)
    expect((memory.computed.lift as number) - before).toBe(1)
    expect(next.lifts.out).toBe(first.lifts.out)
    expect(next.lifts.second).not.toBe(first.lifts.second)
  })

  test('no lift when it may be done on other days of the week, all when its shift is longer', () => {
    const memory = freshMemory()
    const document = twoPieces()
    const first = derived(document, memory)
    const day = '/programme/calendars/day'
    expect(derived(patched(document, `${day}/days`, ['Mon', 'Sat']), memory)).toBe(first)
    const longer = derived(patched(document, `${day}/shifts`, [['07:00', '19:30']]), memory)
    for (const id of Object.keys(first.lifts)) expect(longer.lifts[id], id).not.toBe(first.lifts[id])
  })

  test('nothing of what hangs from the hooks when the wind of the place is another', () => {
    const memory = freshMemory()
    const document = twoPieces()
    derived(document, memory)
    const hung = memory.computed['lift-hung']
    derived(patched(document, '/climate/height', '20 m'), memory)
    expect(memory.computed['lift-hung']).toBe(hung)
  })

  test('nothing at all when nothing has changed', () => {
    const memory = freshMemory()
    const document = twoPieces()
    const first = derived(document, memory)
    expect(derived(document, memory)).toBe(first)
  })

  test.each([
    ['/parts/other/mass/value', '21 t'],
    ['/stock/sling/length', '4.2 m'],
    ['/systems/tower/hooks/main/rated', '30 t'],
    ['/settings/cogShift', '50 mm'],
    ['/parts/block/solids/0/size/0', '3.2 m'],
    ['/steps/S1/moves/0/by/0', '0.2 m'],
    ['/shaft/clearDiameter', '11 m'],
    ['/machine/pose/roll', '1 deg'],
    ['/pieces/block/points/a/at/2', '1.1 m'],
    ['/lifts/turn/turn/to', '60 deg'],
  ])('after %s becomes %s, the same comes out as from nothing', (path, value) => {
    const memory = freshMemory()
    const document = twoPieces()
    derived(document, memory)
    const next = patched(document, path, value)
    expect(plain(derived(next, memory))).toEqual(plain(derived(next, freshMemory())))
  })

  test('without touching what it was given', () => {
    const document = twoPieces()
    const before = structuredClone(document)
    derived(document, freshMemory())
    expect(document).toEqual(before)
  })
})

describe('every check of a lift', () => {
  test('has an id of its own', () => {
    const ids = liftsOf().checks.map((c) => c.id)
    expect(ids.filter((id, i) => ids.indexOf(id) !== i)).toEqual([])
  })

  test('passes in the small project, where all that is asked for is there but a step that turns the block and its shackles', () => {
    expect(
      liftsOf()
        .checks.filter((c) => c.verdict === 'fail' || c.verdict === 'open')
        .map((c) => c.id),
    ).toEqual(['lift.leg.joined/turn/main/lugs', 'lift.leg.joined/turn/tail/lugs', 'lift.turn.as-moved/turn'])
  })

  test('is of a kind of the catalogue, and every kind has its fixtures', () => {
    const kinds = new Set(liftKinds.map((k) => k.id))
    expect(liftsOf().checks.filter((c) => !kinds.has(c.kind))).toEqual([])
    expect(Object.keys(fixtures).sort()).toEqual([...kinds].sort())
  })
})

test('without a machine, a shaft, rigging or masses a lift is open, never passed and never broken', () => {
  const bare = outcome('out', (d) => {
    for (const section of ['machine', 'shaft']) delete d[section]
    for (const setting of Object.keys(d.settings)) delete d.settings[setting]
    delete d.lifts.out.rigging
    delete d.lifts.turn
    delete d.systems.tower.hooks.main.rated
    delete d.parts.block.mass.uncertainty
  })
  expect(bare.checks.filter((c) => c.verdict === 'fail')).toEqual([])
  const passed = bare.checks.filter((c) => c.verdict === 'pass').map((c) => c.kind)
  expect(passed).not.toContain('lift.hook.use')
  for (const c of bare.checks.filter((x) => x.verdict === 'open')) expect(c.reasons.length).toBeGreaterThan(0)
})

test('of all that carries the load, what is used the most is named as what governs', () => {
  const out = outcome('out', (d) => {
    d.stock.shackle.rated = '8 t'
  })
  expect(out.governing).toBe('lift.component.use/out/main/shackle')
})

test('a piece once weighed is turned and carried on as weighed; its first lift stays as it was planned', () => {
  const weighed = (d: Document) => {
    d.settings.allowance.weighed = 0.015
    d.weighings = { w: { piece: 'block', measured: '22 t', accuracy: 0.01, date: '2031-02-01', lift: 'out' } }
  }
  expect(outcome('out', weighed).state).toBe('found')
  expect(outcome('turn', weighed).state).toBe('weighed')
  expect(outcome('turn', weighed).hookLoad.value).toBeGreaterThan(outcome('turn').hookLoad.value as number)
})

test('the wind of a light piece with a large sail stops it before the machine does', () => {
  const light = outcome('out', (d) => {
    d.parts.block.mass.value = '0.4 t'
  })
  expect(light.allowableWind.value).toBeLessThan(12)
  expect(light.checks.find((c) => c.kind === 'lift.wind.allowable')?.verdict).toBe('fail')
  const slower = outcome('out', (d) => {
    d.parts.block.mass.value = '0.4 t'
    d.lifts.out.stopWind = '2 m/s'
  })
  expect(slower.checks.find((c) => c.kind === 'lift.wind.allowable')?.verdict).toBe('pass')
})

test('the hook must clear the barrier by the clearance and by how far the piece hangs below it', () => {
  const { height } = outcome('out')
  // legs of 4 m from points at (±1.2, ±0.9), 1 m over the centre; the piece reaches 1 m below it: by hand
  const below = Math.sqrt(16 - 1.2 ** 2 - 0.9 ** 2) + 2
  expect(height.below.value).toBeCloseTo(below, 1)
  // 18 m up from −10 m puts the hook higher than the barrier asks for
  expect(height.needed.value).toBeCloseTo(Math.max(1.2 + 0.5 + below, 8 + below - 1), 1)
})

test('hook time is set-up, height over speed, the way to the bay and, for a turn, angle over speed', () => {
  const timed = (d: Document) => {
    d.programme = {
      start: '2031-01-01',
      calendars: { c: { days: ['Mon'], shifts: [['07:00', '19:00']], hoursPerDay: 12 } },
      work: {
        joints: { calendar: 'c', needs: {} },
        services: { calendar: 'c', needs: {} },
        lifts: { calendar: 'c', needs: {} },
        changes: { calendar: 'c', needs: {} },
        tests: { calendar: 'c', needs: {} },
        setUp: '2 h',
        spread: [0.8, 1.3],
      },
    }
  }
  expect((outcome('out', timed).duration.value as number) / 3600).toBeCloseTo(2 + 18 / 20 + 20 / 60 + 7 / 20, 6)
  expect((outcome('turn', timed).duration.value as number) / 3600).toBeCloseTo(2 + 45 / 60, 6)
})

describe('an input taken away', () => {
  const document = smallProject()
  const base = derived(document, freshMemory())
  const leavesOf = (c: Check): string[] => [...restsOn(c.demand), ...restsOn(c.capacity)]
  const pointers = [...new Set(base.checks.flatMap(leavesOf))]

  test('leaves no check passed that still rests on it', () => {
    let compared = 0
    for (const pointer of pointers) {
      const removed = applyPatch(document, [{ op: 'remove', path: pointer }])
      if ('problems' in removed) continue
      const read = model(removed.document, freshMemory())
      // what the model itself asks for is refused there
      if (read.model === undefined) continue
      const memory = freshMemory()
      const masses = mass(read.model, memory)
      const after = lift(read.model, masses, strip(read.model, masses, memory), memory)
      for (const c of after.checks) {
        if (!leavesOf(c).includes(pointer)) continue
        compared++
        expect([pointer, c.id, c.verdict]).toEqual([pointer, c.id, 'open'])
        expect(c.reasons.join()).toContain(pointer)
      }
    }
    expect(compared).toBeGreaterThan(100)
  })
})

test.each<[string, (d: Document) => void]>([
  [
    'no length',
    (d) => {
      d.stock.sling.length = '0 m'
    },
  ],
  [
    'no stiffness',
    (d) => {
      d.stock.sling.stiffness = '0 N'
    },
  ],
])('slings of %s leave the hang open and break nothing', (_, change) => {
  const out = outcome('out', (d) => {
    change(d)
  })
  expect(out.tilt.value).toBeUndefined()
  expect(out.checks.filter((c) => c.kind === 'lift.leg.tension').map((c) => c.verdict)).not.toContain('pass')
})
