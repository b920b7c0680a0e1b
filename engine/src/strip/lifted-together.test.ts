import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { mass } from '../mass/index.ts'
import { freshMemory } from '../working/memory.ts'
import { findOrder, type OrderSearch } from './find-order.ts'
import { bolted, boxAt, modelOf, SETTINGS } from './strip.fixture.ts'

const HOUR = 3600
/** Ten bolts, six minutes off and nine on. */
const JOINT = 2.5

interface Stack {
  /** Heights from the bottom up, m. */
  heights: readonly number[]
  /** Whether each block is bolted to the one above it. */
  ties: readonly boolean[]
  /** What the hook lifts, t. */
  rated: number
  grouping?: unknown
  turned?: string
}

/** Blocks of a square metre one on another in a tube that is open at the top: nothing leaves but upwards. */
function blocksInTube({ heights, ties, rated, grouping, turned }: Stack) {
  const names = heights.map((_, i) => `b${i}`)
  const foot = heights.map((_, i) => heights.slice(0, i).reduce((sum, h) => sum + h, 0))
  const top = foot[foot.length - 1] as number
  const wall = top / 2 + 5
  const blocks = names.map((id, i) => [
    id,
    boxAt([0, 0, (foot[i] as number) + (heights[i] as number) / 2], [1, 1, heights[i] as number]),
  ])
  const walls = {
    left: boxAt([0, 1, wall], [3, 1, 2 * wall]),
    right: boxAt([0, -1, wall], [3, 1, 2 * wall]),
    front: boxAt([1, 0, wall], [1, 1, 2 * wall]),
    back: boxAt([-1, 0, wall], [1, 1, 2 * wall]),
    floor: boxAt([0, 0, -0.5], [3, 3, 1]),
  }
  const joints = names.slice(1).flatMap((id, i) => (ties[i] ? [[`J${i}`, bolted(names[i] as string, id)]] : []))
  return {
    schemaVersion: 1,
    about: { title: 'Blocks in a tube' },
    settings: {
      ...SETTINGS,
      allowance: { calculated: 0, estimated: 0 },
      ...(grouping === undefined ? {} : { grouping }),
    },
    materials: { steel: { density: '1000 kg/m3' } },
    parts: { ...Object.fromEntries(blocks), ...walls },
    joints: Object.fromEntries(joints),
    pieces: Object.fromEntries(names.map((id) => [`p-${id}`, { name: id, parts: [id] }])),
    systems: { tower: { name: 'Tower', kind: 'lift tower', hooks: { main: { name: 'Main', rated: `${rated} t` } } } },
    ...(turned === undefined
      ? {}
      : { lifts: { T: { piece: turned, kind: 'turn', system: 'tower', hook: 'main', rigging: [] } } }),
  }
}

function find(stack: Stack, more: OrderSearch = {}) {
  const memory = freshMemory()
  const model = modelOf(blocksInTube(stack), memory)
  return findOrder(model, mass(model, memory), { targets: ['b0'], handling: 8 * HOUR, ...more }, memory)
}

/** The least over every way to part the blocks above the lowest into runs, h; undefined where a block is too heavy. */
function leastByAllRuns({ heights, ties, rated }: Stack, most: number): number | undefined {
  if (heights.some((h) => h > rated)) return undefined
  const cuts = heights.length - 2
  let best = Number.POSITIVE_INFINITY
  for (let mask = 0; mask < 1 << Math.max(0, cuts); mask++) {
    const runs: number[][] = [[1]]
    for (let i = 2; i < heights.length; i++)
      if (mask & (1 << (i - 2))) runs.push([i])
      else runs.at(-1)?.push(i)
    const isLifted = runs.every(
      (run) =>
        run.length <= most &&
        run.reduce((sum, i) => sum + (heights[i] as number), 0) <= rated + 1e-9 &&
        run.slice(1).every((i) => ties[i - 1]),
    )
    if (!isLifted) continue
    const opened = ties.filter((tied, i) => tied && !runs.some((run) => run.includes(i) && run.includes(i + 1)))
    best = Math.min(best, 8 * (runs.length + 1) + JOINT * opened.length)
  }
  return best
}

describe('pieces lifted as one', () => {
  const three: Stack = { heights: [1, 1, 1], ties: [true, true], rated: 2.5 }

  test('two blocks bolted together leave in one lift where the hook carries both, and the joint between stays shut', () => {
    const found = find(three)
    expect(found).toMatchObject({ feasible: true, proven: true, cost: (16 + JOINT) * HOUR })
    expect(found.order.map(({ piece }) => piece)).toEqual(['p-b1.p-b2', 'p-b0'])
    expect(found.newPieces).toEqual([{ id: 'p-b1.p-b2', pieces: ['p-b1', 'p-b2'], parts: ['b1', 'b2'] }])
    expect(found.apart).toMatchObject({ cost: (24 + 2 * JOINT) * HOUR, proven: true })
  })

  test('they leave one by one where the hook does not carry both, a rule keeps them apart, or one of them is turned', () => {
    const alone = { cost: (24 + 2 * JOINT) * HOUR, newPieces: [] }
    expect(find({ ...three, rated: 1.9 })).toMatchObject(alone)
    expect(find({ ...three, grouping: { apart: [['b1', 'b2']] } })).toMatchObject(alone)
    expect(find({ ...three, grouping: { most: 1 } })).toMatchObject(alone)
    expect(find(three, { together: false })).toMatchObject(alone)
  })

  test('a rule that keeps two together forbids to lift either alone', () => {
    const found = find({ ...three, heights: [1, 2, 1], rated: 2.5, grouping: { together: [['b1', 'b2']] } })
    expect(found.feasible).toBe(false)
    expect(find({ ...three, grouping: { together: [['b1', 'b2']] } }).order[0]?.parts).toEqual(['b1', 'b2'])
  })

  test('the search finds what trying every grouping finds, and proves it', () => {
    let joined = 0
    const stack = fc.integer({ min: 3, max: 6 }).chain((n) =>
      fc.record({
        heights: fc.array(fc.integer({ min: 1, max: 3 }), { minLength: n, maxLength: n }),
        ties: fc.array(fc.boolean(), { minLength: n - 1, maxLength: n - 1 }),
        rated: fc.integer({ min: 3, max: 7 }),
      }),
    )
    fc.assert(
      fc.property(stack, fc.integer({ min: 2, max: 3 }), (of, most) => {
        const found = find({ ...of, grouping: { most } })
        expect(found.cost / HOUR).toBeCloseTo(leastByAllRuns(of, most) as number, 9)
        expect(found).toMatchObject({ feasible: true, proven: true })
        expect(found.order.flatMap(({ failures }) => failures)).toEqual([])
        if (found.newPieces.length > 0) joined++
      }),
      { numRuns: 25 },
    )
    expect(joined).toBeGreaterThan(5)
  })
})

test('one block more on the stack never makes the target cheaper to reach, nor opens what was shut', () => {
  let dearer = 0
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 1, max: 3 }), { minLength: 2, maxLength: 4 }),
      fc.integer({ min: 1, max: 4 }),
      fc.integer({ min: 3, max: 6 }),
      (heights, more, rated) => {
        const ties = heights.map(() => true)
        const without = find({ heights, ties: ties.slice(1), rated })
        const withIt = find({ heights: [...heights, more], ties, rated })
        if (withIt.feasible) expect(without.feasible).toBe(true)
        expect(withIt.cost).toBeGreaterThanOrEqual(without.cost)
        if (withIt.cost > without.cost) dearer++
      },
    ),
    { numRuns: 15 },
  )
  expect(dearer).toBeGreaterThan(3)
})
