import type { Stages } from '@shieldwright/engine'
import { isMoment } from '@shieldwright/engine/model/index.ts'
import type { Drawing } from '@shieldwright/engine/report/drawing.ts'
import { liftSheetPages, svgOf } from '@shieldwright/engine/report/index.ts'
import type { OnSiteScope } from '@shieldwright/engine/report/on-site/onSite.ts'
import { orderPages } from '@shieldwright/engine/report/order/orderPages.ts'
import { HAND_PAPERS, LIFT_PAPERS, type PaperName } from '@shieldwright/engine/report/paper/size.ts'
import { PROGRAMME_PAPERS, type ProgrammePaper } from '@shieldwright/engine/report/programme/programmeSheets.ts'
import { riggingSheets } from '@shieldwright/engine/report/rigging/riggingSheet.ts'
import { SITE_PAPERS, type SitePaper } from '@shieldwright/engine/report/site/index.ts'
import { ON_ASKING } from '@shieldwright/engine/report/stakeholders/stakeholdersPage.ts'
import { tagSheets } from '@shieldwright/engine/report/tags/tagSheets.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { type Context, Hono } from 'hono'
import { contentHash } from '../project/contentHash.ts'
import { picturesInStore } from '../report/attachedPictures.ts'
import { boltUpDrawings, boltUpPdf, type HandIssue } from '../report/boltUp.ts'
import { dailyDrawings, dailyPdf } from '../report/daily.ts'
import { type DossierIssue, dossierData, dossierDrawings, dossierPdf, dossierSignatures } from '../report/dossier.ts'
import { type Issue, type LiftIssue, liftSheetPdf } from '../report/liftSheet.ts'
import { onSiteFile } from '../report/on-site/onSiteFile.ts'
import { orderPdf } from '../report/order.ts'
import { programmePages, programmePdf } from '../report/programme.ts'
import { riskPdf } from '../report/risk.ts'
import { isSiteDrawing, riggingPdf, SITE_DRAWINGS, sitePdf } from '../report/site.ts'
import { issueBefore, restartAsked, stakeholdersDrawings, stakeholdersPdf } from '../report/stakeholders.ts'
import { baseProblem, type TagIssue, tagsPdf } from '../report/tags.ts'
import { signing } from '../signing/signing.ts'
import { namedRevisions, revisionMeant } from '../store/baselines.ts'
import type { Here } from './api.ts'
import type { Live } from './live.ts'

/**
 * Routes under `/api/report`: what would be printed on a document now; lift sheets, drawings of the site, rigging and bolt-up sheets, the order, tags, the daily report,
 * the commissioning dossier (also as data), the page for stakeholders and the programme as PDF; one page of them as SVG; and the lists of a lift, a step or a shift as one file for the site.
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
  routes.get('/bolt-up/:file{.+\\.(pdf|svg)}', (context) => answered(context, live, here, boltUpSource))
  routes.get('/order/:file{.+\\.(pdf|svg)}', (context) => answered(context, live, here, orderSource))
  routes.get('/tags/:file{.+\\.(pdf|svg)}', (context) => answered(context, live, here, tagSource))
  routes.get('/daily/:file{.+\\.(pdf|svg)}', (context) => answered(context, live, here, dailySource))
  routes.get('/dossier/:file{.+\\.(pdf|svg)}', async (context) =>
    answered(context, live, here, await dossierSource(live)),
  )
  routes.get('/dossier.json', (context) => dossierSent(context, live, here))
  routes.get('/stakeholders/:file{.+\\.(pdf|svg)}', async (context) => {
    const { since } = context.req.query()
    const source = await stakeholdersSource(live, since)
    return source === undefined
      ? refused(context, 404, 'since', (since ?? '').slice(0, 90), 'a revision, its name, or "now"')
      : answered(context, live, here, source)
  })
  routes.get('/programme/:file{.+\\.(pdf|svg)}', (context) => answered(context, live, here, programmeSource))
  routes.get('/risk/:file{.+\\.pdf}', (context) => answered(context, live, here, riskSource))
  routes.get('/on-site.html', (context) => onSiteSent(context, live, here))
  routes.get('/lift/:file{.+\\.(pdf|svg)}', (context) => answered(context, live, here, liftSource))
  return routes
}

/** What a document is asked for with; its paper is one of those that its kind can be had on. */
interface Asked extends Issue {
  paper?: PaperName | undefined
  step?: string | undefined
  /** Address that the symbols of tags begin with. */
  base?: string | undefined
}

