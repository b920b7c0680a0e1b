import { mass } from '../mass/index.ts'
import { type Model, model } from '../model/index.ts'
import type { Mesh } from '../numeric/mesh.ts'
import type { Check } from '../working/check.ts'
import { freshMemory, type Memory } from '../working/memory.ts'
import { problemText } from '../working/problem.ts'
import { type StripResult, strip } from './strip.ts'

type Raw = Readonly<Record<string, unknown>>
type Point = readonly [number, number, number]

const metres = (p: readonly number[]): string[] => p.map((x) => `${x} m`)

/** A box of steel with its centre and its size, m. */
export const boxAt = (centre: Point, size: Point = [1, 1, 1], more: Raw = {}): Raw => ({
  name: 'Block',
  material: 'steel',
  solids: [{ shape: 'box', centre: metres(centre), size: metres(size) }],
  ...more,
})

/** A straight move, site frame, m. */
export const by = (...d: Point): Raw => ({ by: metres(d) })

/** A joint of so many bolts between two parts. */
export const bolted = (a: string, b: string, more: Raw = {}): Raw => ({
  between: [a, b],
  kind: 'bolted',
  access: 'inside',
  bolts: { thread: 'M36', grade: '10.9', count: 10, timeOff: '6 min', timeOn: '9 min' },
  ...more,
})

export const SETTINGS: Raw = { overlapTolerance: '2 mm', contactGap: '5 mm', supportMargin: '0.2 m' }
export const POSE: Raw = { origin: ['0 m', '0 m', '-20 m'], roll: '0 deg', pitch: '0 deg', yaw: '0 deg' }
const SHAFT: Raw = {
  clearDiameter: '20 m',
  collar: '0 m',
  slabTop: '-25 m',
  slabThickness: '2 m',
  excavation: '-27 m',
  barrier: '1 m',
  wall: { kind: 'secant piles', toe: '-30 m' },
}
const CRADLE: Raw = {
  along: ['-3 m', '3 m'],
  radius: '1 m',
  contactHalfAngle: '50 deg',
  strength: '30 MPa',
  reinforced: true,
}

/**
 * A lid bolted on a tub that rests on the cradle of a shaft, with one step: the lid goes up. The lid is one metre thick
 * above the origin of the machine frame, the tub one below.
 */
export const lidOnTub = (sections: Raw = {}): Raw => ({
  schemaVersion: 1,
  about: { title: 'Lid on a tub' },
  settings: SETTINGS,
  machine: { pose: POSE },
  shaft: SHAFT,
  cradle: CRADLE,
  materials: { steel: { density: '7850 kg/m3' } },
  parts: { lid: boxAt([0, 0, 0.5]), tub: boxAt([0, 0, -0.5]) },
  joints: { J1: bolted('lid', 'tub') },
  pieces: { lid: { name: 'Lid', parts: ['lid'] } },
  steps: { S1: { piece: 'lid', moves: [by(0, 0, 30)] } },
  order: ['S1'],
  ...sections,
})

/** A document read; throws when it does not read. */
export function modelOf(
  document: unknown,
  memory: Memory = freshMemory(),
  meshes: ReadonlyMap<string, Mesh> = new Map(),
): Model {
  const read = model(document, memory, meshes)
  if (read.model === undefined) throw new Error(read.problems.map(problemText).join('\n'))
  return read.model
}

/** The stage on a document. */
export function stripOf(
  document: unknown,
  memory: Memory = freshMemory(),
  meshes: ReadonlyMap<string, Mesh> = new Map(),
): StripResult {
  const read = modelOf(document, memory, meshes)
  return strip(read, mass(read, memory), memory)
}

const CUBE: Mesh = {
  vertices: [0, 1].flatMap((x) => [0, 1].flatMap((y) => [0, 1].map((z): [number, number, number] => [x, y, z]))),
  triangles: [
    [0, 1, 3],
    [0, 3, 2],
    [4, 6, 7],
    [4, 7, 5],
    [0, 4, 5],
    [0, 5, 1],
    [2, 3, 7],
    [2, 7, 6],
    [0, 2, 6],
    [0, 6, 4],
    [1, 5, 7],
    [1, 7, 3],
  ],
}

/** A cube of a metre as triangles, with faces of it changed. */
export const cubeMesh = (change: (faces: Mesh['triangles']) => Mesh['triangles'] = (faces) => faces): Mesh => ({
  vertices: CUBE.vertices,
  triangles: change(CUBE.triangles),
})

