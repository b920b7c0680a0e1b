import type { Ground, Shaft } from '../../model/index.ts'
import type { SiteSubject } from './subject.ts'

type Eye = Shaft['eyes'][string]

/** Radius of the bore at an eye: the shield's where the model has it, else the eye's, m. */
export function boreRadius({ stages }: SiteSubject, eye: Eye): number {
  const { machine } = stages.model.project
  return (machine?.shieldDiameter?.value ?? (eye.diameter.value as number)) / 2
}

/** Half of the least width and height of a treated block: the face at its eye and the cover asked beside it; undefined where unknown. */
export function treatmentHalf(
  { stages }: SiteSubject,
  { eye, cover }: Ground['treatments'][string],
): number | undefined {
  const diameter = eye === undefined ? undefined : stages.model.project.shaft?.eyes[eye]?.diameter.value
  return diameter === undefined || cover?.value === undefined ? undefined : diameter / 2 + cover.value
}