/** Documents of a kind by name, and the papers to choose from: the kind's own where none is named. */
interface Source {
  papers: readonly PaperName[]
  find: (stages: Stages, name: string, asked: Asked) => Found | undefined
}

/** A document: its pages, and its bytes as PDF. */
interface Found {
  pages: () => readonly Drawing[]
  pdf: () => Promise<Uint8Array | undefined>
}

const siteSource: Source = {
  papers: SITE_PAPERS,
  find: (stages, name, asked) => {
    if (!isSiteDrawing(name)) return undefined
    const issue = { ...asked, paper: asked.paper as SitePaper | undefined }
    return { pages: () => SITE_DRAWINGS[name].draw(stages, issue), pdf: () => sitePdf(stages, name, issue) }
  },
}

const riggingSource: Source = {
  papers: ['A4'],
  find: (stages, lift, asked) =>
    Object.hasOwn(stages.lift.lifts, lift)
      ? { pages: () => riggingSheets(stages, lift, asked) ?? [], pdf: () => riggingPdf(stages, lift, asked) }
      : undefined,
}

/** Bolt-up sheets of a step, or of every step. */
const boltUpSource: Source = {
  papers: HAND_PAPERS,
  find: (stages, step, asked) => {
    const issue = asked as HandIssue
    const pages = boltUpDrawings(stages, step, issue)
    return pages && { pages: () => pages, pdf: () => boltUpPdf(stages, step, issue) }
  },
}

/** The order and what waits for what. */
const orderSource: Source = {
  papers: HAND_PAPERS,
  find: (stages, name, asked) => {
    if (name !== 'order' || stages.strip.steps.length === 0) return undefined
    const issue = asked as HandIssue
    const { paper, ...rest } = issue
    return {
      pages: () => orderPages(stages, { ...rest, ...(paper && { paper }) }) ?? [],
      pdf: () => orderPdf(stages, issue),
    }
  },
}

/** Tags of services. */
const tagSource: Source = {
  papers: HAND_PAPERS,
  find: (stages, name, asked) => {
    const issue = asked as TagIssue
    const { paper, ...rest } = issue
    const pages = name === 'tags' ? tagSheets(stages, { ...rest, ...(paper && { paper }) }) : undefined
    return pages && { pages: () => pages, pdf: () => tagsPdf(stages, issue) }
  },
}

/** The report of the last day of the diary, or of the day that is its name. */
const dailySource: Source = {
  papers: HAND_PAPERS,
  find: (stages, name, asked) => {
    const issue = { ...(asked as HandIssue), day: name === 'last' ? undefined : name }
    const pages = dailyDrawings(stages, issue)
    return pages && { pages: () => pages, pdf: () => dailyPdf(stages, issue) }
  },
}

/** What the store adds to a dossier: signatures, and the photographs that records name. */
async function dossierKept(live: Live): Promise<Pick<DossierIssue, 'signatures' | 'attached'>> {
  const { document } = await live.kept()
  return {
    signatures: dossierSignatures(await signing(live).all()),
    attached: await picturesInStore([document], live.store.database),
  }
}

/** The commissioning dossier, with the signatures and the photographs that the store keeps. */
async function dossierSource(live: Live): Promise<Source> {
  const kept = await dossierKept(live)
  return {
    papers: HAND_PAPERS,
    find: (stages, name, asked) => {
      if (name !== 'dossier') return undefined
      const issue = { ...(asked as HandIssue), ...kept }
      return { pages: () => dossierDrawings(stages, issue), pdf: () => dossierPdf(stages, issue) }
    },
  }
}

/** The dossier as data. */
async function dossierSent(context: Context, live: Live, here: Here) {
  const { revision, derivation } = await live.now()
  const { stages, problems } = derivation.derived
  if (stages === undefined) return context.json({ problems }, 409)
  const issue = {
    date: dateOf(here),
    contentHash: contentHash(derivation.document),
    revision: String(revision),
    units: context.req.query('units') === 'US' ? ('US' as const) : ('SI' as const),
    ...(await dossierKept(live)),
  }
  return context.json(dossierData(stages, issue))
}

/**
 * The page for stakeholders. The issue before is the revision that is named, else the last one that was given a name before the
 * present one; undefined where no such revision is kept.
 */
