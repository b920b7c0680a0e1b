import type { Check } from '../working/check.ts'
import { breakInChecks, restartRollCheck } from './breakIn.ts'
import type { GroundCase } from './case.ts'
import { type CradleCase, cradleCase, cradleChecks } from './cradle.ts'
import { driveInChecks } from './driveIn.ts'
import { type JackLoad, jackingChecks, jackLoads } from './jacking.ts'
import type { Remainder } from './remainder.ts'
import { lastRingChecks, restartChecks } from './rings.ts'
import { type SlideCase, slideChecks } from './slide.ts'
import { splittingCheck } from './splitting.ts'

/** The cradle under what is in the shaft before a step; after the last at the end of the list. */
export function cradleAt(c: GroundCase, index: number, at: Pick<CradleCase, 'id' | 'name'>): CradleCase | undefined {
  const { cradle, machine } = c.model.project
  const remainder = c.remainders[index] as Remainder
  if (cradle === undefined || machine === undefined || remainder.parts.length === 0) return undefined
  return c.memory.once(`ground-cradle/${at.id}`, [cradle, machine, remainder], () =>
    cradleCase(cradle, machine, remainder, at),
  )
}

/** The cradle at the start, and after each step that takes something off it. */
export function remainderChecks(c: GroundCase): Check[] {
  const start = { id: 'start', name: 'at the start' }
  const after = c.places.flatMap(({ step, below }, index) =>
    step.remaining.length < below.length
      ? remainderCheck(c, index + 1, { id: step.step, name: `after step ${step.step}` })
      : [],
  )
  return [
    ...driveIn(c, cradleAt(c, 0, start)),
    ...remainderCheck(c, 0, start),
    ...after,
    ...split(c),
    ...jacked(c),
    ...leaving(c),
  ]
}

/** The cradle pushed apart at the worst of all steps. */
function split(c: GroundCase): Check[] {
  const { model, places, memory } = c
  const { cradle, ground: soil } = model.project
  const standing = places.flatMap(
    ({ step: { step } }, index) => cradleAt(c, index, { id: `before-${step}`, name: `before step ${step}` }) ?? [],
  )
  const whole = standing.length > 0 ? undefined : cradleAt(c, 0, { id: 'start', name: 'at the start' })
  const all = whole === undefined ? standing : [whole]
  if (cradle === undefined || all.length === 0) return []
  return memory.once('ground-splitting', [cradle, soil, model.near, ...all], () => [
    splittingCheck(soil, cradle, all, model.near),
  ])
}

/** The last rings without thrust, and what the machine pushes on and is held by as it leaves. */
function leaving({ model, remainders, memory }: GroundCase): Check[] {
  const { near } = model
  const { cradle, machine, shaft, ground: soil } = model.project
  const { lastRings, restart } = cradle ?? {}
  const whole = remainders[0]
  if (cradle === undefined || soil === undefined) return []
  return memory.once('ground-leaving', [cradle, machine, shaft, soil, whole, near], () => [
    ...(lastRings === undefined ? [] : lastRingChecks(lastRings, soil, near)),
    ...(restart === undefined ? [] : restartChecks(restart, shaft, soil, near)),
    ...(machine === undefined || whole === undefined
      ? []
      : restartRollCheck({ cradle, machine, ground: soil, near }, whole.returned)),
  ])
}

/** Jacks under the shield, before the step that says so or with everything in the shaft. */
export function jacksOf({ model, places, remainders, memory }: GroundCase): readonly JackLoad[] {
  const { cradle, machine } = model.project
  const { jacking } = cradle ?? {}
  const index = places.findIndex(({ step }) => step.step === jacking?.before)
  const resting = remainders[Math.max(0, index)]
  if (jacking === undefined || machine === undefined || resting === undefined || resting.parts.length === 0) return []
  return memory.once('ground-jacks', [cradle, resting], () => jackLoads(jacking, resting))
}

function jacked(c: GroundCase): Check[] {
  const { cradle, ground: soil } = c.model.project
  const { jacking } = cradle ?? {}
  const jacks = jacksOf(c)
  if (cradle === undefined || jacking === undefined || jacks.length === 0) return []
  return c.memory.once('ground-jacking', [cradle, soil, jacks, c.model.near], () =>
    jackingChecks({ cradle, jacking, ground: soil, jacks, near: c.model.near }),
  )
}

/** The machine as it drives in stands whole on the cradle. */
function driveIn(c: GroundCase, stands: CradleCase | undefined): Check[] {
  const { model, memory } = c
  const { cradle, machine, ground: soil } = model.project
  if (cradle === undefined || stands === undefined) return []
  const { near } = model
  const slide = slideOf(c)
  return [
    ...memory.once('ground-drive-in', [cradle, machine, soil, stands, near], () =>
      driveInChecks({ cradle, machine, ground: soil, stands, near }),
    ),
    ...brokenIn(c),
    ...(slide === undefined ? [] : memory.once('ground-slide-checks', [slide, near], () => slideChecks(slide, near))),
  ]
}

/** The whole machine, as found, at the eye. */
function brokenIn({ model, remainders, memory }: GroundCase): Check[] {
  const { cradle, machine, ground: soil } = model.project
  const [first] = remainders
  if (cradle === undefined || machine === undefined || first === undefined) return []
  return memory.once('ground-break-in', [cradle, machine, soil, first.found, model.near], () =>
    breakInChecks({ cradle, machine, ground: soil, near: model.near }, first.found),
  )
}

/** What slides in, whole, and what it slides on. */
export function slideOf({ model, memory, remainders }: GroundCase): SlideCase | undefined {
  const { cradle, machine, shaft, ground } = model.project
  const first = remainders[0]
  if (cradle === undefined || machine === undefined || shaft === undefined) return undefined
  if (first === undefined || first.parts.length === 0) return undefined
  const { found: resting } = first
  return memory.once('ground-slide', [cradle, machine, shaft, ground, resting], () => ({
    cradle,
    machine,
    shaft,
    ground,
    resting,
  }))
}

function remainderCheck(c: GroundCase, index: number, at: Pick<CradleCase, 'id' | 'name'>): Check[] {
  const { cradle, ground: soil } = c.model.project
  const stands = cradleAt(c, index, at)
  if (cradle === undefined || stands === undefined) return []
  return c.memory.once(`ground-cradle-checks/${at.id}`, [stands, cradle, soil, c.model.near], () =>
    cradleChecks(soil, cradle, stands, c.model.near),
  )
}
