import { connect } from 'node:net'
import type { Hono } from 'hono'
import { expect, test } from 'vitest'
import { newFile } from '../store/engines.fixture.ts'
import { openApi } from './description/openapi.ts'
import { opened, PASSWORD, signedIn, signIn } from './gate.fixture.ts'
import { listen } from './listen.ts'

const FORM = 'application/x-www-form-urlencoded'
const words = new URLSearchParams({ name: 'read', password: PASSWORD }).toString()

const post = (app: Hono, headers: Record<string, string>, body: BodyInit = words) =>
  app.request(new Request('http://localhost/sign-in', { method: 'POST', headers, body, duplex: 'half' } as RequestInit))

const pieces = () =>
  new ReadableStream<Uint8Array>({
    start: (controller) => {
      controller.enqueue(new TextEncoder().encode(words))
      controller.close()
    },
  })

test.each<[string, number, Record<string, string>, (() => BodyInit)?]>([
  ['too long', 413, { 'content-type': FORM, 'content-length': '5000' }, () => `${words}&x=${'y'.repeat(5000)}`],
  ['longer than a number', 413, { 'content-type': FORM, 'content-length': '9'.repeat(40) }],
  ['of a length that is none', 400, { 'content-type': FORM, 'content-length': '-1' }],
  ['in pieces', 411, { 'content-type': FORM }, pieces],
  ['in pieces, and of a length', 411, { 'content-type': FORM, 'content-length': '9', 'transfer-encoding': 'chunked' }],
  ['JSON', 415, { 'content-type': 'application/json', 'content-length': '30' }, () => JSON.stringify({ name: 'read' })],
  ['of many parts', 415, { 'content-type': 'multipart/form-data; boundary=x', 'content-length': '30' }],
  ['of no type', 415, { 'content-length': '30' }, () => new Uint8Array(30)],
])('a form to sign in that is %s is refused, and counted as a try', async (_, status, headers, body) => {
  const { app, store } = await opened(newFile(), ['read'])
  for (let i = 0; i < 10; i++) expect((await post(app, headers, body?.())).status).toBe(status)
  expect((await post(app, headers, body?.())).status).toBe(429)
  expect((await signIn(app, 'read', PASSWORD)).status).toBe(429)
  await store.close()
})

test('one who says that much will come, and sends little, is answered at once, and the server goes on', async () => {
  const { app, store } = await opened(newFile(), ['read'])
  const { address, close } = await listen(app, 0)
  const { port, host } = new URL(address)
  const head = `POST /sign-in HTTP/1.1\r\nhost: ${host}\r\ncontent-type: ${FORM}\r\ncontent-length: 10000000000\r\n\r\nname=`
  const answer = await new Promise<string>((resolve, reject) => {
    const socket = connect(Number(port), '127.0.0.1', () => socket.write(head))
    socket.once('data', (bytes) => {
      resolve(bytes.toString())
      socket.destroy()
    })
    socket.once('error', reject)
  })
  expect(answer).toMatch(/^HTTP\/1.1 413 /)
  expect((await fetch(`${address}/health`)).status).toBe(200)
  await close()
  await store.close()
})

test('whoever signs in gets a session of their own, whatever token their browser was given before', async () => {
  const { app, store } = await opened(newFile(), ['read'])
  const planted = 'A'.repeat(43)
  const body = new URLSearchParams({ name: 'read', password: PASSWORD }).toString()
  const headers = { 'content-type': FORM, 'content-length': String(body.length), cookie: `session=${planted}` }
  const answer = await app.request('/sign-in', { method: 'POST', headers, body })
  expect(answer.headers.get('set-cookie')).not.toContain(planted)
  const asPlanted = await app.request('/api/project', { headers: { cookie: `session=${planted}` } })
  expect(asPlanted.status).toBe(401)
  await store.close()
})

test('who began to sign in before the password was changed has no session after it', async () => {
  const { app, store } = await opened(newFile(), ['read'])
  const pending = signIn(app, 'read', PASSWORD)
  // Trying the password takes far longer than this.
  while ((await store.database.tables.selectFrom('account').select('password').execute()).length === 0);
  await new Promise((resolve) => setTimeout(resolve, 30))
  await store.database.tables.updateTable('account').set({ password: 'another' }).where('name', '=', 'read').execute()
  expect((await pending).status).toBe(401)
  expect(await store.database.tables.selectFrom('session').selectAll().execute()).toEqual([])
  await store.close()
})

test('no route that writes answers to a page of another site, whoever has signed in', async () => {
  const { app, store } = await opened(newFile(), ['approver'])
  const cookie = await signedIn(app, 'approver')
  const routes = Object.entries(openApi().paths as Record<string, object>).flatMap(([path, methods]) =>
    Object.keys(methods).flatMap((method) => (method === 'get' ? [] : [[method, path.replace(/\{\w+\}/g, 'x')]])),
  )
  expect(routes.length).toBeGreaterThan(10)
  for (const [method = '', path = ''] of routes)
    for (const origin of ['https://elsewhere.example', 'null', 'http://localhost:1']) {
      const answer = await app.request(path, { method: method.toUpperCase(), headers: { origin, cookie } })
      expect([method, path, origin, answer.status]).toEqual([method, path, origin, 403])
    }
  await store.close()
})
