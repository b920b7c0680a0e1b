import { expect, test } from 'vitest'
import { keepSignature } from '../signing/signature.ts'
import { newFile } from '../store/engines.fixture.ts'
import { ask, opened, signedIn } from './gate.fixture.ts'

const said = { subject: '/about', role: 'as a test', revision: 1, at: '2031-11-03T00:00:00Z', statement: '' }

test('a signature is taken back by its signer, or by an account that may give one of its kind, and by nobody else', async () => {
  const { app, store } = await opened(newFile(), ['read', 'edit', 'engineer', 'approver'])
  const kept = async (kind: 'permit' | 'test' | 'hold-point', by: string): Promise<string> => {
    const content = { basis: {} as never, figures: {}, document: undefined }
    return (await keepSignature(store.database, { ...said, ...content, kind, by })).id
  }
  const cases: [kind: 'permit' | 'test' | 'hold-point', by: string, who: string, status: number][] = [
    ['permit', 'approver', 'engineer', 403],
    ['permit', 'approver', 'edit', 403],
    ['permit', 'another', 'approver', 200],
    ['hold-point', 'approver', 'engineer', 403],
    // One who signed as an approver and is none any more.
    ['permit', 'engineer', 'engineer', 200],
    ['permit', 'read', 'read', 200],
    ['test', 'another', 'engineer', 200],
    ['test', 'engineer', 'edit', 403],
    ['test', 'engineer', 'read', 403],
  ]
  for (const [kind, by, who, status] of cases) {
    const id = await kept(kind, by)
    const body = { why: 'the gauge was misread' }
    const answer = await ask(app, 'POST', `/api/signatures/${id}/withdraw`, { body, cookie: await signedIn(app, who) })
    expect([kind, by, who, answer.status]).toEqual([kind, by, who, status])
    if (status === 403) expect(JSON.stringify(await answer.json())).toContain(`${by}, or an account that may`)
  }
  await store.close()
})