async function stakeholdersSource(live: Live, since: string | undefined): Promise<Source | undefined> {
  const { revision: now, derivation } = await live.now()
  const named = await namedRevisions(live.store.database)
  const name = since ?? named.filter(({ revision }) => revision < now).at(-1)?.name
  const revision = name === undefined ? undefined : await revisionMeant(live.store, name)
  if (since !== undefined && revision === undefined) return undefined
  const earlier = revision === undefined ? undefined : (await live.derivedAt(revision))?.derived.stages
  const called = name !== undefined && /^\d+$/.test(name) ? `revision ${name}` : (name ?? '')
  return {
    papers: HAND_PAPERS,
    find: (stages, file, asked) => {
      const simulation = file === 'stakeholders' ? restartAsked(stages, ON_ASKING) : undefined
      if (simulation === undefined) return undefined
      const before = earlier && issueBefore(derivation, earlier, { name: called, date: asked.date, ...ON_ASKING })
      const issue = { ...(asked as HandIssue), simulation, before }
      return {
        pages: () => stakeholdersDrawings(stages, issue) ?? [],
        pdf: () => stakeholdersPdf(stages, issue),
      }
    },
  }
}

const programmeSource: Source = {
  papers: PROGRAMME_PAPERS,
  find: (stages, name, asked) => {
    const issue = { ...asked, paper: asked.paper as ProgrammePaper | undefined }
    const pages = name === 'programme' ? programmePages(stages, issue) : undefined
    return pages && { pages: () => pages, pdf: () => programmePdf(stages, issue) }
  },
}

const riskSource: Source = {
  papers: ['A3'],
  find: (stages, name, asked) =>
    name === 'restart' ? { pages: () => [], pdf: () => riskPdf(stages, { ...asked, ...ON_ASKING }) } : undefined,
}

const liftSource: Source = {
  papers: LIFT_PAPERS,
  find: (stages, lift, asked) => {
    if (!Object.hasOwn(stages.lift.lifts, lift)) return undefined
    const issue = asked as LiftIssue
    return { pages: () => liftSheetPages(stages, lift, issue) ?? [], pdf: () => liftSheetPdf(stages, lift, issue) }
  },
}

async function answered(context: Context, live: Live, here: Here, source: Source) {
  const { revision, derivation } = await live.now()
  const { stages } = derivation.derived
  const file = context.req.param('file') ?? ''
  const { units, paper, step, page = '1', base } = context.req.query()
  const chosen = source.papers.find((p) => p === paper)
  if (paper !== undefined && chosen === undefined)
    return refused(context, 400, 'paper', paper, source.papers.join(', '))
  const fault = base === undefined ? undefined : baseProblem(base, 'base')
  if (fault !== undefined) return context.json({ problems: [fault] }, 400)
  const asked: Asked = {
    date: dateOf(here),
    contentHash: contentHash(derivation.document),
    revision: String(revision),
    units: units === 'US' ? 'US' : 'SI',
    paper: chosen,
    step,
    base,
  }
  const found = stages && source.find(stages, file.replace(/\.(pdf|svg)$/, ''), asked)
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

/** The lists of a lift, a step, or the shift at a moment, as one file to be taken along. */
async function onSiteSent(context: Context, live: Live, here: Here) {
  const { revision, derivation } = await live.now()
  const { stages, problems } = derivation.derived
  if (stages === undefined) return context.json({ problems }, 409)
  const { lift, step, at, units } = context.req.query()
  if (at !== undefined && !isMoment(at))
    return refused(context, 400, 'at', at, 'a date, or local time on it, such as 2032-03-05T18:00')
  const scope: OnSiteScope = lift !== undefined ? { lifts: [lift] } : step !== undefined ? { step } : { at }
  const file = onSiteFile(stages, scope, {
    date: dateOf(here),
    contentHash: contentHash(derivation.document),
    revision: String(revision),
    units: units === 'US' ? 'US' : 'SI',
  })
  if (file === undefined)
    return lift !== undefined
      ? refused(context, 404, 'lift', lift, 'the id of a lift')
      : refused(context, 404, 'step', step ?? '', 'a step of the order')
  const name = lift !== undefined ? `lift-${lift}` : step !== undefined ? `step-${step}` : 'shift'
  return context.body(file, 200, {
    'content-type': 'text/html; charset=utf-8',
    'content-disposition': `attachment; filename="on-site-${name}.html"`,
  })
}

const dateOf = ({ clock }: Here): string => clock().toISOString().slice(0, 10)

function refused(context: Context, status: 400 | 404, pointer: string, found: string, expected: string) {
  const problem: Problem = { pointer, found: `"${found}"`, expected }
  return context.json({ problems: [problem] }, status)
}
