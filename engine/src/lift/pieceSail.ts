import { type Mat3, multiply, rotationAbout } from '../numeric/vector.ts'
import { type Answer, found } from '../working/answer.ts'
import type { Memory } from '../working/memory.ts'
import { slewedBy } from './clearance.ts'
import type { Hull } from './hull.ts'
import { bodyTurn, posesAlong } from './path.ts'
import type { Pick } from './pick.ts'
import { largestSail, largestTwist, sailsOf } from './sail.ts'

/** What the wind finds of a piece, in the attitude of its lift in which it finds most. */
export interface PieceSail {
  area: Answer<'m2'>
  /** Of the wind, from site x, rad. */
  heading: number
  /** Area × how far its middle is beside the centre of gravity. */
  twist: Answer<'m3'>
}

/** Largest sail and twist over all headings and over the attitudes that a lift turns the piece through. */
export function pieceSail(pick: Pick, hull: Hull | undefined, memory: Memory): PieceSail {
  const all = hull === undefined ? [] : attitudesOf(pick).map((turn) => sailIn(pick, hull, turn, memory))
  const most = all.length === 0 ? undefined : all.reduce((a, b) => (b.area > a.area ? b : a))
  return {
    area: found({
      unit: 'm2',
      value: most?.area,
      method:
        'largest area of the outline of all solids on an upright plane, over 12 headings and every 15° of a turn; outlines drawn from outside',
      inputs: {},
      residuals: [],
    }),
    heading: most?.heading ?? 0,
    twist: found({
      unit: 'm3',
      value: all.length === 0 ? undefined : Math.max(...all.map(({ twist }) => twist)),
      method:
        'area of the outline on an upright plane × how far its middle lies beside the centre of gravity, the largest over 12 headings and every 15° of a turn',
      inputs: {},
      residuals: [],
    }),
  }
}

function sailIn(pick: Pick, hull: Hull, turn: Mat3, memory: Memory): { area: number; heading: number; twist: number } {
  const sails = memory.once(`lift-sail/${pick.lift.piece}/${turn.flat().join()}`, [hull], () => sailsOf(hull, turn))
  return { ...largestSail(sails), twist: largestTwist(sails, turn, pick.set.cogMachine).twist }
}

const STEP = Math.PI / 12

/** As it is meant to hang, every step of its turn, and wherever its moves have tipped it. */
function attitudesOf(pick: Pick): Mat3[] {
  const upright = bodyTurn(pick)
  const tipped = posesAlong(pick).filter((pose) => slewedBy(pick, pose) === undefined)
  const all = [upright, ...turnSteps(pick).map((angle) => multiply(rotationAbout('y', angle), upright))]
  return [...all, ...tipped.map(({ turn }) => turn)]
}

function turnSteps({ lift: { turn } }: Pick): number[] {
  if (turn === undefined) return []
  const [from, to] = [turn.from.value as number, turn.to.value as number]
  const steps = Math.max(1, Math.ceil(Math.abs(to - from) / STEP - 1e-9))
  return Array.from({ length: steps + 1 }, (_, k) => from + ((to - from) * k) / steps)
}
