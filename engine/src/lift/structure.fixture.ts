import { kind } from './fixture.ts'
import {
  beamBearing,
  beamSag,
  beamShear,
  beamUse,
  boltSlips,
  boltUse,
  lugFoot,
  lugParent,
  lugTested,
  lugWeld,
} from './kinds.ts'
import type { Document } from './small.fixture.ts'

/** Every lug of the block, changed. */
export const everyLug =
  (change: (lug: Document) => void) =>
  (d: Document): void => {
    for (const point of Object.values(d.pieces.block.points) as Document[]) change(point.lug)
  }

/** The block under a spreader of 2.4 m that its hook holds in the middle, changed. */
export const spreader =
  (change: (gear: Document, d: Document) => void = () => {}) =>
  (d: Document): void => {
    d.gear = {
      SP: {
        name: 'Spreader',
        kind: 'spreader',
        mass: '0.4 t',
        rated: '30 t',
        proof: { factor: 1.5, on: '2031-10-01' },
        certificateUntil: '2032-06-30',
        beam: {
          section: { kind: 'I-section', depth: '300 mm', width: '240 mm', flange: '20 mm', web: '12 mm' },
          yield: '355 MPa',
          bearing: '150 mm',
          sag: 0.004,
          above: '200 mm',
          below: '200 mm',
        },
      },
    }
    const { rigging } = d.lifts.out
    rigging.nodes = {
      fore: { gear: 'SP', offset: ['1.2 m', '0 m', '-1 m'] },
      aft: { gear: 'SP', offset: ['-1.2 m', '0 m', '-1 m'] },
    }
    for (const leg of rigging.legs) leg.from = leg.to === 'a' || leg.to === 'd' ? 'fore' : 'aft'
    change(d.gear.SP, d)
  }

/** The same under two slings on its ends. */
export const slungSpreader =
  (change: (gear: Document, d: Document) => void = () => {}) =>
  (d: Document): void =>
    spreader((gear) => {
      d.stock.upper = { ...d.stock.sling, length: '2.4 m', rated: '40 t' }
      d.lifts.out.rigging.legs.push({ item: 'upper', to: 'fore' }, { item: 'upper', to: 'aft' })
      for (const node of Object.values(d.lifts.out.rigging.nodes) as Document[]) node.offset[2] = '-2.078 m'
      d.systems.tower.hooks.main.highest = '20 m'
      change(gear, d)
    })(d)

/** The block in a frame that is bolted to its top, changed. */
export const frame =
  (change: (gear: Document, d: Document) => void = () => {}) =>
  (d: Document): void => {
    const points = Object.entries(d.pieces.block.points).filter(([id]) => 'abcd'.includes(id))
    d.gear = {
      FR: {
        name: 'Frame',
        kind: 'turning frame',
        mass: '0.5 t',
        rated: '30 t',
        proof: { factor: 1.5, on: '2031-10-01' },
        certificateUntil: '2032-06-30',
        cog: ['0 m', '0 m', '1 m'],
        boltedTo: ['block'],
        points: Object.fromEntries(points.map(([id, point]) => [`f${id}`, point])),
        beam: {
          section: { kind: 'box', depth: '300 mm', width: '200 mm', flange: '20 mm', web: '12 mm' },
          yield: '355 MPa',
          bearing: '200 mm',
          sag: 0.004,
          above: '0 m',
          below: '0 m',
          arm: { length: '0.4 m', lies: 'across the lug' },
        },
        bolts: {
          at: ['0 m', '0 m', '0.9 m'],
          axis: [0, 0, 1],
          layout: { kind: 'circle', count: 12, diameter: '1.6 m' },
          thread: 'M24',
          grade: '8.8',
          preload: '198 kN',
          friction: 0.4,
          plate: '30 mm',
          yield: '345 MPa',
          ultimate: '470 MPa',
          edge: '45 mm',
          web: '45 mm',
          row: '100 mm',
        },
      },
    }
    const { rigging } = d.lifts.out
    rigging.gear = ['FR']
    for (const leg of rigging.legs) leg.to = `f${leg.to}`
    change(d.gear.FR, d)
  }

/** Cases of what carries the load between rigging and piece. */
export const structureFixtures = {
  ...kind(
    lugFoot,
    everyLug((lug) => {
      lug.foot = '60 mm'
    }),
    everyLug((lug) => {
      delete lug.axis
    }),
  ),
  ...kind(
    lugWeld,
    everyLug((lug) => {
      lug.weld.throat = '2 mm'
    }),
    everyLug((lug) => {
      delete lug.weld.throat
    }),
  ),
  ...kind(
    lugParent,
    everyLug((lug) => {
      lug.parent.thickness = '8 mm'
      lug.parent.span = '400 mm'
    }),
    everyLug((lug) => {
      delete lug.parent.span
    }),
  ),
  ...kind(
    lugTested,
    everyLug((lug) => {
      lug.weld.ndt.passed = false
    }),
    everyLug((lug) => {
      delete lug.weld.ndt
    }),
  ),
  ...kind(
    beamUse,
    spreader(({ beam }) => {
      beam.section.flange = '8 mm'
      beam.section.width = '160 mm'
    }),
    spreader((gear) => {
      delete gear.beam
    }),
    spreader(),
  ),
  ...kind(
    beamShear,
    spreader(({ beam }) => {
      beam.section.web = '3 mm'
    }),
    spreader((_, d) => {
      delete d.settings.riggingRules
    }),
    spreader(),
  ),
  ...kind(
    beamBearing,
    spreader(({ beam }) => {
      beam.section.web = '4 mm'
      beam.bearing = '20 mm'
    }),
    spreader(({ beam }) => {
      delete beam.bearing
    }),
    spreader(),
  ),
  ...kind(
    beamSag,
    spreader(({ beam }) => {
      beam.sag = 0.0001
    }),
    spreader(({ beam }) => {
      delete beam.sag
    }),
    spreader(),
  ),
  ...kind(
    boltUse,
    frame(({ bolts }) => {
      bolts.thread = 'M10'
    }),
    frame((gear) => {
      delete gear.bolts
    }),
    frame(),
  ),
  ...kind(
    boltSlips,
    frame(({ bolts }) => {
      bolts.axis = [1, 0, 0]
      bolts.preload = '20 kN'
      bolts.friction = 0.05
    }),
    frame(({ bolts }) => {
      delete bolts.preload
    }),
    frame(({ bolts }) => {
      bolts.axis = [1, 0, 0]
    }),
  ),
}
