import { describe, expect, test } from 'vitest'
import { mass } from '../mass/index.ts'
import { type Pose, subtract } from '../numeric/vector.ts'
import { strip } from '../strip/index.ts'
import { freshMemory } from '../working/memory.ts'
import { type ClearanceNow, clearanceNow } from './clearanceNow.ts'
import { lift } from './lift.ts'
import { type Document, modelOf, smallProject } from './small.fixture.ts'

const up = (z: number): Pose => ({
  turn: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  shift: [0, 0, z],
})

/** What the lift of the small project is near at heights over where it stands, and what its checks say. */
function along(change: (d: Document) => void = () => {}) {
  const memory = freshMemory()
  const model = modelOf(smallProject(change), memory)
  const masses = mass(model, memory)
  const order = strip(model, masses, memory)
  const { checks } = lift(model, masses, order, memory)
  const now = clearanceNow(model, masses, order, 'out', memory)
  return {
    at: (z: number): ClearanceNow[] => now?.(up(z)) ?? [],
    least: (to: string): number =>
      Math.min(...Array.from({ length: 37 }, (_, k) => now?.(up(k / 2))?.find((n) => n.to === to)?.gap ?? Infinity)),
    check: (to: string) => checks.find((c) => c.id === `lift.path.clearance/out/${to}`)?.capacity.value as number,
  }
}

describe('a block lifted through a shaft', () => {
  test('comes no nearer to wall and duct, moment by moment, than its check says, and once as near', () => {
    const { least, check } = along()
    for (const to of ['wall', 'duct']) expect(least(to)).toBeCloseTo(check(to), 9)
  })

  test('is near the duct only while it is level with it, and to nothing once it is over the collar', () => {
    const { at } = along((d) => {
      d.shaft.obstructions.duct.z = ['-4 m', '-2 m']
    })
    expect(at(0).map((n) => n.to)).not.toContain('duct')
    expect(at(7).map((n) => n.to)).toContain('duct')
    expect(at(40)).toEqual([])
  })

  test('has its two points level, as far apart as the gap, one on the bore and one on the duct', () => {
    const near = along().at(6)
    expect(near.length).toBe(2)
    for (const { gap, from, at, to } of near) {
      const [dx, dy, dz] = subtract(at, from)
      expect(dz).toBe(0)
      expect(Math.hypot(dx, dy)).toBeCloseTo(gap, 9)
      if (to === 'wall') expect(Math.hypot(at[0], at[1])).toBeCloseTo(6, 9)
      // the duct: x 2.5 to 3, y 1 to 2, beside the face of the block at x 1.5
      else {
        expect(at[0]).toBeCloseTo(2.5, 6)
        expect(at[1]).toBeGreaterThanOrEqual(1 - 1e-9)
        expect(from[0]).toBeCloseTo(1.5, 1)
      }
    }
  })
})
