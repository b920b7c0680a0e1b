import { Hono } from 'hono'
import { z } from 'zod'
import { namedRevisions, nameRevision } from '../store/baselines.ts'
import type { Here } from './api.ts'
import { comparedRevisions } from './compared.ts'
import type { Live } from './live.ts'
import { bodyAs, refusal, text } from './request.ts'

/** What is sent to name a revision. */
export const baselineRequest = z.strictObject({
  name: text(1, 80),
  revision: z.int().min(1),
  why: text(0, 500).default(''),
})

/** Routes beside the log: names of revisions, and two revisions side by side. */
export function storeRoutes(live: Live, here: Here): Hono {
  const routes = new Hono()
  routes.get('/baselines', async (context) => context.json({ baselines: await namedRevisions(live.store.database) }))
  routes.post('/baselines', async (context) => {
    const asked = await bodyAs(context, baselineRequest)
    if ('problems' in asked) return refusal(context, 400, asked.problems)
    const problems = await nameRevision(live.store, { ...asked.body, by: here.user, at: here.clock().toISOString() })
    if (problems.length > 0) return refusal(context, 400, problems)
    return context.json({ baselines: await namedRevisions(live.store.database) }, 201)
  })
  routes.get('/compare', async (context) => {
    const { from = '', to = 'now' } = context.req.query()
    const answer = await comparedRevisions(live, from, to)
    return 'problems' in answer ? refusal(context, 400, answer.problems) : context.json(answer.compared)
  })
  return routes
}
