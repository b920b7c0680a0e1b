import { mass } from '../mass/index.ts'
import { type Model, model } from '../model/index.ts'
import { strip } from '../strip/index.ts'
import { freshMemory, type Memory } from '../working/memory.ts'
import { problemText } from '../working/problem.ts'
import { type LiftOutcome, type LiftResult, lift } from './lift.ts'

// biome-ignore lint/suspicious/noExplicitAny: a document before it is read
export type Document = any

const LUG = { plate: '40 mm', hole: '63 mm', pin: '60 mm', radius: '85 mm', yield: '355 MPa', ultimate: '470 MPa' }

/** How a lug stands on the block, with its weld and the plate under it. */
const standing = (z: number) => ({
  stands: [0, 0, Math.sign(z)],
  axis: [0, 1, 0],
  reach: '120 mm',
  foot: '240 mm',
  weld: {
    kind: 'fillet',
    throat: '10 mm',
    metal: '500 MPa',
    ndt: { method: 'magnetic particles', on: '2031-10-01', passed: true },
  },
  parent: {
    thickness: '40 mm',
    yield: '355 MPa',
    ultimate: '470 MPa',
    span: '0 m',
    ndt: { method: 'ultrasonic, for laminations', on: '2031-10-01', passed: true },
  },
})

const point = (x: number, y: number, z: number) => ({
  at: [`${x} m`, `${y} m`, `${z} m`],
  rated: '15 t',
  lug: { ...LUG, ...standing(z) },
})

const IN_DATE = { rules: 'European', certificateUntil: '2032-06-30' }

const FACTS = {
  persons: false,
  cogCouldChange: false,
  hazardous: false,
  outOfView: false,
  nonRoutineRigging: true,
  otherReason: false,
  replaceWithin: '2 wk',
}

const ARRANGED = {
  plan: 'LP-1',
  plannedBy: 'lift engineer',
  checkedBy: 'another lift engineer',
  director: 'lift director',
  crew: 'qualified for this machine; one radio channel',
  contingency: 'LP-1, part 6',
  meeting: 'at the start of the shift',
  trial: { height: '100 mm', hold: '15 min' },
}

const MONTH = { scale: '6 m/s', shape: 2 }
const RULE = { calendar: 'day' }

const hook = (name: string) => ({
  name,
  rated: '40 t',
  basis: { dynamics: 'included in the rating', point: 'below the block' },
  block: '1 t',
  highest: '16 m',
  head: '18 m',
  speed: '20 m/h',
  travel: ['-5 m', '5 m'],
  accuracy: 0.02,
  stiffness: '500 MN',
})

/**
 * A block of 3 × 2 × 2 m and 20 t at 10 m depth in a shaft of 12 m, with a duct beside it; four slings of 4 m to one hook of
 * 40 t take it up 18 m, and two hooks turn it over a bay. Everything that a check asks for is there.
 */
