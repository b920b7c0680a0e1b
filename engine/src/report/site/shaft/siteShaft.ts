import { RING, SOIL, WATER } from '../../../ground/caution.ts'
import type { Drawing } from '../../drawing.ts'
import { DEFERRAL } from '../../sheet/cautions.ts'
import type { SheetStages } from '../../sheet/subject.ts'
import { layoutOf, type Pictured } from '../layout.ts'
import { type SiteDocument, sheetsOf } from '../sheets.ts'
import { type SiteOptions, type SiteSubject, siteSubject } from '../subject.ts'
import { blocks, noteBlock } from '../tables.ts'
import { asBuiltNotes, asBuiltTable, asBuiltWall } from './asBuilt.ts'
import { asBuiltPictured } from './asBuiltView.ts'
import { chartNotes, chartTable, drawnLoad } from './charts.ts'
import { chartsPictured } from './chartsView.ts'
import { CRADLE_KINDS, cradleNotes, cradleTable, drawnCradle } from './cradle.ts'
import { cradlePictured } from './cradleView.ts'
import { type FigureTable, figureRows, judgedRows } from './figures.ts'
import { jackedShield, jackNotes, jackTable } from './jacks.ts'
import { jacksPictured } from './jacksView.ts'
import { slideNotes, slideTable, wayIn } from './slide.ts'
import { slidePictured } from './slideView.ts'
import { shaftStages, stageNotes, stageTable } from './stages.ts'
import { stagesPictured } from './stagesView.ts'

export const SHAFT_PICTURES = ['as-built', 'stages', 'slide', 'cradle', 'jacks', 'charts'] as const
export type ShaftPictureName = (typeof SHAFT_PICTURES)[number]

/** A picture of the shaft or of the machine in it, with the figures beside it and the checks that judge it. */
export interface ShaftPicture {
  title: string
  /** What the project lacks for it, in a sentence; undefined where it can be drawn. */
  missing: (subject: SiteSubject) => string | undefined
  /** For a place so wide, mm; only where nothing is missing. */
  pictured: (subject: SiteSubject, width: number) => Pictured
  table: (subject: SiteSubject) => FigureTable | undefined
  /** Kinds of the checks. */
  judged: RegExp
  notes: (subject: SiteSubject) => string[]
}

const lacking = (has: unknown, sentence: string): string | undefined => (has ? undefined : sentence)

export const SHAFT_PICTURE: Readonly<Record<ShaftPictureName, ShaftPicture>> = {
  'as-built': {
    title: 'The wall as built',
    missing: (s) => lacking(asBuiltWall(s), 'No shaft in the project (/shaft): no wall to draw.'),
    pictured: asBuiltPictured,
    table: asBuiltTable,
    judged: /^ground\.(bore|overlap|wall\.verticality)/,
    notes: asBuiltNotes,
  },
  stages: {
    title: 'Stages of the shaft',
    missing: (s) =>
      lacking(
        shaftStages(s).length > 0,
        'No stages of the excavation (/shaft/stages) and no stops of wells (/shaft/fill/stops) in the project.',
      ),
    pictured: stagesPictured,
    table: stageTable,
    judged: /^ground\.(base\.|wells\.)/,
    notes: stageNotes,
  },
  slide: {
    title: 'The machine on its way in',
    missing: (s) =>
      lacking(
        wayIn(s),
        'The way in wants a shaft, a machine with its mass, and a cradle (/shaft, /machine, /cradle): one of them is missing.',
      ),
    pictured: slidePictured,
    table: slideTable,
    judged: /^ground\.(cradle\.(overhang|slide|sliding)|drive-in)/,
    notes: slideNotes,
  },
  cradle: {
    title: 'The cradle across the drive',
    missing: (s) =>
      lacking(
        drawnCradle(s),
        'The cradle wants a shaft, a machine that stands on it, and the cradle itself (/shaft, /machine, /cradle): one of them is missing.',
      ),
    pictured: cradlePictured,
    table: cradleTable,
    judged: CRADLE_KINDS,
    notes: cradleNotes,
  },
  jacks: {
    title: 'Jacks under the shield',
    missing: (s) => lacking(jackedShield(s), 'No jacks under the shield in the project (/cradle/jacking).'),
    pictured: jacksPictured,
    table: jackTable,
    judged: /^ground\.jack\./,
    notes: jackNotes,
  },
  charts: {
    title: 'A load of the step by the charts',
    missing: (s) =>
      lacking(
        drawnLoad(s),
        'No load of the step stands beside the shaft with a footprint, within the charts for points, lines and strips.',
      ),
    pictured: chartsPictured,
    table: chartTable,
    judged: /^ground\.wall\.surcharge$/,
    notes: chartNotes,
  },
}

const CAUTIONS = [SOIL, WATER, RING, DEFERRAL]

/** The wall as built, the stages of the shaft, the machine on its way in and on its jacks: a sheet each of what the project has. */
export function siteShaft(stages: SheetStages, options: SiteOptions = {}): Drawing[] {
  const subject = siteSubject(stages, options)
  const all = SHAFT_PICTURES.map((name) => SHAFT_PICTURE[name])
  const without = all.flatMap((picture) => picture.missing(subject) ?? [])
  const drawn = all.filter((picture) => picture.missing(subject) === undefined)
  return sheetsOf(subject, drawn.length === 0 ? [emptySheet(subject, without)] : drawn.map((p) => sheetOf(subject, p)))
}

/** Width that the stages have to spread over on the smallest paper, mm. */
const SPREAD = 250

function sheetOf(subject: SiteSubject, picture: ShaftPicture): SiteDocument {
  const { need, views } = picture.pictured(subject, SPREAD)
  const layout = layoutOf(subject.options.paper ?? 'A3', need)
  return {
    title: picture.title,
    layout,
    views: views(layout.ratio, layout.view),
    rows: (width) => {
      const table = picture.table(subject)
      return blocks([
        judgedRows(subject, picture.judged, width),
        ...(table === undefined ? [] : [figureRows(table, width)]),
      ])
    },
    notes: (width) =>
      blocks([
        noteBlock('How to read it', picture.notes(subject), width),
        noteBlock('Before anyone builds by it', CAUTIONS, width),
      ]),
  }
}

function emptySheet(subject: SiteSubject, without: readonly string[]): SiteDocument {
  const layout = layoutOf(subject.options.paper ?? 'A3', { wide: 1, high: 1, padWide: 0, padHigh: 0 })
  return {
    title: 'The shaft',
    layout: { ...layout, ratio: undefined },
    views: [],
    rows: (width) => blocks([noteBlock('Nothing to draw', without, width)]),
    notes: () => [],
  }
}
