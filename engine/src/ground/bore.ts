import { isSetOutOnCircle, type Machine, type Settings, type Shaft, surveyedElements } from '../model/index.ts'
import { type Answer, knownOr, largestOf, stated, type Term } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { surveyedTurns, surveyText } from './asBuilt.ts'
import { SOIL } from './caution.ts'
import * as kinds from './kinds.ts'
import { clearDiameter, farCorner, roomLeft } from './overlap.formulas.ts'
import { half } from './wall.formulas.ts'
import { setOutDiameter, type WallRing } from './wall.ts'

const SURVEY = 'The survey of the shaft as built replaces the tolerances.'
const subject = { pointer: '/shaft/clearDiameter', id: 'bore', name: 'Clear bore of the shaft' }

/**
 * Clear diameter at the slab with every tolerance used up: of piles and panels from the circle they are set out on; other walls are
 * built to the clear bore with the lining behind it.
 */
export const guaranteedBore = (shaft: Shaft, ring: WallRing): Answer<'m'> => {
  const d = deviationDown(shaft, ring)
  if (!isSetOutOnCircle(shaft))
    return clearDiameter.show({ D_in: shaft.clearDiameter, lining: stated('m', 0, 'behind the clear bore'), d })
  const lining = shaft.wall.lining ?? stated('m', 0, 'no lining given')
  return clearDiameter.show({ D_in: setOutDiameter(shaft), lining, d })
}

/** By tolerance a wall stands farthest in at the slab; as surveyed it may at the head, or where a pile or panel turns. */
function deviationDown(shaft: Shaft, ring: WallRing): Answer<'m'> {
  const { collar, slabTop } = shaft
  if (surveyedElements(shaft) === undefined) return ring.deviationAt(slabTop)
  const levels = [collar, ...surveyedTurns(shaft, collar, slabTop), slabTop]
  return largestOf(
    'over the levels surveyed, from the collar to the slab',
    'm',
    levels.map((z): Term<'m'> => ({ label: `z ${(z.value as number).toFixed(1)} m`, answer: ring.deviationAt(z) })),
  )
}

/** The clear diameter that every lift counts on must be there with the tolerances used up. Practice 70. */
export function boreCheck(shaft: Shaft, ring: WallRing, near: number): Check {
  return check({
    kind: kinds.boreClear,
    subject,
    demand: shaft.clearDiameter,
    capacity: guaranteedBore(shaft, ring),
    near,
    assumptions: [surveyText(shaft.wall), 'Bulges and pipework are not counted.'],
    cautions: [SOIL, SURVEY],
  })
}

interface Machinery {
  shaft: Shaft
  machine: Machine
  settings: Settings
  /** Foremost point of the machine, site x. */
  front: Answer<'m'>
  near: number
}

/** Room between the machine's front, at its full width, and the bore. Practice 70. */
export function machineRoomCheck({ shaft, machine, settings, front, near }: Machinery): Check {
  const across = half.show({ D: knownOr(machine.shieldDiameter, 'm', '/machine/shieldDiameter') })
  return check({
    kind: kinds.boreMachine,
    subject,
    demand: knownOr(settings.clearanceInShaft, 'm', '/settings/clearanceInShaft'),
    capacity: roomLeft.show({
      R: half.show({ D: shaft.clearDiameter }),
      r: farCorner.show({ x: front, y: across, off: machine.pose.origin[1] }),
    }),
    near,
    assumptions: ['The front stands at full width; a round shield off its roll takes no more room.'],
    cautions: [SOIL, SURVEY],
  })
}
