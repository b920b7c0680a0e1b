import { SOIL } from '../../ground/caution.ts'
import type { Ground } from '../../model/index.ts'
import { box, type Drawing, line, type Mark, type PaperBox, text, type View } from '../drawing.ts'
import { roomOf } from '../paper/border.ts'
import { CHAIN, FINE, SMALL, THIN } from '../paper/pen.ts'
import { lengthOnPaper, onPaper, type Placing } from '../paper/scale.ts'
import { DEFERRAL } from '../sheet/cautions.ts'
import type { SheetStages } from '../sheet/subject.ts'
import { HEADING, viewHead } from '../views/head.ts'
import { wallRadius } from '../views/shaft.ts'
import { coursesHeight, coursesOf, coursesView, settledMostStep } from './bayCourses.ts'
import { columnsIn, layoutOf, RATIOS, type SitePaper } from './layout.ts'
import { planFrame, planOf, rectangleAbout } from './planFrame.ts'
import { paperBox } from './planMachines.ts'
import { type SiteDocument, sheetsOf } from './sheets.ts'
import { type SiteOptions, type SiteSubject, siteSubject } from './subject.ts'
import { blocks, noteBlock } from './tables.ts'
import { type TroughLine, troughLines } from './troughLines.ts'
import { depthIn, drawnLine, endsOnSite, enlargement, PANEL, PANEL_HEIGHT, troughPanel } from './troughPanel.ts'
import { troughTable } from './troughTable.ts'

/**
 * Settlement of the site: along lines through bays, feet and shaft at one step, place by place, and of every bay over the campaign.
 *
 * @returns sheets; the step is the one at which a bay uses most of what it may settle, unless another is named
 */
export function siteSettlement(stages: SheetStages, options: SiteOptions = {}): Drawing[] {
  const courses = coursesOf(siteSubject(stages, options))
  const step = options.step ?? settledMostStep(courses)
  const subject: SiteSubject = {
    ...siteSubject(stages, { ...options, ...(step === undefined ? {} : { step }) }),
    chosenBy: 'step that uses most of what a bay may settle, unless another is asked for',
  }
  const paper = options.paper ?? 'A3'
  const { ground } = stages.model.project
  const size = layoutOf(paper, { wide: 2, high: 1, padWide: 0, padHigh: 0 }).size
  const whole = { size, ratio: undefined, view: roomOf(size), columns: [] }
  return sheetsOf(subject, [
    linesDocument(subject, ground, paper),
    ...(courses.length === 0
      ? []
      : [
          {
            title: 'Settlement over the campaign',
            layout: whole,
            views: [coursesView(subject, courses, whole.view)],
            rows: () => [],
            notes: () => [],
          },
        ]),
  ])
}

const GUTTER = 6

function linesDocument(subject: SiteSubject, ground: Ground | undefined, paper: SitePaper): SiteDocument {
  const lines = ground === undefined ? [] : troughLines(subject)
  const { size } = layoutOf(paper, { wide: 2, high: 1, padWide: 0, padHigh: 0 })
  const room = roomOf(size)
  const { ratio, cells, columns } = cellsIn(room, lines)
  return {
    title: 'Settlement of the site',
    layout: { size, ratio, view: room, columns },
    views: ground === undefined ? [] : linesViews(subject, ground, lines, ratio, cells),
    rows: (width) => (ground === undefined ? [] : blocks([troughTable(subject, ground, width)])),
    notes: (width) =>
      blocks([
        noteBlock('How to read it', notesOf(subject, lines), width),
        noteBlock('Before anyone builds by it', [SOIL, DEFERRAL], width),
      ]),
  }
}

function linesViews(
  subject: SiteSubject,
  ground: Ground,
  lines: readonly TroughLine[],
  ratio: number,
  cells: readonly PaperBox[],
): View[] {
  const drawn = lines.map((l) => drawnLine(subject, ground, l))
  const enlarged = enlargement(drawn, depthIn(cells[0]))
  const spare = cells[lines.length]
  return [
    ...drawn.map((d, i) => troughPanel(subject, d, ratio, enlarged, cells[i] as PaperBox)),
    ...(spare === undefined ? [] : keyPlan(subject, lines, spare)),
  ]
}

/** Room that the print wants beside the lines, mm. */
const PRINT = 100

/** The largest scale at which all lines and a key plan have room and leave a column for print. */
function cellsIn(room: PaperBox, lines: readonly TroughLine[]) {
  const longest = Math.max(1, ...lines.map((l) => l.to - l.from))
  const rows = Math.max(1, Math.floor((room.bottom - room.top) / PANEL_HEIGHT))
  const count = Math.ceil((lines.length + 1) / rows)
  const high = (room.bottom - room.top) / rows
  const most = (room.right - room.left - PRINT - GUTTER) / count - GUTTER
  const widthAt = (r: number): number => (longest * 1000) / r + PANEL.left + PANEL.right
  const ratio = RATIOS.find((r) => widthAt(r) <= most) ?? (RATIOS.at(-1) as number)
  const width = widthAt(ratio)
  const cells = Array.from({ length: count * rows }, (_, i): PaperBox => {
    const left = room.left + Math.floor(i / rows) * (width + GUTTER)
    const top = room.top + (i % rows) * high
    return { left, right: left + width, top, bottom: top + high }
  })
  return { ratio, cells, columns: columnsIn({ ...room, left: room.left + count * (width + GUTTER) }) }
}

