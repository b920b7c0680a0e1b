import type { Ground, System } from '../model/index.ts'
import { type Answer, knownOr, largestOf, stated, type Term } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { thicknessOf } from './base.formulas.ts'
import { drainedAnnexD, effectiveWeight, netUndrained, resistanceWithFactor } from './bearing.formulas.ts'
import { factorOf, SOIL } from './caution.ts'
import { type CraneCase, cranePressure, standingOf } from './crane.ts'
import { restingOn } from './decision.ts'
import * as kinds from './kinds.ts'
import { equivalentLoad } from './pad.formulas.ts'
import { layersDown, waterWeight } from './pressure.ts'
import { spread } from './surcharge.formulas.ts'

type Layer = ReturnType<typeof layersDown>[number]

/** A crane on one standing, with every lift it makes there. */
export interface Stand {
  id: string
  system: System
  standing: number
  cases: readonly CraneCase[]
}

/** Cranes by machine and standing. */
export function standsOf(cases: readonly CraneCase[]): Stand[] {
  const stands = new Map<string, CraneCase[]>()
  for (const c of cases) {
    if (standingOf(c) === undefined) continue
    const key = `${c.id}/${c.standing}`
    stands.set(key, [...(stands.get(key) ?? []), c])
  }
  return [...stands.values()].map((own) => {
    const [first] = own as [CraneCase]
    return { id: first.id, system: first.system, standing: first.standing as number, cases: own }
  })
}

interface Footprint {
  B: Answer<'m'>
  L: Answer<'m'>
}

function footprint({ system, id }: Stand): Footprint {
  const [a, b] = system.tracks?.mat ??
    (system.tracks && [system.tracks.length, system.tracks.width]) ??
    system.outriggers?.mat ?? [undefined, undefined]
  const open = (x: typeof a) => knownOr<'m'>(x, 'm', pointerOf('systems', id, 'tracks'))
  return (a?.value ?? 0) >= (b?.value ?? 0) ? { B: open(b), L: open(a) } : { B: open(a), L: open(b) }
}

/** Bearing resistance of the top layer under a crane, and of a clay below it. Practice 50. */
export function bearingChecks(ground: Ground, stand: Stand, near: number): Check[] {
  const [top, ...below] = layersDown(ground)
  if (top === undefined) return []
  const clay = top.is.undrained === undefined ? below.find(({ is }) => is.undrained !== undefined) : top
  const drained = top.is.undrained === undefined ? [drainedCheck(ground, stand, top, near)] : []
  return clay === undefined ? drained : [...drained, clayCheck(ground, stand, clay, near)]
}

const pressureOf = (stand: Stand): Answer<'Pa'> =>
  largestOf(
    'largest over the lifts made there',
    'Pa',
    stand.cases.map((c): Term<'Pa'> => ({ label: c.lift, answer: cranePressure(c) })),
  )

function notes(ground: Ground, stand: Stand, layer: Layer) {
  return {
    kind: kinds.platformBearing,
    subject: {
      pointer: pointerOf('systems', stand.id, 'standings', String(stand.standing)),
      id: `${stand.id}-${stand.standing}`,
      name: `${stand.system.name}, standing ${stand.standing}`,
    },
    of: layer.id,
    title: `${kinds.platformBearing.title}: ${layer.is.name}`,
    assumptions: [
      'Largest edge pressure taken over the whole track or mat; no depth counted; geogrid and platform stone not counted.',
      restingOn(ground, 'G1', 'G5', 'G6'),
    ],
    cautions: [SOIL],
  }
}

const shallowest = (ground: Ground): Answer<'m'> | undefined =>
  Object.values(ground.water)
    .map((w) => w.head)
    .sort((a, b) => (b.value as number) - (a.value as number))[0]

function drainedCheck(ground: Ground, stand: Stand, top: Layer, near: number): Check {
  const { B, L } = footprint(stand)
  const at = (field: string) => pointerOf('ground', 'layers', top.id, field)
  const zero = (unit: 'N' | 'Pa', text: string) => stated(unit, 0, text)
  const q = pressureOf(stand)
  const resistance = drainedAnnexD.show({
    phi: knownOr(top.is.phi, 'rad', at('phi')),
    c: top.is.cohesion ?? (zero('Pa', 'no cohesion given') as Answer<'Pa'>),
    q: zero('Pa', 'no depth counted') as Answer<'Pa'>,
    gamma: effectiveWeight.show({
      gamma: top.is.unitWeight,
      gamma_w: waterWeight(ground),
      surface: ground.surface,
      head: knownOr(shallowest(ground), 'm', '/ground/water'),
      B,
    }),
    B,
    L,
    V: equivalentLoad.show({ q, B, L }),
    H_B: zero('N', 'no horizontal load') as Answer<'N'>,
    H_L: zero('N', 'no horizontal load') as Answer<'N'>,
  })
  return check({
    ...notes(ground, stand, top),
    demand: q,
    capacity: resistanceWithFactor.show({ q_R: resistance, gamma: factorOf(ground, 'bearing') }),
    near,
  })
}

/** A clay below the top layer takes the pressure spread two to one; a clay at the top takes it as it is. */
function clayCheck(ground: Ground, stand: Stand, clay: Layer, near: number): Check {
  const { B, L } = footprint(stand)
  const q = pressureOf(stand)
  const buried = (clay.is.top.value as number) < (ground.surface.value as number)
  const demand = buried
    ? spread.show({
        P: equivalentLoad.show({ q, B, L }),
        B,
        L,
        z: thicknessOf.show({ top: ground.surface, bottom: clay.is.top }),
      })
    : q
  const c_u = knownOr(clay.is.undrained, 'Pa', pointerOf('ground', 'layers', clay.id, 'undrained'))
  return check({
    ...notes(ground, stand, clay),
    demand,
    capacity: resistanceWithFactor.show({ q_R: netUndrained.show({ c_u, B, L }), gamma: factorOf(ground, 'bearing') }),
    near,
  })
}
