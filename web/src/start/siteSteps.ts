import { UNNAMED } from '@shieldwright/engine/model/empty.ts'
import { at } from '@shieldwright/engine/working/pointer.ts'
import { firstOf, putEntry, putFields, type Raw, section, three, typedAt, typedOnly } from './document.ts'
import { choice, idOf, quantity, type StartField, text, type Values } from './field.ts'
import type { StartStep } from './steps.ts'

const nameStep: StartStep = {
  id: 'name',
  stage: 'project',
  title: 'Name of the project',
  use: 'It stands on every sheet that is printed.',
  waits: () => undefined,
  fields: () => [text('title', 'Name', 'Recovery through shaft 2')],
  read: (document) => {
    const title = typedAt(document, '/about/title')
    return { title: title === UNNAMED ? '' : title }
  },
  write: (document, values) => putFields(document, '/about', typedOnly(values, ['title'])),
  shows: ({ title }) => title ?? '',
}

const LIMITS: readonly StartField[] = [
  quantity('clearanceInShaft', 'Clearance to keep in the shaft', 'm', '0.35 m'),
  quantity('clearanceOverBarrier', 'Clearance over the barrier', 'm', '0.5 m'),
  quantity('tilt', 'Largest tilt of a hanging piece', 'rad', '2 deg'),
  quantity('legAngle', 'Largest angle of a sling from plumb', 'rad', '45 deg'),
  quantity('cogShift', 'Shift of the centre of gravity to allow for', 'm', '50 mm'),
  quantity('coverage', 'Standard uncertainties in a band', '1', '2', 'bands of the hook load are then open'),
]
const LIMIT_NAMES = LIMITS.map((f) => f.name)

const limitsStep: StartStep = {
  id: 'limits',
  stage: 'project',
  title: 'Limits of this project',
  use: 'What a lift is held against beside its ratings. Each is a decision of the people in charge; without it the check stays open.',
  waits: () => undefined,
  fields: () => LIMITS,
  read: (document) => {
    const settings = section(document, 'settings')
    return Object.fromEntries(LIMIT_NAMES.map((name) => [name, typedAt(settings, `/${name}`)]))
  },
  write: (document, values) => putFields(document, '/settings', typedOnly(values, LIMIT_NAMES)),
  shows: (v) => `${v.clearanceInShaft} in the shaft, ${v.clearanceOverBarrier} over the barrier, tilt ${v.tilt}`,
}

const WALLS = ['secant piles', 'slurry panels', 'sprayed', 'segments']
const SHAFT: readonly StartField[] = [
  quantity('clearDiameter', 'Clear inner diameter', 'm', '17.5 m'),
  quantity('collar', 'Ground level at the collar, z', 'm', '0 m'),
  quantity('barrier', 'Height of the barrier around it', 'm', '1.2 m'),
  quantity('slabTop', 'Top of the base slab, z', 'm', '-32 m'),
  quantity('slabThickness', 'Thickness of the base slab', 'm', '2.5 m'),
  quantity('excavation', 'Deepest excavation, z', 'm', '-34.5 m'),
  choice('kind', 'Wall', WALLS),
  quantity('toe', 'Toe of the wall, z', 'm', '-40 m'),
]

const shaftStep: StartStep = {
  id: 'shaft',
  stage: 'model',
  title: 'Shaft and ground level',
  use: 'The hole that every piece must pass, how deep it is lifted from, and the barrier it must clear. Levels are site z, up; the collar is usually ±0.',
  waits: () => undefined,
  fields: () => SHAFT,
  read: (document) => {
    const shaft = section(document, 'shaft')
    const own = SHAFT.slice(0, 6).map((f) => [f.name, typedAt(shaft, `/${f.name}`)])
    return { ...Object.fromEntries(own), kind: typedAt(shaft, '/wall/kind'), toe: typedAt(shaft, '/wall/toe') }
  },
  write: (document, values) => {
    const { kind, toe, ...own } = typedOnly(
      values,
      SHAFT.map((f) => f.name),
    )
    const wall = (at(document, '/shaft/wall') ?? {}) as Raw
    return putFields(document, '/shaft', { ...own, wall: { ...wall, kind, toe } })
  },
  shows: (v) => `${v.clearDiameter} clear, collar at ${v.collar}, slab at ${v.slabTop}, barrier ${v.barrier}`,
}

