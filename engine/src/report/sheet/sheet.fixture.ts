import { ground } from '../../ground/index.ts'
import { lift } from '../../lift/index.ts'
import { mass } from '../../mass/index.ts'
import { model } from '../../model/index.ts'
import { strip } from '../../strip/index.ts'
import { freshMemory } from '../../working/memory.ts'
import type { SheetStages } from './subject.ts'

/** Stages of a document that is known to be sound. */
export function stagesOf(document: unknown): SheetStages {
  const memory = freshMemory()
  const read = model(document, memory)
  if (read.model === undefined) throw new Error(JSON.stringify(read.problems))
  const masses = mass(read.model, memory)
  const order = strip(read.model, masses, memory)
  const lifts = lift(read.model, masses, order, memory)
  return {
    model: read.model,
    mass: masses,
    strip: order,
    lift: lifts,
    ground: ground(read.model, masses, order, lifts, memory),
  }
}

export interface Block {
  /** Half distance of the two lifting points across, left and right of the middle, m. */
  left?: number
  right?: number
  name?: string
  /** Whether the drag coefficient has been decided. */
  dragDecided?: boolean
}

/**
 * A block of 100 t at the bottom of a shaft, lifted on two plumb legs from a spreader and set down on a bay: the smallest
 * lift that has everything a sheet shows but a turn.
 */
export function blockOnTwoLegs({
  left = 1.5,
  right = 1.5,
  name = 'Block',
  dragDecided = true,
}: Block = {}): Record<string, unknown> {
  return {
    schemaVersion: 1,
    about: { title: 'A block in a shaft', invented: true },
    settings: {
      near: 0.9,
      allowance: { calculated: 0.05 },
      coverage: 2,
      criticalUse: 1,
      criticalShare: 0.75,
      clearanceInShaft: '0.35 m',
      clearanceOverBarrier: '0.5 m',
      tilt: '2 deg',
      legAngle: '45 deg',
      outOfPlumb: '1.5 deg',
      weightBand: '5 %',
      cogShift: '0.02 m',
      airDensity: '1.25 kg/m3',
      sideLoad: '2 %',
    },
    machine: { pose: { origin: ['0 m', '0 m', '-18 m'], roll: '0 deg', pitch: '0 deg', yaw: '0 deg' } },
    materials: { steel: { density: '7850 kg/m3' } },
    parts: {
      BLK: {
        name: 'Block of steel',
        material: 'steel',
        solids: [
          { shape: 'box', centre: ['0 m', '0 m', '0 m'], size: ['4 m', '5 m', '3 m'] },
          { shape: 'cylinder', radius: '0.6 m', from: ['2 m', '0 m', '0 m'], to: ['2.8 m', '0 m', '0 m'] },
        ],
        mass: { value: '100 t', basis: 'calculated', uncertainty: 0.02 },
      },
    },
    shaft: {
      clearDiameter: '12 m',
      collar: '0 m',
      slabTop: '-20 m',
      slabThickness: '1.5 m',
      excavation: '-21.5 m',
      barrier: '1.2 m',
      wall: { kind: 'secant piles', pileDiameter: '1 m', ringDiameter: '13.4 m', toe: '-26 m' },
      obstructions: { LAD: { what: 'ladder', x: ['-0.4 m', '0.4 m'], y: ['5 m', '5.6 m'], z: ['-20 m', '1 m'] } },
    },
    ground: {
      surface: '0 m',
      layers: {
        A: { name: 'medium sand', top: '0 m', bottom: '-9 m', unitWeight: '19 kN/m3' },
        B: { name: 'stiff clay', top: '-9 m', bottom: '-30 m', unitWeight: '20 kN/m3' },
      },
    },
    bays: {
      N1: { centre: ['0 m', '15 m'], size: ['8 m', '8 m'], level: '0.1 m', allowable: '150 kPa', bearingShare: 0.5 },
    },
    systems: {
      T: {
        name: 'Tower',
        kind: 'lift tower',
        hooks: {
          H: {
            name: 'hook',
            rated: '150 t',
            basis: {
              dynamics: 'included in the rating',
              point: 'below the block',
              configuration: 'any',
              source: 'plate',
            },
            block: '3 t',
            highest: '14 m',
            head: '16 m',
            speed: '12 m/h',
            travel: ['-4 m', '4 m'],
            accuracy: '1 %',
          },
        },
        rails: ['-8 m', '8 m'],
        runway: ['-8 m', '20 m'],
        travelSpeed: '1 m/min',
        wind: { read: { as: 'gust', at: 'hook' }, service: '11 m/s', travel: '9 m/s' },
        tested: { on: '2032-01-10', factor: 1.25, until: '2034-01-10' },
      },
    },
    gear: { SP: { name: 'Spreader', kind: 'spreader', mass: '2 t', rated: '160 t', length: '3 m' } },
    stock: {
      S: {
        kind: 'wire rope grommet',
        quantity: 2,
        length: '3 m',
        rated: '80 t',
        mass: '300 kg',
        stiffness: '200 MN',
        tolerance: 0.004,
        designFactor: 5,
        body: '80 mm',
        ratedBend: 1,
      },
      K: { kind: 'shackle', quantity: 4, rated: '80 t', mass: '100 kg', pin: '100 mm', bow: '90 mm', designFactor: 5 },
    },
    pieces: {
      block: {
        name,
        parts: ['BLK'],
        retained: '0.5 t',
        points: {
          left: { at: ['0.03 m', `${left} m`, '1.5 m'], rated: '80 t' },
          right: { at: ['0.03 m', `${-right} m`, '1.5 m'], rated: '80 t' },
        },
      },
    },
    lifts: {
      'block-out': {
        piece: 'block',
        kind: 'out',
        system: 'T',
        hook: 'H',
        rigging: {
          nodes: {
            l: { gear: 'SP', offset: ['0 m', `${left} m`, '-1 m'] },
            r: { gear: 'SP', offset: ['0 m', `${-right} m`, '-1 m'] },
          },
          legs: [
            { item: 'S', to: 'left', from: 'l' },
            { item: 'S', to: 'right', from: 'r' },
          ],
          others: [{ item: 'K', count: 2 }],
          gear: ['SP'],
        },
        bay: 'N1',
        facts: {
          persons: false,
          cogCouldChange: false,
          hazardous: false,
          outOfView: false,
          nonRoutineRigging: false,
          otherReason: false,
        },
        ...(dragDecided ? { drag: 1.2 } : {}),
      },
    },
    steps: {
      S1: {
        piece: 'block',
        moves: [{ by: ['0 m', '0 m', '22 m'] }, { by: ['0 m', '15 m', '0 m'] }, { by: ['0 m', '0 m', '-2.4 m'] }],
        lift: 'block-out',
      },
    },
    order: ['S1'],
  }
}

