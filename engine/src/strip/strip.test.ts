import { describe, expect, test } from 'vitest'
import { mass } from '../mass/index.ts'
import { freshMemory } from '../working/memory.ts'
import { bolted, boxAt, by, lidOnTub, modelOf, stripOf } from './strip.fixture.ts'
import { strip } from './strip.ts'

const step = (piece: string, ...moves: unknown[]) => ({ piece, moves })
const failures = (document: Record<string, unknown>) => stripOf(document).failures

describe('what is let go', () => {
  test('a step opens the joints that cross its cut, once, and parts the services between', () => {
    const { steps } = stripOf(
      lidOnTub({
        parts: { lid: boxAt([0, 0, 0.5]), tub: boxAt([0, 0, -0.5]), cap: boxAt([0, 0, 1.5]) },
        joints: { J1: bolted('lid', 'tub'), J2: bolted('cap', 'lid') },
        ends: { rack: { name: 'Rack' } },
        isolations: { I1: { what: 'oil', kind: 'hydraulic', where: 'rack' } },
        services: {
          H1: {
            kind: 'hose',
            medium: 'oil',
            from: 'cap',
            to: 'rack',
            isolation: 'I1',
            timeOff: '1 min',
            timeOn: '1 min',
          },
          H2: { kind: 'hose', medium: 'oil', from: 'cap', to: 'tub', timeOff: '1 min', timeOn: '1 min' },
          H3: { kind: 'hose', medium: 'oil', from: 'lid', to: 'tub', timeOff: '1 min', timeOn: '1 min' },
        },
        pieces: { cap: { name: 'Cap', parts: ['cap'] }, lid: { name: 'Lid', parts: ['lid'] } },
        steps: { S1: step('cap', by(0, 0, 40)), S2: step('lid', by(0, 0, 40)) },
        order: ['S1', 'S2'],
      }),
    )
    expect(steps.map((s) => s.joints)).toEqual([['J2'], ['J1']])
    expect(steps.map((s) => s.services)).toEqual([['H1', 'H2'], ['H3']])
    expect(steps.map((s) => s.isolations)).toEqual([['I1'], []])
    expect(steps[1]?.remaining).toEqual(['tub'])
  })

  test('fasteners stay hidden until what hides them has gone, or has been moved aside', () => {
    const hood = (sections: Record<string, unknown>) =>
      failures(
        lidOnTub({
          parts: { lid: boxAt([0, 0, 0.5]), tub: boxAt([0, 0, -0.5]), hood: boxAt([1, 0, 0.5]) },
          joints: {
            J1: bolted('lid', 'tub', { hiddenBy: ['hood'] }),
            J2: bolted('hood', 'tub', { throughBracket: true }),
          },
          pieces: { lid: { name: 'Lid', parts: ['lid'] }, hood: { name: 'Hood', parts: ['hood'] } },
          steps: {
            S1: step('lid', by(0, 0, 30)),
            S0: step('hood', by(0, 0, 30)),
            A0: { ...step('hood', by(3, 0, 0)), stays: true },
          },
          ...sections,
        }),
      )
    const [early] = hood({ order: ['S1', 'S0'] })
    expect(early).toMatchObject({ step: 'S1', piece: 'lid', blockers: ['J1', 'hood'] })
    expect(early?.reason).toContain('joint "J1" still holds it')
    expect(hood({ order: ['S0', 'S1'] })).toEqual([])
    expect(hood({ order: ['A0', 'S1'] })).toEqual([])
  })

  test('working time of a joint is bolts times rate, weld by length and by metal laid', () => {
    const weld = { type: 'fillet', throat: '10 mm', length: '8 m', cutting: '1.6 m/h', laying: '2 kg/h' }
    const { jointTimes, serviceTimes } = stripOf(
      lidOnTub({
        joints: { J1: bolted('lid', 'tub'), J2: { between: ['lid', 'tub'], kind: 'welded', access: 'both', weld } },
        services: { H1: { kind: 'hose', medium: 'oil', from: 'lid', to: 'tub', timeOff: '5 min', timeOn: '12 min' } },
      }),
    )
    expect(jointTimes.J1).toEqual({ off: 3600, on: 5400 })
    expect(jointTimes.J2?.off).toBeCloseTo(5 * 3600, 6)
    expect(jointTimes.J2?.on).toBeCloseTo(((0.01 ** 2 * 8 * 7850) / 2) * 3600, 6)
    expect(serviceTimes.H1).toEqual({ off: 300, on: 720 })
  })
})

