import { type Change, kind } from './fixture.ts'
import {
  certificate,
  edge,
  gearProof,
  heat,
  includedAngle,
  jawFit,
  legJoined,
  legRule,
  riggingFamily,
  testValid,
} from './kinds.ts'
import { spreader } from './structure.fixture.ts'

/** The legs of the lift out in a basket round the block. */
const round =
  (laid: object): Change =>
  (d) => {
    for (const leg of d.lifts.out.rigging.legs) Object.assign(leg, { hitch: 'basket', basketAngle: '10 deg', ...laid })
  }

/** Cases of what is asked of the rigging by the rules of the project. */
export const riggingFixtures = {
  ...kind(
    legRule,
    (d) => {
      d.stock.sling.rated = '5 t'
    },
    (d) => {
      delete d.settings.riggingRules
    },
  ),
  ...kind(
    riggingFamily,
    (d) => {
      d.stock.shackle.rules = 'US'
    },
    (d) => {
      delete d.stock.shackle.rules
    },
  ),
  ...kind(
    certificate,
    (d) => {
      d.stock.sling.certificateUntil = '2031-11-19'
    },
    (d) => {
      delete d.stock.sling.certificateUntil
    },
  ),
  ...kind(
    testValid,
    (d) => {
      d.systems.tower.tested.until = '2031-11-19'
    },
    (d) => {
      delete d.systems.tower.tested.on
    },
  ),
  ...kind(
    gearProof,
    spreader((gear) => {
      gear.proof.factor = 1.25
    }),
    spreader((gear) => {
      delete gear.proof
    }),
    spreader(),
  ),
  ...kind(edge, round({ edge: '5 mm' }), round({}), round({ edge: '5 mm', padded: 'steel half shells' })),
  ...kind(
    heat,
    (d) => {
      d.stock.sling.core = 'fibre'
      d.settings.riggingTemperature = '370 K'
    },
    (d) => {
      delete d.stock.sling.core
    },
  ),
  ...kind(
    includedAngle,
    (d) => {
      d.stock.sling.length = '1.6 m'
    },
    (d) => {
      delete d.stock.sling.length
    },
  ),
  ...kind(
    jawFit,
    (d) => {
      d.stock.shackle.jaw = '60 mm'
    },
    (d) => {
      delete d.stock.shackle.jaw
    },
  ),
  ...kind(
    legJoined,
    (d) => {
      d.lifts.out.rigging.others[0].count = 3
    },
    (d) => {
      d.lifts.out.rigging.others.shift()
    },
    // the turn of the small project counts none
    (d) => {
      const shackles = { item: 'shackle', count: 2 }
      d.lifts.turn.rigging.others.push(shackles)
      d.lifts.turn.tail.rigging.others = [shackles]
    },
  ),
}