/** Where the lines lie: bays, shaft and lines from above. */
function keyPlan({ stages }: SiteSubject, lines: readonly TroughLine[], cell: PaperBox): View[] {
  const frame = planFrame(stages.model)
  if (frame === undefined) return []
  const { shaft, bays } = stages.model.project
  const room = { left: cell.left + 6, right: cell.right - 6, top: cell.top + HEADING + 3, bottom: cell.bottom - 5 }
  const fits = (r: number): boolean =>
    ((frame.right - frame.left) * 1000) / r <= room.right - room.left &&
    ((frame.top - frame.bottom) * 1000) / r <= room.bottom - room.top
  const ratio = RATIOS.find(fits)
  if (ratio === undefined) return []
  const placing: Placing = { scale: ratio, of: [frame.left, frame.top], at: [room.left, room.top] }
  const marks: Mark[] = [
    box(paperBox(placing, frame), { stroke: FINE }),
    ...Object.values(bays).map(
      (bay): Mark =>
        box(paperBox(placing, rectangleAbout(planOf(bay.centre), planOf(bay.size))), {
          fill: 'concrete',
          stroke: FINE,
        }),
    ),
    ...(shaft === undefined
      ? []
      : [
          {
            kind: 'circle',
            centre: onPaper(placing, [0, 0]),
            radius: lengthOnPaper(placing, wallRadius(shaft)),
            stroke: THIN,
          } as const,
        ]),
    ...lines.flatMap((l): Mark[] => {
      const [a, b] = endsOnSite(l).map((p) => onPaper(placing, p)) as [
        readonly [number, number],
        readonly [number, number],
      ]
      return [
        line([a, b], CHAIN),
        text(l.along === 'y' ? [b[0], b[1] - 0.9] : [b[0] + 0.9, b[1] + SMALL * 0.36], l.letter, {
          size: SMALL + 0.3,
          weight: 700,
          anchor: l.along === 'y' ? 'middle' : 'start',
        }),
      ]
    }),
  ]
  return [
    {
      kind: 'view',
      id: 'site-trough-key',
      title: `Where the lines lie, 1 : ${ratio}`,
      scale: ratio,
      marks: [...viewHead('0', 'Where the lines lie', `1 : ${ratio} · the drive to the right`, cell), ...marks],
    },
  ]
}

function notesOf(subject: SiteSubject, lines: readonly TroughLine[]): string[] {
  const { bays, systems } = subject.stages.model.project
  const piled = Object.values(bays).some((b) => b.piles !== undefined)
  const bare = Object.entries(systems).filter(
    ([, s]) => Object.keys(s.legs).length > 0 && s.foundation?.plan === undefined,
  )
  return [
    'Across, the site to scale from the shaft’s centre; downwards, settlement enlarged as the numbers at the left say, alike on all lines. Full line: once the piece is set down; dashed: while it hangs. Thick: under a bay or a foot, at the level at which it presses.',
    'Elastic, layer by layer (Steinbrenner, from memory), each load by itself and then added up: the sum holds because elastic ground answers in proportion. The checks of the bays run the same formula.',
    'As though there were no shaft: its wall holds the ground beside it up and the pit takes none. It comes and goes with the load; real ground keeps part, and clay takes its time. Above the line is heave by the theory: soft ground squeezed up beside a load.',
    'Cranes and trailers press for hours, and clay gives less so soon than its drained stiffness says here; stabilised pads and platforms are not counted.',
    ...(piled
      ? [
          'Bays and feet on piles press at two thirds of their length, and what is compressed above that does not lower them.',
        ]
      : []),
    ...bare.map(
      ([id]) =>
        `No plan of what carries a leg of ${id}: its field is that of a point, and under it the settlement is open.`,
    ),
    ...(subject.stages.model.project.ground === undefined ? ['No ground in the project: nothing to settle.'] : []),
    ...(lines.length === 0 ? ['No bays and no feet in the project: no line to draw.'] : []),
    ...(subject.step === undefined ? ['No order in the project: nothing stands there.'] : []),
  ]
}

/** The same for a page: lines one under the other. */
export function linesOnPage(subject: SiteSubject) {
  const { ground } = subject.stages.model.project
  const lines = ground === undefined ? [] : troughLines(subject)
  const longest = Math.max(1, ...lines.map((l) => l.to - l.from))
  return {
    need: { wide: longest, high: 0, padWide: PANEL.left + PANEL.right, padHigh: lines.length * PANEL_HEIGHT - HEADING },
    views: (ratio: number, room: PaperBox): View[] =>
      ground === undefined
        ? []
        : linesViews(
            subject,
            ground,
            lines,
            ratio,
            lines.map((_, i) => ({
              ...room,
              top: room.top + i * PANEL_HEIGHT,
              bottom: room.top + (i + 1) * PANEL_HEIGHT,
            })),
          ),
  }
}

/** Every bay over the campaign, for a page. */
export function coursesOnPage(subject: SiteSubject) {
  const courses = coursesOf(subject)
  return {
    need: { wide: 1, high: 0, padWide: 0, padHigh: coursesHeight(courses.length) - HEADING },
    views: (_: number, room: PaperBox): View[] => [coursesView(subject, courses, room)],
  }
}
