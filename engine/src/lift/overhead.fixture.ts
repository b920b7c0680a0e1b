import { type Change, kind } from './fixture.ts'
import { boomBesideClear, boomClearance, riggingClearance } from './kinds.ts'
import type { Document } from './small.fixture.ts'

/**
 * The small project's tower changed to a crane of 30 m boom at (12, 8): its load is 14.4 m away over the shaft and 17.0 m over
 * the bay. The turn, which takes two hooks, is left out.
 */
export const withBoom =
  (change: Change = () => {}): Change =>
  (d: Document) => {
    const { tower } = d.systems
    Object.assign(tower, {
      kind: 'crawler crane',
      standings: [['12 m', '8 m']],
      slewSpeed: '30 deg/min',
      luffSpeed: '4 m/min',
      setUp: { boom: '30 m' },
      boom: { ahead: '1 m', level: '2 m', depth: '1.2 m', width: '1.6 m' },
    })
    tower.hooks.main.blockSize = { width: '0.8 m', height: '1.5 m' }
    d.settings.clearanceToBoom = '0.5 m'
    d.lifts.out.standing = 0
    delete d.lifts.turn
    change(d)
  }

/** The four legs hang from a bar over the block that reaches out farther than it, pinned to the hook. */
export const withSpreader =
  (change: Change = () => {}): Change =>
  (d: Document) => {
    const section = { kind: 'box', depth: '400 mm', width: '200 mm', flange: '20 mm', web: '10 mm' }
    const beam = { section, yield: '345 MPa' }
    d.gear = { bar: { name: 'Bar', kind: 'spreader', mass: '500 kg', rated: '30 t', length: '4.4 m', beam } }
    const { rigging } = d.lifts.out
    rigging.nodes = {
      front: { gear: 'bar', offset: ['2.2 m', '0 m', '-2 m'] },
      rear: { gear: 'bar', offset: ['-2.2 m', '0 m', '-2 m'] },
    }
    rigging.legs = ['a', 'd', 'b', 'c'].map((to, i) => ({ item: 'sling', to, from: i < 2 ? 'front' : 'rear' }))
    rigging.gear = ['bar']
    delete d.lifts.turn
    change(d)
  }

const ofBoom = kind(
  boomClearance,
  withBoom((d) => {
    // so short that its head comes down on the block
    d.systems.tower.setUp.boom = '20 m'
  }),
  withBoom((d) => {
    delete d.systems.tower.boom.level
  }),
  withBoom(),
)

const ofRigging = kind(
  riggingClearance,
  withSpreader((d) => {
    d.gear.bar.beam.section.depth = '2 m'
  }),
  withSpreader((d) => {
    delete d.gear.bar.beam
  }),
  withSpreader(),
)

/** A second crane at (45, 8), 33 m from the first, parked with its hook as far from its place along x as said; both booms are 30 m. */
export const withSecondCrane = (over: number): Change =>
  withBoom((d) => {
    d.systems.second = {
      ...structuredClone(d.systems.tower),
      name: 'Second crane',
      standings: [['45 m', '8 m']],
      tailRadius: '4 m',
      parked: { over: [`${45 + over} m`, '8 m'] },
    }
  })

const changed =
  (first: Change, then: Change): Change =>
  (d) => {
    first(d)
    then(d)
  }

const ofBoomBeside = kind(
  boomBesideClear,
  changed(withSecondCrane(-25), (d) => {
    // the load goes round on the side of the second crane
    d.lifts.out.landing = ['24 m', '8 m', '0 m']
  }),
  changed(withSecondCrane(25), (d) => {
    delete d.systems.second.parked
  }),
  withSecondCrane(25),
)

export const overheadFixtures = { ...ofBoom, ...ofBoomBeside, ...ofRigging }