/** A lid on a tub with a mesh beside it. */
export const besideMesh = (): Raw =>
  lidOnTub({
    parts: {
      lid: boxAt([0, 0, 0.5]),
      tub: boxAt([0, 0, -0.5]),
      scan: {
        name: 'Scan',
        material: 'steel',
        solids: [{ shape: 'mesh', file: 'cube', scale: '1 m', at: metres([3, 0, 0]) }],
      },
    },
  })

const ofSurface = (mesh: Mesh) => (): Check => {
  const { checks } = stripOf(besideMesh(), freshMemory(), new Map([['cube', mesh]]))
  return checks.find(({ kind }) => kind === 'strip.part.surface') as Check
}

const first = (kind: string, document: Raw, subject?: string) => (): Check => {
  const found = stripOf(document).checks.find((c) => c.kind === kind && (subject ?? c.subject.id) === c.subject.id)
  if (found === undefined) throw new Error(`no check of kind ${kind}`)
  return found
}

const three = (kind: string, pass: Raw, fail: Raw, open: Raw, subject?: string) => ({
  [kind]: { pass: first(kind, pass, subject), fail: first(kind, fail, subject), open: first(kind, open, subject) },
})

/** A block that lies loose on the tub, which the step leaves on its bed. */
export const looseOnTub = (settings: Raw): Raw =>
  lidOnTub({
    settings,
    parts: {
      lid: boxAt([0, 0, 0.5]),
      tub: boxAt([0, 0, -0.5], [4, 1, 1]),
      block: boxAt([1.5, 0, 0.25], [0.5, 0.5, 0.5]),
    },
  })

const { overlapTolerance: _tolerance, ...WITHOUT_TOLERANCE } = SETTINGS
const { contactGap: _gap, ...WITHOUT_GAP } = SETTINGS
const { supportMargin: _margin, ...WITHOUT_MARGIN } = SETTINGS
const { cradle: _cradle, ...WITHOUT_CRADLE } = lidOnTub()
const { shaft: _shaft, ...WITHOUT_SHAFT } = lidOnTub()

/** A journal as deep in a half bore as is just tolerated: the inner and the outer shapes of the bore lie on either side of it. */
const undecided = (parts: Raw): Raw => lidOnTub({ parts, joints: { J1: bolted('lid', 'tub') } })
const ring = (more: Raw): Raw => ({
  name: 'Ring',
  material: 'steel',
  solids: [
    {
      shape: 'ring sector',
      inner: '2 m',
      outer: '3 m',
      along: ['0 m', '1 m'],
      angles: ['180 deg', '360 deg'],
      ...more,
    },
  ],
})
const journal = (dip: number): Raw => ({
  name: 'Journal',
  material: 'steel',
  solids: [{ shape: 'cylinder', radius: '1.9 m', from: metres([0, 0, -0.1 - dip]), to: metres([1, 0, -0.1 - dip]) }],
})

const plate = (added: Raw): Raw => ({
  kind: 'stiffen',
  what: 'Plate',
  status: 'approved',
  parts: ['lid'],
  added: { mass: '50 kg', basis: 'calculated', ...added },
})
const changed = (added: Raw): Raw =>
  lidOnTub({
    parts: { lid: boxAt([0, 0, 0.5]), tub: boxAt([0, 0, -0.5]), post: boxAt([0, 2, 4], [1, 1, 1]) },
    joints: { J1: bolted('lid', 'tub'), J2: bolted('tub', 'post', { throughBracket: true }) },
    changes: { C1: plate(added) },
  })
const plateShape = (y: number): Raw => ({
  solids: [{ shape: 'box', centre: metres([0, y, 0.5]), size: metres([0.5, 0.5, 0.1]) }],
})

const hose = (more: Raw): Raw =>
  lidOnTub({
    services: {
      H1: { kind: 'hose', medium: 'oil', from: 'lid', to: 'tub', timeOff: '10 min', timeOn: '20 min', ...more },
    },
  })

/** The hose under an isolation with stored energy, with the acts that are signed. */
const isolatedHose = (signed: Raw): Raw => ({
  ...hose({ isolation: 'ISO-1' }),
  isolations: {
    'ISO-1': { what: 'Test circuit', kind: 'hydraulic', where: 'pack', storedEnergy: 'accumulator', signed },
  },
})
const day = (n: number): Raw => ({ by: 'Electrical person in charge', on: `2031-05-0${n}` })

