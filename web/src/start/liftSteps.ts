import { at } from '@shieldwright/engine/working/pointer.ts'
import { firstOf, putEntry, putFields, type Raw, three, typedAt, typedOnly } from './document.ts'
import { choice, idOf, quantity, type StartField, text, type Values } from './field.ts'
import type { StartStep } from './steps.ts'

const hasNone = (document: unknown, name: string, word: string): string | undefined =>
  firstOf(document, name) === undefined ? word : undefined

const MASS: readonly StartField[] = [
  quantity('value', 'Mass', 'kg', '37.6 t'),
  choice('basis', 'How it is known', ['weighed', 'calculated', 'catalogue', 'estimated']),
  quantity('uncertainty', 'Standard uncertainty', '1', '2 %', 'the uncertainty of the hook load is then open'),
  text('date', 'Date', '2032-11-03', 'none'),
  text('source', 'Where it stands', 'Drawing 4711, revision C', 'none'),
  quantity('allowance', 'Allowance on a mass known so', '1', '3 %'),
]
const OF_MASS = MASS.map((f) => f.name).filter((name) => name !== 'allowance')

const massStep: StartStep = {
  id: 'mass',
  stage: 'mass',
  title: 'Its mass, and how it is known',
  use: 'The hook load is a sum of masses, each no better than its source.',
  waits: (document) => hasNone(document, 'parts', 'the part'),
  fields: () => MASS,
  read: (document) => {
    const mass = at(firstOf(document, 'parts')?.[1], '/mass')
    const allowance = typedAt(document, `/settings/allowance/${typedAt(mass, '/basis')}`)
    return { ...Object.fromEntries(OF_MASS.map((name) => [name, typedAt(mass, `/${name}`)])), allowance }
  },
  write: (document, values) => {
    const [id, part] = firstOf(document, 'parts') as readonly [string, Raw]
    const mass = { ...((part.mass ?? {}) as Raw), ...typedOnly(values, OF_MASS) }
    const known = (at(document, '/settings/allowance') ?? {}) as Raw
    return [
      ...putFields(document, '/settings', {
        allowance: { ...known, [values.basis as string]: values.allowance?.trim() },
      }),
      ...putEntry(document, 'parts', id, { ...part, mass }),
    ]
  },
  shows: (v) => `${v.value}, ${v.basis}${v.uncertainty ? ` ± ${v.uncertainty}` : ''}`,
}

const pieceStep: StartStep = {
  id: 'piece',
  stage: 'mass',
  title: 'The piece that leaves the shaft',
  use: 'A piece is what hangs on the hook together: here the one part, with the muck, grease and water left in it. Nothing left in it must be typed as zero.',
  waits: (document) => hasNone(document, 'parts', 'the part'),
  fields: () => [text('name', 'Name', 'Head hub'), quantity('retained', 'Matter left in it', 'kg', '0 kg')],
  read: (document) => {
    const piece = firstOf(document, 'pieces')?.[1]
    return { name: typedAt(piece, '/name'), retained: typedAt(piece, '/retained') }
  },
  write: (document, values) => {
    const [id, piece] = firstOf(document, 'pieces') ?? [idOf(values.name ?? ''), {}]
    const parts = piece.parts ?? [firstOf(document, 'parts')?.[0]]
    const bay = piece.bay ?? firstOf(document, 'bays')?.[0]
    const entry = { ...piece, ...typedOnly(values, ['name', 'retained']), parts }
    return putEntry(document, 'pieces', id, bay === undefined ? entry : { ...entry, bay })
  },
  shows: (v) => `${v.name}, with ${v.retained} left in it`,
}

const POINTS = ['a', 'b', 'c', 'd'] as const
const POINT_EXAMPLES = [
  ['-0.2 m', '0.8 m', '0.75 m'],
  ['-2.2 m', '0.8 m', '0.75 m'],
  ['-2.2 m', '-0.8 m', '0.75 m'],
  ['-0.2 m', '-0.8 m', '0.75 m'],
] as const
const SPARE = 'fewer points carry the piece'

const pointFields: readonly StartField[] = POINTS.flatMap((p, i) => {
  const [x, y, z] = POINT_EXAMPLES[i] as readonly [string, string, string]
  const spare = i === 0 ? undefined : SPARE
  return [
    quantity(`${p}x`, `Point ${p}, x`, 'm', x, spare),
    quantity(`${p}y`, `Point ${p}, y`, 'm', y, spare === undefined ? spare : ''),
    quantity(`${p}z`, `Point ${p}, z`, 'm', z, spare === undefined ? spare : ''),
    quantity(`${p}r`, `Point ${p}, rated`, 'kg', '20 t', i === 0 ? 'its use is then open' : ''),
  ]
})

