import { type Context, Hono } from 'hono'
import { streamSSE } from 'hono/streaming'
import { z } from 'zod'
import { hasEnded, type JobDesk, type JobState } from '../jobs/desk.ts'
import { isBook, toldState } from '../jobs/view.ts'
import type { Here } from './api.ts'
import { type BookMade, bookFileName, bookToMake, putOnRecord } from './bookAsked.ts'
import { jobRequest } from './jobRequest.ts'
import type { Live } from './live.ts'
import { bodyAs, refusal, text } from './request.ts'

/** What is sent to put a book on record as an issue. */
export const issueRequest = z.strictObject({ note: text(0, 2000).default('') })

/** Routes under `/api/jobs`: start, look at, follow and cancel a long computation; the book that one made, as a file and as an issue. */
export function jobRoutes(live: Live, here: Here, desk: JobDesk): Hono {
  const routes = new Hono()
  routes.post('/', (context) => started(context, live, here, desk))
  routes.get('/:id', async (context) => {
    const state = await desk.stateOf(context.req.param('id'))
    return state === undefined ? unknown(context) : context.json(toldState(state))
  })
  routes.get('/:id/events', (context) => followed(context, desk))
  routes.get('/:id/book.pdf', async (context) => {
    const book = await bookOf(desk, context.req.param('id'))
    if (book === undefined) return noBook(context)
    return context.body(Buffer.from(book.kept.pdf, 'base64'), 200, {
      'content-type': 'application/pdf',
      'content-disposition': `attachment; filename="${bookFileName(book.request.letter)}"`,
    })
  })
  // of two at once the second finds the letter taken before its file is kept, which the store never lets go again
  const inTurn = oneAfterAnother()
  routes.post('/:id/issue', (context) => inTurn(() => issued(context, live, here, desk)))
  routes.delete('/:id', async (context) =>
    (await desk.cancel(context.req.param('id'))) ? context.json({ cancelling: true }) : unknown(context),
  )
  return routes
}

/** Works one after the other, in the order in which they were asked for, however each ends. */
function oneAfterAnother(): <T>(work: () => Promise<T>) => Promise<T> {
  let last: Promise<unknown> = Promise.resolve()
  return (work) => {
    const next = last.then(work)
    last = next.catch(() => undefined)
    return next
  }
}

async function started(context: Context, live: Live, here: Here, desk: JobDesk) {
  const asked = await bodyAs(context, jobRequest)
  if ('problems' in asked) return refusal(context, 400, asked.problems)
  const work = await workOf(asked.body, live, here)
  if ('problems' in work) return refusal(context, 400, work.problems)
  const state = await desk.start(work.project, work.revision, work.request)
  if (state !== undefined) return context.json(toldState(state), hasEnded(state) ? 200 : 202)
  return context.json({ problems: [{ pointer: '', found: 'other jobs at work', expected: 'one of them to end' }] }, 429)
}

/** What a request asks for: of the latest revision, but for a book, which names its own. */
async function workOf(asked: z.infer<typeof jobRequest>, live: Live, { clock }: Here) {
  if (asked.kind === 'book') return bookToMake(live, { ...asked, date: clock().toISOString().slice(0, 10) })
  const { revision, derivation } = await live.now()
  return { project: derivation, revision, request: asked }
}

/** The book that a job made; undefined where it made none, or is not done. */
async function bookOf(desk: JobDesk, id: string): Promise<BookMade | undefined> {
  const job = await desk.stateOf(id)
  if (job?.request.kind !== 'book' || !isBook(job.result)) return undefined
  return { kept: job.result, revision: job.revision, request: job.request }
}

/** Puts the book that a job made on record. */
async function issued(context: Context, live: Live, { user, clock }: Here, desk: JobDesk) {
  const asked = await bodyAs(context, issueRequest)
  if ('problems' in asked) return refusal(context, 400, asked.problems)
  const book = await bookOf(desk, context.req.param('id') ?? '')
  if (book === undefined) return noBook(context)
  const put = await putOnRecord(live, book, { by: user, at: clock().toISOString(), note: asked.body.note })
  return 'problems' in put ? refusal(context, put.isOvertaken ? 409 : 400, put.problems) : context.json(put)
}

const noBook = (context: Context) =>
  refusal(context, 404, [{ pointer: '', found: 'no book', expected: 'the id of a job of this server that made one' }])

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
      await stream.writeSSE({ event: state.state, data: JSON.stringify(toldState(state)) })
      if (hasEnded(state)) break
      if (waiting.length === 0)
        await new Promise<void>((resolve) => {
          wake = resolve
        })
    }
    release()
  })
}
