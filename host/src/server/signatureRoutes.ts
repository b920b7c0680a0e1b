import { SIGNED_KINDS, type SignedKind } from '@shieldwright/engine'
import { foundText, type Problem } from '@shieldwright/engine/working/problem.ts'
import { type Context, Hono } from 'hono'
import { z } from 'zod'
import { mayAs, type Role } from '../accounts/accounts.ts'
import { sha256 } from '../sha256.ts'
import { keptSignatures, type Signature } from '../signing/signature.ts'
import { signing } from '../signing/signing.ts'
import { attachmentOf, attachments, keepAttachment } from '../store/attachments.ts'
import type { Here } from './api.ts'
import { asking } from './asking.ts'
import type { Live } from './live.ts'
import { bodyAs, refusal, text } from './request.ts'

/** What is sent to sign something. */
export const signatureRequest = z.strictObject({
  kind: z.enum(SIGNED_KINDS),
  subject: text(1, 300),
  role: text(1, 80),
  statement: text(0, 500).default(''),
  revision: z.int().min(1),
})

/** What is sent to withdraw a signature. */
export const withdrawalRequest = z.strictObject({ why: text(1, 500) })

/** Kinds that let work go on: only an approver signs them. */
const APPROVED: ReadonlySet<SignedKind> = new Set(['permit', 'hold-point'])

/** What an account must be allowed to sign a kind, and to take back what another has signed of it. */
const neededToSign = (kind: SignedKind): Role => (APPROVED.has(kind) ? 'approver' : 'engineer')

/** A host without accounts has one user, who may all. */
const mayNow = (needed: Role): boolean => mayAs(asking.getStore()?.role ?? 'approver', needed)

/** Routes under `/api/signatures`: what is signed and whether it still stands; signing, and taking a signature back. */
export function signatureRoutes(live: Live, here: Here): Hono {
  const routes = new Hono()
  const signatures = signing(live)
  routes.get('/', async (context) => {
    const { revision } = await live.kept()
    return context.json({ revision, you: here.user, signatures: await signatures.all() })
  })
  routes.post('/', async (context) => {
    const asked = await bodyAs(context, signatureRequest)
    if ('problems' in asked) return refusal(context, 400, asked.problems)
    const { kind } = asked.body
    if (!mayNow(neededToSign(kind)))
      return refusal(context, 403, [{ pointer: '/kind', found: kind, expected: 'an account that may approve' }])
    const signed = await signatures.sign({ ...asked.body, by: here.user, at: here.clock().toISOString() })
    return 'problems' in signed ? refusal(context, 400, signed.problems) : context.json(signed, 201)
  })
  routes.post('/:id/withdraw', async (context) => {
    const asked = await bodyAs(context, withdrawalRequest)
    if ('problems' in asked) return refusal(context, 400, asked.problems)
    const id = context.req.param('id')
    const signed = (await keptSignatures(live.store.database)).signatures.find((signature) => signature.id === id)
    if (signed !== undefined && signed.by !== here.user && !mayNow(neededToSign(signed.kind)))
      return refusal(context, 403, [notTheirs(signed)])
    const withdrawal = { ...asked.body, by: here.user, at: here.clock().toISOString() }
    if (await signatures.withdraw(id, withdrawal)) return context.json({ withdrawn: true })
    return refusal(context, 404, [{ pointer: 'id', found: 'no such signature', expected: 'one that is not withdrawn' }])
  })
  return routes
}

const notTheirs = ({ kind, by }: Signature): Problem => ({
  pointer: 'id',
  found: `a ${kind} that ${by} signed`,
  expected: `${by}, or an account that may ${neededToSign(kind)}; to stop the work, record a hold point or a punch item`,
})

/** Media types that a browser may show where it stands; anything else is only ever saved. */
const SHOWN = new Set(['application/pdf', 'image/png', 'image/jpeg', 'image/webp'])

/** Routes under `/api/attachments`: files beside the project, each by the hash of its bytes. */
export function attachmentRoutes(live: Live, here: Here): Hono {
  const routes = new Hono()
  const { database } = live.store
  routes.get('/', async (context) => context.json({ attachments: await attachments(database) }))
  routes.get('/:hash', async (context) => {
    const file = await attachmentOf(database, context.req.param('hash'))
    if (file === undefined)
      return refusal(context, 404, [{ pointer: 'hash', found: 'no such file', expected: 'the hash of an attachment' }])
    return context.body(file.bytes.slice().buffer, 200, {
      'content-type': SHOWN.has(file.type) ? file.type : 'application/octet-stream',
      'content-disposition': `${SHOWN.has(file.type) ? 'inline' : 'attachment'}; filename*=UTF-8''${encodeURIComponent(file.name)}`,
    })
  })
  routes.post('/', async (context) => posted(context))
  return routes

  async function posted(context: Context) {
    const name = context.req.query('name') ?? ''
    if (!isFileName(name))
      return refusal(context, 400, [
        { pointer: 'name', found: `"${name.slice(0, 80)}"`, expected: 'a plain file name' },
      ])
    const bytes = new Uint8Array(await context.req.arrayBuffer())
    if (bytes.length === 0)
      return refusal(context, 400, [{ pointer: '', found: 'nothing', expected: 'the bytes of a file' }])
    const { hash } = context.req.query()
    if (hash !== undefined && hash !== sha256(bytes)) return refusal(context, 400, [otherBytes(hash, bytes)])
    const type = (context.req.header('content-type') ?? '').split(';', 1)[0] || 'application/octet-stream'
    const about = { name, type: type.slice(0, 100), by: here.user, at: here.clock().toISOString() }
    return context.json(await keepAttachment(database, about, bytes), 201)
  }
}

/** What came is not what was sent, or not what it was said to be. */
const otherBytes = (hash: string, bytes: Uint8Array): Problem => ({
  pointer: 'hash',
  found: `${bytes.length} bytes with the hash ${sha256(bytes)}`,
  expected: `bytes with the hash ${foundText(hash)}; nothing was kept`,
})

/** A name and no way: no folders, no control characters. */
const isFileName = (name: string): boolean =>
  name.length > 0 && name.length <= 200 && !/[/\\\p{Cc}]/u.test(name) && name !== '.' && name !== '..'
