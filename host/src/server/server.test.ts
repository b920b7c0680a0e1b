import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { listen } from './listen.ts'
import { server } from './server.ts'

test('the server says that it is well', async () => {
  const answer = await server({ page: builtPage() }).request('/health')
  expect(await answer.json()).toEqual({ status: 'ok' })
})

test('the page is handed out with a policy that lets no foreign script, frame or address in', async () => {
  const answer = await server({ page: builtPage() }).request('/')
  expect(await answer.text()).toBe('<p>page</p>')
  const policy = answer.headers.get('content-security-policy')?.split('; ')
  expect(policy).toEqual(
    expect.arrayContaining([
      "default-src 'self'",
      "script-src 'self' 'wasm-unsafe-eval'",
      "style-src 'self' 'unsafe-inline'",
      "img-src 'self' data: blob:",
      "worker-src 'self' blob:",
      "frame-ancestors 'none'",
    ]),
  )
  expect(answer.headers.get('x-content-type-options')).toBe('nosniff')
})

test('nothing outside the page folder is handed out', async () => {
  const page = builtPage()
  writeFileSync(join(page, '..', 'secret.txt'), 'secret')
  for (const path of ['/../secret.txt', '/%2e%2e/secret.txt', '/..%2fsecret.txt']) {
    const answer = await server({ page }).request(path)
    expect(answer.status, path).toBe(404)
  }
})

test('an opened server answers on the loopback address, and a second one on its port is refused', async () => {
  const app = server({ page: builtPage() })
  const first = await listen(app, 0)
  expect(first.address).toMatch(/^http:\/\/127\.0\.0\.1:\d+$/)
  expect((await fetch(`${first.address}/health`)).status).toBe(200)
  await expect(listen(app, Number(new URL(first.address).port))).rejects.toMatchObject({ code: 'EADDRINUSE' })
  await first.close()
})

function builtPage(): string {
  const page = mkdtempSync(join(mkdtempSync(join(tmpdir(), 'page-')), 'dist-'))
  writeFileSync(join(page, 'index.html'), '<p>page</p>')
  return page
}
