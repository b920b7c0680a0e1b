import { describe, expect, test } from 'vitest'
import { mass } from '../mass/index.ts'
import { distance, IDENTITY, type Pose, rotationAbout, type Vec3 } from '../numeric/vector.ts'
import { freshMemory } from '../working/memory.ts'
import type { ClearanceNow } from './clearanceNow.ts'
import { siteNow } from './siteNow.ts'
import { type Document, modelOf, smallProject } from './small.fixture.ts'

const by = (...shift: Vec3): Pose => ({ turn: IDENTITY, shift })

/** The block of 3 × 2 × 2 m, its middle at (0, 0, −10), moved from there. */
function near(pose: Pose, change: (d: Document) => void = () => {}): Record<string, ClearanceNow> {
  const memory = freshMemory()
  const model = modelOf(smallProject(change), memory)
  const masses = mass(model, memory)
  const now = siteNow(model, masses, { piece: 'block', lift: 'out', standing: [] }, memory)
  return Object.fromEntries((now?.(pose) ?? []).map((n) => [n.to, n]))
}

describe('what a block is over', () => {
  test('in the shaft it is the base slab, whatever lies beside the shaft', () => {
    const { slab, ...others } = near(by(0, 0, 3))
    // its underside at −11 + 3, the slab at −12
    expect(slab?.gap).toBeCloseTo(4, 9)
    expect(slab?.name).toBe('base slab')
    expect(Object.keys(others).filter((to) => ['ground', 'barrier', 'bay/B1'].includes(to))).toEqual([])
  })

  test('across the edge of the shaft it is slab, barrier and ground at once; the barrier is the nearest', () => {
    // its underside at 3; the bore 6 m about the axis, the barrier 1.2 m over the collar
    const over = near(by(0, 6, 14))
    expect(over.barrier?.gap).toBeCloseTo(1.8, 9)
    expect(over.ground?.gap).toBeCloseTo(3, 9)
    expect(over.slab?.gap).toBeCloseTo(15, 9)
    expect(over['bay/B1']).toBeUndefined()
  })

  test('over a bay it is the surface of the bay alone, and the ground as well while a part of it is beside', () => {
    // the bay: x ±4, y 16 to 24
    const raised = (d: Document) => {
      d.bays.B1.level = '0.5 m'
    }
    expect(Object.keys(near(by(0, 20, 14), raised)).sort()).toEqual(['bay/B1'])
    const edge = near(by(0, 15.5, 14), raised)
    expect(edge['bay/B1']?.gap).toBeCloseTo(2.5, 9)
    expect(edge.ground?.gap).toBeCloseTo(3, 9)
    expect(Object.keys(near(by(0, 14.9, 14), raised))).toEqual(['ground'])
  })

  test('on edge, half turned, its lowest edge counts: (3 + 2) / 2 √½ below its middle', () => {
    const turn = rotationAbout('y', Math.PI / 4)
    // the middle, as found at (0, 0, −10), to (0, 20, 4)
    const [x, y, z] = [0, 1, 2].map((i) => [0, 20, 4][i]! - -10 * turn[i]![2]!) as [number, number, number]
    const { 'bay/B1': bay } = near({ turn, shift: [x, y, z] })
    expect(bay?.gap).toBeCloseTo(4 - 2.5 * Math.SQRT1_2, 9)
  })

  test('touches the bay when it is set down on it', () => {
    expect(near(by(0, 20, 11))['bay/B1']?.gap).toBeCloseTo(0, 9)
  })
})

describe('what a block goes past', () => {
  const stored = (d: Document) => {
    d.bays.B1.stored = { pile: { what: 'plates', centre: ['0 m', '22 m'], size: ['2 m', '2 m'], height: '1.5 m' } }
  }

  test('a stockpile in its way in plan is as far as the faces, over it as far as its top, past a corner no farther than it is', () => {
    const pile = (pose: Pose) => near(pose, stored)['stored/B1/plates']
    // faces at y 1 + 15 and y 21; from above at 4 and 1.5
    expect(pile(by(0, 15, 11))?.gap).toBeCloseTo(5, 9)
    expect(pile(by(0, 22, 15))?.gap).toBeCloseTo(2.5, 9)
    // corner of the block at (4 − 1.5, 17), of the pile at (1, 21)
    const corner = pile(by(4, 16, 11))
    const apart = Math.hypot(4 - 1.5 - 1, 21 - 17)
    expect(corner?.gap).toBeLessThanOrEqual(apart + 1e-9)
    expect(corner?.gap).toBeGreaterThan(apart * Math.cos(Math.PI / 24) - 1e-9)
  })

  test('it is not there for a lift that it is cleared away for', () => {
    const cleared = (d: Document) => {
      stored(d)
      d.bays.B1.stored.pile.clearedFor = ['out']
    }
    expect(near(by(0, 15, 11), cleared)['stored/B1/plates']).toBeUndefined()
  })

  test('legs of its own tower go along with it: across they come nearer as it does, along the runway never', () => {
    const legs = (d: Document) => {
      d.systems.tower.legs = { A: { x: '7 m', offset: '0 m' } }
      d.systems.tower.legWidth = '1 m'
    }
    const leg = (pose: Pose) => near(pose, legs)['leg/A'] as ClearanceNow
    // faces at x 1.5 and 6.5
    expect(leg(by(0, 0, 14)).gap).toBeCloseTo(5, 9)
    expect(leg(by(2, 0, 14)).gap).toBeCloseTo(3, 9)
    expect(leg(by(2, 17, 14)).gap).toBeCloseTo(3, 9)
    expect(leg(by(2, 17, 14)).name).toBe('leg A, Tower')
  })

  test('a crane is what it stands on, where it stands for this lift', () => {
    const crane = (d: Document) => {
      d.systems.crane = {
        ...d.systems.tower,
        name: 'Crane',
        kind: 'crawler crane',
        standings: [['20 m', '0 m']],
        tracks: { length: '8 m', width: '1 m', gauge: '5 m' },
      }
    }
    // tracks from x 16; the block from x 1.5
    const { gap, name } = near(by(0, 0, 14), crane)['crane/crane'] as ClearanceNow
    expect(gap).toBeCloseTo(14.5, 9)
    expect(name).toBe('Crane')
  })

  test('a crane that does not lift stands where it is parked, and one that is away stands nowhere', () => {
    const crane = (parked: object) => (d: Document) => {
      d.systems.crane = {
        ...d.systems.tower,
        name: 'Crane',
        kind: 'crawler crane',
        standings: [
          ['20 m', '0 m'],
          ['30 m', '0 m'],
        ],
        tracks: { length: '8 m', width: '1 m', gauge: '5 m' },
        parked,
      }
    }
    // tracks from x 26; the block from x 1.5
    expect(near(by(0, 0, 14), crane({ standing: 1 }))['crane/crane']?.gap).toBeCloseTo(24.5, 9)
    expect(near(by(0, 0, 14), crane({ away: true }))['crane/crane']).toBeUndefined()
  })

  test('two points stand as far apart as the gap says, level where it goes past and plumb where it is over', () => {
    for (const { gap, from, at, to } of Object.values(near(by(0, 15.5, 14), stored))) {
      expect(distance(from, at), to).toBeCloseTo(gap, 9)
      const plumb = to.startsWith('bay') || to === 'ground'
      if (plumb) expect(Math.hypot(at[0] - from[0], at[1] - from[1])).toBeCloseTo(0, 9)
    }
  })
})
