import { type Drawing, drawing, type Mark, type PaperBox } from '../drawing.ts'
import { gapView } from '../views/gapView.ts'
import { planView } from '../views/plan.ts'
import { riggingView } from '../views/riggingView.ts'
import { type Scene, sceneOf } from '../views/scene.ts'
import { sectionView } from '../views/section.ts'
import { turningView } from '../views/turningView.ts'
import { frameMarks, PAGE, ROOM } from './frame.ts'
import { type LiftSheet, type SheetOptions, sheetOf } from './liftSheet.ts'
import { type SheetStages, subjectOf } from './subject.ts'

/** The pages of a lift's sheet: drawings first, then the numbers; undefined when there is no such lift. */
export function liftSheetPages(stages: SheetStages, id: string, options: SheetOptions = {}): Drawing[] | undefined {
  const subject = subjectOf(stages, id)
  if (subject === undefined) return undefined
  const sheet = sheetOf(subject, options)
  const bodies = [drawingMarks(sceneOf(subject), sheet)]
  return bodies.map((marks, i) =>
    drawing(`${sheet.title}, sheet ${i + 1} of ${bodies.length}`, PAGE.width, PAGE.height, [
      ...frameMarks(sheet, i + 1, bodies.length),
      ...marks,
    ]),
  )
}

const part = (left: number, right: number, top: number, bottom: number): PaperBox => ({ left, right, top, bottom })

function drawingMarks(scene: Scene, sheet: LiftSheet): Mark[] {
  const { left, right, top, bottom } = ROOM
  if (sheet.turning.length > 0)
    return [
      turningView(scene, sheet, part(left, right, top, 120)),
      planView(scene, sheet, part(left, left + 110, 124, bottom)),
      riggingView(scene, sheet, part(left + 116, left + 246, 124, bottom)),
    ]
  return [
    sectionView(scene, sheet, part(left, left + 102, top, bottom)),
    planView(scene, sheet, part(left + 106, left + 206, top, bottom)),
    riggingView(scene, sheet, part(left + 212, left + 320, top, 150)),
    gapView(scene, sheet, part(left + 324, right, top, 110)),
  ]
}
