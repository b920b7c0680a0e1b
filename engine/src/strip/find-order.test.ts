import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { mass } from '../mass/index.ts'
import { freshMemory } from '../working/memory.ts'
import { costOfSteps, findOrder } from './find-order.ts'
import { precedenceOf } from './precedence-of.ts'
import { bolted, boxAt, lidOnTub, modelOf, SETTINGS, stripOf } from './strip.fixture.ts'
import { nearestOrder, verifyOrder, type WrittenStep } from './verify-order.ts'

const HOUR = 3600

/** A machine in the open: parts of boxes, nothing else. */
const inTheOpen = (parts: Record<string, unknown>, sections: Record<string, unknown> = {}) => ({
  schemaVersion: 1,
  about: { title: 'Blocks' },
  settings: SETTINGS,
  materials: { steel: { density: '7850 kg/m3' } },
  parts,
  ...sections,
})

function find(document: unknown, targets: readonly string[], more: Parameters<typeof findOrder>[2] = {}) {
  const memory = freshMemory()
  const model = modelOf(document, memory)
  return findOrder(model, mass(model, memory), { targets, handling: HOUR, ...more }, memory)
}

function verify(document: unknown, order: readonly WrittenStep[]) {
  const memory = freshMemory()
  const model = modelOf(document, memory)
  return verifyOrder(model, mass(model, memory), order, memory)
}

const solids = (boxes: readonly (readonly number[])[]) => ({
  name: 'Part',
  material: 'steel',
  solids: boxes.map(([a, b, c, d, e, f]) => ({
    shape: 'box',
    centre: [
      ((a as number) + (d as number)) / 2,
      ((b as number) + (e as number)) / 2,
      ((c as number) + (f as number)) / 2,
    ].map((x) => `${x} m`),
    size: [(d as number) - (a as number), (e as number) - (b as number), (f as number) - (c as number)].map(
      (x) => `${x} m`,
    ),
  })),
})

/** A core behind a lid of many bolts, or behind two plates of few: two ways that differ in kind. */
const twoWays = (orderCost?: unknown, plate = 1) =>
  inTheOpen(
    {
      base: boxAt([0, 0, -1], [3, 3, 1]),
      core: boxAt([0, 0, 0], [1, 1, 1]),
      walls: solids([
        [-1.5, -0.5, -0.5, -0.5, 0.5, 0.5],
        [0.5, -0.5, -0.5, 1.5, 0.5, 0.5],
        [-1.5, -1.5, -0.5, 1.5, -0.5, 0.5],
      ]),
      lid: boxAt([0, 0, 1], [1, 1, 1]),
      plate: boxAt([0, 1, 0], [1, plate, 1]),
    },
    {
      settings: { ...SETTINGS, ...(orderCost === undefined ? {} : { orderCost }) },
      joints: {
        J1: bolted('lid', 'walls', {
          bolts: { thread: 'M36', grade: '10.9', count: 30, timeOff: '6 min', timeOn: '6 min' },
        }),
        J2: bolted('plate', 'walls', {
          bolts: { thread: 'M36', grade: '10.9', count: 10, timeOff: '6 min', timeOn: '6 min' },
        }),
        J3: bolted('base', 'walls', {
          bolts: { thread: 'M36', grade: '10.9', count: 400, timeOff: '6 min', timeOn: '6 min' },
        }),
      },
    },
  )

