import type { LiftOutcome } from '../lift/index.ts'
import type { Ground, Model } from '../model/index.ts'
import { given } from '../working/answer.ts'
import type { Check } from '../working/check.ts'
import type { GroundCase } from './case.ts'
import { type CraneCase, cranePressureCheck, cranesOf } from './crane.ts'
import { instrumentChecks } from './instrument.ts'
import { lineChecks } from './line.ts'
import { matChecks } from './mat.ts'
import { bearingChecks, standsOf } from './platform.ts'
import { stormChecks } from './storm.ts'
import { type GroundTower, towerLegCheck } from './tower.ts'
import { watchChecks } from './watch.ts'

/** Legs of a tower, or tracks and floats of a crane and the lines beside it, in one lift. */
export function liftingChecks(c: GroundCase, outcome: LiftOutcome): Check[] {
  const { project, near } = c.model
  const hook = c.weights.hookOf(outcome)
  const { second } = outcome
  const { ground: soil, shaft, utilities, settings, climate } = project
  const inputs = [
    hook,
    outcome.radius,
    second,
    project.lifts[outcome.id],
    project.systems[outcome.system],
    second && project.systems[second.system],
    soil,
    shaft,
    utilities,
    settings,
    climate,
    near,
  ]
  return c.memory.once(`ground-lifting/${outcome.id}`, inputs, () => {
    const tower = towerOf(c.model, outcome.system)
    const other = second && towerOf(c.model, second.system)
    const cranes = cranesOf(c.model, outcome)
    return [
      ...(tower === undefined ? [] : [towerLegCheck(tower, outcome, hook)]),
      ...(second === undefined || other === undefined
        ? []
        : [towerLegCheck(other, { ...outcome, system: second.system, hook: second.hook }, second.underHead)]),
      ...cranes.map((crane) => cranePressureCheck(crane, soil, near)),
      ...cranes.flatMap((crane) => lineChecks(crane, utilities, near)),
    ]
  })
}

/** Readings of neighbours, runways and instruments. */
export function watch({ model, memory }: GroundCase): Check[] {
  const { utilities, systems, lifts, ground: soil, programme, order } = model.project
  return [
    ...memory.once('ground-watch', [utilities, systems, lifts, soil, model.near], () => watchChecks(model)),
    ...memory.once('ground-instruments', [soil, programme, order, model.near], () => instrumentChecks(model)),
  ]
}

/** Each tower and gantry in a storm, with its legs given or not. */
export function towerChecks({ model, memory }: GroundCase): Check[] {
  const { near } = model
  const { systems, ground: soil, settings, shaft, climate } = model.project
  return memory.once('ground-towers', [systems, soil, settings, shaft, climate, near], () => {
    const gamma = soil?.factors?.equilibrium ?? given('1', '/ground/factors/equilibrium', undefined)
    return Object.entries(systems).flatMap(([id, system]) =>
      system.kind === 'lift tower' || system.kind === 'gantry' || Object.keys(system.legs).length > 0
        ? stormChecks({ id, system, settings, climate, collar: shaft?.collar, ground: soil, gamma, near })
        : [],
    )
  })
}

/** Mats of each crane, and the ground under each of its standings. */
export function standChecks(c: GroundCase): Check[] {
  const { ground: soil } = c.model.project
  const cranes = Object.values(c.lift.lifts).flatMap((outcome) => cranesOf(c.model, outcome))
  return [...matsOf(c, cranes), ...(soil === undefined ? [] : bearingOf(c, soil, cranes))]
}

/** The mats of each crane, under the heaviest of its lifts. */
function matsOf({ model: { project, near }, memory }: GroundCase, cranes: readonly CraneCase[]): Check[] {
  const ids = [...new Set(cranes.map(({ id }) => id))]
  return ids.flatMap((id) => {
    const own = cranes.filter((crane) => crane.id === id)
    const inputs = own.flatMap(({ hook, radius, standing }) => [hook, radius, standing])
    return memory.once(`ground-mats/${id}`, [project.systems[id], project.ground, near, ...inputs], () =>
      matChecks(own, project.ground, near),
    )
  })
}

function bearingOf(c: GroundCase, soil: Ground, cranes: readonly CraneCase[]): Check[] {
  return standsOf(cranes).flatMap((stand) => {
    const inputs = stand.cases.flatMap(({ hook, radius }) => [hook, radius])
    return c.memory.once(
      `ground-stand/${stand.id}/${stand.standing}`,
      [soil, stand.system, c.model.near, ...inputs],
      () => bearingChecks(soil, stand, c.model.near),
    )
  })
}

function towerOf({ project, near }: Model, id: string): GroundTower | undefined {
  const system = project.systems[id]
  if (project.shaft === undefined || system === undefined || Object.keys(system.legs).length === 0) return undefined
  const { settings, climate, shaft, ground } = project
  return { id, system, settings, climate, collar: shaft.collar, shaft, ground, near }
}
