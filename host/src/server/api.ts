import { whatIf } from '@shieldwright/engine'
import { meshBytes } from '@shieldwright/engine/numeric/meshBytes.ts'
import { readPointer } from '@shieldwright/engine/working/pointer.ts'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { type Context, Hono, type MiddlewareHandler } from 'hono'
import { bodyLimit } from 'hono/body-limit'
import { type JobDesk, jobDesk } from '../jobs/desk.ts'
import { jobResults } from '../jobs/results.ts'
import { asking } from './asking.ts'
import { changeIn, patchIn } from './body.ts'
import { campaignRoutes } from './campaignRoutes.ts'
import { changesFollowed } from './changes.ts'
import { openApi } from './description/openapi.ts'
import { exchangeRoutes } from './exchangeRoutes.ts'
import { faultAnswer } from './faultAnswer.ts'
import { issueProblem } from './issuing.ts'
import { jobRoutes } from './jobRoutes.ts'
import type { Live } from './live.ts'
import { paperRoutes } from './paperRoutes.ts'
import { lengthSaid } from './request.ts'
import { attachmentRoutes, signatureRoutes } from './signatureRoutes.ts'
import { storeRoutes } from './storeRoutes.ts'
import { pageSummary } from './summary.ts'
import { verificationRoutes } from './verificationRoutes.ts'
import { derivedView, logView, workingView } from './view.ts'

const LARGEST_BODY = 4 * 1024 * 1024
/** A photograph as the camera of a tablet makes it. */
const LARGEST_ATTACHMENT = 12 * 1024 * 1024

/** Who makes the changes that come in over this API, and when it is. */
export interface Here {
  user: string
  clock: () => Date
}

/** The API under `/api`: the project, its changes and what follows from them. */
export function api(live: Live, here: Here, desk: JobDesk = jobDesk(jobResults(live.store.database))): Hono {
  const routes = new Hono()
  const [ofFile, ofAnything] = [limitedTo(LARGEST_ATTACHMENT), limitedTo(LARGEST_BODY)]
  routes.use((context, next) => (context.req.path.endsWith('/attachments') ? ofFile : ofAnything)(context, next))
  routes.use(async (context, next) =>
    context.req.url.includes('%00')
      ? refused(context, 400, [queryProblem('', 'an address without the character NUL')])
      : next(),
  )
  const description = openApi()
  routes.get('/openapi.json', (context) => context.json(description))
  routes.get('/me', (context) => context.json({ name: here.user, role: asking.getStore()?.role }))
  routes.get('/project', async (context) => context.json(await live.kept()))
  routes.post('/change', (context) => changed(context, live, here))
  routes.get('/derived', async (context) => {
    const { revision, derivation } = await live.now()
    const { stages, problems } = derivation.derived
    return context.json({ revision, problems, ...(stages === undefined ? {} : derivedView(stages)) })
  })
  routes.get('/summary', pageSummary(live))
  routes.post('/preview', (context) => previewed(context, live))
  routes.get('/meshes/:hash', async (context) => {
    const mesh = (await live.now()).derivation.meshes.get(context.req.param('hash'))
    if (mesh === undefined) return refused(context, 404, [queryProblem('hash', 'the content hash of a mesh in use')])
    return context.body(meshBytes(mesh), 200, { 'content-type': 'application/octet-stream' })
  })
  routes.get('/working', (context) => working(context, live))
  routes.route('/report', paperRoutes(live, here))
  routes.route('/report', campaignRoutes(live, here))
  routes.route('/exchange', exchangeRoutes(live, here))
  routes.get('/log', (context) => log(context, live, here))
  routes.get('/changes', (context) => {
    const after = afterIn(context)
    return after === undefined ? refused(context, 400, [noRevision]) : changesFollowed(context, live, after)
  })
  routes.route('/jobs', jobRoutes(live, here, desk))
  routes.route('/', storeRoutes(live, here))
  routes.route('/signatures', signatureRoutes(live, here))
  routes.route('/attachments', attachmentRoutes(live, here))
  routes.route('/verification', verificationRoutes())
  routes.onError(faultAnswer)
  routes.all('*', (context) => refused(context, 404, [queryProblem(context.req.path, 'an address that the API knows')]))
  return routes
}