describe('what an order costs', () => {
  const cost = (orderCost?: unknown) => {
    const memory = freshMemory()
    const model = modelOf(twoWays(orderCost), memory)
    return findOrder(model, mass(model, memory), { targets: ['core'] }, memory)
  }

  test('is time on the lifting system and hours, and the crew multiplies the hours', () => {
    expect(cost()).toMatchObject({ cost: (2 * 8 + 2) * HOUR, proven: true })
    expect(cost({ liftingSystem: '3 h', crew: 4 }).cost).toBe((2 * 3 + 4 * 2) * HOUR)
    expect(cost({ liftingSystem: '3 h', crew: 2, hour: 0.5, liftingHour: 10 }).cost).toBe((2 * 30 + 2) * HOUR)
  })

  test('counts weight in the air where the project sets a weight for it', () => {
    const mean = 7850 / 1e5
    expect(cost({ liftingSystem: '0 h', risk: 100 }).cost).toBeCloseTo((2 + 100 * 2 * mean) * HOUR, 3)
  })

  test('steps that stand in the file are counted by the same measure as those that are found', () => {
    const memory = freshMemory()
    const model = modelOf(twoWays({ liftingSystem: '3 h', crew: 4, risk: 10 }), memory)
    const masses = mass(model, memory)
    const { order, cost } = findOrder(model, masses, { targets: ['core'] }, memory)
    expect(costOfSteps(model, masses, order, memory)).toBeCloseTo(cost, 6)
  })

  test('another order does without one of the pieces, and says what it takes instead', () => {
    const memory = freshMemory()
    const model = modelOf(twoWays(), memory)
    const { order, alternatives } = findOrder(
      model,
      mass(model, memory),
      { targets: ['core'], alternatives: 3 },
      memory,
    )
    expect(order.map(({ piece }) => piece)).toEqual(['plate', 'core'])
    expect(alternatives[0]).toMatchObject({
      without: 'plate',
      instead: ['lid'],
      cost: (2 * 8 + 6) * HOUR,
      proven: true,
    })
  })
})

test('a precedence says of each piece what it waits for and why', () => {
  const memory = freshMemory()
  const model = modelOf(twoWays(), memory)
  const { nodes, arcs } = precedenceOf(model, mass(model, memory), memory)
  expect(nodes.find(({ id }) => id === 'plate')).toMatchObject({ opens: ['joint J2'], reachable: true })
  const core = arcs.find(({ of }) => of === 'core')
  const words = (core?.ways ?? []).map((way) => way.needs.map(({ because }) => because))
  expect(words).toContainEqual(['"lid" is in the way'])
  for (const { any } of core?.ways.flatMap((way) => way.needs) ?? []) expect(any.length).toBeGreaterThan(0)
})

test('an order that fails comes back as the nearest that works: the plate before the core', () => {
  const memory = freshMemory()
  const document = {
    ...twoWays(),
    pieces: {
      core: { name: 'Core', parts: ['core'] },
      lid: { name: 'Lid', parts: ['lid'] },
      plate: { name: 'Plate', parts: ['plate'] },
    },
  }
  const model = modelOf(document, memory)
  const near = nearestOrder(model, mass(model, memory), [{ piece: 'core' }, { piece: 'lid' }], memory)
  expect(near).toMatchObject({ order: ['lid', 'core'], moved: ['core'], added: [], dropped: [] })
  expect(nearestOrder(model, mass(model, memory), [{ piece: 'core' }], memory).added).toHaveLength(1)
})

test('each fault of an order names what mends it: what has to go first, by which way, or that the piece never goes', () => {
  const pieces = {
    core: { name: 'Core', parts: ['core'] },
    lid: { name: 'Lid', parts: ['lid'] },
    walls: { name: 'Walls', parts: ['walls'] },
  }
  const up = [{ kind: 'translate', by: [0, 0, 30] }] as const
  const found = verify({ ...twoWays(), pieces }, [
    { piece: 'core', moves: up },
    { piece: 'lid', moves: up },
  ])
  expect(found.nearest).toMatchObject({ order: ['lid', 'core'], moved: ['core'] })
  expect(found.failures).toHaveLength(1)
  expect(found.failures[0]).toMatchObject({
    piece: 'core',
    blockers: ['lid'],
    direction: [0, 0, 1],
    mend: { first: ['lid'], dropped: false },
  })
  expect(found.failures[0]?.mend?.moves[0]).toMatchObject({ kind: 'translate', by: [0, 0, expect.any(Number)] })
  expect(verify({ ...twoWays(), pieces }, [{ piece: 'lid', moves: up }]).nearest).toBeUndefined()
  const down = [{ kind: 'translate', by: [0, 0, -30] }] as const
  const wrongWay = verify({ ...twoWays(), pieces }, [{ piece: 'lid', moves: down }])
  expect(wrongWay.failures[0]?.mend).toMatchObject({ first: [], dropped: false, moves: [{ kind: 'translate' }] })
})