/** The same block on the hook of a crane of 40 m boom at (20, 10), its spreader with a section: rigging and boom have their gaps. */
export function blockOnCrane(): Record<string, unknown> {
  // biome-ignore lint/suspicious/noExplicitAny: a document before it is read
  const document = blockOnTwoLegs() as any
  const { T } = document.systems
  for (const field of ['rails', 'runway', 'travelSpeed']) delete T[field]
  Object.assign(T, {
    name: 'Crane',
    kind: 'crawler crane',
    standings: [['20 m', '10 m']],
    slewSpeed: '30 deg/min',
    luffSpeed: '4 m/min',
    setUp: { boom: '40 m' },
    boom: { ahead: '1 m', level: '2 m', depth: '1.5 m', width: '1.2 m' },
  })
  T.hooks.H.blockSize = { width: '1 m', height: '1.6 m' }
  const section = { kind: 'box', depth: '500 mm', width: '300 mm', flange: '20 mm', web: '12 mm' }
  document.gear.SP.beam = { section, yield: '345 MPa' }
  document.settings.clearanceToBoom = '0.5 m'
  document.lifts['block-out'].standing = 0
  return document
}

/** The same block with a lift that tips it up on its bay about its lower rear edge, from two points in front: over centre at 60°. */
export function blockOnItsEdge(): Record<string, unknown> {
  // biome-ignore lint/suspicious/noExplicitAny: a document before it is read
  const document = blockOnTwoLegs() as any
  document.pieces.block.points.frontLeft = { at: ['1.9 m', '1.5 m', '0.5 m'], rated: '80 t' }
  document.pieces.block.points.frontRight = { at: ['1.9 m', '-1.5 m', '0.5 m'], rated: '80 t' }
  const out = document.lifts['block-out']
  const legs = [
    { item: 'S', to: 'frontLeft', from: 'l' },
    { item: 'S', to: 'frontRight', from: 'r' },
  ]
  document.lifts['block-tipped'] = {
    ...out,
    kind: 'turn',
    rigging: { ...out.rigging, legs },
    turn: {
      from: '0 deg',
      to: '-60 deg',
      step: '15 deg',
      speed: '2 deg/min',
      pivot: { at: ['-2 m', '0 m', '-1.5 m'], edge: '5 m', friction: 0.3 },
    },
  }
  return document
}
