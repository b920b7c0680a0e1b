import { type Drawing, drawing, type PaperBox, type View } from '../drawing.ts'
import { elevationView } from '../views/elevation.ts'
import { gapView } from '../views/gapView.ts'
import { planView } from '../views/plan.ts'
import { riggingView } from '../views/riggingView.ts'
import { type Scene, sceneOf } from '../views/scene.ts'
import { sectionView } from '../views/section.ts'
import { turningView } from '../views/turningView.ts'
import { frameMarks, PAGE, ROOM } from './frame.ts'
import { type LiftSheet, type SheetOptions, sheetOf } from './liftSheet.ts'
import { printPages } from './numbers.ts'
import { type SheetStages, subjectOf } from './subject.ts'

/** The pages of a lift's sheet: drawings and the day first, then the numbers; undefined when there is no such lift. */
export function liftSheetPages(stages: SheetStages, id: string, options: SheetOptions = {}): Drawing[] | undefined {
  const subject = subjectOf(stages, id)
  if (subject === undefined) return undefined
  const sheet = sheetOf(subject, options)
  const { views, rooms } = viewsOf(sceneOf(subject), sheet)
  const [first = [], ...more] = printPages(sheet, rooms)
  const bodies = [[...views, ...first], ...more]
  return bodies.map((marks, i) =>
    drawing(`${sheet.title}, sheet ${i + 1} of ${bodies.length}`, PAGE.width, PAGE.height, [
      ...frameMarks(sheet, i + 1, bodies.length),
      ...marks,
    ]),
  )
}

const part = (left: number, right: number, top: number, bottom: number): PaperBox => ({ left, right, top, bottom })

/** Views of the first page, and the room they leave for the day. */
function viewsOf(scene: Scene, sheet: LiftSheet): { views: View[]; rooms: PaperBox[] } {
  const { left, right, top, bottom } = ROOM
  if (sheet.turning.length > 0)
    return {
      views: [
        turningView(scene, sheet, part(left, right, top, 118)),
        planView(scene, sheet, part(left, left + 98, 122, bottom)),
        riggingView(scene, sheet, part(left + 104, left + 214, 122, bottom)),
      ],
      rooms: [part(left + 222, left + 304, 122, bottom), part(left + 311, right, 122, bottom)],
    }
  const rooms = [
    part(left + 213, left + 300, 132, bottom),
    part(left + 307, right, scene.gap === undefined ? 132 : 106, bottom),
  ]
  const hanging = [
    riggingView(scene, sheet, part(left + 212, scene.gap === undefined ? right : left + 318, top, 128)),
    ...(scene.gap === undefined ? [] : [gapView(scene, sheet, part(left + 326, right, top, 102))]),
  ]
  if (!sheet.fromShaft)
    return {
      views: [
        elevationView(scene, sheet, part(left, left + 206, top, 126)),
        planView(scene, sheet, part(left, left + 206, 130, bottom)),
        ...hanging,
      ],
      rooms,
    }
  return {
    views: [
      sectionView(scene, sheet, part(left, left + 102, top, bottom)),
      planView(scene, sheet, part(left + 106, left + 206, top, bottom)),
      ...hanging,
    ],
    rooms,
  }
}