describe('an order that is looked for', () => {
  test('a core in a closed box comes out behind one plate, and that is proven to be the least', () => {
    const found = find(
      inTheOpen({
        F: solids([[0, 0, 0, 5, 5, 1]]),
        W: solids([[0, 0, 1, 1, 5, 4]]),
        E: solids([[4, 0, 1, 5, 5, 4]]),
        S: solids([[1, 0, 1, 4, 1, 4]]),
        N: solids([[1, 4, 1, 4, 5, 4]]),
        L: solids([[0, 0, 4, 5, 5, 5]]),
        P: solids([[1, 1, 1, 4, 4, 4]]),
      }),
      ['P'],
    )
    expect(found).toMatchObject({ feasible: true, cost: 2 * HOUR, bound: 2 * HOUR, proven: true })
    expect(found.order).toHaveLength(2)
    expect(found.order[1]?.parts).toEqual(['P'])
  })

  test('a tongue held in a slot at 37 degrees comes out along it, and no other way', () => {
    const box = (along: [string, string], radial: string, across: string) => ({
      shape: 'radial box',
      along,
      radius: '5 m',
      radial,
      across,
      angle: '37 deg',
    })
    const part = (...shapes: unknown[]) => ({ name: 'Part', material: 'steel', solids: shapes })
    const found = find(
      inTheOpen(
        {
          // Cheeks close the slot along the machine axis, bars close it across the ray at 37 degrees.
          cheeks: part(box(['-3 m', '-1 m'], '6 m', '3 m'), box(['1 m', '3 m'], '6 m', '3 m')),
          left: part(barBeside(37, 1)),
          right: part(barBeside(37, -1)),
          tongue: part(box(['-1 m', '1 m'], '2 m', '1 m')),
        },
        { joints: { a: bolted('left', 'cheeks'), b: bolted('right', 'cheeks') } },
      ),
      ['tongue'],
    )
    expect(found).toMatchObject({ feasible: true, cost: HOUR })
    const [move] = found.order[0]?.moves ?? []
    const [, y, z] = move !== undefined && 'by' in move ? move.by.map((c) => c.value as number) : []
    expect((Math.atan2(Math.abs(z as number), Math.abs(y as number)) * 180) / Math.PI).toBeCloseTo(37, 6)
  })

  test('a core that its shell never lets go comes out with the shell, as one piece', () => {
    const found = find(
      inTheOpen({
        shell: solids([
          [0, 0, 0, 3, 3, 1],
          [0, 0, 2, 3, 3, 3],
          [0, 0, 1, 1, 3, 2],
          [2, 0, 1, 3, 3, 2],
          [1, 0, 1, 2, 1, 2],
          [1, 2, 1, 2, 3, 2],
        ]),
        core: solids([[1, 1, 1, 2, 2, 2]]),
        lid: solids([[-1, -1, 3, 4, 4, 4]]),
      }),
      ['core'],
    )
    expect(found).toMatchObject({ feasible: true, cost: HOUR })
    expect([...(found.order[0]?.parts ?? [])].sort()).toEqual(['core', 'shell'])
  })

  test('it is never dearer than trying every order of single moves to infinity along the axes', () => {
    const places = [0, 1, 2].flatMap((x) => [0, 1, 2].flatMap((y) => [0, 1, 2].map((z) => [x, y, z] as const)))
    const around = places.filter((p) => String(p) !== '1,1,1')
    const world = fc.subarray(around, { minLength: 16 })
    let buried = 0
    fc.assert(
      fc.property(world, (others) => {
        const cells = [[1, 1, 1] as const, ...others]
        const boxes = Object.fromEntries(cells.map(([x, y, z], i) => [`P${i}`, [x, y, z, x + 1, y + 1, z + 1]]))
        const least = fewestRemovals(boxes, 'P0')
        const found = find(inTheOpen(Object.fromEntries(Object.entries(boxes).map(([id, b]) => [id, solids([b])]))), [
          'P0',
        ])
        expect(found.feasible).toBe(true)
        expect(found.cost).toBeLessThanOrEqual(least * HOUR)
        expect(found.order.flatMap((s) => s.failures)).toEqual([])
        if (least > 1) buried++
      }),
      // Among the random ones always the whole cube, so that a buried target is never left to chance.
      { numRuns: 12, examples: [[around]] },
    )
    expect(buried).toBeGreaterThan(0)
  })

  test('rolling the machine and renaming its parts change nothing', () => {
    const sections = (names: [string, string, string], pose: Record<string, unknown>) =>
      lidOnTub({
        machine: { pose: { origin: ['1 m', '2 m', '-20 m'], ...pose } },
        parts: { [names[0]]: boxAt([0, 0, 0.5]), [names[1]]: boxAt([0, 0, -0.5]), [names[2]]: boxAt([1, 0, 0]) },
        joints: { J: bolted(names[0], names[1]), K: bolted(names[1], names[2]) },
        pieces: {
          [`p-${names[0]}`]: { name: 'Lid', parts: [names[0]] },
          [`q-${names[2]}`]: { name: 'Side', parts: [names[2]] },
          [`r-${names[1]}`]: { name: 'Tub', parts: [names[1]] },
        },
        steps: {},
        order: [],
      })
    const flat = { roll: '0 deg', pitch: '0 deg', yaw: '0 deg' }
    const one = find(sections(['lid', 'tub', 'side'], flat), ['tub'])
    const two = find(sections(['z', 'm', 'a'], { roll: '1.4 deg', pitch: '0.3 deg', yaw: '-0.1 deg' }), ['m'])
    expect(two.feasible).toBe(one.feasible)
    expect(two.cost).toBe(one.cost)
    expect(two.order.length).toBe(one.order.length)
  })

  /** A key with a cross bar in a closed house whose lid has a slot: across the bar, or along it. */
  const keyUnderSlot = (bar: readonly [number, number], room = 2) =>
    inTheOpen(
      {
        house: solids([
          [-3, -3, -2, 3, 3, -1.5],
          [-3, -3, -1.5, -room, 3, 0.5],
          [room, -3, -1.5, 3, 3, 0.5],
          [-room, -3, -1.5, room, -room, 0.5],
          [-room, room, -1.5, room, 3, 0.5],
          [-room, -room, 0, -0.5, room, 0.5],
          [0.5, -room, 0, room, room, 0.5],
        ]),
        key: solids([
          [-bar[0], -bar[1], -1, bar[0], bar[1], -0.5],
          [-0.25, -0.25, -0.5, 0.25, 0.25, 1.5],
        ]),
      },
      { pieces: { key: { name: 'Key', parts: ['key'] } } },
    )

  test('a key whose cross bar lies across the slot comes out by a quarter turn and up; along it, straight up', () => {
    const across = find(keyUnderSlot([1.5, 0.4]), ['key'])
    expect(across).toMatchObject({ feasible: true, proven: true })
    expect(across.order[0]?.moves.map((move) => 'turn' in move)).toEqual([true, false])
    const along = find(keyUnderSlot([0.4, 1.5]), ['key'])
    expect(along.order[0]?.moves.some((move) => 'turn' in move)).toBe(false)
  })

  test('a turn that strikes half way is none, however free its end is', () => {
    expect(find(keyUnderSlot([1.5, 0.4], 1.52), ['key'])).toMatchObject({ feasible: false })
  })

  test('a piece that no hook lifts is not proposed', () => {
    const tower = (rated: string) =>
      lidOnTub({ systems: { tower: { name: 'Tower', kind: 'lift tower', hooks: { main: { name: 'Main', rated } } } } })
    expect(find(tower('8 t'), ['lid'])).toMatchObject({ feasible: true })
    expect(find(tower('7 t'), ['lid'])).toMatchObject({ feasible: false, order: [] })
  })

  test('told to stop, it says that nothing is found', () => {
    expect(find(lidOnTub(), ['lid'], { shouldContinue: () => false })).toMatchObject({ feasible: false, proven: false })
  })
})

