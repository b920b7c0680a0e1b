import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { Check } from '../working/check.ts'
import { type Document, outcome } from './small.fixture.ts'
import { everyLug } from './structure.fixture.ts'

const of = (kind: string, at: string, change?: (d: Document) => void, lift: 'out' | 'turn' = 'out'): Check =>
  outcome(lift, change).checks.find((c) => c.kind === kind && c.id.endsWith(`/${at}`)) as Check

const KINDS = ['lift.lug.strength', 'lift.lug.foot', 'lift.lug.weld', 'lift.lug.parent']

test('a heavier piece never lowers the use of a lug, its foot, its weld or the plate under it', () => {
  const used = (tonnes: number): number[] =>
    KINDS.map((kind) => {
      const check = of(kind, 'a', (d) => {
        d.parts.block.mass.value = `${tonnes} t`
      })
      return check.utilisation as number
    })
  fc.assert(
    fc.property(fc.integer({ min: 5, max: 40 }), fc.integer({ min: 1, max: 20 }), (tonnes, more) => {
      const [lighter, heavier] = [used(tonnes), used(tonnes + more)]
      lighter.forEach((use, i) => {
        expect(heavier[i]).toBeGreaterThan(use)
      })
    }),
    { numRuns: 8 },
  )
})

test('a lug that fails says how thick its plate would have to be, and that plate bears the pull', () => {
  const thin = (plate: string) =>
    of(
      'lift.lug.strength',
      'a',
      everyLug((lug) => {
        lug.plate = plate
      }),
    )
  const failing = thin('12 mm')
  expect(failing.verdict).toBe('fail')
  const least = failing.reasons.map((r) => /plate of at least (\d+)\smm/.exec(r)?.[1]).find((r) => r !== undefined)
  expect(thin(`${least} mm`).verdict).not.toBe('fail')
  expect(thin(`${Number(least) - 1} mm`).verdict).toBe('fail')
})

test('a lug whose edge is nearer than two thirds of its hole is not mended by any plate', () => {
  const near = of(
    'lift.lug.strength',
    'a',
    everyLug((lug) => {
      lug.radius = '70 mm'
    }),
  )
  expect(near.verdict).toBe('fail')
  expect(near.reasons.join()).not.toContain('plate of at least')
  expect(near.reasons.join()).toContain('from the centre')
})

test('the method that governs a lug is named', () => {
  expect(of('lift.lug.strength', 'a').assumptions.join()).toMatch(/Governs: .*(EN 1993-1-8|ASME BTH-1)/)
})

test('a lug turned so that its plate lies across the pull is used more than one turned to its leg', () => {
  const along = of('lift.lug.foot', 'a')
  const across = of(
    'lift.lug.foot',
    'a',
    everyLug((lug) => {
      lug.axis = [1, 0, 0]
    }),
  )
  expect(across.utilisation).toBeGreaterThan(along.utilisation as number)
})

test('in a turn the foot of a lug is held to the angle that asks most of it, not only to the hang', () => {
  const check = of('lift.lug.weld', 'e', undefined, 'turn')
  expect(check.assumptions.join()).toMatch(/Worst turned/)
})

test('welds follow the rules of the project, and are open where it has chosen none', () => {
  const with_ = (rules: string | undefined) =>
    of('lift.lug.weld', 'a', (d) => {
      d.settings.riggingRules = rules
    })
  const uses = (check: Check) => JSON.stringify(check.demand)
  expect(uses(with_('European'))).toContain('lift.weld.fillet-eurocode')
  expect(uses(with_('European'))).not.toContain('aisc')
  expect(uses(with_('US'))).toContain('lift.weld.fillet-aisc')
  expect(uses(with_('US'))).not.toContain('eurocode')
  expect(with_(undefined).verdict).toBe('open')
  expect(with_(undefined).reasons.join()).toContain('/settings/riggingRules')
})

test('a weld through the whole thickness is as strong as the weaker plate', () => {
  const full = of(
    'lift.lug.weld',
    'a',
    everyLug((lug) => {
      lug.weld = { kind: 'full penetration' }
    }),
  )
  const weaker = of(
    'lift.lug.weld',
    'a',
    everyLug((lug) => {
      lug.weld = { kind: 'full penetration' }
      lug.parent.yield = '235 MPa'
    }),
  )
  expect((weaker.utilisation as number) / (full.utilisation as number)).toBeCloseTo(355 / 235, 9)
})

test('a lug that is known only by its hole leaves foot, weld and plate open, and says what is missing', () => {
  const bare = everyLug((lug) => {
    for (const key of ['stands', 'axis', 'reach', 'foot', 'weld', 'parent']) delete lug[key]
  })
  const reasons = ['lift.lug.foot', 'lift.lug.weld', 'lift.lug.parent'].flatMap((k) => of(k, 'a', bare).reasons)
  for (const field of ['stands', 'axis', 'reach', 'foot', 'weld', 'parent'])
    expect(reasons.join()).toContain(`/lug/${field} is not given`)
})

test.each<[string, string, RegExp, (lug: Document, size: string) => void, string]>([
  [
    'plate',
    'lift.lug.foot',
    /a plate of at least (\d+)\smm/,
    (lug, size) => Object.assign(lug, { plate: size }),
    '12 mm',
  ],
  [
    'foot',
    'lift.lug.foot',
    /a foot at least as wide as (\d+)\smm/,
    (lug, size) => Object.assign(lug, { foot: size }),
    '60 mm',
  ],
  [
    'throat',
    'lift.lug.weld',
    /a throat of at least (\d+)\smm/,
    (lug, size) => Object.assign(lug.weld, { throat: size }),
    '2 mm',
  ],
  [
    'plate under it',
    'lift.lug.parent',
    /a plate of at least (\d+)\smm/,
    (lug, size) => Object.assign(lug.parent, { thickness: size, span: '400 mm' }),
    '8 mm',
  ],
])(
  'the %s that a failing lug is told to have bears it, and one millimetre less does not',
  (_, kind, told, set, weak) => {
    const at = (size: string): Check =>
      of(
        kind,
        'a',
        everyLug((lug) => set(lug, size)),
      )
    const failing = at(weak)
    expect(failing.verdict).toBe('fail')
    const due = Number(told.exec(failing.reasons.join())?.[1])
    expect(at(`${due} mm`).verdict).not.toBe('fail')
    expect(at(`${due - 1} mm`).verdict).toBe('fail')
  },
)
