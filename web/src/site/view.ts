import type { Stages } from '@shieldwright/engine'
import { groundRanges, type InstrumentState, type LevelName, type Standing } from '@shieldwright/engine/ground/index.ts'
import { boltUpPages } from '@shieldwright/engine/report/bolt-up/boltUpPages.ts'
import { dailyPages } from '@shieldwright/engine/report/daily/dailyPages.ts'
import { dossierPages } from '@shieldwright/engine/report/dossier/dossierPages.ts'
import { campaignDiagram, type Drawing, liftSheetPages, svgOf } from '@shieldwright/engine/report/index.ts'
import { orderPages } from '@shieldwright/engine/report/order/orderPages.ts'
import type { Placing } from '@shieldwright/engine/report/paper/scale.ts'
import { riggingSheets } from '@shieldwright/engine/report/rigging/riggingSheet.ts'
import {
  type BesidePicture,
  bayFacts,
  besidePicture,
  planOnPage,
  type SitePaper,
  type SitePicture,
  sitePicture,
  sitePlan,
  siteSections,
  siteSettlement,
  siteShaft,
} from '@shieldwright/engine/report/site/index.ts'
import { ON_ASKING, stakeholdersPage } from '@shieldwright/engine/report/stakeholders/stakeholdersPage.ts'
import { tagSheets } from '@shieldwright/engine/report/tags/tagSheets.ts'
import { simulate } from '@shieldwright/engine/risk/index.ts'
import type { Verdict } from '@shieldwright/engine/working/check.ts'
import type { Memory } from '@shieldwright/engine/working/memory.ts'
import type { UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import type { SiUnit } from '@shieldwright/engine/working/unit.ts'
import { PAGE_INKS } from '../engine/pageInks.ts'

export type { SitePicture as SitePictureName }

/** A drawing for the page, with its size in millimetres. */
export interface PictureView {
  title: string
  svg: string
  width: number
  height: number
}

/** A drawing of the site; of the plan, how it lies there. */
export interface SitePictureView extends PictureView {
  /** Figures, checks and notes of a picture that brings its own. */
  beside: BesidePicture | undefined
  placing: Placing | undefined
}

export interface PictureAsk {
  of: SitePicture
  step: string | undefined
  system: UnitSystem
  /** Width of its place, millimetres of a screen. */
  width: number
}

/** A drawing of the site in the page's colours; what it shows can be found by its address. */
export function pictureView(stages: Stages, { of, step, system, width }: PictureAsk): SitePictureView {
  const drawn = pageDrawing(
    sitePicture(stages, of, { width, units: system, ...(step === undefined ? {} : { step }) }),
    SELECTABLE,
  )
  return {
    ...drawn,
    placing: of === 'plan' ? planOnPage(stages, width) : undefined,
    beside: besidePicture(stages, of, { units: system, ...(step === undefined ? {} : { step }) }),
  }
}

const SELECTABLE =
  /^\/(bays|pieces|systems|utilities|transports|ground\/(layers|pads|water|treatments)|cradle\/jacking\/points|shaft\/(stages|fill\/stops|wall\/asBuilt))\//
const GROUP = /<g class="about" data-about="([^"]*)">\n<title>([^<]*)<\/title>/g
const NOTHING = /^$/

/** What can be selected is a button with its sentence for a name; the whole is a group, for it holds buttons. */
function pageDrawing(drawing: Drawing, selectable: RegExp): PictureView {
  const svg = svgOf(drawing, PAGE_INKS)
    .replace('<svg ', '<svg role="group" ')
    .replace(/<title>([^<]*)<\/title>/, '')
    .replace(GROUP, (_, pointer: string, words: string) =>
      selectable.test(pointer)
        ? `<g class="about" data-about="${pointer}" role="button" tabindex="-1" aria-label="${words}">`
        : `<g class="about" data-about="${pointer}" role="img" aria-label="${words}">`,
    )
  return { title: drawing.title, svg, width: drawing.width, height: drawing.height }
}

/** What the page of the ground shows of one step, and of the ground as a whole. */
export interface GroundView {
  /** Steps of the order, each with its pressure on the wall, Pa. */
  steps: readonly { step: string; name: string; lift: string | undefined; pressure: number | undefined }[]
  governing: string | undefined
  /** Lateral pressure that the wall was designed for, Pa. */
  allowed: number | undefined
  step: string | undefined
  when: string | undefined
  loads: readonly LoadView[]
  bays: readonly BayView[]
  otherForms: readonly { of: string; title: string; value: number | undefined; unit: SiUnit }[]
  decisions: readonly DecisionView[]
  instruments: readonly InstrumentView[]
}

export interface LoadView {
  id: string
  what: string
  on: string
  pointer: string
  /** N; undefined where nothing stands then. */
  lifting: number | undefined
  down: number | undefined
}

export interface BayView {
  id: string
  name: string
  allowable: number | undefined
  /** Largest pressure, Pa, and the piece that brings it; undefined where nothing is set down. */
  most: number | undefined
  piece: string | undefined
  /** Pieces that stand there once the step is done. */
  standing: readonly string[]
}

export interface DecisionView {
  id: string
  what: string
  pointer: string
  decidedBy: string | undefined
  on: string | undefined
  value: string | undefined
  withdrawn: string | undefined
  recorded: boolean
}

