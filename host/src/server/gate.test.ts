import { execFileSync } from 'node:child_process'
import { mkdtempSync, readFileSync } from 'node:fs'
import { get } from 'node:https'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { endAccount, putAccount, type Role, sessionAccount } from '../accounts/accounts.ts'
import { hashedPassword, isPassword } from '../accounts/password.ts'
import { audited } from '../store/audit.ts'
import { engines, newFile } from '../store/engines.fixture.ts'
import { openStore } from '../store/store.ts'
import { act, ask, opened, PASSWORD, project, signedIn, signIn } from './gate.fixture.ts'
import { listen } from './listen.ts'
import { server } from './server.ts'
import { openWorkbench } from './workbench.ts'

const rename = (revision: number) => ({
  revision,
  patch: [{ op: 'replace', path: '/about/title', value: `Ring ${revision}` }],
})

describe.each(engines())('on $name', ({ newPlace }) => {
  test('each may do what the role says and no more, under their own name', async () => {
    const { app, store } = await opened(newPlace(), ['read', 'edit', 'engineer', 'approver'])
    const asks: [string, string, unknown, Role][] = [
      ['GET', '/api/project', undefined, 'read'],
      ['POST', '/api/change', rename(0), 'edit'],
      ['POST', '/api/baselines', {}, 'engineer'],
      ['POST', '/api/signatures', {}, 'engineer'],
      ['POST', '/api/jobs/job-1/issue', {}, 'engineer'],
      ['POST', '/api/change', { revision: 0, patch: [{ op: 'add', path: '/issuedBooks', value: {} }] }, 'engineer'],
      ['GET', '/api/audit', undefined, 'approver'],
    ]
    for (const role of ['read', 'edit', 'engineer', 'approver'] as const) {
      const cookie = await signedIn(app, role)
      expect(await (await ask(app, 'GET', '/api/me', { cookie })).json()).toEqual({ name: role, role })
      for (const [method, path, body, needed] of asks) {
        const { status } = await ask(app, method, path, { body, cookie })
        expect([role, path, status === 403]).toEqual([role, path, RANK.indexOf(role) < RANK.indexOf(needed)])
      }
    }
    const cookie = await signedIn(app, 'edit')
    expect((await ask(app, 'POST', '/api/change', { body: rename(1), cookie })).status).toBe(200)
    expect((await store.logAfter(1))[0]).toMatchObject({ by: 'edit' })
    await store.close()
  })

  test('who follows the changes is told none more once the session has ended', async () => {
    const { app, store } = await opened(newPlace(), ['read', 'edit'])
    const [reader, editor] = [await signedIn(app, 'read'), await signedIn(app, 'edit')]
    await ask(app, 'POST', '/api/change', { body: rename(1), cookie: editor })
    const { body } = await ask(app, 'GET', '/api/changes?after=1', { cookie: reader })
    const told = (body as ReadableStream<Uint8Array>).getReader()
    const decoder = new TextDecoder()
    let text = ''
    while (!text.includes('Ring 1')) text += decoder.decode((await told.read()).value)
    await endAccount(store.database, 'read', act)
    await ask(app, 'POST', '/api/change', { body: rename(2), cookie: editor })
    for (let next = await told.read(); !next.done; next = await told.read()) text += decoder.decode(next.value)
    expect(text).not.toContain('Ring 2')
    await store.close()
  }, 60_000)

  test('that a document went out is said by whoever may sign it: no edit of the project gets round it', async () => {
    const { app, store } = await opened(newPlace(), ['edit', 'engineer'])
    const [editor, engineer] = [await signedIn(app, 'edit'), await signedIn(app, 'engineer')]
    const send = async (patch: unknown, cookie: string) => {
      const { revision } = (await (await ask(app, 'GET', '/api/project', { cookie })).json()) as { revision: number }
      return (await ask(app, 'POST', '/api/change', { body: { revision, patch }, cookie })).status
    }
    const entry = {
      ...{ on: '2032-03-01', by: 'engineer', revision: 1, sheets: 9 },
      ...{ content: 'a'.repeat(64), file: 'b'.repeat(64) },
    }
    expect(await send([{ op: 'add', path: '/issuedBooks', value: { A: entry } }], engineer)).toBe(200)
    const whole = (more: object) => [{ op: 'replace', path: '', value: { ...project, ...more } }]
    for (const patch of [
      [{ op: 'add', path: '/issuedBooks/B', value: entry }],
      [{ op: 'replace', path: '/issuedBooks/A/by', value: 'another' }],
      [{ op: 'remove', path: '/issuedBooks/A' }],
      [{ op: 'move', from: '/issuedBooks/A', path: '/issuedBooks/B' }],
      whole({}),
      whole({ issuedBooks: { A: { ...entry, sheets: 8 } } }),
    ])
      expect([patch, await send(patch, editor)]).toEqual([patch, 403])
    expect(await send(whole({ issuedBooks: { A: entry }, about: { title: 'Another' } }), editor)).toBe(200)
    expect(await send([{ op: 'remove', path: '/issuedBooks/A' }], engineer)).toBe(200)
    await store.close()
  })

  test('nothing is told without a session, nor with a forged, an ended or another project’s one', async () => {
    const { app, store } = await opened(newPlace(), ['approver'])
    const other = await opened(newPlace(), ['approver'])
    const mine = await signedIn(app, 'approver')
    const foreign = await signedIn(other.app, 'approver')
    const statusWith = async (cookie: string) => (await ask(app, 'GET', '/api/project', { cookie })).status
    expect(await statusWith(mine)).toBe(200)
    for (const cookie of ['', 'session=', `session=${'A'.repeat(43)}`, `${mine}x`, foreign])
      expect([cookie.length, await statusWith(cookie)]).toEqual([cookie.length, 401])
    expect((await app.request('/')).status).toBe(303)
    expect((await ask(app, 'POST', '/sign-out', { cookie: mine })).status).toBe(303)
    expect(await statusWith(mine)).toBe(401)
    const again = await signedIn(app, 'approver')
    await endAccount(store.database, 'approver', act)
    expect(await statusWith(again)).toBe(401)
    await store.close()
    await other.store.close()
  })

  test('a session ends by itself, and the token cannot be found in the store', async () => {
    const { app, store } = await opened(newPlace(), ['read'])
    const token = (await signedIn(app, 'read')).slice('session='.length)
    expect(await sessionAccount(store.database, token, new Date('2031-11-03T13:00:00Z'))).toMatchObject({
      name: 'read',
    })
    expect(await sessionAccount(store.database, token, new Date('2031-11-03T22:00:00Z'))).toBeUndefined()
    expect(JSON.stringify(await store.database.tables.selectFrom('session').selectAll().execute())).not.toContain(token)
    await store.close()
  })
})