/** The hose parted, and joined again as its tags were read. */
const joinedHose = (joined: Raw): Raw =>
  hose({ tag: 'H-01', parted: { ...day(1), tag: 'H-01' }, joined: { by: 'Fitter', on: '2031-06-01', ...joined } })

/** The hose made in a year, in use for at most six. */
const agedHose = (made: string | undefined): Raw => ({
  ...hose({ hose: { ...(made && { made }), leastBend: '0.2 m', bend: '0.3 m' }, joined: day(1) }),
  settings: { ...SETTINGS, hoseYears: 6 },
})

/** The hose with so much oil in it, and room for 100 L. */
const drainedHose = (drained: string, settings: Raw = { ...SETTINGS, drainCapacity: '100 L' }): Raw => ({
  ...hose({ drained }),
  settings,
})

/** A lid bolted down inside a rim, with a tool of so much length over a bolt that stands under a hood 0.5 m above it. */
export const underHood = (tool: number): Raw =>
  lidOnTub({
    parts: { lid: boxAt([0, 0, 0.5]), tub: boxAt([0, 0, -0.5]), hood: boxAt([0.8, 0, 1.7], [0.4, 1, 0.4]) },
    joints: {
      J1: bolted('lid', 'tub', {
        fasteners: { off: '+z', heads: [metres([0.8, 0, 1]), metres([-0.8, 0, 1])] },
        tool: { length: `${tool} m`, swing: '0.1 m' },
      }),
      J2: bolted('tub', 'hood', { throughBracket: true }),
    },
    steps: { S1: { piece: 'lid', moves: [by(-5, 0, 0), by(0, 0, 30)] } },
  })

/** The lid, 7.85 t, with a share of it on the hook when two bolts of 20 kN are left. */
export const halfway = (hook: number): Raw =>
  lidOnTub({
    parts: {
      lid: boxAt([0, 0, 0.5], [1, 1, 1], {
        mass: { value: '7.85 t', basis: 'weighed', uncertainty: 0, date: '2032-01-01', source: 'scale' },
      }),
      tub: boxAt([0, 0, -0.5]),
    },
    pieces: { lid: { name: 'Lid', parts: ['lid'], retained: '0 t' } },
    settings: { ...SETTINGS, allowance: { weighed: 0 } },
    joints: { J1: bolted('lid', 'tub', { halfway: { left: 2, hook, resistance: '20 kN' } }) },
  })

/** The lid held by twelve M36 of class 10.9 that are tensioned, and what changes of them or of their joint. */
const tensioned = (bolts: Raw, joint: Raw = {}): Raw => {
  const usual = {
    thread: 'M36',
    grade: '10.9',
    count: 12,
    circle: '2 m',
    preload: '500 kN',
    method: 'hydraulic tension',
    tensioner: { area: '52 cm2', transfer: 1.12 },
    least: '300 kN',
    timeOff: '6 min',
    timeOn: '9 min',
  }
  return lidOnTub({ joints: { J1: bolted('lid', 'tub', { bolts: { ...usual, ...bolts }, ...joint }) } })
}
const FLANGE: Raw = { axial: '900 kN', shear: '100 kN', torque: '200 kN m', moment: '400 kN m', friction: 0.2 }
const faces = (flatnessMeasured?: string): Raw =>
  tensioned({}, { faces: { flatness: '0.2 mm', gap: '0.1 mm', gapMeasured: '0.05 mm', flatnessMeasured } })

