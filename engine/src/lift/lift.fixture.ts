import { feetFixtures } from './feet.fixture.ts'
import { type Change, kind } from './fixture.ts'
import {
  bend,
  bothHooksUse,
  breakOut,
  classArranged,
  classDemands,
  clearance,
  componentUse,
  designFactor,
  failureHolds,
  height,
  heightError,
  hookReach,
  hookUse,
  landingOnBay,
  legAngle,
  legClearance,
  legTension,
  lineApproach,
  lineClash,
  loadComplete,
  loadTest,
  looseParts,
  lug,
  outOfPlumb,
  overCentre,
  pieceStress,
  pinFit,
  pivotGround,
  pivotSlide,
  pointOnPiece,
  ratingBasis,
  sharedWorst,
  shelterInTime,
  stability,
  stockCount,
  tagLines,
  tilt,
  timeFits,
  turnAsMoved,
  turnBox,
  turnReversal,
  turnShare,
  wind,
  windSwing,
} from './kinds.ts'
import { overheadFixtures } from './overhead.fixture.ts'
import { riggingFixtures } from './rigging.fixture.ts'
import type { Document } from './small.fixture.ts'
import { standingFixtures } from './standing.fixture.ts'
import { structureFixtures } from './structure.fixture.ts'
import { systemFixtures } from './system.fixture.ts'
import { worksFixtures } from './works.fixture.ts'

/** The main points below the centre of gravity, the tail's above: nothing hangs so. */
const upsideDown: Change = (d) => {
  d.pieces.block.points.g.at = ['0.4 m', '0.9 m', '-1 m']
  d.pieces.block.points.h.at = ['0.4 m', '-0.9 m', '-1 m']
}

/** Turned by half a right angle about its lower front edge, from the points behind. */
const aboutEdge: Change = (d) => {
  delete d.lifts.turn.tail
  d.settings.outOfPlumb = '2 deg'
  d.lifts.turn.rigging.legs = ['b', 'c'].map((to) => ({ item: 'sling', to }))
  d.lifts.turn.turn = {
    ...d.lifts.turn.turn,
    to: '30 deg',
    pivot: { at: ['1.5 m', '0 m', '-1 m'], edge: '2 m', friction: 0.3 },
  }
}

/** A step of the order turns the block over the bay, by as much as the lift does or not. */
const turnedBy =
  (angle: string): Change =>
  (d) => {
    d.steps.T1 = { piece: 'block', moves: [{ turn: angle, axis: 'y', about: ['0 m', '0 m', '20 m'] }], lift: 'turn' }
    d.order.push('T1')
  }

/** Four legs of one lift, each of its own length as a change of the item. */
const longLegs: Change = (d) => {
  d.stock.long = { ...d.stock.sling, length: '4.3 m' }
  d.lifts.out.rigging.legs[0].item = 'long'
  d.lifts.out.rigging.legs[1].item = 'long'
}

/** A line of 20 kV 5 m beside the outline of the block on its way. */
const besideLine =
  (change: Change = () => {}): Change =>
  (d) => {
    const line = [
      ['6.5 m', '-50 m'],
      ['6.5 m', '50 m'],
    ]
    delete d.lifts.turn
    d.utilities = { wire: { what: 'overhead line', line, height: '11 m', voltage: '20 kV' } }
    change(d)
  }

/** Two legs of 0.6 m beside the hook. */
const betweenLegs =
  (change: Change = () => {}): Change =>
  (d) => {
    delete d.lifts.turn
    d.systems.tower.legWidth = '0.6 m'
    d.systems.tower.legs = { left: { x: '-5 m', offset: '0 m' }, right: { x: '5 m', offset: '0 m' } }
    change(d)
  }