/** A round bar that runs along a ray, touching what is one metre wide on the ray from one side. */
function barBeside(degrees: number, side: 1 | -1) {
  const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)]
  const end = (r: number) => ['0 m', `${r * c - side * s} m`, `${r * s + side * c} m`]
  return { shape: 'cylinder', radius: '0.5 m', from: end(2), to: end(8) }
}

/** Breadth first over sets of unit cubes gone, one straight move along an axis at a time. */
function fewestRemovals(boxes: Record<string, readonly number[]>, target: string): number {
  const ids = Object.keys(boxes)
  const blocks = (a: readonly number[], b: readonly number[], axis: number, sign: number): boolean =>
    [0, 1, 2].every((i) =>
      i === axis
        ? sign > 0
          ? (b[i + 3] as number) > (a[i] as number)
          : (b[i] as number) < (a[i + 3] as number)
        : Math.max(a[i] as number, b[i] as number) < Math.min(a[i + 3] as number, b[i + 3] as number),
    )
  const isFree = (id: string, gone: readonly string[]) =>
    [0, 1, 2].some((axis) =>
      [1, -1].some((sign) =>
        ids.every(
          (o) => o === id || gone.includes(o) || !blocks(boxes[id] as number[], boxes[o] as number[], axis, sign),
        ),
      ),
    )
  let level: string[][] = [[]]
  for (let removed = 1; removed <= ids.length; removed++) {
    const next = level.flatMap((gone) =>
      ids.filter((id) => !gone.includes(id) && isFree(id, gone)).map((id) => [...gone, id].sort()),
    )
    if (next.some((gone) => gone.includes(target))) return removed
    level = [...new Map(next.map((gone) => [gone.join(), gone])).values()]
  }
  return Number.POSITIVE_INFINITY
}