const pointsStep: StartStep = {
  id: 'points',
  stage: 'lift',
  title: 'Its lifting points',
  use: 'Where slings are pinned: hole centres in the machine’s frame, as installed. They decide how it hangs, and what each sling carries.',
  waits: (document) => hasNone(document, 'pieces', 'the piece'),
  fields: () => pointFields,
  read: (document) => {
    const points = Object.values((firstOf(document, 'pieces')?.[1].points ?? {}) as Raw).slice(0, POINTS.length)
    return Object.fromEntries(
      points.flatMap((point, i) => {
        const p = POINTS[i] as string
        const at = ['x', 'y', 'z'].map((axis, k) => [`${p}${axis}`, typedAt(point, `/at/${k}`)])
        return [...at, [`${p}r`, typedAt(point, '/rated')]]
      }),
    )
  },
  write: (document, values) => {
    const [id, piece] = firstOf(document, 'pieces') as readonly [string, Raw]
    const known = (piece.points ?? {}) as Raw
    const ids = Object.keys(known)
    const points = POINTS.flatMap((p, i): [string, unknown][] => {
      if (!values[`${p}x`]?.trim()) return []
      const rated = values[`${p}r`]?.trim()
      const name = ids[i] ?? p
      const place = three(values, [`${p}x`, `${p}y`, `${p}z`])
      return [[name, { ...((known[name] ?? {}) as Raw), at: place, ...(rated ? { rated } : {}) }]]
    })
    return putEntry(document, 'pieces', id, { ...piece, points: { ...known, ...Object.fromEntries(points) } })
  },
  shows: (v) => `${POINTS.filter((p) => v[`${p}x`]).length} points`,
}

const DYNAMICS = ['included in the rating', 'not included']
const POINT_OF_RATING = ['below the block', 'above the block']
const SYSTEM: readonly StartField[] = [
  text('name', 'Name', 'Lift tower'),
  choice('kind', 'Kind', ['lift tower', 'crawler crane', 'mobile crane', 'gantry', 'hoist']),
  text('hook', 'Hook', 'Main hook'),
  quantity('rated', 'Rated load of the hook', 'kg', '660 t'),
  choice('dynamics', 'Hoisting dynamics', DYNAMICS, 'the basis of the rating is then open'),
  choice('point', 'The rating is stated', POINT_OF_RATING, 'the basis of the rating is then open'),
  quantity('block', 'Block and links below the head', 'kg', '18 t', 'its load is then open'),
  quantity('highest', 'Highest hook position, z', 'm', '21 m', 'the height under the hook is then open'),
  quantity('service', 'Largest gust in service', 'm/s', '12 m/s', 'the wind limit is then open'),
]

const systemStep: StartStep = {
  id: 'system',
  stage: 'lift',
  title: 'What lifts it',
  use: 'The machine with its hook, and what its rating means: with or without dynamics, below or above the block. The maker’s manual says so.',
  waits: () => undefined,
  fields: () => SYSTEM,
  read: (document) => {
    const system = firstOf(document, 'systems')?.[1]
    const hook = Object.values((system?.hooks ?? {}) as Raw)[0]
    const own = ['rated', 'block', 'highest'].map((name) => [name, typedAt(hook, `/${name}`)])
    return {
      ...Object.fromEntries(own),
      name: typedAt(system, '/name'),
      kind: typedAt(system, '/kind'),
      hook: typedAt(hook, '/name'),
      dynamics: typedAt(hook, '/basis/dynamics'),
      point: typedAt(hook, '/basis/point'),
      service: typedAt(system, '/wind/service'),
    }
  },
  write: (document, values) => {
    const [id, system] = firstOf(document, 'systems') ?? [idOf(values.name ?? ''), {}]
    const hooks = (system.hooks ?? {}) as Raw
    const [hookId, hook] = Object.entries(hooks)[0] ?? [idOf(values.hook ?? ''), {}]
    const basis = { ...((at(hook, '/basis') ?? {}) as Raw), ...typedOnly(values, ['dynamics', 'point']) }
    const own = {
      ...(hook as Raw),
      name: values.hook?.trim(),
      ...typedOnly(values, ['rated', 'block', 'highest']),
      basis,
    }
    const wind = { ...((system.wind ?? {}) as Raw), ...typedOnly(values, ['service']) }
    return putEntry(document, 'systems', id, {
      ...system,
      ...typedOnly(values, ['name', 'kind']),
      hooks: { ...hooks, [hookId]: own },
      ...(Object.keys(wind).length === 0 ? {} : { wind }),
    })
  },
  shows: (v) => `${v.name}, ${v.hook} rated ${v.rated}${v.point ? ` ${v.point}` : ''}`,
}