const POSE: readonly StartField[] = [
  quantity('x', 'Front face of the bulkhead, x', 'm', '2 m'),
  quantity('y', 'y', 'm', '0 m'),
  quantity('z', 'Machine axis, z', 'm', '-26 m'),
  quantity('roll', 'Roll', 'rad', '0 deg'),
  quantity('pitch', 'Nose up', 'rad', '0 deg'),
  quantity('yaw', 'Yaw to the left', 'rad', '0 deg'),
  quantity(
    'shieldDiameter',
    'Outer diameter of the shield',
    'm',
    '12.4 m',
    'the roll tolerance of the pose is then open',
  ),
]

const machineStep: StartStep = {
  id: 'machine',
  stage: 'model',
  title: 'Where the machine stands',
  use: 'Parts are given in the machine’s own frame: from the front face of the bulkhead, on its axis, x forward. This puts that frame into the shaft: site x along the drive, from the middle of the shaft, z up.',
  waits: () => undefined,
  fields: () => POSE,
  read: (document) => {
    const pose = (at(document, '/machine/pose') ?? {}) as Raw
    const origin = ['x', 'y', 'z'].map((name, i) => [name, typedAt(pose, `/origin/${i}`)])
    const turns = ['roll', 'pitch', 'yaw'].map((name) => [name, typedAt(pose, `/${name}`)])
    return {
      ...Object.fromEntries([...origin, ...turns]),
      shieldDiameter: typedAt(document, '/machine/shieldDiameter'),
    }
  },
  write: (document, values) => {
    const pose = (at(document, '/machine/pose') ?? {}) as Raw
    const turns = typedOnly(values, ['roll', 'pitch', 'yaw'])
    return putFields(document, '/machine', {
      pose: { ...pose, origin: three(values, ['x', 'y', 'z']), ...turns },
      ...typedOnly(values, ['shieldDiameter']),
    })
  },
  shows: (v) => `bulkhead at ${v.x}, ${v.y}, ${v.z}; roll ${v.roll}`,
}

const BAY: readonly StartField[] = [
  text('name', 'Name', 'Bay 1'),
  quantity('x', 'Centre, x', 'm', '0 m'),
  quantity('y', 'Centre, y', 'm', '25 m'),
  quantity('alongX', 'Size along x', 'm', '14 m'),
  quantity('alongY', 'Size along y', 'm', '14 m'),
  quantity('level', 'Level of its top, z', 'm', '0 m'),
  quantity('allowable', 'Allowable pressure', 'Pa', '100 kPa'),
]

const bayStep: StartStep = {
  id: 'bay',
  stage: 'model',
  title: 'Where the piece is set down',
  use: 'A laydown bay beside the shaft. What it may carry is decided by the ground engineer.',
  waits: () => undefined,
  fields: () => BAY,
  read: (document) => {
    const bay = firstOf(document, 'bays')?.[1]
    const places = { x: '/centre/0', y: '/centre/1', alongX: '/size/0', alongY: '/size/1' }
    return {
      ...Object.fromEntries(Object.entries(places).map(([name, place]) => [name, typedAt(bay, place)])),
      name: typedAt(bay, '/name') || (firstOf(document, 'bays')?.[0] ?? ''),
      level: typedAt(bay, '/level'),
      allowable: typedAt(bay, '/allowable'),
    }
  },
  write: (document, values) => {
    const [id, bay] = firstOf(document, 'bays') ?? [idOf(values.name ?? ''), {}]
    return putEntry(document, 'bays', id, {
      ...bay,
      ...typedOnly(values, ['name', 'level', 'allowable']),
      centre: [values.x?.trim(), values.y?.trim()],
      size: [values.alongX?.trim(), values.alongY?.trim()],
    })
  },
  shows: (v) => `${v.name}: ${v.alongX} × ${v.alongY} at ${v.x}, ${v.y}; ${v.allowable}`,
}

const SHAPES = ['box', 'cylinder', 'ring sector'] as const
const CENTRE = [
  quantity('cx', 'Centre, x', 'm', '-1.2 m'),
  quantity('cy', 'Centre, y', 'm', '0 m'),
  quantity('cz', 'Centre, z', 'm', '0 m'),
]
const ALONG = [quantity('from', 'Along x, from', 'm', '-2 m'), quantity('to', 'Along x, to', 'm', '0 m')]