describe('the way', () => {
  test('a failure names step, part, blocker and direction, and how far the piece comes', () => {
    const [failure] = failures(
      lidOnTub({
        parts: { lid: boxAt([0, 0, 0.5]), tub: boxAt([0, 0, -0.5]), beam: boxAt([0, 0, 4], [3, 1, 1]) },
        joints: { J1: bolted('lid', 'tub'), J2: bolted('beam', 'tub', { throughBracket: true }) },
      }),
    )
    expect(failure).toMatchObject({ step: 'S1', piece: 'lid', part: 'lid', blockers: ['beam'], direction: [0, 0, 1] })
    expect(failure?.reason).toContain('strikes "beam" after 2.50 of the way')
  })

  test('a piece put aside stands in the way where it stands now, and no longer where it stood', () => {
    const aside = (order: string[]) =>
      failures(
        lidOnTub({
          parts: {
            lid: boxAt([0, 0, 0.5]),
            tub: boxAt([0, 0, -0.5]),
            crate: boxAt([0, 0, 3]),
            arm: boxAt([2, 0, 0.5]),
          },
          joints: {
            J1: bolted('lid', 'tub'),
            J2: bolted('crate', 'tub', { throughBracket: true }),
            J3: bolted('arm', 'tub', { throughBracket: true }),
          },
          pieces: {
            lid: { name: 'Lid', parts: ['lid'] },
            crate: { name: 'Crate', parts: ['crate'] },
            arm: { name: 'Arm', parts: ['arm'] },
          },
          steps: {
            A: { ...step('crate', by(2, 0, 0)), stays: true, support: 'rails' },
            L: step('lid', by(0, 0, 30)),
            M: step('arm', by(0, 0, 30)),
          },
          order,
        }),
      ).map((f) => `${f.step} ${f.blockers}`)
    expect(aside(['L', 'M'])).toEqual(['L crate'])
    expect(aside(['A', 'L'])).toEqual([])
    expect(aside(['A', 'M'])).toEqual(['M crate'])
  })

  test('on the surface a piece is taken apart among its own parts, in whatever way it lies', () => {
    const turned = (up: [number, number, number]) =>
      failures(
        lidOnTub({
          parts: { lid: boxAt([0, 0, 0.5]), tub: boxAt([0, 0, -0.5]), post: boxAt([3, 0, 0]) },
          joints: { J1: bolted('lid', 'tub'), J2: bolted('post', 'tub', { throughBracket: true }) },
          pieces: { both: { name: 'Both', parts: ['lid', 'tub'] }, lid: { name: 'Lid', parts: ['lid'] } },
          steps: {
            S1: step('both', by(0, 0, 40), { turn: '90 deg', axis: 'y', about: ['0 m', '0 m', '20 m'] }),
            S2: step('lid', by(...up)),
          },
          order: ['S1', 'S2'],
        }),
      )
    // Turned a quarter about y, what was up points along x.
    expect(turned([5, 0, 0])).toEqual([])
    expect(turned([0, 0, 5])).toEqual([])
    expect(turned([-5, 0, 0])).toMatchObject([{ step: 'S2', blockers: ['tub'] }])
  })

  test('a part that went out before cannot go again with another piece', () => {
    const [failure] = failures(
      lidOnTub({
        pieces: { lid: { name: 'Lid', parts: ['lid'] }, all: { name: 'All', parts: ['lid', 'tub'] } },
        steps: { S1: step('lid', by(0, 0, 30)), S2: step('all', by(0, 0, 40)) },
        order: ['S1', 'S2'],
      }),
    )
    expect(failure).toMatchObject({ step: 'S2', part: 'lid' })
    expect(failure?.reason).toContain('it went out with step S1')
  })

  test('wall, slab and what is fixed in the shaft stop a piece, until it is taken out', () => {
    const shaft = lidOnTub().shaft as Record<string, unknown>
    const duct = { what: 'duct', x: ['-1 m', '1 m'], y: ['-1 m', '1 m'], z: ['-15 m', '0 m'] }
    const blockers = (moves: unknown[], more = {}) =>
      failures(lidOnTub({ steps: { S1: step('lid', ...moves), S0: step('lid', by(0, 0, 30)) }, ...more })).flatMap(
        (f) => f.blockers,
      )
    expect(blockers([by(9.4, 0, 0)])).toEqual([])
    expect(blockers([by(9.6, 0, 0)])).toEqual(['shaft bore'])
    expect(blockers([by(3, 0, 0), by(0, 0, -6)])).toEqual(['base slab'])
    expect(blockers([by(0, 0, 30)], { shaft: { ...shaft, obstructions: { D: duct } } })).toEqual(['D'])
    const gone = { D: { ...duct, removedBefore: 'S1' } }
    expect(blockers([by(0, 0, 30)], { shaft: { ...shaft, obstructions: gone } })).toEqual([])
  })

  test('the least clearance is the one that closes, not the fit that the piece slides out of', () => {
    const [only] = stripOf(
      lidOnTub({
        parts: { lid: boxAt([0, 0, 0.5]), tub: boxAt([0, 0, -0.5]), wall: boxAt([1.2, 0, 5]) },
        joints: { J1: bolted('lid', 'tub'), J2: bolted('wall', 'tub', { throughBracket: true }) },
      }),
    ).steps
    expect(only?.clearance).toMatchObject({ to: 'wall', part: 'lid', move: 0, closing: true })
    expect(only?.clearance?.gap).toBeCloseTo(0.2, 9)
    expect(only?.clearances[0]).toMatchObject({ to: 'tub', gap: 0, closing: false })
  })

  test('a move that is free is free backwards, and a blocked one is blocked backwards', () => {
    const wall = { parts: { lid: boxAt([0, 0, 0.5]), tub: boxAt([0, 0, -0.5]), wall: boxAt([2, 0, 1.3], [1, 1, 0.5]) } }
    for (const x of [1, 1.4, 2, 3]) {
      const there = failures(lidOnTub({ ...wall, joints: {}, steps: { S1: step('lid', by(x, 0, 1.5)) } })).length
      const back = failures(
        lidOnTub({
          ...wall,
          parts: { ...wall.parts, lid: boxAt([x, 0, 2]) },
          joints: {},
          steps: { S1: step('lid', by(-x, 0, -1.5)) },
        }),
      ).length
      expect(back).toBe(there)
    }
  })
})