export interface InstrumentView {
  id: string
  what: string
  measures: string
  pointer: string
  unit: SiUnit
  reading: number | undefined
  on: string | undefined
  /** Level that the reading has passed, and what the plan demands there. */
  passed: string | undefined
  demands: string | undefined
  levels: readonly { name: LevelName; value: number | undefined; reached: string | undefined }[]
}

/** The ground at a step, the governing one where none is named. */
export function groundView(stages: Stages, wanted: string | undefined): GroundView {
  const { ground, model } = stages
  const { project } = model
  const chosen = ground.steps.find((s) => s.step === wanted) ?? ground.steps.find((s) => s.step === ground.governing)
  return {
    steps: ground.steps.map((s) => ({
      step: s.step,
      name: project.pieces[s.piece]?.name ?? s.piece,
      lift: s.lift,
      pressure: s.wall?.pressure.value,
    })),
    governing: ground.governing,
    allowed: project.shaft?.wall.surcharge?.value,
    step: chosen?.step,
    when: chosen?.wall?.when,
    loads: (chosen?.loads ?? []).map((l) => ({
      id: l.id,
      what: l.what,
      on: l.on,
      pointer: l.pointer,
      lifting: l.when.includes('lifting') ? l.force.value : undefined,
      down: l.when.includes('set down') ? l.force.value : undefined,
    })),
    bays: bayFacts(stages, chosen?.step),
    otherForms: ground.otherForms.map(({ of, title, answer }) => ({
      of,
      title,
      value: answer.value,
      unit: answer.unit,
    })),
    decisions: ground.decisions.map((d) => ({
      id: d.id,
      what: d.what,
      pointer: d.pointer,
      decidedBy: d.decidedBy,
      on: d.on,
      value: d.value,
      withdrawn: d.withdrawn,
      recorded: d.recorded,
    })),
    instruments: ground.instruments.map(instrumentView),
  }
}

const instrumentView = ({ id, pointer, is, readings, at, demands, reached }: InstrumentState): InstrumentView => ({
  id,
  what: is.what,
  measures: is.measures,
  pointer,
  unit: is.alert.unit,
  reading: readings.at(-1)?.answer.value,
  on: readings.at(-1)?.on,
  passed: at,
  demands,
  levels: (['alert', 'action', 'alarm'] as const).map((name) => ({
    name,
    value: is[name].value,
    reached: reached[name],
  })),
})

/** A check of the ground and the soil values and water levels that move it, the first most. */
export interface RangeView {
  id: string
  title: string
  /** What of the site it is about. */
  subject: string
  best: Standing
  worst: Standing
  moves: readonly { pointer: string; unit: SiUnit; low: RangeEnd; high: RangeEnd }[]
}

type RangeEnd = Standing & { value: number | undefined }

export const rangeViews = (stages: Stages, memory: Memory): RangeView[] =>
  groundRanges(stages.model, stages, memory).map(({ id, title, subject, best, worst, moves }) => ({
    id,
    title,
    subject,
    best,
    worst,
    moves: moves.map(({ pointer, low, high }) => ({
      pointer,
      unit: low.value.unit,
      low: { ...low, value: low.value.value },
      high: { ...high, value: high.value.value },
    })),
  }))

/** A document that can be put on paper, for the page. */
export interface DocumentView {
  id: string
  kind: string
  of: string
  title: string
  readiness: 'ready' | 'open' | 'failing'
  counts: Readonly<Record<Verdict, number>>
  open: readonly string[]
}

export const documentViews = (stages: Stages): DocumentView[] => [...stages.report.documents]

export interface PageAsk {
  document: string
  page: number
  system: UnitSystem
  paper: SitePaper
  /** Where this workbench is reached: symbols of tags open its lines. */
  base: string
}

/** How a document is drawn. */
interface Drawn {
  units: UnitSystem
  paper: SitePaper
  base: string
}

export interface PageView extends PictureView {
  pages: number
}

/** One page of a document in the page's colours; undefined when there is no such document or page. */
export function pageView(stages: Stages, { document, page, system, paper, base }: PageAsk): PageView | undefined {
  const pages = pagesOf(stages, document, { units: system, paper, base })
  const drawing = pages[page - 1]
  return drawing === undefined ? undefined : { ...pageDrawing(drawing, NOTHING), pages: pages.length }
}

function pagesOf(stages: Stages, document: string, { units, paper, base }: Drawn): readonly Drawing[] {
  const [kind, of = ''] = document.split('/')
  switch (kind) {
    case 'lift-sheet':
      return liftSheetPages(stages, of, { units }) ?? []
    case 'rigging':
      return riggingSheets(stages, of, { units }) ?? []
    case 'bolt-up':
      return boltUpPages(stages, undefined, { units }) ?? []
    case 'tags':
      return tagSheets(stages, { units, base }) ?? []
    case 'order':
      return orderPages(stages, { units }) ?? []
    case 'daily-report':
      return dailyPages(stages, { units }) ?? []
    case 'dossier':
      return dossierPages(stages, { units })
    case 'stakeholders': {
      const { result } = simulate(stages.programme, stages.lift, stages.model, ON_ASKING)
      return (result && stakeholdersPage(stages, { units, simulation: result })) ?? []
    }
    case 'site-plan':
      return sitePlan(stages, { units, paper })
    case 'site-sections':
      return siteSections(stages, { units, paper })
    case 'site-shaft':
      return siteShaft(stages, { units, paper })
    case 'site-settlement':
      return siteSettlement(stages, { units, paper })
    case 'campaign':
      return [campaignDiagram(stages, { units, paper })].filter((d) => d !== undefined)
    default:
      return []
  }
}
