import type { Model } from '../model/index.ts'
import { type Answer, found, knownOr, largestOf, stated } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { unknownWay } from './beside.ts'
import { boomBeside } from './boom.formulas.ts'
import { type Boom, outOfReach } from './boom.ts'
import { besideLines, besideThing, type NearestBeside, nearestBeside } from './boomBeside.ts'
import { boomAngleAt, boomAnswers } from './boomFigures.ts'
import { besideMachines } from './boomMachines.ts'
import { type BoomWay, boomWaysOf } from './boomWay.ts'
import { LIFT_CAUTIONS } from './caution.ts'
import type { Hull } from './hull.ts'
import { boomBesideClear } from './kinds.ts'
import { ofMachine } from './machines.ts'
import type { Pick } from './pick.ts'
import type { Thing } from './standing.ts'

/** What stands about a lift. */
export interface Around {
  things: readonly Thing[]
  /** A piece in words. */
  nameOf(piece: string): string
}

const NONE: readonly Check[] = []

/**
 * The boom of each crane of a lift against what stands on the bays, poles and wires, towers, and other cranes with their booms. Kept
 * while the lift, what stands on the bays and the machines stay as they are.
 */
export function boomBesideChecks(
  model: Model,
  pick: Pick,
  hull: Hull | undefined,
  { things, nameOf }: Around,
  memory: Memory,
): readonly Check[] {
  const ways = boomWaysOf(pick, hull, memory)
  if (ways.length === 0) return NONE
  const { systems, utilities, shaft } = model.project
  const names = things.map(({ piece }) => nameOf(piece))
  const inputs = [ways, hull, ...things, ...names, systems, utilities, shaft, pick.settings]
  return memory.once(`lift-boom-beside/${pick.id}`, inputs, () => {
    const checks = ways.flatMap((way) => {
      const fixed = [...besideLines(model), ...besideMachines(model, pick, way, ways)]
      const from = [way, ways, systems, utilities, shaft]
      const ofFixed = `lift-boom-fixed/${pick.id}/${way.hooked.systemId}`
      if (things.length + fixed.length === 0) return []
      const near = (boom: Boom): NearestBeside[] => [
        ...things.flatMap((thing) => nearestToThing(pick, boom, way, thing, nameOf(thing.piece), memory)),
        ...memory.once(ofFixed, from, () => nearestBeside(boom, way, fixed)),
      ]
      return [besideCheck(pick, way, hull, near)]
    })
    // what moved far from the boom is told nowhere
    return memory.settled(`lift-boom-beside-told/${pick.id}`, checks)
  })
}

/** Nearest of one thing on a bay: kept while the way and the thing stay, for mostly it is another that has moved. */
const nearestToThing = (
  pick: Pick,
  boom: Boom,
  way: BoomWay,
  thing: Thing,
  name: string,
  memory: Memory,
): readonly NearestBeside[] =>
  memory.once(`lift-boom-thing/${pick.id}/${way.hooked.systemId}/${thing.bay}/${thing.piece}`, [way, thing, name], () =>
    nearestBeside(boom, way, [besideThing(thing, name)]),
  )

/** Between what slews and what is fixed: 0027/ND 13.8. */
const BETWEEN = stated('m', 0.6, '0027/ND 13.8: 600 mm between a part that slews and what is fixed (read)')

function besideCheck(
  pick: Pick,
  way: BoomWay,
  hull: Hull | undefined,
  nearestTo: (boom: Boom) => NearestBeside[],
): Check {
  const { hooked, figures, stages, moments } = way
  const open = { ...figures.answers, ...unknownWay(pick, stages, hull) }
  const beyond = figures.boom === undefined ? undefined : outOfReach(figures.boom, moments)
  const isKnown = Object.values(open).every(({ value }) => value !== undefined) && beyond === undefined
  const wanted = largestOf('Distance to be kept from the boom', 'm', [
    { label: 'by the project', answer: knownOr(pick.settings.clearanceToBoom, 'm', '/settings/clearanceToBoom') },
    { label: 'from what is fixed', answer: BETWEEN },
  ])
  const all = isKnown && figures.boom !== undefined && moments.length > 0 ? nearestTo(figures.boom) : []
  const nearest = leastFirst(all)
  const doubtful = all.filter(({ gap, unknown }) => isUnknown(unknown) && gap < (wanted.value ?? Infinity))
  const certain = nearest.find(({ unknown }) => !isUnknown(unknown))
  const strikes = certain !== undefined && certain.gap < (wanted.value ?? -Infinity)
  // what is known to be struck fails, whatever else is not known
  const missing = strikes ? {} : named(doubtful)
  const counted = strikes ? certain : nearest[0]
  const of = ofMachine(pick, hooked)
  return check({
    kind: boomBesideClear,
    subject: pick.subject,
    ...of,
    ...(of.of === undefined ? {} : { title: `${boomBesideClear.title}: ${hooked.system.name}` }),
    demand: wanted,
    capacity:
      !isKnown || counted === undefined || isUnknown(missing)
        ? gapOpen({
            ...open,
            ...(beyond === undefined ? {} : { 'angle of the boom': boomAngleAt(pick, hooked, beyond.radius) }),
            ...missing,
          })
        : gapAnswer(pick, way, counted, open),
    near: pick.near,
    assumptions: [
      ...nearest
        .slice(0, MOST)
        .filter(({ gap }) => Number.isFinite(gap))
        .map((one) => words(one, way)),
      'A straight boom, round and as thick as its diagonal; what stands there as the box about it; of towers all between the rails, of other cranes what the counterweight sweeps, all the way up.',
      'Machines that do not share the lift stand where they are parked; what is not said of one is taken for all that it could be.',
    ],
    cautions: LIFT_CAUTIONS,
    found:
      counted === undefined
        ? []
        : [`${words(counted, way)}: another standing, a shorter boom, or move what stands there`],
  })
}

const MOST = 4
const isUnknown = (unknown: Readonly<Record<string, Answer>>): boolean => Object.keys(unknown).length > 0
const named = (doubtful: readonly NearestBeside[]): Record<string, Answer> =>
  Object.fromEntries(
    doubtful.flatMap(({ name, unknown }) =>
      Object.entries(unknown).map(([label, answer]) => [`${name}: ${label}`, answer] as const),
    ),
  )
const leastFirst = (all: readonly NearestBeside[]): NearestBeside[] => [...all].sort((a, b) => a.gap - b.gap)

const METHOD =
  'at moments of the way no more than 5° of slew and 0.5 m of radius apart: least distance from the line of the boom, from pin to head'

const gapOpen = (inputs: Record<string, Answer>): Answer<'m'> =>
  found({ unit: 'm', value: undefined, method: METHOD, inputs, residuals: [] })

function gapAnswer(pick: Pick, { hooked }: BoomWay, { distance, half }: NearestBeside, inputs: Record<string, Answer>) {
  const { depth, width } = boomAnswers(pick, hooked)
  return boomBeside.show({
    d: found({ unit: 'm', value: distance, method: METHOD, inputs, residuals: [] }),
    h: depth,
    b: width,
    r: stated('m', half, 'half of a boom, or what a counterweight sweeps; none of a box'),
  })
}

const words = ({ name, gap, moment, along }: NearestBeside, { stages }: BoomWay): string =>
  `${name} and the boom: ${gap.toFixed(2)} m, ${along.toFixed(1)} m up the boom, in the stage ${stages[moment.stage]?.name} at a radius of ${moment.radius.toFixed(1)} m`
