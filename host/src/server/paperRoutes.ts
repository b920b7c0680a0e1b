import type { Stages } from '@shieldwright/engine'
import type { Drawing } from '@shieldwright/engine/report/drawing.ts'
import { liftSheetPages, svgOf } from '@shieldwright/engine/report/index.ts'
import { riggingSheets } from '@shieldwright/engine/report/rigging/riggingSheet.ts'
import { SITE_PAPERS, type SitePaper } from '@shieldwright/engine/report/site/index.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { type Context, Hono } from 'hono'
import { contentHash } from '../project/contentHash.ts'
import { riskPdf } from '../report/risk.ts'
import { isSiteDrawing, riggingPdf, SITE_DRAWINGS, type SiteIssue, sitePdf } from '../report/site.ts'
import type { Here } from './api.ts'
import type { Live } from './live.ts'

/**
 * Routes under `/api/report`: what would be printed on a document now; drawings of the site and rigging sheets as PDF; one page of them, or of a lift sheet, as SVG.
 * `units`, `paper`, `step` and `page` stand in the query.
 */
export function paperRoutes(live: Live, here: Here): Hono {
  const routes = new Hono()
  routes.get('/', async (context) => {
    const { revision, derivation } = await live.now()
    return context.json({ revision, contentHash: contentHash(derivation.document), date: dateOf(here) })
  })
  routes.get('/site/:file{.+\\.(pdf|svg)}', (context) => answered(context, live, here, siteSource))
  routes.get('/rigging/:file{.+\\.(pdf|svg)}', (context) => answered(context, live, here, riggingSource))
  routes.get('/risk/:file{.+\\.pdf}', (context) => answered(context, live, here, riskSource))
  routes.get('/lift/:file{.+\\.svg}', (context) => answered(context, live, here, liftSource))
  return routes
}

/** A document by name: its pages, and its bytes as PDF; undefined when there is none of that name. */
type Source = (stages: Stages, name: string, issue: SiteIssue) => Found | undefined
interface Found {
  pages: () => readonly Drawing[]
  pdf: () => Promise<Uint8Array | undefined>
}

const siteSource: Source = (stages, name, issue) =>
  isSiteDrawing(name)
    ? { pages: () => SITE_DRAWINGS[name].draw(stages, issue), pdf: () => sitePdf(stages, name, issue) }
    : undefined

const riggingSource: Source = (stages, lift, issue) =>
  Object.hasOwn(stages.lift.lifts, lift)
    ? { pages: () => riggingSheets(stages, lift, issue) ?? [], pdf: () => riggingPdf(stages, lift, issue) }
    : undefined

/** Runs of a sheet that is asked for from a page: a second's work. */
const SHEET_RUNS = 2000

const riskSource: Source = (stages, name, issue) =>
  name === 'restart'
    ? { pages: () => [], pdf: () => riskPdf(stages, { ...issue, runs: SHEET_RUNS, seed: 1 }) }
    : undefined

const liftSource: Source = (stages, lift, issue) =>
  Object.hasOwn(stages.lift.lifts, lift)
    ? { pages: () => liftSheetPages(stages, lift, issue) ?? [], pdf: async () => undefined }
    : undefined

async function answered(context: Context, live: Live, here: Here, source: Source) {
  const { revision, derivation } = await live.now()
  const { stages } = derivation.derived
  const file = context.req.param('file') ?? ''
  const { units, paper, step, page = '1' } = context.req.query()
  if (paper !== undefined && !isPaper(paper)) return refused(context, 400, 'paper', paper, SITE_PAPERS.join(', '))
  const issue: SiteIssue = {
    date: dateOf(here),
    contentHash: contentHash(derivation.document),
    revision: String(revision),
    units: units === 'US' ? 'US' : 'SI',
    paper,
    step,
  }
  const found = stages && source(stages, file.replace(/\.(pdf|svg)$/, ''), issue)
  if (stages === undefined || found === undefined)
    return refused(context, 404, 'file', file, 'a document of this project')
  if (step !== undefined && !stages.strip.steps.some((s) => s.step === step))
    return refused(context, 404, 'step', step, 'a step of the order')
  if (file.endsWith('.svg')) {
    const drawing = found.pages()[Number(page) - 1]
    if (drawing === undefined) return refused(context, 404, 'page', page, 'a page of this document')
    return context.body(svgOf(drawing), 200, { 'content-type': 'image/svg+xml' })
  }
  const pdf = await found.pdf()
  if (pdf === undefined) return refused(context, 404, 'file', file, 'a document of this project')
  return context.body(pdf.slice().buffer, 200, {
    'content-type': 'application/pdf',
    'content-disposition': `inline; filename="${encodeURIComponent(file.split('/').at(-1) ?? file)}"`,
  })
}

const dateOf = ({ clock }: Here): string => clock().toISOString().slice(0, 10)

const isPaper = (text: string): text is SitePaper => (SITE_PAPERS as readonly string[]).includes(text)

function refused(context: Context, status: 400 | 404, pointer: string, found: string, expected: string) {
  const problem: Problem = { pointer, found: `"${found}"`, expected }
  return context.json({ problems: [problem] }, status)
}
