import type { Shaft } from '../model/index.ts'
import { type Answer, given, knownOr, leastOf, stated } from '../working/answer.ts'
import { asBuiltOf, panelsAsBuilt } from './asBuilt.ts'
import {
  deviation,
  innerFace,
  lens,
  lessDeviation,
  lessStep,
  panelRing,
  radialBand,
  spacing,
  spacingApart,
} from './overlap.formulas.ts'
import { depthBelow, half, innerRadius, outerRadius, radiusBeyond, within } from './wall.formulas.ts'

/** The shaft wall as a ring: radii, and what is left of its thickness at a level. */
export interface WallRing {
  outerRadius: Answer<'m'>
  meanRadius: Answer<'m'>
  /** With every tolerance kept to zero. */
  nominal: Answer<'m'>
  /** With neighbours leaning apart by the full tolerance, or as surveyed once every pile or panel is. */
  thicknessAt: (z: Answer<'m'>) => Answer<'m'>
  /** Distance of neighbouring piles that lean apart, or as surveyed; only of secant piles. */
  spacingAt?: (z: Answer<'m'>) => Answer<'m'>
  /** How far neighbouring panels have parted along the wall, or do as surveyed; only of panels. */
  openingAt?: (z: Answer<'m'>) => Answer<'m'>
  /** How far a pile or panel may stand inside its place, or does as surveyed. */
  deviationAt: (z: Answer<'m'>) => Answer<'m'>
}

const at = (field: string): string => `/shaft/wall/${field}`

/** The ring of a wall of any kind. Frame: site; depths below the collar. */
export function wallRing(shaft: Shaft): WallRing {
  const { wall } = shaft
  const deviationAt = (z: Answer<'m'>) =>
    deviation.show({
      h: knownOr(wall.settingOut, 'm', at('settingOut')),
      z: depthBelow.show({ collar: shaft.collar, z }),
      v: knownOr(wall.verticality, '1', at('verticality')),
    })
  return wall.kind === 'secant piles' ? secantRing(shaft, deviationAt) : panelledRing(shaft, deviationAt)
}

function secantRing(shaft: Shaft, deviationAt: WallRing['deviationAt']): WallRing {
  const { wall } = shaft
  const D = knownOr(wall.pileDiameter, 'm', at('pileDiameter'))
  const D_r = knownOr(wall.ringDiameter, 'm', at('ringDiameter'))
  const top = spacing.show({ D_r, n: given('1', at('piles'), wall.piles) })
  const spacingAt = (z: Answer<'m'>) => spacingApart.show({ s: top, d: deviationAt(z) })
  const surveyed = asBuiltOf(shaft)
  return {
    outerRadius: outerRadius.show({ D_r, D }),
    meanRadius: half.show({ D: D_r }),
    nominal: lens.show({ D, s: top }),
    thicknessAt:
      surveyed?.thicknessAt ??
      ((z) =>
        leastOf('thickness left between two neighbours', 'm', [
          { label: 'leaning apart', answer: lens.show({ D, s: spacingAt(z) }) },
          { label: 'one leaning in, one out', answer: radialBand.show({ D, d: deviationAt(z) }) },
        ])),
    spacingAt: surveyed?.spacingAt ?? spacingAt,
    deviationAt: surveyed?.inwardAt ?? deviationAt,
  }
}

const behindLining = ({ clearDiameter, wall }: Shaft): Answer<'m'> =>
  innerRadius.show({ D_clear: clearDiameter, lining: wall.lining ?? stated('m', 0, 'no lining given') })

/** Inner diameter of a wall set out on a circle of middles, piles or panels. */
export const setOutDiameter = (shaft: Shaft): Answer<'m'> =>
  innerFace.show({
    D_r: knownOr(shaft.wall.ringDiameter, 'm', at('ringDiameter')),
    D:
      shaft.wall.kind === 'secant piles'
        ? knownOr(shaft.wall.pileDiameter, 'm', at('pileDiameter'))
        : knownOr(shaft.wall.thickness, 'm', at('thickness')),
  })

/** Panels lose thickness at their joints; sprayed concrete and segments are bonded and keep theirs. */
function panelledRing(shaft: Shaft, deviationAt: WallRing['deviationAt']): WallRing {
  const { wall } = shaft
  const b = knownOr(wall.thickness, 'm', at('thickness'))
  const panels = wall.kind === 'slurry panels'
  const inner =
    panels && wall.ringDiameter !== undefined ? half.show({ D: setOutDiameter(shaft) }) : behindLining(shaft)
  const outer = radiusBeyond.show({ r_i: inner, b })
  const nominal = panels ? panelRing.show({ a: inner, b, n: given('1', at('piles'), wall.piles) }) : b
  const meanRadius = within.show({ r_o: outer, t: b })
  const surveyed = panels ? panelsAsBuilt(shaft, meanRadius) : undefined
  return {
    outerRadius: outer,
    meanRadius,
    nominal,
    thicknessAt: (z) => {
      if (!panels) return nominal
      if (surveyed !== undefined) return lessStep.show({ t: nominal, s: surveyed.stepAt(z) })
      return lessDeviation.show({ t: nominal, d: deviationAt(z) })
    },
    ...(panels
      ? {
          openingAt:
            surveyed?.openingAt ??
            ((z) => spacingApart.show({ s: stated('m', 0, 'neighbours meet at the top'), d: deviationAt(z) })),
        }
      : {}),
    deviationAt: surveyed?.inwardAt ?? deviationAt,
  }
}
