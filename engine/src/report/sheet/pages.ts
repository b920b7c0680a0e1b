import { type Drawing, drawing, type Mark, type PaperBox, type View } from '../drawing.ts'
import { type LiftPaper, LYING } from '../paper/size.ts'
import { elevationView, secondElevation } from '../views/elevation.ts'
import { gapView } from '../views/gapView.ts'
import { pivotView } from '../views/pivotView.ts'
import { planView } from '../views/plan.ts'
import { riggingView } from '../views/riggingView.ts'
import { type Scene, sceneOf } from '../views/scene.ts'
import { sectionView } from '../views/section.ts'
import { tailView } from '../views/tailView.ts'
import { turningView } from '../views/turningView.ts'
import { frameMarks, roomOn } from './frame.ts'
import type { LiftSheet, SheetOptions } from './liftSheet.ts'
import { columnsOf, printPages } from './numbers.ts'
import { printedSheet } from './printed.ts'
import { type SheetStages, subjectOf } from './subject.ts'

/** What a lift sheet is asked for with. */
export interface LiftSheetOptions extends SheetOptions {
  /** A3 where none is named; on A4 and Letter the drawings take sheets of their own. */
  paper?: LiftPaper | undefined
}

/** The pages of a lift's sheet: drawings and the day first, then the numbers; undefined when there is no such lift. */
export function liftSheetPages(stages: SheetStages, id: string, options: LiftSheetOptions = {}): Drawing[] | undefined {
  const subject = subjectOf(stages, id)
  if (subject === undefined) return undefined
  const { paper = 'A3' } = options
  const sheet = printedSheet(subject, options)
  const bodies = (paper === 'A3' ? onOneSheet : onSheetsOfTheirOwn)(sceneOf(subject), sheet, roomOn(paper))
  const { width, height } = LYING[paper]
  return bodies.map((marks, i) =>
    drawing(`${sheet.title}, sheet ${i + 1} of ${bodies.length}`, width, height, [
      ...frameMarks(sheet, paper, i + 1, bodies.length),
      ...marks,
    ]),
  )
}

const part = (left: number, right: number, top: number, bottom: number): PaperBox => ({ left, right, top, bottom })

/** Height of the second elevation at the head of the print, and of the air under it, mm. */
const SECOND = 128
/** Height of the sketch of the tail hook's rigging beside it, mm. */
const TAIL = 84
const AIR = 5

/** All drawings but the second elevation on the first sheet, with the day beside them. */
function onOneSheet(scene: Scene, sheet: LiftSheet, room: PaperBox): Mark[][] {
  const { views, rooms } = viewsOf(scene, sheet, room)
  const hasTail = sheet.tailLegs.length > 0
  const heads = [SECOND + AIR, ...(hasTail ? [TAIL + AIR] : [])]
  const [first = [], second = [], ...more] = printPages(sheet, rooms, room, heads)
  const [column, next] = columnsOf(room) as [PaperBox, PaperBox]
  const elevation = secondElevation(scene, sheet, { ...column, bottom: column.top + SECOND })
  const hung = hasTail ? [tailView(scene, sheet, { ...next, bottom: next.top + TAIL })] : []
  return [[...views, ...first], [elevation, ...hung, ...second], ...more]
}

/** Two drawings a sheet, then the day, beside the last where it stands alone, and the numbers. */
function onSheetsOfTheirOwn(scene: Scene, sheet: LiftSheet, room: PaperBox): Mark[][] {
  const middle = (room.left + room.right) / 2
  const halves = [
    part(room.left, middle - 3, room.top, room.bottom),
    part(middle + 3, room.right, room.top, room.bottom),
  ]
  type Drawn = (scene: Scene, sheet: LiftSheet, room: PaperBox) => View
  const turned = stagesOf(sheet) > 0
  const halved: Drawn[] = [
    ...(turned
      ? []
      : [sheet.fromShaft ? sectionView : (s: Scene, l: LiftSheet, r: PaperBox) => elevationView(s, l, r)]),
    planView,
    (s, l, r) => riggingView(s, l, r),
    ...(sheet.tailLegs.length === 0 ? [] : [(s: Scene, l: LiftSheet, r: PaperBox) => tailView(s, l, r)]),
    secondElevation,
    ...(scene.gap === undefined || turned ? [] : [gapView]),
  ]
  const pairs = Array.from({ length: Math.ceil(halved.length / 2) }, (_, i) => halved.slice(2 * i, 2 * i + 2))
  const drawn: Mark[][] = [
    ...(turned ? [turnedInTwoRows(scene, sheet, room)] : []),
    ...pairs.map((pair) => pair.map((draw, i) => draw(scene, sheet, halves[i] as PaperBox))),
  ]
  if (halved.length % 2 === 0) return [...drawn, ...printPages(sheet, [], room)]
  const [beside = [], ...pages] = printPages(sheet, halves.slice(1), room)
  return [...drawn.slice(0, -1), [...(drawn.at(-1) as Mark[]), ...beside], ...pages]
}

/** Stages of a turn, on the hooks or about a pivot. */
const stagesOf = ({ turning, pivot }: LiftSheet): number => turning.length + (pivot?.stages.length ?? 0)

/** Stages of a turn, as it is turned. */
const turnedView = (scene: Scene, sheet: LiftSheet, room: PaperBox): View =>
  (sheet.pivot === undefined ? turningView : pivotView)(scene, sheet, room)

const stagesBetween = ({ turning, pivot, ...sheet }: LiftSheet, from: number, to?: number): LiftSheet => ({
  ...sheet,
  turning: turning.slice(from, to),
  pivot: pivot === undefined ? undefined : { ...pivot, stages: pivot.stages.slice(from, to) },
})

/** The stages of a turn in two rows, so that a small sheet shows them as large as it can. */
function turnedInTwoRows(scene: Scene, sheet: LiftSheet, room: PaperBox): View[] {
  const half = Math.ceil(stagesOf(sheet) / 2)
  const middle = (room.top + room.bottom) / 2
  return [
    turnedView(scene, stagesBetween(sheet, 0, half), { ...room, bottom: middle - AIR / 2 }),
    turnedView(scene, stagesBetween(sheet, half), { ...room, top: middle + AIR / 2 }),
  ].slice(0, stagesOf(sheet) > 1 ? 2 : 1)
}

/** Views of the first page, and the room they leave for the day. */
function viewsOf(scene: Scene, sheet: LiftSheet, room: PaperBox): { views: View[]; rooms: PaperBox[] } {
  const { left, right, top, bottom } = room
  if (stagesOf(sheet) > 0)
    return {
      views: [
        turnedView(scene, sheet, part(left, right, top, 118)),
        planView(scene, sheet, part(left, left + 98, 122, bottom)),
        riggingView(scene, sheet, part(left + 104, left + 214, 122, bottom)),
      ],
      rooms: [part(left + 222, left + 304, 122, bottom), part(left + 311, right, 122, bottom)],
    }
  // under the gap the second column stands higher, and reaches into the corner of the rigging
  const rooms = [
    part(left + 213, left + 300, 132, bottom),
    part(left + 307, right, scene.gap === undefined ? 132 : 106, bottom),
  ]
  const hanging =
    scene.gap === undefined
      ? [riggingView(scene, sheet, part(left + 212, right, top, 128))]
      : [
          riggingView(scene, sheet, part(left + 212, left + 318, top, 128), 'C', rooms[1]),
          gapView(scene, sheet, part(left + 326, right, top, 102)),
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
