import { describe, expect, test } from 'vitest'
import { mass } from '../mass/index.ts'
import { AT_REST, distance, dot, type Pose, rotationAbout, subtract, type Vec3 } from '../numeric/vector.ts'
import { strip } from '../strip/index.ts'
import { freshMemory } from '../working/memory.ts'
import { boomStanding } from './boom.ts'
import type { ClearanceNow } from './clearanceNow.ts'
import type { Change } from './fixture.ts'
import { riggedAt } from './hungRigging.ts'
import { type LiftOutcome, lift } from './lift.ts'
import { withBoom, withSpreader } from './overhead.fixture.ts'
import { overheadNow } from './overheadNow.ts'
import { modelOf, smallProject } from './small.fixture.ts'

const up = (z: number): Pose => ({ ...AT_REST, shift: [0, 0, z] })

/** The block at heights over where it stands, straight up, and what its checks say. */
function along(change?: Change) {
  const memory = freshMemory()
  const model = modelOf(smallProject(change), memory)
  const masses = mass(model, memory)
  const order = strip(model, masses, memory)
  const outcome = lift(model, masses, order, memory).lifts.out as LiftOutcome
  const now = overheadNow(model, masses, order, 'out', memory)
  const levels = outcome.places.map(({ at }) => at[2])
  const rise = Math.max(...levels) - (levels[0] as number)
  const heights = Array.from({ length: 41 }, (_, k) => (rise * k) / 40)
  const all = heights.flatMap((z): ClearanceNow[] => now?.(up(z)) ?? [])
  return { outcome, model, all, least: (to: string) => Math.min(...all.filter((n) => n.to === to).map((n) => n.gap)) }
}

const checkOf = ({ checks }: LiftOutcome, kind: string) => checks.find((c) => c.kind === kind)

describe('legs and spreaders over a piece', () => {
  test('come, moment by moment, no nearer than their check says, and once as near', () => {
    for (const change of [undefined, withSpreader()]) {
      const { outcome, least } = along(change)
      expect(least('duct')).toBeCloseTo(checkOf(outcome, 'lift.path.rigging')?.capacity.value as number, 9)
    }
  })

  test('name the check they are the gap of, and have their two points as far apart as they say', () => {
    const { all, outcome } = along(withSpreader())
    expect(all.length).toBeGreaterThan(20)
    for (const { gap, from, at, check } of all) {
      expect(check).toBe(checkOf(outcome, 'lift.path.rigging')?.id)
      expect(distance(from, at)).toBeCloseTo(gap, 9)
    }
  })

  test('are told nothing of where a spreader has no section: the check is open', () => {
    expect(along(withSpreader((d) => delete d.gear.bar.beam)).all).toEqual([])
  })
})

describe('what hangs from a crane', () => {
  test('comes, moment by moment, no nearer to the boom than its check says', () => {
    const { outcome, least, all } = along(withBoom())
    const bound = checkOf(outcome, 'lift.path.boom')?.capacity.value as number
    expect(least('boom')).toBeGreaterThan(bound - 1e-9)
    // straight up is not all of its way: over the bay, farther out, the boom lies flatter over it
    expect(least('boom') - bound).toBeLessThan(3)
    expect(all.find(({ to }) => to === 'boom')?.check).toBe(checkOf(outcome, 'lift.path.boom')?.id)
  })

  test('has its gap end on the face of the boom as it stands in that moment', () => {
    const { all, outcome } = along(withBoom())
    const { boom } = outcome.overhead
    if (boom === undefined) throw new Error('the crane has a boom')
    const cog = outcome.places[0]?.at as Vec3
    const { pin, under, left } = boomStanding(boom, [cog[0], cog[1]])
    const ends = all.filter(({ to }) => to === 'boom')
    expect(ends.length).toBeGreaterThan(30)
    for (const { from, at, gap } of ends) {
      expect(distance(from, at)).toBeCloseTo(gap, 9)
      const off = subtract(at, pin)
      const beyond = [Math.abs(dot(off, under)) - boom.depth / 2, Math.abs(dot(off, left)) - boom.width / 2]
      expect(Math.max(...beyond)).toBeGreaterThan(-1e-6)
      expect(Math.max(...beyond)).toBeLessThan(1.5)
    }
  })

  test('is told nothing of where the boom has no level: the check is open', () => {
    const { all } = along(withBoom((d) => delete d.systems.tower.boom.level))
    expect(all.filter(({ to }) => to === 'boom')).toEqual([])
  })
})

describe('a boom', () => {
  const boom = { centre: [12, 8], length: 30, ahead: 1, level: 2 } as const
  test('has its head plumb over the hook, and its own length from the pin', () => {
    const { pin, head } = boomStanding(boom, [0, 0])
    expect(head[0]).toBeCloseTo(0, 9)
    expect(head[1]).toBeCloseTo(0, 9)
    expect(distance(pin, head)).toBeCloseTo(30, 9)
    expect(pin[2]).toBe(2)
  })

  test('that does not reach so far lies level towards it', () => {
    const { pin, head } = boomStanding(boom, [12, 80])
    expect(head[2]).toBe(2)
    expect(head[1] - pin[1]).toBeCloseTo(30, 9)
  })
})

describe('the rigging of a lift', () => {
  const hung = () => along(withSpreader()).outcome.overhead.hung as NonNullable<LiftOutcome['overhead']['hung']>
  const found = (shift: Vec3): Pose => ({ ...AT_REST, turn: hung().attitude, shift })

  test('hangs from its hook: plumb over the centre of gravity, legs from spreader to piece, the spreader under the hook', () => {
    const { hook, legs, spreaders } = riggedAt(hung(), found([0, 0, 5])) ?? { hook: [0, 0, 0], legs: [], spreaders: [] }
    expect(hook[2]).toBeGreaterThan(Math.max(...legs.flat().map(([, , z]) => z)) - 1e-9)
    expect(spreaders.length).toBe(1)
    const [a, b] = spreaders[0] as [Vec3, Vec3]
    expect(distance(a, b)).toBeCloseTo(4.4, 6)
    expect(hook[2] - (a[2] + b[2]) / 2).toBeCloseTo(2, 2)
  })

  test('goes round with a piece that is slewed, and is told no more of one that is tipped', () => {
    const spun: Pose = { turn: rotationAbout('z', Math.PI / 2), shift: [0, 0, 0] }
    const before = riggedAt(hung(), found([0, 0, 0]))?.spreaders[0] as [Vec3, Vec3]
    const after = riggedAt(hung(), spun)?.spreaders[0] as [Vec3, Vec3]
    const [p, q] = [subtract(before[1], before[0]), subtract(after[1], after[0])]
    expect(Math.abs(dot(p, q))).toBeLessThan(0.5)
    expect(riggedAt(hung(), { turn: rotationAbout('y', 0.3), shift: [0, 0, 0] })).toBeUndefined()
  })
})
