import { liftPractice } from './practice.lift.ts'
import { machinePractice } from './practice.machine.ts'
import { sitePractice } from './practice.site.ts'
import type { Stage } from './working/check.ts'
import type { Source } from './working/formula.ts'

/** A check that a competent checker wants computed, whether or not the tool computes it. */
export interface PracticeCheck {
  /** Its number in `docs/checks.md`. */
  number: number
  stage: Stage
  title: string
  /** When it passes, in words. */
  passes: string
  source: Source
  decidedBy: string
}

/** All of them, by number. */
export const practiceChecks: readonly PracticeCheck[] = [...machinePractice, ...liftPractice, ...sitePractice].sort(
  (a, b) => a.number - b.number,
)