/** Three checks of each kind of this stage, made by the stage itself on the smallest projects. */
export const fixtures: Readonly<Record<string, { pass: () => Check; fail: () => Check; open: () => Check }>> = {
  ...three(
    'strip.part.overlap',
    lidOnTub(),
    lidOnTub({ parts: { lid: boxAt([0, 0, 0.49]), tub: boxAt([0, 0, -0.5]) } }),
    lidOnTub({ settings: WITHOUT_TOLERANCE }),
  ),
  'strip.part.surface': {
    pass: ofSurface(cubeMesh()),
    fail: ofSurface(cubeMesh((faces) => faces.slice(1))),
    open: ofSurface(cubeMesh((faces) => Array.from({ length: 500_001 }, () => faces[0] as [number, number, number]))),
  },
  ...three(
    'strip.machine.joined',
    lidOnTub(),
    lidOnTub({ parts: { lid: boxAt([0, 0, 0.5]), tub: boxAt([0, 0, -0.5]), loose: boxAt([5, 0, 0]) } }),
    lidOnTub({ joints: {} }),
  ),
  ...three(
    'strip.joint.touch',
    lidOnTub(),
    lidOnTub({ parts: { lid: boxAt([0, 0, 0.6]), tub: boxAt([0, 0, -0.5]) } }),
    lidOnTub({ settings: WITHOUT_GAP }),
  ),
  ...three(
    'strip.step.path',
    lidOnTub(),
    lidOnTub({ steps: { S1: { piece: 'lid', moves: [by(0, 0, -1)] } } }),
    undecided({ lid: journal(0.00198), tub: ring({}) }),
  ),
  ...three(
    'strip.step.fasteners',
    lidOnTub(),
    lidOnTub({
      parts: { lid: boxAt([0, 0, 0.5]), tub: boxAt([0, 0, -0.5]), hood: boxAt([5, 0, 0]) },
      joints: { J1: bolted('lid', 'tub', { hiddenBy: ['hood'] }), J2: bolted('tub', 'hood', { throughBracket: true }) },
    }),
    lidOnTub({ joints: { J1: { between: ['lid', 'tub'], kind: 'pinned', access: 'inside' } } }),
  ),
  ...three(
    'strip.step.services-found',
    joinedHose({ tag: 'H-01', port: 'H-01', checkedBy: 'Foreman' }),
    joinedHose({ tag: 'H-01', port: 'H-02', checkedBy: 'Foreman' }),
    joinedHose({ tag: 'H-01', port: 'H-01' }),
  ),
  ...three('strip.step.hoses', agedHose('2027-01-01'), agedHose('2024-01-01'), agedHose(undefined)),
  ...three('strip.step.services', hose({}), hose({ follows: true, length: '5 m' }), hose({ pressure: '30 MPa' })),
  ...three(
    'strip.step.reach',
    lidOnTub(),
    lidOnTub({
      parts: { lid: boxAt([0, 0, 0.5]), tub: boxAt([0, 0, -0.5]), hood: boxAt([5, 0, 0]) },
      joints: { J1: bolted('lid', 'tub', { hiddenBy: ['hood'] }), J2: bolted('tub', 'hood', { throughBracket: true }) },
    }),
    { ...WITHOUT_SHAFT, joints: { J1: bolted('lid', 'tub', { access: 'outside' }) } },
  ),
  ...three('strip.step.tool', underHood(0.3), underHood(0.8), lidOnTub()),
  ...three('strip.step.load-path', halfway(0.9), halfway(0), lidOnTub()),
  ...three(
    'strip.isolation.discharged',
    isolatedHose({ isolated: day(1), locked: day(1), discharged: day(2), proved: day(2) }),
    isolatedHose({ isolated: day(1), locked: day(1), discharged: day(3), proved: day(2) }),
    isolatedHose({ isolated: day(1) }),
  ),
  ...three('strip.step.drained', drainedHose('90 L'), drainedHose('100 L'), drainedHose('90 L', SETTINGS)),
  ...three(
    'strip.step.held',
    lidOnTub(),
    lidOnTub({
      parts: { lid: boxAt([0, 0, 0.5]), tub: boxAt([0, 0, -0.5]), arm: boxAt([1, 0, 0.5]) },
      joints: { J1: bolted('lid', 'tub'), J2: bolted('lid', 'arm') },
    }),
    WITHOUT_CRADLE,
  ),
  ...three(
    'strip.step.steady',
    looseOnTub({ ...SETTINGS, contactFriction: '0.3' }),
    looseOnTub({ ...SETTINGS, contactFriction: '0.02' }),
    looseOnTub(SETTINGS),
  ),
  ...three(
    'strip.step.stands',
    lidOnTub(),
    lidOnTub({
      parts: { lid: boxAt([0, 0, 0.5]), tub: boxAt([2.9, 0, -0.5], [2, 1, 1]) },
      joints: { J1: bolted('lid', 'tub', { throughBracket: true }) },
    }),
    lidOnTub({ settings: WITHOUT_MARGIN }),
  ),
  ...three('strip.bolts.preload', tensioned({}), tensioned({ least: '480 kN' }), tensioned({ method: undefined })),
  ...three(
    'strip.flange.holds',
    tensioned({}, { flange: FLANGE }),
    tensioned({}, { flange: { ...FLANGE, axial: '9000 kN' } }),
    tensioned({ dowels: 2 }),
  ),
  ...three('strip.joint.faces', faces('0.15 mm'), faces('0.25 mm'), faces()),
  ...three('strip.step.return', changed(plateShape(0.4)), changed(plateShape(1.5)), changed({})),
}