export function smallProject(change: (document: Document) => void = () => {}): Document {
  const document = {
    schemaVersion: 1,
    about: { title: 'A block in a shaft' },
    settings: {
      allowance: { calculated: 0.05 },
      coverage: 2,
      weightBand: '5 %',
      criticalUse: 0.9,
      criticalShare: 0.75,
      criticalReplacement: '12 wk',
      clearanceInShaft: '0.3 m',
      clearanceOverBarrier: '0.5 m',
      clearanceToStanding: '0.5 m',
      tilt: '2 deg',
      legAngle: '45 deg',
      outOfPlumb: '20 deg',
      cogShift: '20 mm',
      lineClearance: '50 mm',
      airDensity: '1.25 kg/m3',
      sideLoad: '2 %',
      tagLine: { pull: '500 N', slope: '30 deg' },
      riggingRules: 'European',
      riggingTemperature: '310 K',
      liftReserve: '1 h',
    },
    machine: {
      pose: {
        origin: ['0 m', '0 m', '-10 m'],
        roll: '0 deg',
        pitch: '0 deg',
        yaw: '0 deg',
        tolerance: { x: '20 mm', y: '20 mm', z: '20 mm', roll: '0.1 deg' },
      },
      shieldDiameter: '4 m',
    },
    shaft: {
      clearDiameter: '12 m',
      collar: '0 m',
      slabTop: '-12 m',
      slabThickness: '1 m',
      excavation: '-13 m',
      barrier: '1.2 m',
      wall: { kind: 'segments', innerTolerance: '50 mm', toe: '-14 m' },
      obstructions: { duct: { what: 'duct', x: ['2.5 m', '3 m'], y: ['1 m', '2 m'], z: ['-12 m', '1 m'] } },
    },
    materials: { steel: { density: '7850 kg/m3' } },
    parts: {
      block: {
        name: 'Block',
        material: 'steel',
        solids: [{ shape: 'box', centre: ['0 m', '0 m', '0 m'], size: ['3 m', '2 m', '2 m'] }],
        mass: { value: '20 t', basis: 'calculated', uncertainty: 0.02, date: '2031-01-01', source: 'drawing 1' },
      },
    },
    bays: { B1: { centre: ['0 m', '20 m'], size: ['8 m', '8 m'], level: '0 m', allowable: '100 kPa' } },
    systems: {
      tower: {
        name: 'Tower',
        kind: 'lift tower',
        hooks: { main: hook('main hook'), tail: hook('tail hook') },
        bothHooks: { rated: '60 t', leastDistance: '1.5 m' },
        dynamicFactor: 1.05,
        rails: ['-7 m', '7 m'],
        headerBeam: {
          count: 2,
          trolley: '2 t',
          beam: {
            section: { kind: 'box', depth: '700 mm', width: '350 mm', flange: '25 mm', web: '12 mm' },
            yield: '345 MPa',
            bearing: '300 mm',
            sag: 0.0025,
          },
        },
        runway: ['-10 m', '40 m'],
        travelSpeed: '1 m/min',
        wind: { read: { as: 'gust', at: 'hook' }, service: '12 m/s', referenceArea: '1.2 m2/t' },
        standby: { holds: true, power: '30 min', unit: '4 h' },
        tested: { on: '2031-10-01', factor: 1.25, until: '2032-09-30' },
      },
    },
    stock: {
      sling: {
        kind: 'wire rope sling',
        quantity: 4,
        length: '4 m',
        rated: '15 t',
        mass: '60 kg',
        stiffness: '20 MN',
        tolerance: 0.001,
        designFactor: 5,
        body: '30 mm',
        ratedBend: 2,
        core: 'steel',
        ...IN_DATE,
      },
      shackle: {
        kind: 'shackle',
        quantity: 4,
        rated: '15 t',
        mass: '15 kg',
        pin: '60 mm',
        bow: '60 mm',
        jaw: '48 mm',
        ...IN_DATE,
      },
      // so light that the sums of slings and shackles in tests stand without it
      line: { kind: 'tag line', quantity: 4, length: '30 m', mass: '0.001 kg' },
      cross: { kind: 'hook', quantity: 1, rated: '30 t', mass: '80 kg', ...IN_DATE },
    },
    pieces: {
      block: {
        name: 'Block',
        parts: ['block'],
        retained: '0 kg',
        points: {
          a: point(1.2, 0.9, 1),
          b: point(-1.2, 0.9, 1),
          c: point(-1.2, -0.9, 1),
          d: point(1.2, -0.9, 1),
          e: point(-1.9, 0.9, -1),
          f: point(-1.9, -0.9, -1),
          g: point(0, 0.9, 1.3),
          h: point(0, -0.9, 1.3),
        },
        bay: 'B1',
        stress: { use: 0.5, report: 'Report 1', signedBy: 'an engineer' },
      },
    },
    lifts: {
      out: {
        piece: 'block',
        kind: 'out',
        system: 'tower',
        hook: 'main',
        rigging: {
          legs: ['a', 'b', 'c', 'd'].map((to) => ({ item: 'sling', to })),
          others: [
            { item: 'shackle', count: 4 },
            { item: 'cross', count: 1, onLegs: false },
            { item: 'line', count: 2, onLegs: false },
          ],
        },
        bay: 'B1',
        on: '2031-11-20',
        facts: { ...FACTS },
        arranged: { ...ARRANGED },
        drag: 1.2,
      },
      turn: {
        piece: 'block',
        kind: 'turn',
        system: 'tower',
        hook: 'main',
        rigging: {
          legs: ['g', 'h'].map((to) => ({ item: 'sling', to })),
          others: [{ item: 'line', count: 2, onLegs: false }],
        },
        tail: { hook: 'tail', rigging: { legs: ['e', 'f'].map((to) => ({ item: 'sling', to })) } },
        turn: { from: '0 deg', to: '90 deg', step: '15 deg', speed: '2 deg/min', heightError: '20 mm' },
        bay: 'B1',
        on: '2031-11-20',
        facts: { ...FACTS },
        arranged: { ...ARRANGED },
        drag: 1.2,
      },
    },
    steps: { S1: { piece: 'block', moves: [{ by: ['0 m', '0 m', '18 m'] }], lift: 'out' } },
    order: ['S1'],
    climate: {
      station: 'mast',
      averaging: '1 h',
      height: '10 m',
      latitude: '52 deg',
      persistence: 0.9,
      months: Array.from({ length: 12 }, () => MONTH),
    },
    programme: {
      start: '2031-11-03',
      calendars: { day: { days: ['Mon'], shifts: [['07:00', '19:00']], hoursPerDay: 12 } },
      work: { joints: RULE, services: RULE, lifts: RULE, changes: RULE, tests: RULE, setUp: '6 h', spread: [1, 1] },
      windPolicy: { sees: '6 h', go: 0.85, again: '3 h' },
    },
  }
  change(document)
  return document
}

/** A document read; throws when it does not read. */
export function modelOf(document: Document, memory: Memory = freshMemory()): Model {
  const read = model(document, memory)
  if (read.model === undefined) throw new Error(read.problems.map(problemText).join('\n'))
  return read.model
}

/** Lifts of the small project, changed. */
export function liftsOf(change?: (document: Document) => void, memory: Memory = freshMemory()): LiftResult {
  const read = modelOf(smallProject(change), memory)
  const masses = mass(read, memory)
  return lift(read, masses, strip(read, masses, memory), memory)
}

/** One lift of the small project, changed. */
export const outcome = (id: 'out' | 'turn', change?: (document: Document) => void): LiftOutcome =>
  liftsOf(change).lifts[id] as LiftOutcome