const SLINGS = ['wire rope sling', 'wire rope grommet', 'chain sling', 'round sling']
const STOCK: readonly StartField[] = [
  choice('kind', 'Kind', SLINGS),
  { name: 'quantity', label: 'How many', example: '4', whole: true },
  quantity('length', 'Working length', 'm', '4.5 m'),
  quantity('rated', 'Rated load of one, straight', 'kg', '20 t'),
  quantity('mass', 'Mass of one', 'kg', '60 kg'),
  quantity('stiffness', 'Axial stiffness EA', 'N', '20 MN'),
  quantity('tolerance', 'Length tolerance', '1', '0.2 %', 'the worst share of each sling is then open'),
]

const stockStep: StartStep = {
  id: 'stock',
  stage: 'lift',
  title: 'Slings on hand',
  use: 'What it hangs by: length and stiffness decide how the load is shared, the rated load what it may be.',
  waits: () => undefined,
  fields: () => STOCK,
  read: (document) => {
    const item = firstOf(document, 'stock')?.[1]
    return Object.fromEntries(STOCK.map((f) => [f.name, typedAt(item, `/${f.name}`)]))
  },
  write: (document, values) => {
    const [id, item] = firstOf(document, 'stock') ?? [idOf(values.kind ?? ''), {}]
    const own = typedOnly(
      values,
      STOCK.map((f) => f.name),
    )
    return putEntry(document, 'stock', id, { ...item, ...own, quantity: Number(own.quantity) })
  },
  shows: (v) => `${v.quantity} × ${v.kind}, ${v.length}, rated ${v.rated}`,
}

const UP = quantity('up', 'Up by', 'm', '36 m')
const liftStep: StartStep = {
  id: 'lift',
  stage: 'lift',
  title: 'The lift: from where to where',
  use: 'The way of the piece from where it was found: straight up, across to its bay, and down. Each sling goes from one point to the hook.',
  waits: (document) =>
    hasNone(document, 'pieces', 'the piece') ??
    (Object.keys((firstOf(document, 'pieces')?.[1].points ?? {}) as Raw).length === 0
      ? 'its lifting points'
      : undefined) ??
    hasNone(document, 'systems', 'what lifts it') ??
    hasNone(document, 'stock', 'the slings'),
  fields: () => [
    UP,
    quantity('x', 'Across, along x', 'm', '0 m', 'it stays over the shaft'),
    quantity('y', 'Across, along y', 'm', '25 m', 'it stays over the shaft'),
    quantity('down', 'Down by', 'm', '3 m', 'it is not set down'),
  ],
  read: (document) => {
    const moves = (firstOf(document, 'steps')?.[1].moves ?? []) as unknown[]
    const down = typedAt(moves.at(-1), '/by/2')
    return {
      up: typedAt(moves[0], '/by/2'),
      x: typedAt(moves[1], '/by/0'),
      y: typedAt(moves[1], '/by/1'),
      down: moves.length > 1 && /^[-−]/.test(down) ? down.slice(1) : '',
    }
  },
  write: (document, values) => {
    const [piece, { points, bay }] = firstOf(document, 'pieces') as readonly [string, Raw]
    const [system, { hooks }] = firstOf(document, 'systems') as readonly [string, Raw]
    const [hook] = Object.keys((hooks ?? {}) as Raw)
    const [item] = firstOf(document, 'stock') as readonly [string, Raw]
    const [id, known] = firstOf(document, 'lifts') ?? [`${piece}-out`.slice(0, 60), {}]
    const [step, earlier] = firstOf(document, 'steps') ?? ['S1', {}]
    const legs = Object.keys((points ?? {}) as Raw).map((to) => ({ item, to }))
    const lift = {
      piece,
      kind: 'out',
      system,
      hook,
      rigging: { legs },
      ...(bay === undefined ? {} : { bay }),
      ...known,
    }
    return [
      ...putEntry(document, 'lifts', id, lift),
      ...putEntry(document, 'steps', step, { ...earlier, piece, moves: movesOf(values), lift: id }),
      { op: 'add', path: '/order', value: [step] },
    ]
  },
  shows: (v) =>
    `up ${v.up}${v.y || v.x ? `, across ${v.x || '0 m'}, ${v.y || '0 m'}` : ''}${v.down ? `, down ${v.down}` : ''}`,
}

/** Straight up is no shift along x and y: that is what the words say, and no value made up. */
function movesOf(values: Values): { by: string[] }[] {
  const [up, x, y, down] = ['up', 'x', 'y', 'down'].map((name) => values[name]?.trim() ?? '') as [
    string,
    string,
    string,
    string,
  ]
  return [
    { by: ['0 m', '0 m', up] },
    ...(x || y ? [{ by: [x || '0 m', y || '0 m', '0 m'] }] : []),
    ...(down ? [{ by: ['0 m', '0 m', `-${down}`] }] : []),
  ]
}

export const liftSteps: readonly StartStep[] = [massStep, pieceStep, pointsStep, systemStep, stockStep, liftStep]
