import { foundText, type Problem } from '@shieldwright/engine/working/problem.ts'
import { type Context, Hono } from 'hono'
import { streamSSE } from 'hono/streaming'
import type { JobDesk, JobState } from '../jobs/desk.ts'
import type { JobRequest } from '../jobs/kinds.ts'
import type { Live } from './live.ts'

/** Routes under `/api/jobs`: start, look at, follow and cancel a long computation. */
export function jobRoutes(live: Live, desk: JobDesk): Hono {
  const routes = new Hono()
  routes.post('/', (context) => started(context, live, desk))
  routes.get('/:id', (context) => {
    const state = desk.stateOf(context.req.param('id'))
    return state === undefined ? unknown(context) : context.json(state)
  })
  routes.get('/:id/events', (context) => followed(context, desk))
  routes.delete('/:id', (context) =>
    desk.cancel(context.req.param('id')) ? context.json({ cancelling: true }) : unknown(context),
  )
  return routes
}

async function started(context: Context, live: Live, desk: JobDesk) {
  const request = requestIn(await context.req.json().catch(() => undefined))
  if ('problems' in request) return context.json(request, 400)
  const { revision, derivation } = await live.now()
  const state = desk.start(derivation, revision, request)
  if (state !== undefined) return context.json(state, 202)
  return context.json({ problems: [{ pointer: '', found: 'other jobs at work', expected: 'one of them to end' }] }, 429)
}

const unknown = (context: Context) =>
  context.json({ problems: [{ pointer: '', found: 'no such job', expected: 'the id of a job of this server' }] }, 404)

/** Every change of the job as an event of server-sent events, the present state first; ends with the job. */
function followed(context: Context, desk: JobDesk) {
  const id = context.req.param('id') ?? ''
  if (desk.stateOf(id) === undefined) return unknown(context)
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
    for (let state = desk.stateOf(id); state !== undefined && !stream.aborted; state = waiting.shift()) {
      await stream.writeSSE({ event: state.state, data: JSON.stringify(state) })
      if (state.state !== 'running') break
      if (waiting.length === 0)
        await new Promise<void>((resolve) => {
          wake = resolve
        })
    }
    release()
  })
}

const MOST_RUNS = 1_000_000
const MOST_EFFORT = 10_000_000
const MOST_SEED = 2 ** 31 - 1

type Raw = Readonly<Record<string, unknown>>

/** The job that a request asks for, or what is wrong with it. */
function requestIn(body: unknown): JobRequest | { problems: Problem[] } {
  const { kind, ...raw } = (typeof body === 'object' && body !== null ? body : {}) as Raw
  if (kind === 'simulate') return simulateIn(raw)
  if (kind === 'order') return orderIn(raw)
  if (kind === 'plan') return planIn(raw)
  if (kind === 'scenarios') return scenariosIn(raw)
  return { problems: [fault('/kind', kind, 'one of "simulate", "order", "plan", "scenarios"')] }
}

function simulateIn({ runs = 10_000, seed = 1, measures = false }: Raw): JobRequest | { problems: Problem[] } {
  const problems = [...whole('/runs', runs, 2, MOST_RUNS), ...whole('/seed', seed, 0, MOST_SEED)]
  if (problems.length > 0) return { problems }
  return { kind: 'simulate', runs: runs as number, seed: seed as number, measures: measures === true }
}

function scenariosIn({ runs = 2000, seed = 1 }: Raw): JobRequest | { problems: Problem[] } {
  const problems = [...whole('/runs', runs, 2, MOST_RUNS), ...whole('/seed', seed, 0, MOST_SEED)]
  return problems.length > 0 ? { problems } : { kind: 'scenarios', runs: runs as number, seed: seed as number }
}

function planIn({ effort = 2000, seed = 1 }: Raw): JobRequest | { problems: Problem[] } {
  const problems = [...whole('/effort', effort, 1, MOST_EFFORT), ...whole('/seed', seed, 0, MOST_SEED)]
  return problems.length > 0 ? { problems } : { kind: 'plan', effort: effort as number, seed: seed as number }
}

function orderIn({ targets, effort }: Raw): JobRequest | { problems: Problem[] } {
  const isList = targets === undefined || (Array.isArray(targets) && targets.every((id) => typeof id === 'string'))
  const problems = [
    ...(isList ? [] : [fault('/targets', targets, 'a list of ids of parts')]),
    ...(effort === undefined ? [] : whole('/effort', effort, 1, MOST_EFFORT)),
  ]
  if (problems.length > 0) return { problems }
  return { kind: 'order', targets: targets as string[] | undefined, effort: effort as number | undefined }
}

const whole = (pointer: string, value: unknown, least: number, most: number): Problem[] =>
  Number.isInteger(value) && (value as number) >= least && (value as number) <= most
    ? []
    : [fault(pointer, value, `a whole number from ${least} to ${most}`)]

const fault = (pointer: string, value: unknown, expected: string): Problem => ({
  pointer,
  found: foundText(value),
  expected,
})
