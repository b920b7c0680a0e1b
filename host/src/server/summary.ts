import type { Context } from 'hono'
import { summaryOf } from '../../../web/src/engine/view.ts'
import type { Live } from './live.ts'

/**
 * What the page shows of the kept project, as the page's own engine would make it: for its first view, before that engine has
 * derived anything. Written once a revision.
 */
export function pageSummary(live: Live): (context: Context) => Promise<Response> {
  let written: { revision: number; text: string } | undefined
  return async (context) => {
    const { revision, derivation } = await live.now()
    if (written?.revision !== revision) {
      const { stages, problems } = derivation.derived
      const answer = stages === undefined ? { revision, problems } : { revision, problems, summary: summaryOf(stages) }
      written = { revision, text: JSON.stringify(answer) }
    }
    return context.body(written.text, 200, { 'content-type': 'application/json' })
  }
}
