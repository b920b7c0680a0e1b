import type { LiftOutcome, LiftResult } from '../lift/index.ts'
import { mass } from '../mass/index.ts'
import { idsMeant, type Model, model } from '../model/index.ts'
import { AT_REST } from '../numeric/vector.ts'
import type { StripResult } from '../strip/index.ts'
import { given, knownOr, sumOf } from '../working/answer.ts'
import type { Check } from '../working/check.ts'
import { freshMemory, type Memory } from '../working/memory.ts'
import { applyPatch, type Patch } from '../working/patch.ts'
import { pointerOf } from '../working/pointer.ts'
import { problemText } from '../working/problem.ts'
import { type GroundResult, ground } from './ground.ts'

/** A small shaft in sand over clay over a confined aquifer, a shield with one block to lift, a tower, a crane and a trailer. */
export const site = {
  schemaVersion: 1,
  about: { title: 'A small shaft' },
  settings: { clearanceInShaft: '0.3 m', allowance: { calculated: 0.05 } },
  materials: { steel: { density: '7850 kg/m3' } },
  machine: {
    pose: { origin: ['0 m', '0 m', '-14.9 m'], roll: '0 deg', pitch: '0 deg', yaw: '0 deg' },
    shieldDiameter: '6 m',
  },
  parts: {
    shield: {
      name: 'Shield',
      material: 'steel',
      solids: [
        { shape: 'ring sector', inner: '2.9 m', outer: '3 m', along: ['-4 m', '3.5 m'], angles: ['0 deg', '360 deg'] },
      ],
    },
    block: {
      name: 'Block',
      material: 'steel',
      solids: [{ shape: 'box', centre: ['0 m', '0 m', '0 m'], size: ['2 m', '2 m', '1 m'] }],
    },
  },
  pieces: { block: { name: 'Block', parts: ['block'], retained: '0 kg', bay: 'B' } },
  steps: { take: { piece: 'block', moves: [{ by: ['0 m', '0 m', '16 m'] }], lift: 'out' } },
  order: ['take'],
  lifts: {
    out: { piece: 'block', kind: 'out', system: 'tower', hook: 'main', bay: 'B' },
    aside: { piece: 'block', kind: 'move', system: 'crane', hook: 'main', standing: 0, radius: '6 m' },
  },
  systems: {
    tower: {
      name: 'Lift tower',
      kind: 'lift tower',
      hooks: { main: { name: 'Main hook', block: '2 t', highest: '12 m', travel: ['-4 m', '4 m'] } },
      selfMass: '120 t',
      header: '40 t',
      legs: {
        A: { x: '-9 m', offset: '-3 m' },
        B: { x: '-9 m', offset: '3 m' },
        C: { x: '9 m', offset: '-3 m' },
        D: { x: '9 m', offset: '3 m' },
      },
      horizontalShare: 0.02,
      level: { limit: '20 mm', reading: '8 mm', on: '2031-11-02' },
      sail: { area: '60 m2', drag: 1.6, height: '8 m' },
      wind: { read: { as: 'gust', at: 'hook' }, service: '11 m/s', outOfService: '30 m/s' },
      storm: { friction: 0.14, held: 0.75, across: '300 kN' },
      foundation: { pileWorkingLoad: '900 kN', pilesUnderLeg: 2, toe: '-12 m', kind: 'beam on piles' },
      parked: { along: '-10 m' },
    },
    crane: {
      name: 'Crawler crane',
      kind: 'crawler crane',
      hooks: { main: { name: 'Main hook', block: '1 t' } },
      selfMass: '80 t',
      ownOffset: '-0.5 m',
      level: { limit: '45 mm', reading: '10 mm' },
      standings: [['16 m', '0 m']],
      tracks: { length: '6 m', width: '1 m', gauge: '4.5 m', mat: ['6 m', '2 m'] },
      mats: { thickness: '0.25 m', bending: '10 MPa', shear: '1.2 MPa' },
    },
  },
  transports: {
    trailer: {
      kind: 'platform trailer',
      payload: '60 t',
      selfMass: '15 t',
      platform: ['6 m', '2.5 m'],
      lines: 4,
      at: ['0 m', '14 m', '1.2 m'],
      takes: ['block'],
      to: ['B'],
    },
  },
  bays: {
    B: {
      centre: ['0 m', '25 m'],
      size: ['6 m', '6 m'],
      level: '0 m',
      allowable: '250 kPa',
      bearingShare: 0.5,
      settlement: '25 mm',
      tilt: '0.1 deg',
      piles: { count: 4, workingLoad: '400 kN', toe: '-12 m' },
    },
  },
  programme: { start: '2031-11-03', dataDate: '2031-11-29' },
  utilities: {
    road: {
      what: 'haul road',
      maxVehicle: '60 t',
      maxLine: '12 t',
      bears: '80 kPa',
      line: [
        ['-40 m', '30 m'],
        ['-40 m', '-26 m'],
        ['40 m', '-26 m'],
      ],
    },
    sewer: {
      what: 'sewer',
      axis: '-5 m',
      line: [
        ['-30 m', '20 m'],
        ['30 m', '20 m'],
      ],
      allowable: '60 kPa',
      settlement: { alert: '6 mm', action: '10 mm', alarm: '14 mm', reading: '3 mm', on: '2031-11-02' },
    },
    wire: {
      what: 'overhead line',
      line: [
        ['40 m', '-50 m'],
        ['40 m', '50 m'],
      ],
      height: '9 m',
      clearance: '6 m',
    },
  },
  shaft: {
    clearDiameter: '12 m',
    collar: '0 m',
    slabTop: '-18 m',
    slabThickness: '1.5 m',
    excavation: '-19.5 m',
    barrier: '1.2 m',
    stages: [
      { to: '-10 m', running: 0 },
      { to: '-16 m', running: 2 },
    ],
    wall: {
      kind: 'secant piles',
      pileDiameter: '1.2 m',
      piles: 53,
      ringDiameter: '13.6 m',
      toe: '-24 m',
      verticality: 0.002,
      settingOut: '20 mm',
      strength: '30 MPa',
      youngLong: '12 GPa',
      lining: '0.1 m',
      outOfRound: '40 mm',
      openJoint: { deviations: 3, accepted: 0.02 },
      surcharge: '40 kPa',
    },
    fill: {
      stops: [
        { top: '-15 m', running: 1 },
        { top: '-12 m', running: 0 },
      ],
      top: '-12 m',
      unitWeight: '18 kN/m3',
      displaced: '100 m3',
      pumped: '585 m3',
      band: 0.05,
    },
    eyes: {
      exit: {
        centre: '-14.9 m',
        diameter: '6.4 m',
        side: '+x',
        decided: 'frame signed by the shaft engineer',
        seal: { rated: '3 bar', factor: 1.5, passes: 'maker, drawing 7' },
      },
    },
  },
  cradle: {
    along: ['-4 m', '3 m'],
    contactHalfAngle: '50 deg',
    strength: '30 MPa',
    friction: 0.2,
    holds: 0.12,
    tied: { bar: '16 mm', spacing: '200 mm', layers: 2, yield: '500 MPa', designed: 'shaft engineer, sheet 3' },
    block: { mass: '400 t', friction: 0.5 },
    driveIn: {
      thrust: '8 MN',
      skin: '10 kPa',
      inGround: '4 m',
      face: '20 kPa',
      roll: '2 deg',
      breakIn: {
        tools: 30,
        tool: '100 kN',
        drag: 0.12,
        radius: '1.6 m',
        torque: '0.9 MN m',
        inGround: '7.5 m',
        holds: '4 kPa',
        wall: '5 MN',
        signed: 'shaft engineer, sheet 9',
      },
    },
    jacking: {
      points: {
        J1: { at: ['-3 m', '-1.5 m'] },
        J2: { at: ['-3 m', '1.5 m'] },
        J3: { at: ['2.5 m', '-1.5 m'] },
        J4: { at: ['2.5 m', '1.5 m'] },
      },
      rated: '700 kN',
      shell: '600 kN',
      pad: ['0.4 m', '0.4 m'],
      links: { count: 8, bar: '12 mm', yield: '500 MPa', designed: 'shaft engineer, sheet 3' },
      stiffness: '50 kN/mm',
      apart: '2 mm',
    },
    lastRings: {
      diameter: '5.8 m',
      centre: '-14.9 m',
      gasketDepth: '40 mm',
      gasket: '25 kN/m',
      ties: { count: 8, load: '150 kN', stiffness: '400 MN', between: '1.5 m', designed: 'tunnel designer, sheet 4' },
      openJoint: { joints: 6, force: 0.15, held: 0.1, accepted: 0.01 },
      opening: '2 mm',
    },
    restart: {
      on: 'frame',
      thrust: '6 MN',
      torque: '0.3 MN m',
      holds: 0.15,
      stops: '0.2 MN m',
      load: '8 MN',
      feet: 4,
      foot: ['0.8 m', '0.8 m'],
      signed: 'shaft engineer',
    },
  },
  ground: {
    surface: '0 m',
    layers: {
      sand: {
        name: 'sand',
        top: '0 m',
        bottom: '-10 m',
        unitWeight: '18 kN/m3',
        phi: '33 deg',
        k0: 0.46,
        young: '30 MPa',
        poisson: 0.3,
      },
      clay: {
        name: 'stiff clay',
        top: '-10 m',
        bottom: '-26 m',
        unitWeight: '20 kN/m3',
        phi: '25 deg',
        cohesion: '5 kPa',
        undrained: '150 kPa',
        young: '50 MPa',
        poisson: 0.3,
      },
      deep: {
        name: 'dense sand',
        top: '-26 m',
        bottom: '-40 m',
        unitWeight: '20 kN/m3',
        phi: '36 deg',
        young: '90 MPa',
        poisson: 0.3,
      },
    },
    water: {
      upper: { layers: ['sand'], head: '-2 m', tide: '0.3 m' },
      lower: {
        layers: ['deep'],
        head: '-8 m',
        drawnDown: '-20 m',
        wells: { installed: 4, needed: 2, recovery: '10 h', response: '1 h' },
      },
    },
    pads: { crane: { centre: ['16 m', '0 m'], size: ['10 m', '10 m'], allowable: '150 kPa' } },
    platform: { thickness: '0.6 m', allowable: '60 kPa', y: ['10 m', '40 m'] },
    plant: { silo: { what: 'grout silo', centre: ['16 m', '0 m'], size: ['3 m', '3 m'], mass: '60 t' } },
    instruments: {
      S1: {
        what: 'point on the sewer',
        measures: 'settlement',
        alert: '6 mm',
        action: '10 mm',
        alarm: '14 mm',
        readings: { '2031-11-10': '1 mm', '2031-11-17': '2 mm', '2031-11-24': '3 mm' },
        every: '7 d',
        inSteps: { steps: ['take'], every: '1 d' },
        notice: '14 d',
        plan: { alert: 'read daily, tell the ground engineer', action: 'stop excavating', alarm: 'stop work, fill' },
      },
    },
    earthPressure: 'active',
    factors: {
      upliftStabilising: 0.9,
      upliftDestabilising: 1,
      ringConcrete: 1.5,
      ringLoad: 1.35,
      reinforcement: 1.15,
      buckling: 2,
      heave: 1.5,
      bearing: 1.4,
      gradient: 1.5,
      equilibrium: 1.5,
    },
    treatments: {
      block: { what: 'treated block', along: ['7 m', '14 m'], eye: 'exit', cover: '2 m', accepted: 'cores 1 to 4' },
    },
    decisions: Object.fromEntries(
      Array.from({ length: 10 }, (_, i) => [
        `G${i + 1}`,
        { what: 'as listed', decidedBy: 'ground engineer', on: '2031-10-01', value: 'as entered' },
      ]),
    ),
  },
}

