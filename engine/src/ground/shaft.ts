import type { Ground, Shaft } from '../model/index.ts'
import { type Answer, found } from '../working/answer.ts'
import type { Check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { surveyedTurns, verticalityCheck } from './asBuilt.ts'
import { baseChecks, basePlug } from './base.ts'
import { boreCheck, machineRoomCheck } from './bore.ts'
import type { GroundCase } from './case.ts'
import type { CradleCase } from './cradle.ts'
import { fillChecks, sealChecks } from './driveIn.ts'
import { blockChecks, eyeChecks } from './eye.ts'
import { cradleForms, type OtherForm, otherForms } from './forms.ts'
import { heaveChecks } from './heave.ts'
import { wallLevels } from './pressure.ts'
import { type RingLevel, ringChecks, ringLevels } from './ring.ts'
import { stageChecks } from './stages.ts'
import type { WallRing } from './wall.ts'
import { chartForm } from './wallForms.ts'
import type { StepLoads, WallLoad } from './wallLoad.ts'

/** The wall as a ring from the surface to the base; nothing without shaft or ground. */
export function shaftWall(
  shaft: Shaft | undefined,
  soil: Ground | undefined,
  ring: WallRing | undefined,
  memory: Memory,
): readonly RingLevel[] {
  if (shaft === undefined || soil === undefined || ring === undefined) return []
  return memory.once('ground-wall', [shaft, soil], () => {
    const turns = surveyedTurns(shaft, shaft.collar, shaft.excavation)
    return ringLevels(soil, ring, wallLevels(soil, shaft.excavation, turns))
  })
}

/** Everything of the shaft that hangs from no lift, but for the surcharge in the heave check. */
export function shaftChecks(
  c: GroundCase,
  ring: WallRing | undefined,
  levels: readonly RingLevel[],
  q: Answer<'Pa'> | undefined,
): Check[] {
  const { project, near } = c.model
  const { shaft, ground: soil, machine } = project
  if (shaft === undefined || ring === undefined) return []
  const own = c.memory.once('ground-bore', [shaft, machine, soil, near], () => [
    boreCheck(shaft, ring, near),
    ...verticalityCheck(shaft, near),
    ...eyeChecks(shaft, machine, ring, soil),
  ])
  if (soil === undefined || q === undefined) return [...own, ...roomChecks(c, shaft)]
  const still = c.memory.once('ground-shaft', [shaft, soil, machine, near], () => {
    const plug = basePlug(shaft, soil)
    return [
      ...ringChecks({ shaft, ground: soil, ring, levels, near }),
      ...(plug === undefined ? [] : baseChecks({ shaft, ground: soil, plug, near })),
      ...stageChecks({ shaft, ground: soil, near }),
      ...blockChecks(soil, machine, ring, near),
      ...sealChecks(shaft, soil, near),
      ...fillChecks(shaft, near),
    ]
  })
  const heave = c.memory.once('ground-heave', [shaft, soil, q, near], () => heaveChecks(shaft, soil, q, near))
  return [...own, ...roomChecks(c, shaft), ...still, ...heave]
}

/** The front of the machine hangs from every shape; masses do not move it. */
function roomChecks({ model, mass, memory }: GroundCase, shaft: Shaft): Check[] {
  const { machine, settings } = model.project
  if (machine === undefined) return []
  const shapes = Object.values(mass.parts).map((p) => p.shape)
  return memory.once('ground-room', [shaft, machine, settings, model.near, ...shapes], () => {
    const leaves = shapes.flatMap((s) => s.solids.flatMap((solid) => solid.leaves))
    const front: Answer<'m'> = found({
      unit: 'm',
      value: mass.machine.boundsSite.max[0],
      method: 'foremost point of all parts in the pose as found, from the exact support of each solid',
      inputs: Object.fromEntries([...machine.pose.origin, ...leaves].map((leaf) => [leaf.pointer, leaf])),
      residuals: [],
    })
    return [machineRoomCheck({ shaft, machine, settings, front, near: model.near })]
  })
}

/** Of one step: what the wall carries, and what stood on the cradle before it. */
type StandingStep = StepLoads & { wall?: WallLoad; cradle?: CradleCase }

/** What the other forms are worked from. */
interface FormsOf {
  ring: WallRing | undefined
  levels: readonly RingLevel[]
  /** Surcharge in the heave check. */
  surcharge: Answer<'Pa'> | undefined
  /** Before anything is taken out, and the step that presses most on the wall. */
  first: StandingStep | undefined
  governing: StandingStep | undefined
}

/** Other forms of what is checked here, on the cradle and of what stands around the shaft. */
export function formsOf({ model, memory }: GroundCase, f: FormsOf): readonly OtherForm[] {
  const { shaft, ground: soil, cradle, machine } = model.project
  const { ring, levels, surcharge, governing } = f
  const stands = f.first?.cradle
  const wall = governing?.wall
  const inputs = [shaft, soil, cradle, machine, ring, levels, surcharge, stands, governing?.step, wall]
  return memory.once('ground-forms', inputs, () => [
    ...(shaft === undefined || soil === undefined || ring === undefined || surcharge === undefined
      ? []
      : otherForms({ shaft, ground: soil, ring, levels, surcharge })),
    ...(cradle && machine && stands ? cradleForms(cradle, machine, stands) : []),
    ...(shaft && ring && governing && wall ? [chartForm(shaft, ring, governing, wall)] : []),
  ])
}