export const fixtures = {
  ...riggingFixtures,
  ...overheadFixtures,
  ...feetFixtures,
  ...standingFixtures,
  ...structureFixtures,
  ...systemFixtures,
  ...worksFixtures,
  ...kind(
    loadComplete,
    (d) => {
      d.stock.sling.mass = '0 kg'
    },
    (d) => {
      delete d.pieces.block.retained
    },
  ),
  ...kind(
    hookUse,
    (d) => {
      d.systems.tower.hooks.main.rated = '20 t'
    },
    (d) => {
      delete d.systems.tower.hooks.main.basis.dynamics
    },
  ),
  ...kind(
    bothHooksUse,
    (d) => {
      d.systems.tower.bothHooks.rated = '15 t'
    },
    (d) => {
      delete d.pieces.block.retained
    },
  ),
  ...kind(
    hookReach,
    (d) => {
      d.systems.tower.hooks.main.travel = ['1 m', '5 m']
    },
    (d) => {
      delete d.systems.tower.hooks.main.travel
    },
  ),
  ...kind(
    classDemands,
    (d) => {
      delete d.systems.tower.hooks.main.accuracy
    },
    (d) => {
      delete d.lifts.out.facts.persons
    },
  ),
  ...kind(
    classArranged,
    (d) => {
      d.lifts.out.arranged.checkedBy = 'Lift engineer'
    },
    (d) => {
      delete d.lifts.out.arranged.meeting
    },
  ),
  ...kind(
    tagLines,
    (d) => {
      // a thin plate beside the block: much sail to one side, little weight
      d.parts.block.solids.push({ shape: 'box', centre: ['1.5 m', '3 m', '0 m'], size: ['0.05 m', '4 m', '2 m'] })
      d.settings.tagLine.pull = '1 N'
    },
    (d) => {
      delete d.settings.tagLine
    },
  ),
  ...kind(
    ratingBasis,
    (d) => {
      d.systems.tower.hooks.main.basis.dynamics = 'not included'
      d.systems.tower.dynamicFactor = 1
    },
    (d) => {
      delete d.systems.tower.hooks.main.basis.point
    },
  ),
  ...kind(
    loadTest,
    (d) => {
      d.systems.tower.tested.factor = 1.1
    },
    (d) => {
      delete d.systems.tower.tested
    },
  ),
  ...kind(
    breakOut,
    (d) => {
      d.settings.weightBand = '90 %'
    },
    (d) => {
      delete d.settings.weightBand
    },
  ),
  ...kind(tilt, longLegs, (d) => {
    delete d.stock.sling.stiffness
  }),
  ...kind(
    stability,
    (d) => {
      // the centre of gravity 3 m above the points, under a short bridle
      for (const p of Object.values(d.pieces.block.points) as Document[]) p.at[2] = '-3 m'
      d.stock.sling.length = '1.8 m'
    },
    (d) => {
      delete d.stock.sling.length
    },
  ),
  ...kind(
    height,
    (d) => {
      d.systems.tower.hooks.main.highest = '6 m'
    },
    (d) => {
      delete d.systems.tower.hooks.main.highest
    },
  ),
  ...kind(
    clearance,
    (d) => {
      d.shaft.clearDiameter = '3.8 m'
    },
    (d) => {
      delete d.settings.clearanceInShaft
    },
  ),
  ...kind(
    legTension,
    (d) => {
      d.stock.sling.rated = '5 t'
    },
    (d) => {
      d.lifts.out.rigging.legs = []
    },
  ),
  ...kind(
    legAngle,
    (d) => {
      d.stock.sling.length = '1.8 m'
    },
    (d) => {
      delete d.settings.legAngle
    },
  ),
  ...kind(
    componentUse,
    (d) => {
      d.stock.shackle.rated = '4 t'
    },
    (d) => {
      delete d.stock.shackle.rated
    },
  ),
  ...kind(
    designFactor,
    (d) => {
      d.stock.sling.designFactor = 4
    },
    (d) => {
      delete d.stock.sling.designFactor
    },
  ),
  ...kind(
    stockCount,
    (d) => {
      d.stock.sling.quantity = 3
    },
    (d) => {
      delete d.lifts.out.rigging
    },
  ),
  ...kind(
    bend,
    (d) => {
      d.stock.sling.ratedBend = 25
      d.stock.sling.rated = '9 t'
    },
    (d) => {
      delete d.stock.sling.body
    },
  ),
  ...kind(
    pinFit,
    (d) => {
      d.stock.shackle.pin = '64 mm'
    },
    (d) => {
      delete d.stock.shackle.pin
    },
  ),
  ...kind(
    pointOnPiece,
    (d) => {
      // a metre over the top of the block
      d.pieces.block.points.a.at[2] = '2 m'
    },
    (d) => {
      d.pieces.block.points.a.at[2] = '2 m'
      delete d.pieces.block.points.a.lug.reach
    },
  ),
  ...kind(
    landingOnBay,
    (d) => {
      d.bays.B1.size = ['2 m', '8 m']
    },
    (d) => {
      delete d.lifts.out.bay
      delete d.pieces.block.bay
    },
  ),
  ...kind(
    lug,
    (d) => {
      for (const p of Object.values(d.pieces.block.points) as Document[]) p.lug.plate = '5 mm'
    },
    (d) => {
      for (const p of Object.values(d.pieces.block.points) as Document[]) delete p.lug.ultimate
    },
  ),
  ...kind(
    pieceStress,
    (d) => {
      d.pieces.block.stress.use = 1.1
    },
    (d) => {
      delete d.pieces.block.stress
    },
  ),
  ...kind(
    looseParts,
    (d) => {
      d.lifts.out.facts.cogCouldChange = true
    },
    (d) => {
      delete d.lifts.out.facts.cogCouldChange
    },
  ),
  ...kind(
    turnShare,
    (d) => {
      d.systems.tower.hooks.tail.rated = '9 t'
    },
    (d) => {
      delete d.systems.tower.bothHooks.leastDistance
      d.systems.tower.bothHooks = undefined
    },
  ),
  ...kind(turnReversal, upsideDown, (d) => {
    delete d.lifts.turn.tail
  }),
  ...kind(
    overCentre,
    (d) => {
      upsideDown(d)
      d.lifts.turn.turn.restraint = { rated: '10 kN' }
    },
    upsideDown,
  ),
  ...kind(
    pivotSlide,
    (d) => {
      aboutEdge(d)
      d.lifts.turn.turn.pivot.friction = 0.01
    },
    (d) => {
      aboutEdge(d)
      delete d.lifts.turn.turn.pivot.friction
    },
    aboutEdge,
  ),
  ...kind(
    turnAsMoved,
    turnedBy('60 deg'),
    // no step of the order carries out the turn
    () => {},
    turnedBy('90 deg'),
  ),
  ...kind(
    pivotGround,
    (d) => {
      aboutEdge(d)
      // half a metre up the front face, with the edge below it
      d.lifts.turn.turn.pivot.at = ['1.5 m', '0 m', '-0.5 m']
    },
    (d) => {
      aboutEdge(d)
      // neither an edge that bears nor the height of a stand
      delete d.lifts.turn.turn.pivot.edge
    },
    aboutEdge,
  ),
  ...kind(
    heightError,
    (d) => {
      d.systems.tower.hooks.tail.rated = '9 t'
    },
    (d) => {
      delete d.lifts.turn.turn.heightError
    },
  ),
  ...kind(
    lineClash,
    (d) => {
      // the tail points under the block: their lines pass through it
      for (const p of [d.pieces.block.points.e, d.pieces.block.points.f]) p.at = ['-0.3 m', p.at[1], '-1.2 m']
    },
    (d) => {
      delete d.settings.lineClearance
    },
  ),
  ...kind(turnBox, upsideDown, (d) => {
    delete d.settings.cogShift
  }),
  ...kind(
    sharedWorst,
    (d) => {
      d.systems.tower.hooks.tail.rated = '9 t'
    },
    (d) => {
      delete d.settings.cogShift
    },
  ),
  ...kind(
    outOfPlumb,
    (d) => {
      d.settings.outOfPlumb = '1 deg'
      // the points over one another, nearer than the hooks can come
      for (const p of [d.pieces.block.points.e, d.pieces.block.points.f]) p.at[0] = '0 m'
    },
    (d) => {
      delete d.settings.outOfPlumb
    },
  ),
  ...kind(
    wind,
    (d) => {
      d.settings.sideLoad = '0.1 %'
    },
    (d) => {
      delete d.lifts.out.drag
    },
  ),
  ...kind(
    timeFits,
    (d) => {
      d.systems.tower.hooks.main.speed = '2 m/h'
    },
    (d) => {
      delete d.settings.liftReserve
    },
  ),
  ...kind(
    shelterInTime,
    (d) => {
      d.programme.windPolicy.sees = '10 min'
    },
    (d) => {
      delete d.programme.windPolicy
    },
  ),
  ...kind(
    failureHolds,
    (d) => {
      d.systems.tower.standby.holds = false
    },
    (d) => {
      delete d.systems.tower.standby.unit
    },
  ),
  ...kind(
    windSwing,
    (d) => {
      d.lifts.out.drag = 400
    },
    (d) => {
      delete d.systems.tower.hooks.main.head
    },
  ),
  ...kind(
    lineApproach,
    besideLine((d) => {
      d.utilities.wire.voltage = '220 kV'
    }),
    besideLine((d) => {
      delete d.utilities.wire.voltage
    }),
    besideLine(),
  ),
  ...kind(
    legClearance,
    betweenLegs((d) => {
      d.systems.tower.legs.left.x = '-1.8 m'
    }),
    betweenLegs((d) => {
      delete d.systems.tower.legWidth
    }),
    betweenLegs(),
  ),
}