/** The small site after a patch; throws when the patch or the site is not valid, for the fixture is then broken. */
export function siteModel(patch: Patch = [], memory: Memory = freshMemory()): Model {
  const patched = applyPatch(site, patch)
  if ('problems' in patched) throw new Error(patched.problems.map(problemText).join('; '))
  const read = model(patched.document, memory)
  if (read.model === undefined) throw new Error(read.problems.map(problemText).join('; '))
  return read.model
}

/** The order as a strip stage would hand it on: nothing in the way. */
export function plainStrip({ project, instances }: Model): StripResult {
  let remaining = [...instances.byId.keys()]
  const steps = project.order.map((id) => {
    const step = project.steps[id] as Model['project']['steps'][string]
    const parts = (project.pieces[step.piece]?.parts ?? []).flatMap((p) => idsMeant(instances, p))
    if (!step.stays) remaining = remaining.filter((p) => !parts.includes(p))
    const { piece, lift, moves } = step
    return { step: id, piece, lift, parts, moves, joints: [], services: [], remaining, poses: [AT_REST], failures: [] }
  })
  return {
    checks: [],
    steps,
    feasible: true,
    failures: [],
    boltUp: [],
    jointTimes: {},
    serviceTimes: {},
  } as unknown as StripResult
}

/** Lifts as a lift stage would hand them on, as far as the ground reads them: the piece's upper mass on the hook. */
export function plainLifts({ project }: Model, masses: ReturnType<typeof mass>): LiftResult {
  const outcomes = Object.entries(project.lifts).map(([id, { piece, system, hook, kind }]) => {
    const design = masses.pieces[piece]?.found.design ?? given('kg', `/pieces/${piece}`, undefined)
    const hookLoad = sumOf('hook load', 'kg', [{ label: 'piece', answer: design }])
    const at = pointerOf('systems', system, 'hooks', hook, 'block')
    const block = knownOr(project.systems[system]?.hooks[hook]?.block, 'kg', at)
    const underHead = sumOf('under the head', 'kg', [
      { label: 'hook load', answer: hookLoad },
      { label: 'block', answer: block },
    ])
    return [id, { id, piece, system, hook, kind, hookLoad, underHead, checks: [] } as unknown as LiftOutcome] as const
  })
  return { checks: [], lifts: Object.fromEntries(outcomes) }
}