/** The revision after which the log is asked for; undefined when it is none. */
function afterIn(context: Context): number | undefined {
  const after = Number(context.req.query('after') ?? 0)
  return Number.isSafeInteger(after) && after >= 0 ? after : undefined
}

/** The log as it reads; with `values=yes` what each change wrote and what takes it back. */
async function log(context: Context, live: Live, { user }: Here) {
  const after = afterIn(context)
  if (after === undefined) return refused(context, 400, [noRevision])
  if (context.req.query('values') === 'yes')
    return context.json({ changes: await live.reversibleAfter(after), you: user })
  return context.json({ changes: (await live.logAfter(after)).map(logView) })
}

/** Refuses what is larger, as soon as it is: nothing beyond the limit is read. */
function limitedTo(maxSize: number): MiddlewareHandler {
  const onError = (context: Context): Response =>
    refused(context, 413, [
      { pointer: '', found: 'a larger request', expected: `at most ${maxSize / 1024 / 1024} MB (${maxSize} bytes)` },
    ])
  const counted = bodyLimit({ maxSize, onError })
  return async (context, next) => {
    const length = lengthSaid(context)
    if (length === undefined) return counted(context, next)
    return length <= maxSize ? next() : onError(context)
  }
}

const queryProblem = (pointer: string, expected: string): Problem => ({ pointer, found: 'something else', expected })
const noRevision = queryProblem('after', 'a revision')

const refused = (context: Context, status: 400 | 403 | 404 | 413, problems: readonly Problem[]) =>
  context.json({ problems }, status)

/** The body as JSON, or undefined: what it should have been is said by whoever reads it. */
const bodyOf = (context: Context): Promise<unknown> => context.req.json().catch(() => undefined)

async function changed(context: Context, live: Live, { user, clock }: Here) {
  const asked = changeIn(await bodyOf(context))
  if ('problems' in asked) return refused(context, 400, asked.problems)
  const mayNot = await issueProblem(asking.getStore()?.role ?? 'approver', live.kept, asked.patch)
  if (mayNot !== undefined) return refused(context, 403, [mayNot])
  const result = await live.change({ ...asked, by: user, at: clock().toISOString() })
  if (result.behind !== undefined) {
    const { revision, behind, problems } = result
    return context.json({ revision, changed: behind, problems }, 409)
  }
  if (result.problems !== undefined) return refused(context, 400, result.problems)
  const { revision, under, same } = result
  return context.json({ revision, ...(under.length > 0 && { under }), ...(same && { same }) })
}

async function previewed(context: Context, live: Live) {
  const asked = patchIn(await bodyOf(context))
  if ('problems' in asked) return refused(context, 400, asked.problems)
  const { revision, derivation } = await live.now()
  const result = whatIf(derivation, asked.patch)
  if (result.whatIf === undefined) return refused(context, 400, result.problems)
  return context.json({ revision, ...result.whatIf })
}

async function working(context: Context, live: Live) {
  const { check: id, side = 'demand', path = '', units = 'SI' } = context.req.query()
  const names = readPointer(path)
  if (side !== 'demand' && side !== 'capacity')
    return refused(context, 400, [queryProblem('side', 'demand or capacity')])
  if (units !== 'SI' && units !== 'US') return refused(context, 400, [queryProblem('units', 'SI or US')])
  if (names === undefined)
    return refused(context, 400, [queryProblem('path', 'names as a JSON Pointer, such as "/W/m"')])
  const { stages } = (await live.now()).derivation.derived
  const check = stages?.checks.find((c) => c.id === id)
  const view = check && workingView(check, side, names, units)
  return view === undefined
    ? refused(context, 404, [queryProblem('check', 'a check, and names of inputs under it that have a working')])
    : context.json(view)
}
