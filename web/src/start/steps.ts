import type { Patch } from '@shieldwright/engine/working/patch.ts'
import type { StageName } from '../engine/stages.ts'
import type { StartField, Values } from './field.ts'
import { liftSteps } from './liftSteps.ts'
import { siteSteps } from './siteSteps.ts'

/** One thing that the first lift needs: what it is for, what to type, and the patch that this makes. */
export interface StartStep {
  id: string
  stage: StageName
  title: string
  use: string
  /** What must be there first; undefined when nothing is missing. */
  waits: (document: unknown) => string | undefined
  /** Fields may follow from a choice made in another. */
  fields: (values: Values) => readonly StartField[]
  /** What of it stands in the project already, by field. */
  read: (document: unknown) => Values
  write: (document: unknown, values: Values) => Patch
  /** What is there, in a line. */
  shows: (values: Values) => string
}

/** Everything the first lift needs, in the order of the stages. */
export const STEPS: readonly StartStep[] = [...siteSteps, ...liftSteps]

export interface StepNow {
  step: StartStep
  /** Values that stand in the project. */
  values: Values
  /** Labels of what is still to be typed; empty when it is done. */
  missing: readonly string[]
  waits: string | undefined
}

/** How far the project is on the way to its first lift. */
export const stepsNow = (document: unknown): StepNow[] =>
  STEPS.map((step) => {
    const values = step.read(document)
    const missing = step
      .fields(values)
      .filter((f) => f.optional === undefined && (values[f.name] ?? '') === '')
      .map((f) => f.label)
    return { step, values, missing, waits: missing.length === 0 ? undefined : step.waits(document) }
  })
