import { readFileSync } from 'node:fs'
import { beforeAll, describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import { mass } from '../mass/index.ts'
import { strip } from '../strip/index.ts'
import { freshMemory } from '../working/memory.ts'
import { type LiftOutcome, type LiftResult, lift } from './lift.ts'
import { type Document, modelOf } from './small.fixture.ts'

/** The invented recovery, read from its file: a whole journey, not a published case. */
const recovery = (): Document =>
  parse(readFileSync(new URL('../../../examples/recovery/project.yaml', import.meta.url), 'utf8'))

function liftsIn(document: Document): LiftResult {
  const memory = freshMemory()
  const model = modelOf(document, memory)
  const masses = mass(model, memory)
  return lift(model, masses, strip(model, masses, memory), memory)
}

const use = (o: LiftOutcome): number => (o.demand.value as number) / (o.rated.value as number)
const capacity = (o: LiftOutcome, of: string): number =>
  o.checks.find((c) => c.id.endsWith(of))?.capacity.value as number

describe('the head with its drive', () => {
  let base: LiftResult
  beforeAll(() => {
    base = liftsIn(recovery())
  })
  const of = (id: string): LiftOutcome => base.lifts[id] as LiftOutcome

  test('hangs with 628.0 t on a hook of 660 t: 0.951, near', () => {
    // 565.95 net, 27.02 allowance, 8.8 muck, 26.18 rigging and frame: the sum by hand
    expect((of('head-drive-out').hookLoad.value as number) / 1000).toBeCloseTo(565.95 + 27.02 + 8.8 + 26.18, 1)
    expect(use(of('head-drive-out'))).toBeCloseTo(0.951, 3)
    expect(of('head-drive-out').checks.find((c) => c.kind === 'lift.hook.use')?.verdict).toBe('near')
  })

  test('goes back heavier, on the same hook', () => {
    expect(use(of('head-drive-back'))).toBeGreaterThan(0.97)
    expect(use(of('head-drive-back'))).toBeLessThan(1)
  })

  test('clears the bore by 1.33 m and the ventilation duct by 0.48 m once it is 0.40 m forward', () => {
    expect(capacity(of('head-drive-out'), 'head-drive-out/wall')).toBeCloseTo(1.327, 2)
    expect(capacity(of('head-drive-out'), 'head-drive-out/OB-VNT')).toBeCloseTo(0.477, 2)
  })

  test('is turned with at most 314 t on the tail hook of 345 t, plumb from 38° on', () => {
    const turn = of('head-drive-turn')
    const tail = turn.checks.find((c) => c.id === 'lift.turn.share/head-drive-turn/LT1-T')
    expect((tail?.demand.value as number) / 1000).toBeCloseTo(314.1, 0)
    const at = (degrees: number) => turn.turning.find((s) => Math.abs((s.angle * 180) / Math.PI - degrees) < 1e-6)
    expect(at(45)?.tailLean).toBeLessThan(1e-6)
    expect(at(30)?.tailLean).toBeGreaterThan(0.02)
  })

  test('leans its hoist lines far more than 1.5° where the hooks cannot come closer than 5.2 m', () => {
    expect(of('head-drive-turn').checks.find((c) => c.kind === 'lift.turn.out-of-plumb')?.verdict).toBe('fail')
  })
})

test('7 % more on every part of the head with its drive is more than the hook may carry', () => {
  const document = recovery()
  const named = new Set<string>(document.pieces['head-drive'].parts.map((p: string) => p.replace(/-\d+$/, '')))
  for (const [id, part] of Object.entries<Document>(document.parts)) {
    if (!named.has(id) || part.mass === undefined) continue
    const [value, unit] = part.mass.value.split(' ')
    part.mass.value = `${Number(value) * 1.07} ${unit}`
  }
  const heavy = liftsIn(document).lifts['head-drive-out'] as LiftOutcome
  expect(use(heavy)).toBeCloseTo(1.014, 3)
  expect(heavy.checks.find((c) => c.kind === 'lift.hook.use')?.verdict).toBe('fail')
})

test('1.05 m forward the head strikes the ventilation duct, and 0.88 m are left to the bore', () => {
  const document = recovery()
  document.steps['S19-head-drive'].moves[0].by[0] = '1.05 m'
  const far = liftsIn(document).lifts['head-drive-out'] as LiftOutcome
  expect(capacity(far, 'head-drive-out/OB-VNT')).toBeLessThan(0)
  expect(capacity(far, 'head-drive-out/wall')).toBeCloseTo(0.878, 2)
})

test('with 5 % on top for dynamics, or the block as well, the head with its drive would not pass as it does', () => {
  const document = recovery()
  document.systems.LT1.hooks['LT1-M'].basis.dynamics = 'not included'
  expect(use(liftsIn(document).lifts['head-drive-out'] as LiftOutcome)).toBeCloseTo(0.999, 3)
  document.systems.LT1.hooks['LT1-M'].basis.point = 'above the block'
  expect(use(liftsIn(document).lifts['head-drive-out'] as LiftOutcome)).toBeCloseTo(1.018, 3)
})