/** The ground stage on the small site after a patch; `lifted` changes what the lift stage hands on. */
export function groundOf(
  patch: Patch = [],
  memory: Memory = freshMemory(),
  lifted: (lifts: LiftResult) => LiftResult = (lifts) => lifts,
): GroundResult {
  const m = siteModel(patch, memory)
  const masses = mass(m, memory)
  const { project, instances } = m
  const order = memory.once(
    'fixture-strip',
    [[...instances.byId.keys()].join(), project.steps, project.pieces, project.lifts, project.order],
    () => plainStrip(m),
  )
  const lifts = lifted(memory.once('fixture-lifts', [project.lifts, masses.pieces], () => plainLifts(m, masses)))
  return ground(m, masses, order, lifts, memory)
}

/** The first check of a kind on the small site after a patch; `of` is the end of its id where there are several. */
export function checkOf(kind: string, patch: Patch = [], of = ''): Check {
  const found = groundOf(patch).checks.find((c) => c.kind === kind && c.id.endsWith(of))
  if (found === undefined) throw new Error(`no check ${kind} ${of}`)
  return found
}

const set = (path: string, value: unknown): Patch => [{ op: 'replace', path, value }]
const gone = (path: string): Patch => [{ op: 'remove', path }]

interface Trio {
  pass: () => Check
  fail: () => Check
  open: () => Check
}

