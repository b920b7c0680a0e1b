import type { Ground } from '../model/index.ts'
import { type Answer, given, knownOr, largestOf, sumOf, type Term } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import type { BayLoad, Landing } from './bay.ts'
import { type BaySettled, besideAnswer, besideSlope } from './bayCourse.ts'
import { SOIL } from './caution.ts'
import { restingOn } from './decision.ts'
import * as kinds from './kinds.ts'
import { AS_IT_STANDS, momentText } from './moment.ts'
import { meanPressure, rectangleArea } from './pad.formulas.ts'
import { layersDown } from './pressure.ts'
import { bayTilt, equivalentRaft, layerBetween } from './settlement.formulas.ts'

/**
 * Settlement at the middle of a flexible bay under what stands on it: four quarters meeting there, layer by
 * layer between the depths it spans.
 *
 * Source: Steinbrenner for a finite layer, differences for layers. A bay on piles acts as a raft at two thirds of their length.
 */
export function baySettlement(ground: Ground, { id, bay, total }: BayLoad): Answer<'m'> {
  const q = meanPressure.show({ P: total, A: rectangleArea.show({ B: bay.size[0], L: bay.size[1] }) })
  const level = bay.piles === undefined ? bay.level : equivalentRaft.show({ top: bay.level, toe: bay.piles.toe })
  const from = level.value
  if (from === undefined) return given('m', pointerOf('bays', id, 'level'), undefined)
  const terms = layersDown(ground)
    .filter(({ is }) => (is.bottom.value as number) < from)
    .map(({ id: layer, is }): Term<'m'> => {
      const at = (field: string) => pointerOf('ground', 'layers', layer, field)
      return {
        label: layer,
        answer: layerBetween.show({
          q,
          B: bay.size[0],
          L: bay.size[1],
          level,
          top: is.top,
          bottom: is.bottom,
          E: knownOr(is.young, 'Pa', at('young')),
          nu: knownOr(is.poisson, '1', at('poisson')),
        }),
      }
    })
  return sumOf('compression of each layer', 'm', terms)
}

/** Settlement at the middle of a bay under what stands on it and what stands beside it, at the moment when both come to most. */
function settledMostAt({ ground, load: { id, bay }, most, memory }: SettlementCase): Answer<'m'> {
  const own = baySettlement(ground, { id, bay, step: most.step, total: most.total })
  if (most.others.length === 0) return own
  return sumOf('settlement at the middle of the bay', 'm', [
    { label: 'under what stands on it', answer: own },
    { label: 'from what stands beside it', answer: besideAnswer({ ground, id, bay, settled: most, memory }) },
  ])
}

/** What the settlement and the tilt of a bay are held against. */
interface SettlementCase {
  ground: Ground
  load: BayLoad
  /** The moment at which it settles most. */
  most: BaySettled
  /** The moment at which what stands beside it tips it most. */
  tipped: BaySettled
  landings: readonly Landing[]
  near: number
  memory: Memory
}

/** Settlement of a bay; its tilt from the piece that lies farthest off its own middle, and from what stands beside it. Practice 51. */
export function settlementChecks(settlementCase: SettlementCase): Check[] {
  const { ground, load, most, tipped, landings, near } = settlementCase
  const w = baySettlement(ground, load)
  const { id, bay } = load
  const notes = {
    subject: { pointer: pointerOf('bays', id), id, name: bay.name ?? `Bay ${id}` },
    near,
    assumptions: [
      'Elastic ground, flexible bay, drained stiffness; everything on the bay spread evenly over it. What stands beside it as though there were no shaft.',
      restingOn(ground, 'G1', 'G6'),
    ],
    cautions: [SOIL],
  }
  const settlement = check({
    ...notes,
    kind: kinds.baySettlement,
    title: `${kinds.baySettlement.title}: ${id}, ${settledText(most)}`,
    demand: settledMostAt(settlementCase),
    capacity: knownOr(bay.settlement, 'm', pointerOf('bays', id, 'settlement')),
  })
  const A = rectangleArea.show({ B: bay.size[0], L: bay.size[1] })
  const tilts = landings.map(
    (l): Term<'rad'> => ({ label: l.piece, answer: bayTilt.show({ w, W: l.weight, P: load.total, e: l.offset, A }) }),
  )
  if (tilts.length === 0) return [settlement]
  return [
    settlement,
    check({
      ...notes,
      kind: kinds.bayTilt,
      title: `${kinds.bayTilt.title}: ${id}`,
      assumptions: [
        ...notes.assumptions,
        `The piece as on a rigid pad; what stands beside the bay by the slope from edge to edge, worst ${settledText(tipped)}. Both as though they leaned the same way at the same time.`,
      ],
      demand: tiltTogether(settlementCase, largestOf('pieces set down on the bay', 'rad', tilts)),
      capacity: knownOr(bay.tilt, 'rad', pointerOf('bays', id, 'tilt')),
    }),
  ]
}

const settledText = ({ step, when }: BaySettled): string =>
  step === AS_IT_STANDS
    ? momentText(step, when)
    : `${when === 'lifting' ? 'before the piece is set down at' : 'after'} ${step}`

/** Tilt from a piece off its middle, and the slope from what stands beside the bay, where anything does. */
function tiltTogether(
  { ground, load: { id, bay }, tipped, memory }: SettlementCase,
  own: Answer<'rad'>,
): Answer<'rad'> {
  if (tipped.others.length === 0) return own
  return sumOf('tilt of the bay', 'rad', [
    { label: 'from the piece off its middle', answer: own },
    { label: 'from what stands beside the bay', answer: besideSlope({ ground, id, bay, settled: tipped, memory }) },
  ])
}
