import { RING, SOIL, WATER } from '../../ground/caution.ts'
import type { Drawing, PaperBox, View } from '../drawing.ts'
import type { Frame2 } from '../outline/convex.ts'
import { GRAIN_BASIS, grainsOf } from '../paper/hatch.ts'
import { DEFERRAL } from '../sheet/cautions.ts'
import type { SheetStages } from '../sheet/subject.ts'
import { type Layout, layoutOf, type Need } from './layout.ts'
import { hatchBlock, sectionHatches } from './legend.ts'
import { missingFromSections } from './missing.ts'
import { pressureSheets } from './pressures.ts'
import { ACROSS_ALONE_PADS, ACROSS_PADS, acrossView } from './sectionAcross.ts'
import { ALONG_PADS, alongView } from './sectionAlong.ts'
import { acrossFrame, alongFrame } from './sectionFrame.ts'
import { carryingTable, layerTable, machineTable, shaftTable, waterTable } from './sectionTables.ts'
import { sheetsOf } from './sheets.ts'
import { type SiteOptions, type SiteSubject, siteSubject } from './subject.ts'
import { bayTable, blocks, noteBlock } from './tables.ts'

/** Between two sections on one sheet, mm. */
export const BETWEEN = 9
const CAUTIONS = [SOIL, WATER, RING, DEFERRAL]

/** What a frame with its pads asks of a sheet. */
export const needOf = ({ left, right, bottom, top }: Frame2, pads: { padWide: number; padHigh: number }): Need => ({
  wide: right - left,
  high: top - bottom,
  ...pads,
})

/** Sections along and across the drive: side by side, or on sheets of their own where that makes them larger. */
export function siteSections(stages: SheetStages, options: SiteOptions = {}): Drawing[] {
  const subject = siteSubject(stages, options)
  const paper = options.paper ?? 'A3'
  const [along, across] = [needOf(alongFrame(subject), ALONG_PADS), needOf(acrossFrame(subject), ACROSS_PADS)]
  const both = layoutOf(paper, {
    wide: along.wide + across.wide,
    high: along.high,
    padWide: along.padWide + across.padWide + BETWEEN,
    padHigh: along.padHigh,
  })
  const alone = [layoutOf(paper, along), layoutOf(paper, needOf(acrossFrame(subject), ACROSS_ALONE_PADS))] as const
  return Math.max(...alone.map((l) => l.ratio)) < both.ratio
    ? onTwoSheets(subject, alone)
    : together(subject, both, across)
}

function together(subject: SiteSubject, layout: Layout, across: Need): Drawing[] {
  const width = (across.wide * 1000) / layout.ratio + across.padWide
  const [left, right] = parted(layout.view, width)
  const views: View[] = [
    acrossView(subject, acrossFrame(subject), layout.ratio, left, false),
    alongView(subject, alongFrame(subject), layout.ratio, right, '2'),
  ]
  return sheetsOf(subject, [
    { title: 'Sections of the site', layout, views, ...printOf(subject) },
    ...pressureSheets(subject),
  ])
}

const parted = (view: PaperBox, width: number): readonly [PaperBox, PaperBox] => [
  { ...view, right: view.left + width },
  { ...view, left: view.left + width + BETWEEN },
]

function onTwoSheets(subject: SiteSubject, [a, b]: readonly [Layout, Layout]): Drawing[] {
  const along = alongView(subject, alongFrame(subject), a.ratio, a.view)
  const across = acrossView(subject, acrossFrame(subject), b.ratio, b.view, true)
  return sheetsOf(subject, [
    { title: 'Section along the drive', layout: a, views: [along], ...printOf(subject) },
    {
      title: 'Section across the drive',
      layout: b,
      views: [across],
      rows: (width) => blocks([bayTable(subject, width)]),
      notes: (width) => blocks([noteBlock('Before anyone builds by it', CAUTIONS, width)]),
    },
    ...pressureSheets(subject),
  ])
}

function printOf(subject: SiteSubject) {
  const layers = Object.values(subject.stages.model.project.ground?.layers ?? {})
  const grains = [...new Set(layers.flatMap((l) => grainsOf(l.name)))]
  return {
    rows: (width: number) =>
      blocks([layerTable(subject, width), waterTable(subject, width), shaftTable(subject, width)]),
    notes: (width: number) =>
      blocks([
        carryingTable(subject, width),
        machineTable(subject, width),
        hatchBlock(sectionHatches(subject, grains), width, grains.length === 0 ? '' : GRAIN_BASIS),
        noteBlock('How to read it', notesOf(subject), width),
        noteBlock('Before anyone builds by it', CAUTIONS, width),
      ]),
  }
}

function notesOf(subject: SiteSubject): string[] {
  return [
    'Levels from the collar’s datum. Legs and header of a tower are signs; the highest hook is to scale. The bays’ tops are to scale, their thickness is not in the model.',
    ...missingFromSections(subject),
  ]
}
