import type { Drawing } from '../drawing.ts'
import { drawing } from '../drawing.ts'
import { type LiftSheet, type SheetOptions, sheetOf } from '../sheet/liftSheet.ts'
import { type SheetStages, type SheetSubject, subjectOf } from '../sheet/subject.ts'
import { HEADING } from '../views/head.ts'
import { planView } from '../views/plan.ts'
import { sceneOf } from '../views/scene.ts'
import { hangingDrawing } from './hanging.ts'
import { nearestPlan } from './nearestPlan.ts'
import { pivotDrawing, type TurnedPiece, turnedPiece } from './turned.ts'

/** What the page of a lift draws, beside the sheet's own figures. */
export interface LiftPage {
  subject: SheetSubject
  sheet: LiftSheet
  hanging: Drawing
  plan: Drawing
  turned: TurnedPiece | undefined
  /** Stages of a turn about a pivot. */
  pivot: Drawing | undefined
}

/** Above the paper: the page has a heading of its own. */
const WIDE = { left: 0, right: 96, top: -HEADING, bottom: 66 }

/** The drawings of a lift's page; undefined when there is no such lift. */
export function liftPage(stages: SheetStages, id: string, options: SheetOptions = {}): LiftPage | undefined {
  const subject = subjectOf(stages, id)
  if (subject === undefined) return undefined
  const sheet = sheetOf(subject, options)
  const scene = sceneOf(subject)
  return {
    subject,
    sheet,
    hanging: hangingDrawing(scene, sheet),
    plan:
      nearestPlan(scene, sheet) ??
      drawing(`Plan: ${sheet.title}`, WIDE.right, WIDE.bottom, [planView(scene, sheet, WIDE)]),
    turned: sheet.turning.length === 0 ? undefined : turnedPiece(scene),
    pivot: pivotDrawing(scene, sheet),
  }
}
