import { tmpdir } from 'node:os'
import type { Hono } from 'hono'
import { expect } from 'vitest'
import { putAccount, type Role } from '../accounts/accounts.ts'
import type { Place } from '../store/place.ts'
import { openStore, type Store } from '../store/store.ts'
import { api } from './api.ts'
import { asking } from './asking.ts'
import { gate } from './gate.ts'
import { liveProject } from './live.ts'
import { server } from './server.ts'

export const PASSWORD = 'a long enough phrase'
export const act = { by: 'keeper', at: '2031-11-03T00:00:00Z' }
/** The project that stands behind the gate. */
export const project = { schemaVersion: 1, about: { title: 'A ring' }, settings: { near: 0.9 } }

/** A project behind its gate, with an account for each role, named for it. */
export async function opened(place: Place, roles: readonly Role[]): Promise<{ app: Hono; store: Store }> {
  const store = await openStore(place)
  await store.append({ on: 0, patch: [{ op: 'add', path: '', value: project }], why: 'began', ...act })
  for (const role of roles) await putAccount(store.database, { name: role, role, password: PASSWORD }, act)
  const clock = () => new Date('2031-11-03T07:00:00Z')
  const here = {
    get user() {
      return asking.getStore()?.name ?? 'keyboard'
    },
    clock,
  }
  const entrance = gate({ database: store.database, clock, secure: false })
  return { app: server({ page: tmpdir(), api: api(liveProject(store, tmpdir()), here), gate: entrance }), store }
}

/** Sends the form of the page to sign in on. */
export const signIn = (app: Hono, name: string, password: string) =>
  app.request('/sign-in', {
    method: 'POST',
    headers: { 'content-type': 'application/x-www-form-urlencoded', 'content-length': '80' },
    body: new URLSearchParams({ name, password }).toString(),
  })

/** The cookie of one who has signed in. */
export async function signedIn(app: Hono, name: string): Promise<string> {
  const answer = await signIn(app, name, PASSWORD)
  expect(answer.status).toBe(303)
  const cookie = answer.headers.get('set-cookie') ?? ''
  expect(cookie).toMatch(/; HttpOnly; SameSite=Strict/)
  return cookie.split(';', 1)[0] ?? ''
}

interface Sent {
  body?: unknown
  cookie?: string
}

/** A request of one who has signed in, or of nobody. */
export const ask = (app: Hono, method: string, path: string, { body, cookie = '' }: Sent) =>
  app.request(path, {
    method,
    headers: { cookie, 'content-type': 'application/json' },
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  })
