import type { Ground, Shaft } from '../model/index.ts'
import { type Answer, knownOr, stated } from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import { headLost, thicknessOf } from './base.formulas.ts'
import { type BasePlug, basePlug } from './base.ts'
import type { OtherForm } from './forms.ts'
import { layersDown } from './pressure.ts'
import { half } from './wall.formulas.ts'
import {
  confinedInflow,
  flowThroughPlug,
  openBaseInflow,
  reachOfWells,
  recoveryTime,
  timeToFlood,
  transmissivity,
  unconfinedInflow,
} from './wells.formulas.ts'

type Layer = ReturnType<typeof layersDown>[number]

const OF = 'ground.wells.number'
const ONE = stated('m/s', 1, 'unit of the empirical form')

/**
 * Water to pump: what the wells must draw from the aquifer under the plug, and what comes up into the shaft without them, m³/s.
 * Permeability is rarely known within a factor of three, and the answers move in proportion.
 *
 * @param outer outer radius of the wall, m: the wells stand around it
 * @returns nothing where no confined water lies below the base; open where a permeability is missing
 *
 * Source: Thiem, Dupuit, Sichardt, Forchheimer, Darcy. Valid: steady flow, level layers of one permeability each.
 */
export function inflowForms(shaft: Shaft, ground: Ground, outer: Answer<'m'>): OtherForm[] {
  const plug = basePlug(shaft, ground)
  if (plug === undefined) return []
  return [...recoveryForms(plug), ...wellForms(ground, plug, outer), ...baseForms(shaft, ground, plug)]
}

const RECOVERED = stated('1', 0.95, 'share of the recovery that counts as reached; common practice, no source')

const permeabilityOf = ({ id, is }: Layer) =>
  knownOr(is.permeability, 'm/s', pointerOf('ground', 'layers', id, 'permeability'))

/** How long to wait for the head once a well is stopped, before the next is. */
function recoveryForms({ id, water }: BasePlug): OtherForm[] {
  if (water.wells === undefined) return []
  const tau = knownOr(water.wells.recovery, 's', pointerOf('ground', 'water', id, 'wells', 'recovery'))
  const answer = recoveryTime.show({ tau, s: RECOVERED })
  return [{ of: OF, title: 'Time for the water to recover by 95 % once wells are stopped', answer }]
}

function wellForms(ground: Ground, { water, bottom }: BasePlug, outer: Answer<'m'>): OtherForm[] {
  const { drawnDown, head } = water
  const aquifer = layersDown(ground).find(({ is }) => is.top.value === bottom.value)
  if (drawnDown === undefined || aquifer === undefined) return []
  const k = permeabilityOf(aquifer)
  const s = headLost.show({ head, base: drawnDown })
  const R = reachOfWells.show({ s, k, k_1: ONE })
  return [
    { of: OF, title: 'Distance to which the wells reach (Sichardt)', answer: R },
    isConfined(drawnDown, aquifer)
      ? {
          of: OF,
          title: 'Water that the wells draw, confined (Thiem)',
          answer: confinedInflow.show({
            T: transmissivity.show({ k, b: thicknessOf.show({ top: aquifer.is.top, bottom: aquifer.is.bottom }) }),
            s_1: s,
            s_2: stated('m', 0, 'no drawdown where the wells no longer reach'),
            r_1: outer,
            r_2: R,
          }),
        }
      : {
          of: OF,
          title: 'Water that the wells draw, unconfined (Dupuit)',
          answer: unconfinedInflow.show({
            k,
            H: thicknessOf.show({ top: head, bottom: aquifer.is.bottom }),
            h: thicknessOf.show({ top: drawnDown, bottom: aquifer.is.bottom }),
            R,
            r: outer,
          }),
        },
  ]
}

const isConfined = (drawnDown: Answer<'m'>, { is }: Layer): boolean =>
  (drawnDown.value as number) >= (is.top.value as number)

function baseForms(shaft: Shaft, ground: Ground, plug: BasePlug): OtherForm[] {
  const under = layersDown(ground).find(({ is }) => (is.bottom.value as number) < (shaft.excavation.value as number))
  if (under === undefined) return []
  const k = permeabilityOf(under)
  const r = half.show({ D: shaft.clearDiameter })
  const h = headLost.show({ head: plug.water.head, base: shaft.excavation })
  const Q = flowThroughPlug.show({
    k,
    h,
    t: thicknessOf.show({ top: shaft.excavation, bottom: plug.bottom }),
    r,
  })
  return [
    { of: OF, title: 'Water up through the sound plug, wells off (Darcy)', answer: Q },
    {
      of: OF,
      title: 'Water through the open base, all ground below as the plug, wells off (Forchheimer)',
      answer: openBaseInflow.show({ k, r, s: h }),
    },
    {
      of: OF,
      title: 'Time for the water through the sound plug to stand 0.1 m deep',
      answer: timeToFlood.show({
        r,
        d: stated('m', 0.1, 'depth at which work on the floor stops; common practice'),
        Q,
      }),
    },
  ]
}