describe('an order that is written', () => {
  const tall = lidOnTub({
    parts: { lid: boxAt([0, 0, 0.5]), tub: boxAt([0, 0, -0.5]), cap: boxAt([0, 0, 1.5]) },
    joints: { J1: bolted('lid', 'tub'), J2: bolted('cap', 'lid') },
    pieces: { lid: { name: 'Lid', parts: ['lid'] }, cap: { name: 'Cap', parts: ['cap'] } },
  })

  test('without moves, a way is looked for', () => {
    expect(verify(tall, [{ piece: 'cap' }, { piece: 'lid' }])).toMatchObject({ feasible: true, failures: [] })
  })

  test('it fails where it fails, and says by what and in which direction', () => {
    const up = [{ kind: 'translate', by: [0, 0, 30] }] as const
    const { feasible, failures } = verify(tall, [
      { piece: 'lid', moves: up },
      { piece: 'cap', moves: up },
    ])
    expect(feasible).toBe(false)
    expect(failures).toMatchObject([{ step: '1', piece: 'lid', part: 'lid', blockers: ['cap'], direction: [0, 0, 1] }])
  })

  test('parts that are not there are named', () => {
    expect(verify(tall, [{ piece: 'hat' }, { piece: 'x', parts: ['lid', 'brim'] }]).failures).toMatchObject([
      { step: '1', part: 'hat', reason: 'is no part of the machine' },
      { step: '2', part: 'brim' },
    ])
  })
})

test('with nothing adopted a default order stands in, and says so', () => {
  const given = stripOf(lidOnTub({ order: [] }))
  expect(given).toMatchObject({ adopted: false, feasible: true })
  expect(given.steps.map((s) => s.piece)).toEqual(['lid'])
  expect(stripOf(lidOnTub()).adopted).toBe(true)
})
