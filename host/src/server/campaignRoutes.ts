import { CAMPAIGN_PAPERS, type Paper } from '@shieldwright/engine/report/campaign/index.ts'
import { svgOf } from '@shieldwright/engine/report/index.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { type Context, Hono } from 'hono'
import { contentHash } from '../project/contentHash.ts'
import { type CampaignIssue, campaignPage, campaignPdf } from '../report/campaign.ts'
import type { Here } from './api.ts'
import type { Live } from './live.ts'

/**
 * Routes under `/api/report`: the campaign diagram as PDF and as SVG. `units`, `paper` and `simulated` (four instants in UTC
 * milliseconds: P10, P50, P80, P90) stand in the query.
 */
export function campaignRoutes(live: Live, here: Here): Hono {
  const routes = new Hono()
  routes.get('/campaign.pdf', (context) => campaign(context, live, here, 'pdf'))
  routes.get('/campaign.svg', (context) => campaign(context, live, here, 'svg'))
  return routes
}

async function campaign(context: Context, live: Live, { clock }: Here, kind: 'pdf' | 'svg') {
  const { units, paper = 'A2', simulated } = context.req.query()
  if (!isPaper(paper)) return refused(context, 400, 'paper', paper, CAMPAIGN_PAPERS.join(', '))
  const chances = simulated === undefined ? undefined : instantsIn(simulated)
  if (simulated !== undefined && chances === undefined)
    return refused(
      context,
      400,
      'simulated',
      simulated,
      'four instants in rising order, UTC milliseconds, between commas',
    )
  const { revision, derivation } = await live.now()
  const { stages } = derivation.derived
  const issue: CampaignIssue = {
    date: clock().toISOString().slice(0, 10),
    contentHash: contentHash(derivation.document),
    revision: String(revision),
    units: units === 'US' ? 'US' : 'SI',
    paper,
    ...(chances === undefined ? {} : { simulated: chances }),
  }
  const page = stages && campaignPage(stages, issue)
  if (stages === undefined || page === undefined)
    return refused(context, 404, 'campaign', 'no campaign', 'a programme with lifts in its order')
  if (kind === 'svg') return context.body(svgOf(page), 200, { 'content-type': 'image/svg+xml' })
  const pdf = (await campaignPdf(stages, issue)) as Uint8Array
  return context.body(pdf.slice().buffer, 200, {
    'content-type': 'application/pdf',
    'content-disposition': `inline; filename="campaign-${paper}.pdf"`,
  })
}

const isPaper = (text: string): text is Paper => (CAMPAIGN_PAPERS as readonly string[]).includes(text)

function instantsIn(text: string): CampaignIssue['simulated'] | undefined {
  const instants = text.split(',').map(Number)
  const rises = instants.every((at, i) => Number.isFinite(at) && at >= (instants[i - 1] ?? 0))
  return rises && instants.length === 4 ? (instants as unknown as CampaignIssue['simulated']) : undefined
}

function refused(context: Context, status: 400 | 404, pointer: string, found: string, expected: string) {
  const problem: Problem = { pointer, found: `"${found}"`, expected }
  return context.json({ problems: [problem] }, status)
}