/** Passing on the small site; failing and open after a patch. */
function trio(kind: string, fail: Patch, open: Patch, of?: { pass?: string; fail?: string }): [string, Trio] {
  const pass = of?.pass ?? ''
  return [
    kind,
    {
      pass: () => checkOf(kind, [], pass),
      fail: () => checkOf(kind, fail, of?.fail ?? pass),
      open: () => checkOf(kind, open, pass),
    },
  ]
}

const factor = (name: string): Patch => gone(`/ground/factors/${name}`)
const state = gone('/ground/earthPressure')

export const fixtures: Record<string, Trio> = Object.fromEntries([
  trio('ground.ring.stress', set('/shaft/wall/strength', '4 MPa'), state),
  trio('ground.ring.bending', set('/shaft/wall/outOfRound', '450 mm'), gone('/shaft/wall/outOfRound')),
  trio('ground.overlap.thickness', set('/shaft/wall/verticality', 0.009), gone('/shaft/wall/verticality')),
  trio('ground.overlap.closed', set('/shaft/wall/verticality', 0.009), gone('/shaft/wall/pileDiameter')),
  [
    'ground.wall.verticality',
    {
      pass: () => checkOf('ground.wall.verticality', onePile('6.81 m')),
      fail: () => checkOf('ground.wall.verticality', onePile('6.9 m')),
      open: () => checkOf('ground.wall.verticality', [...onePile('6.81 m'), ...gone('/shaft/wall/verticality')]),
    },
  ],
  trio('ground.ring.buckling', set('/shaft/wall/youngLong', '0.5 GPa'), factor('buckling')),
  trio('ground.eye.cut', set('/shaft/eyes/exit/diameter', '5.9 m'), gone('/shaft/eyes/exit/decided')),
  trio('ground.base.heave', set('/ground/layers/clay/undrained', '50 kPa'), factor('heave')),
  trio('ground.base.uplift', [], gone('/ground/factors'), { pass: 'wells-on', fail: 'wells-off' }),
  trio('ground.base.gradient', set('/ground/water/lower/drawnDown', '-10 m'), factor('gradient')),
  trio('ground.wells.number', set('/ground/water/lower/wells/installed', 2), gone('/ground/water/lower/wells')),
  trio(
    'ground.wells.time',
    set('/ground/water/lower/wells/response', '12 h'),
    gone('/ground/water/lower/wells/recovery'),
  ),
  trio('ground.base.stage', set('/shaft/stages', [{ to: '-19 m', running: 0 }]), gone('/ground/factors')),
  trio('ground.wells.stop', set('/shaft/fill/stops', [{ top: '-17 m', running: 0 }]), gone('/ground/factors')),
  trio('ground.slab.uplift', gone('/shaft/fill'), gone('/ground/factors')),
  trio('ground.cradle.contact', set('/cradle/strength', '0.05 MPa'), gone('/ground/factors')),
  trio('ground.cradle.overhang', set('/cradle/along', ['-0.5 m', '0.5 m']), gone('/pieces/block/retained')),
  trio('ground.cradle.slide', set('/cradle/strength', '0.05 MPa'), gone('/ground/factors')),
  trio('ground.rings.closed', set('/cradle/lastRings/ties/count', 2), gone('/cradle/lastRings/gasket')),
  trio('ground.overlap.chance', set('/shaft/wall/openJoint/deviations', 0.5), gone('/shaft/wall/openJoint')),
  trio('ground.rings.chance', set('/cradle/lastRings/ties/count', 4), gone('/cradle/lastRings/openJoint')),
  trio('ground.rings.opening', set('/cradle/lastRings/opening', '0.1 mm'), gone('/cradle/lastRings/opening')),
  trio('ground.restart.reaction', set('/cradle/restart/load', '5 MN'), gone('/cradle/restart/signed')),
  trio('ground.restart.bearing', set('/cradle/restart/foot', ['0.2 m', '0.2 m']), gone('/shaft/wall/strength')),
  trio('ground.jack.load', set('/cradle/jacking/rated', '150 kN'), gone('/cradle/jacking/apart')),
  trio('ground.jack.shell', set('/cradle/jacking/shell', '150 kN'), gone('/cradle/jacking/shell')),
  trio('ground.jack.free', set('/cradle/jacking/apart', '80 mm'), gone('/cradle/jacking/stiffness')),
  trio('ground.jack.bearing', set('/cradle/jacking/pad', ['0.05 m', '0.05 m']), gone('/cradle/jacking/pad')),
  trio('ground.cradle.splitting', set('/cradle/tied/bar', '4 mm'), gone('/cradle/tied')),
  trio('ground.jack.bursting', set('/cradle/jacking/links/count', 1), gone('/cradle/jacking/links')),
  trio('ground.cradle.roll', set('/parts/block/solids/0/centre/1', '5 m'), gone('/cradle/holds')),
  trio('ground.bore.clear', set('/shaft/clearDiameter', '12.2 m'), gone('/shaft/wall/settingOut')),
  trio('ground.bore.machine', set('/machine/pose/origin/0', '2.5 m'), gone('/settings/clearanceInShaft')),
  trio(
    'ground.block.length',
    set('/ground/treatments/block/along', ['7 m', '9 m']),
    gone('/ground/treatments/block/accepted'),
  ),
  trio('ground.tower.leg', set('/systems/tower/foundation/pilesUnderLeg', 0.4), gone('/systems/tower/sail')),
  trio('ground.tower.uplift', set('/systems/tower/wind/outOfService', '90 m/s'), factor('equilibrium')),
  trio('ground.tower.sliding', set('/systems/tower/storm/held', 0.25), gone('/systems/tower/storm/friction'), {
    pass: 'along',
  }),
  trio('ground.crane.pressure', set('/ground/pads/crane/allowable', '40 kPa'), gone('/systems/crane/ownOffset')),
  trio('ground.crane.mat', set('/systems/crane/mats/thickness', '60 mm'), gone('/systems/crane/mats'), {
    pass: 'bending',
  }),
  trio('ground.platform.bearing', set('/ground/layers/sand/phi', '12 deg'), factor('bearing')),
  trio('ground.bay.pressure', set('/bays/B/allowable', '100 kPa'), gone('/bays/B/bearingShare')),
  trio('ground.bay.piles', set('/bays/B/piles/workingLoad', '60 kN'), gone('/pieces/block/retained')),
  trio('ground.plant.pressure', set('/ground/plant/silo/mass', '200 t'), gone('/ground/pads')),
  trio('ground.service.stress', set('/utilities/sewer/allowable', '1 kPa'), gone('/utilities/sewer/allowable')),
  trio('ground.bay.settlement', set('/bays/B/settlement', '0.1 mm'), gone('/ground/layers/clay/young')),
  trio(
    'ground.bay.tilt',
    [...set('/parts/block/solids', offCentre()), ...set('/bays/B/tilt', '0.0001 deg')],
    gone('/bays/B/tilt'),
  ),
  trio('ground.wall.surcharge', set('/shaft/wall/surcharge', '1 kPa'), gone('/shaft/wall/surcharge')),
  trio('ground.haul.vehicle', set('/utilities/road/maxVehicle', '20 t'), gone('/pieces/block/retained')),
  trio('ground.haul.line', set('/utilities/road/maxLine', '2 t'), gone('/transports/trailer/lines')),
  trio('ground.haul.road', set('/utilities/road/bears', '10 kPa'), gone('/utilities/road/bears')),
  trio('ground.haul.wall', set('/shaft/wall/surcharge', '1 kPa'), gone('/shaft/wall/surcharge')),
  trio('ground.haul.payload', set('/transports/trailer/payload', '20 t'), gone('/pieces/block/retained')),
  trio('ground.haul.pressure', set('/ground/platform/allowable', '20 kPa'), gone('/ground/platform')),
  trio('ground.line.clearance', set('/lifts/aside/radius', '20 m'), gone('/lifts/aside/radius')),
  trio('ground.cradle.sliding', set('/cradle/block/friction', 0.05), gone('/cradle/block')),
  trio('ground.drive-in.thrust', set('/cradle/driveIn/thrust', '1 MN'), gone('/cradle/driveIn')),
  trio('ground.drive-in.push', set('/cradle/driveIn/breakIn/tools', 90), gone('/cradle/driveIn/breakIn/tool')),
  trio('ground.drive-in.wall', set('/cradle/driveIn/breakIn/wall', '3 MN'), gone('/cradle/driveIn/breakIn/signed')),
  trio('ground.drive-in.torque', set('/cradle/driveIn/breakIn/torque', '0.2 MN m'), gone('/cradle/driveIn/breakIn')),
  trio('ground.drive-in.held', set('/cradle/driveIn/breakIn/holds', '0.5 kPa'), gone('/cradle/driveIn/breakIn/holds')),
  trio('ground.drive-in.roll', set('/machine/pose/roll', '-3 deg'), gone('/cradle/driveIn/roll')),
  trio('ground.restart.roll', set('/cradle/restart/torque', '5 MN m'), gone('/cradle/restart/torque')),
  trio('ground.eye.seal', set('/shaft/eyes/exit/seal/rated', '1 bar'), gone('/shaft/eyes/exit/seal/passes')),
  trio('ground.fill.volume', set('/shaft/fill/pumped', '500 m3'), gone('/shaft/fill/pumped')),
  trio(
    'ground.neighbour.reading',
    set('/utilities/sewer/settlement/reading', '11 mm'),
    gone('/utilities/sewer/settlement/reading'),
  ),
  trio(
    'ground.instrument.reading',
    set('/ground/instruments/S1/readings', { '2031-11-24': '11 mm' }),
    gone('/ground/instruments/S1/readings'),
  ),
  trio('ground.instrument.trend', set('/ground/instruments/S1/notice', '120 d'), gone('/ground/instruments/S1/notice')),
  trio('ground.instrument.due', set('/programme/dataDate', '2031-12-20'), gone('/ground/instruments/S1/every')),
  trio('ground.runway.level', set('/systems/tower/level/reading', '25 mm'), gone('/systems/tower/level/reading')),
  trio(
    'ground.decision',
    [{ op: 'add', path: '/ground/decisions/G1/withdrawn', value: 'new borehole' }],
    gone('/ground/decisions/G1'),
  ),
])

/** One pile surveyed, so far out along x at 20 m of depth. */
function onePile(low: string): Patch {
  const P1 = { head: ['6.8 m', '0 m'], low: [low, '0 m'], lowAt: '-20 m' }
  return [{ op: 'add', path: '/shaft/wall/asBuilt', value: { P1 } }]
}

/** A block whose centre of gravity lies well off the middle of its outline. */
function offCentre() {
  return [
    { shape: 'box', centre: ['0 m', '0 m', '0 m'], size: ['2 m', '2 m', '1 m'], fill: 0.05 },
    { shape: 'box', centre: ['0.8 m', '0 m', '0 m'], size: ['0.3 m', '2 m', '1 m'] },
  ]
}