test('guessing is stopped after ten tries, for the name and for the address, and stands in the audit trail', async () => {
  const { app, store } = await opened(newFile(), ['read'])
  const statuses: number[] = []
  for (let i = 0; i < 12; i++) statuses.push((await signIn(app, 'read', `wrong phrase number ${i}`)).status)
  expect(statuses).toEqual([...Array(10).fill(401), 429, 429])
  expect((await signIn(app, 'read', PASSWORD)).status).toBe(429)
  expect((await audited(store.database)).filter(({ what }) => what === 'refused')).toHaveLength(10)
  await store.close()
})

test('who shows no session is soon stopped, and who works from the same address goes on', async () => {
  const { app, store } = await opened(newFile(), ['read'])
  const cookie = await signedIn(app, 'read')
  const asked = async (headers: { cookie?: string } = {}) => (await ask(app, 'GET', '/api/me', headers)).status
  for (let i = 0; i < 3000; i++) if ((await asked()) !== 401) throw new Error(`stopped at request ${i}`)
  expect(await asked()).toBe(429)
  for (let i = 0; i < 100; i++) expect(await asked({ cookie })).toBe(200)
  await store.close()
})

test('a request that another site’s page makes is refused, whoever has signed in', async () => {
  const { app, store } = await opened(newFile(), ['edit'])
  const cookie = await signedIn(app, 'edit')
  const headers = { origin: 'http://elsewhere.example', cookie, 'content-type': 'application/json' }
  const cross = await app.request('/api/change', { method: 'POST', headers, body: JSON.stringify(rename(1)) })
  expect(cross.status).toBe(403)
  const signing = await app.request('/sign-in', { method: 'POST', headers, body: 'name=edit' })
  expect(signing.status).toBe(403)
  expect((await store.current()).revision).toBe(1)
  await store.close()
})