function shapeFields({ shape }: Values): StartField[] {
  if (shape === 'cylinder') return [quantity('radius', 'Radius', 'm', '1.5 m'), ...ALONG, ...CENTRE.slice(1)]
  if (shape === 'ring sector')
    return [
      quantity('inner', 'Inner radius', 'm', '5.6 m'),
      quantity('outer', 'Outer radius', 'm', '6.2 m'),
      ...ALONG,
      quantity('start', 'Angle from (left 0, crown 90)', 'rad', '0 deg'),
      quantity('end', 'Angle to', 'rad', '360 deg'),
    ]
  return [
    ...CENTRE,
    quantity('sx', 'Size along x', 'm', '2 m'),
    quantity('sy', 'Size along y', 'm', '1.6 m'),
    quantity('sz', 'Size along z', 'm', '1.5 m'),
  ]
}

function solidOf(values: Values): Raw {
  const [from, to] = [values.from?.trim(), values.to?.trim()]
  if (values.shape === 'ring sector') {
    const angles = [values.start?.trim(), values.end?.trim()]
    return { shape: 'ring sector', ...typedOnly(values, ['inner', 'outer']), along: [from, to], angles }
  }
  if (values.shape === 'cylinder') {
    const across = [values.cy?.trim(), values.cz?.trim()]
    return { shape: 'cylinder', ...typedOnly(values, ['radius']), from: [from, ...across], to: [to, ...across] }
  }
  return { shape: 'box', centre: three(values, ['cx', 'cy', 'cz']), size: three(values, ['sx', 'sy', 'sz']) }
}

const SOLID_PLACES: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  box: { cx: '/centre/0', cy: '/centre/1', cz: '/centre/2', sx: '/size/0', sy: '/size/1', sz: '/size/2' },
  cylinder: { radius: '/radius', from: '/from/0', to: '/to/0', cy: '/from/1', cz: '/from/2' },
  'ring sector': {
    inner: '/inner',
    outer: '/outer',
    from: '/along/0',
    to: '/along/1',
    start: '/angles/0',
    end: '/angles/1',
  },
}

const partStep: StartStep = {
  id: 'part',
  stage: 'model',
  title: 'A part, and its shape',
  use: 'The shape says whether it passes the shaft and where its centre of gravity lies. Frame: the machine’s. A rough shape is a start; more solids can be added later.',
  waits: () => undefined,
  fields: (values) => [
    text('name', 'Name', 'Cutting head hub'),
    text('material', 'Material', 'steel'),
    quantity('density', 'Its density', 'kg/m3', '7850 kg/m3'),
    choice('shape', 'Shape', SHAPES),
    ...shapeFields(values),
  ],
  read: (document) => {
    const part = firstOf(document, 'parts')?.[1]
    const solid = at(part, '/solids/0')
    const [shape, material] = [typedAt(solid, '/shape'), typedAt(part, '/material')]
    const places = Object.entries(SOLID_PLACES[shape] ?? {}).map(([name, place]) => [name, typedAt(solid, place)])
    const density = typedAt(section(document, 'materials'), `/${material}/density`)
    return { name: typedAt(part, '/name'), material, shape, density, ...Object.fromEntries(places) }
  },
  write: (document, values) => {
    const [id, part] = firstOf(document, 'parts') ?? [idOf(values.name ?? ''), {}]
    const material = idOf(values.material ?? '')
    const others = ((part.solids ?? []) as unknown[]).slice(1)
    const entry = { ...part, ...typedOnly(values, ['name']), material, solids: [solidOf(values), ...others] }
    const known = (section(document, 'materials')[material] ?? {}) as Raw
    return [
      ...putEntry(document, 'materials', material, { ...known, ...typedOnly(values, ['density']) }),
      ...putEntry(document, 'parts', id, entry),
    ]
  },
  shows: (v) => `${v.name}: ${v.shape}, ${v.material} of ${v.density}`,
}

export const siteSteps: readonly StartStep[] = [nameStep, limitsStep, shaftStep, machineStep, bayStep, partStep]
