import { type Context, Hono } from 'hono'
import { streamSSE } from 'hono/streaming'
import { hasEnded, type JobDesk, type JobState } from '../jobs/desk.ts'
import { jobRequest } from './jobRequest.ts'
import type { Live } from './live.ts'
import { bodyAs, refusal } from './request.ts'

/** Routes under `/api/jobs`: start, look at, follow and cancel a long computation. */
export function jobRoutes(live: Live, desk: JobDesk): Hono {
  const routes = new Hono()
  routes.post('/', (context) => started(context, live, desk))
  routes.get('/:id', async (context) => {
    const state = await desk.stateOf(context.req.param('id'))
    return state === undefined ? unknown(context) : context.json(state)
  })
  routes.get('/:id/events', (context) => followed(context, desk))
  routes.delete('/:id', async (context) =>
    (await desk.cancel(context.req.param('id'))) ? context.json({ cancelling: true }) : unknown(context),
  )
  return routes
}

async function started(context: Context, live: Live, desk: JobDesk) {
  const request = await bodyAs(context, jobRequest)
  if ('problems' in request) return refusal(context, 400, request.problems)
  const { revision, derivation } = await live.now()
  const state = await desk.start(derivation, revision, request.body)
  if (state !== undefined) return context.json(state, hasEnded(state) ? 200 : 202)
  return context.json({ problems: [{ pointer: '', found: 'other jobs at work', expected: 'one of them to end' }] }, 429)
}

const unknown = (context: Context) =>
  context.json({ problems: [{ pointer: '', found: 'no such job', expected: 'the id of a job of this server' }] }, 404)

/** Every change of the job as an event of server-sent events, the present state first; ends with the job. */
async function followed(context: Context, desk: JobDesk) {
  const id = context.req.param('id') ?? ''
  if ((await desk.stateOf(id)) === undefined) return unknown(context)
  return streamSSE(context, async (stream) => {
    const waiting: JobState[] = []
    let wake = (): void => undefined
    const release = desk.watch(id, (state) => {
      waiting.push(state)
      wake()
    })
    stream.onAbort(() => {
      release()
      wake()
    })
    for (let state = await desk.stateOf(id); state !== undefined && !stream.aborted; state = waiting.shift()) {
      await stream.writeSSE({ event: state.state, data: JSON.stringify(state) })
      if (hasEnded(state)) break
      if (waiting.length === 0)
        await new Promise<void>((resolve) => {
          wake = resolve
        })
    }
    release()
  })
}