test('a password is kept so that it cannot be read, and the same one twice is kept as two texts', async () => {
  const [one, two] = [await hashedPassword(PASSWORD), await hashedPassword(PASSWORD)]
  expect(one).not.toBe(two)
  expect(one).toMatch(/^scrypt\$131072\$8\$1\$/)
  expect([await isPassword(PASSWORD, one), await isPassword(`${PASSWORD} `, one)]).toEqual([true, false])
  const store = await openStore(newFile())
  const short = await putAccount(store.database, { name: 'x', role: 'read', password: 'short' }, act)
  expect(short).toMatchObject([{ pointer: 'password' }])
  await store.close()
})

test('a public address is refused without accounts, and then without a certificate', async () => {
  const data = mkdtempSync(join(tmpdir(), 'public-'))
  const wanted = { port: 0, data, host: '0.0.0.0', empty: true }
  expect(await openWorkbench(wanted)).toMatchObject({
    problems: [{ pointer: '--host', found: '0.0.0.0, and no account' }],
  })
  const store = await openStore(join(data, 'project.sqlite'))
  await putAccount(store.database, { name: 'chief', role: 'approver', password: PASSWORD }, act)
  await store.close()
  expect(await openWorkbench(wanted)).toMatchObject({ problems: [{ found: '0.0.0.0, and no certificate' }] })
})

test('over TLS it answers under its names, with the certificate it was given', async () => {
  const [cert, key] = certificate()
  const app = server({ page: tmpdir(), names: ['shaft.example'], secure: true })
  const { address, close } = await listen(app, 0, { tls: { cert, key } })
  const told = await new Promise<{ status?: number; hsts?: string | string[] }>((resolve, reject) => {
    const headers = { host: `shaft.example:${new URL(address).port}` }
    get(`${address}/health`, { ca: cert, servername: 'shaft.example', headers }, (answer) =>
      resolve({ status: answer.statusCode ?? 0, hsts: answer.headers['strict-transport-security'] ?? '' }),
    ).once('error', reject)
  })
  expect(told.status).toBe(200)
  expect(told.hsts).toMatch(/max-age=\d+/)
  await close()
})

const RANK: readonly Role[] = ['read', 'edit', 'engineer', 'approver']

/** A certificate of its own for a day, and its key. */
function certificate(): [cert: string, key: string] {
  const folder = mkdtempSync(join(tmpdir(), 'tls-'))
  const [cert, key] = [join(folder, 'cert.pem'), join(folder, 'key.pem')]
  const subject = ['-subj', '/CN=shaft.example', '-addext', 'subjectAltName=DNS:shaft.example']
  const words = ['req', '-x509', '-newkey', 'ec', '-pkeyopt', 'ec_paramgen_curve:P-256', '-nodes', '-days', '1']
  execFileSync('openssl', [...words, ...subject, '-keyout', key, '-out', cert], { stdio: 'ignore' })
  return [readFileSync(cert, 'utf8'), readFileSync(key, 'utf8')]
}