describe('the memory', () => {
  const base = lidOnTub()
  const parts = base.parts as Record<string, Record<string, unknown>>

  test('a new mass leaves shapes, contacts and ways alone', () => {
    const memory = freshMemory()
    stripOf(base, memory)
    const before = { ...memory.computed }
    stripOf({ ...base, parts: { ...parts, lid: { ...parts.lid, mass: { value: '5 t', basis: 'weighed' } } } }, memory)
    for (const family of [
      'strip-cells',
      'strip-overlap',
      'strip-meet',
      'strip-fixed',
      'strip-path',
      'strip-step',
      'strip-touch',
    ])
      expect([family, memory.computed[family]]).toEqual([family, before[family]])
  })

  test('a shape that changes is looked at again, with what it meets and nothing else', () => {
    const memory = freshMemory()
    const three = (x: number) => ({ ...base, parts: { ...parts, arm: boxAt([x, 0, 0]) } })
    const met = (x: number): number => {
      const before = memory.computed['strip-meet'] ?? 0
      stripOf(three(x), memory)
      return (memory.computed['strip-meet'] ?? 0) - before
    }
    met(1.3)
    expect(met(1.2)).toBe(1)
    // Half a metre and more from the way it is not looked into at all.
    expect(met(5)).toBe(0)
  })

  test('a shape that changes beside the way, on the bed as before or off it, leaves what holds the rest alone', () => {
    const memory = freshMemory()
    const bracket = { ...bolted('arm', 'tub'), throughBracket: true }
    const joints = { ...(base.joints as object), J2: bracket }
    const three = (x: number, z = 0) => ({ ...base, joints, parts: { ...parts, arm: boxAt([x, 0, z]) } })
    const heldAt = (x: number) => stripOf(three(x), memory).checks.find((c) => c.id === 'strip.step.held/S1')
    const first = heldAt(5)
    const before = { ...memory.computed }
    expect(heldAt(5.1)).toBe(first)
    for (const family of ['strip-groups', 'strip-held', 'strip-bed'])
      expect([family, memory.computed[family]]).toEqual([family, before[family]])
    // as low as the bed and over it, it bears
    stripOf(three(2, -0.6), memory)
    expect(memory.computed['strip-groups']).toBeGreaterThan(before['strip-groups'] as number)
  })

  test('the input is left as it is, and the same input gives the same result', () => {
    const model = modelOf(base)
    const masses = mass(model, freshMemory())
    const kept = structuredClone(model.project)
    const first = strip(model, masses, freshMemory())
    expect(model.project).toEqual(kept)
    expect(strip(model, masses, freshMemory())).toEqual(first)
  })
})
