import { getConnInfo } from '@hono/node-server/conninfo'
import type { Problem } from '@shieldwright/engine/working/problem.ts'
import { type Context, Hono, type MiddlewareHandler } from 'hono'
import { deleteCookie, getCookie, setCookie } from 'hono/cookie'
import { endSession, isGuarded, mayAs, openSession, type Role, sessionAccount } from '../accounts/accounts.ts'
import { audited } from '../store/audit.ts'
import type { StoreDatabase } from '../store/database.ts'
import { asking } from './asking.ts'
import { MAY_ISSUE } from './issuing.ts'
import { type Rate, rateOf } from './rate.ts'
import { isKept, lengthSaid, refusal } from './request.ts'
import { signInPage } from './signInPage.ts'

const COOKIE = 'session'

/** Tries to sign in under one name, or from one address, in a quarter of an hour. */
const TRIES = { most: 10, within: 15 * 60_000 }
/** Requests of one address in a minute: of anybody, a thousand edits a second; of who has an account to show and shows none. */
const REQUESTS = { most: 60_000, within: 60_000 }
const OF_STRANGERS = { most: 3000, within: 60_000 }

/** What a gate asks of the server. */
export interface GateOptions {
  database: StoreDatabase
  clock: () => Date
  /** Cookies go over TLS only. */
  secure: boolean
}

/**
 * Lets through who has signed in and may do what they ask for. A server without accounts has one user, the one at its keyboard,
 * and lets everything through.
 */
export function gate({ database, clock, secure }: GateOptions): Hono {
  const app = new Hono()
  const [tries, requests] = [rateOf(TRIES), rateOf(REQUESTS)]
  app.use(async (context, next) => {
    if (!requests.allows(addressOf(context), clock().getTime())) return tooMany(context)
    return next()
  })
  app.get('/sign-in', (context) => context.html(signInPage(false)))
  app.post('/sign-in', async (context) => {
    const [now, from] = [clock(), addressOf(context)]
    // Counted before anything is read, so that what is no form is no way round it.
    if (!tries.allows(`from ${from}`, now.getTime())) return tooMany(context)
    const fault = formFault(context)
    if (fault !== undefined) return refusal(context, fault.status, [fault.problem])
    const { name = '', password = '' } = await fieldsOf(context)
    if (!tries.allows(`name ${name}`, now.getTime())) return tooMany(context)
    const session = await openSession(database, { name, password, from }, now)
    if (session === undefined) return context.html(signInPage(true), 401)
    const { token, until } = session
    const maxAge = Math.round((until.getTime() - now.getTime()) / 1000)
    setCookie(context, COOKIE, token, { httpOnly: true, sameSite: 'Strict', path: '/', secure, maxAge })
    return context.redirect('/', 303)
  })
  app.post('/sign-out', async (context) => {
    const token = getCookie(context, COOKIE)
    const account = token && (await sessionAccount(database, token, clock()))
    if (token && account) await endSession(database, token, { by: account.name, at: clock().toISOString() })
    deleteCookie(context, COOKIE, { path: '/', secure })
    return context.redirect('/sign-in', 303)
  })
  app.use(onlySignedIn(database, clock, rateOf(OF_STRANGERS)))
  app.get('/api/audit', async (context) => context.json({ audit: await audited(database) }))
  return app
}

function onlySignedIn(database: StoreDatabase, clock: () => Date, strangers: Rate): MiddlewareHandler {
  return async (context, next) => {
    if (context.req.path === '/health') return next()
    const token = getCookie(context, COOKIE)
    const account = token === undefined ? undefined : await sessionAccount(database, token, clock())
    if (account === undefined) {
      // Asked for only where nobody is known: who has a session has an account.
      if (!(await isGuarded(database))) return next()
      if (!strangers.allows(addressOf(context), clock().getTime())) return tooMany(context)
      if (!context.req.path.startsWith('/api/')) return context.redirect('/sign-in', 303)
      return refusal(context, 401, [{ pointer: '', found: 'nobody signed in', expected: 'a session, from /sign-in' }])
    }
    const needed = neededFor(context.req.method, context.req.path)
    if (!mayAs(account.role, needed))
      return refusal(context, 403, [
        { pointer: '', found: `an account that may ${account.role}`, expected: `one that may ${needed}` },
      ])
    const isSignedIn = async () => (await sessionAccount(database, token as string, clock())) !== undefined
    return asking.run({ ...account, isSignedIn }, next)
  }
}

/** What one has to be allowed for a request. What is not named here and changes something needs "edit". */
function neededFor(method: string, path: string): Role {
  if (path === '/api/audit') return 'approver'
  if (method === 'GET' || method === 'HEAD' || path === '/api/preview') return 'read'
  if (/^\/api\/jobs\/[^/]+\/issue$/.test(path)) return MAY_ISSUE
  // Whoever signed may take it back, whatever they may do by now; the route looks at who it is.
  if (/^\/api\/signatures\/[^/]+\/withdraw$/.test(path)) return 'read'
  return /^\/api\/(signatures|baselines)(\/|$)/.test(path) ? 'engineer' : 'edit'
}

const tooMany = (context: Context): Response =>
  refusal(context, 429, [{ pointer: '', found: 'too many requests', expected: 'a pause' }])

/** Bytes of a name and a password. */
const LARGEST_FORM = 4096

const FORM = 'application/x-www-form-urlencoded'

/** What keeps a request from being the form of the page to sign in on; nothing of its body is read for that. */
function formFault(context: Context): { status: 400 | 411 | 413 | 415; problem: Problem } | undefined {
  const problem = (found: string, expected: string): Problem => ({ pointer: '', found, expected })
  const type = (context.req.header('content-type') ?? '').split(';', 1)[0]?.trim().toLowerCase()
  if (type !== FORM) return { status: 415, problem: problem(type || 'no type', FORM) }
  const length = lengthSaid(context)
  if (length === undefined) return { status: 411, problem: problem('no length', 'a content-length') }
  if (Number.isNaN(length)) return { status: 400, problem: problem('a length that is none', 'a content-length') }
  if (length <= LARGEST_FORM) return undefined
  return { status: 413, problem: problem(`${length} bytes`, `at most ${LARGEST_FORM} bytes`) }
}

async function fieldsOf(context: Context): Promise<{ name?: string; password?: string }> {
  const { name, password } = await context.req.parseBody().catch(() => ({}) as Record<string, unknown>)
  return {
    ...(typeof name === 'string' && isKept(name) && { name }),
    ...(typeof password === 'string' && { password }),
  }
}

function addressOf(context: Context): string {
  try {
    return getConnInfo(context).remote.address ?? 'unknown'
  } catch {
    return 'here' // No connection: asked from inside this process.
  }
}
