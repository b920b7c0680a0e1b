import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Patch } from '@shieldwright/engine/working/patch.ts'
import { sql } from 'kysely'
import { describe, expect, test } from 'vitest'
import { smallProject } from '../../../engine/src/lift/small.fixture.ts'
import { type Live, liveProject } from '../server/live.ts'
import { attachmentOf } from '../store/attachments.ts'
import { engines } from '../store/engines.fixture.ts'
import type { Place } from '../store/place.ts'
import { openStore } from '../store/store.ts'
import { type Signing, signatureChecks, signing } from './signing.ts'

const said = { by: 'planner', why: 'weighed', at: '2031-11-03T00:00:00Z' }
const NEW_BAY = { centre: ['9 m', '40 m'], size: ['4 m', '4 m'], level: '0 m', allowable: '90 kPa' }
const asked = {
  kind: 'lift-sheet',
  subject: 'out',
  role: 'lift engineer',
  statement: '',
  by: 'engineer',
  at: '2031-11-02T09:00:00Z',
} as const

describe.each(engines())('on $name', ({ newPlace }) => {
  test('a signed sheet stands through edits elsewhere and is overtaken by the first that moves it, by name and figures', async () => {
    const { live, signatures } = await opened(newPlace())
    const signed = await signatures.sign({ ...asked, revision: 1 })
    expect(signed).toMatchObject({ signature: { state: 'stands', revision: 1, by: 'engineer' } })
    await edit(live, [{ op: 'replace', path: '/about/title', value: 'A block in another shaft' }])
    await edit(live, [{ op: 'add', path: '/bays/B9', value: NEW_BAY }])
    const beforeTitle = (await signatures.all())[0]
    expect(beforeTitle?.changes.filter(({ what }) => what !== 'whole')).toEqual([])
    await edit(live, [{ op: 'replace', path: '/about/title', value: 'A block in a shaft' }])
    expect(await signatures.all()).toMatchObject([{ state: 'stands' }])
    await edit(live, [{ op: 'replace', path: '/parts/block/mass/value', value: '21 t' }], 'chief')
    await edit(live, [{ op: 'remove', path: '/bays/B9' }])
    const [overtaken] = await signatures.all()
    expect(overtaken).toMatchObject({ state: 'overtaken', overtakenBy: { revision: 5, by: 'chief', why: 'weighed' } })
    expect(overtaken?.changes.map(({ at }) => at)).toContain('/parts/block/mass/value')
    const hook = overtaken?.moved.find(({ check }) => check.startsWith('lift.hook.use/'))
    expect(hook?.after?.demand).toBeGreaterThan(hook?.before?.demand as number)
    await live.store.close()
  })

  test.each(['lift-sheet', 'record'] as const)(
    'a %s of nothing that the project has cannot be signed',
    async (kind) => {
      const { live, signatures } = await opened(newPlace())
      for (const subject of ['nowhere', '__proto__', 'constructor', '/constructor', '/lifts/__proto__', '/', '\0'])
        expect(await signatures.sign({ ...asked, kind, subject, revision: 1 })).toMatchObject({ problems: [{}] })
      await live.store.close()
    },
    60_000,
  )

  test('what is taken back to what was signed stands again', async () => {
    const { live, signatures } = await opened(newPlace())
    await signatures.sign({ ...asked, revision: 1 })
    await edit(live, [{ op: 'replace', path: '/parts/block/mass/value', value: '21 t' }])
    expect(await signatures.all()).toMatchObject([{ state: 'overtaken' }])
    expect(signatureChecks(await signatures.all()).map((c) => c.verdict)).toEqual(['fail'])
    await edit(live, [{ op: 'replace', path: '/parts/block/mass/value', value: '20000 kg' }])
    expect(await signatures.all()).toMatchObject([{ state: 'stands' }])
    await live.store.close()
  })

  test('the signed document is kept byte for byte, and neither it nor the signature can be changed', async () => {
    const { live, signatures } = await opened(newPlace())
    await signatures.sign({ ...asked, revision: 1 })
    const [{ document = '', id = '' } = {}] = await signatures.all()
    const file = await attachmentOf(live.store.database, document)
    expect(new TextDecoder().decode(file?.bytes.slice(0, 5))).toBe('%PDF-')
    const { tables } = live.store.database
    for (const table of ['signature', 'attachment', 'change'])
      await expect(sql`delete from ${sql.id(table)} where 1 = 1`.execute(tables)).rejects.toThrow(/only added to/)
    const early = { by: 'engineer', at: said.at, why: 'signed too early' }
    // Two who do it at once: it is done, and told to be, once.
    const [first, second] = await Promise.all([signatures.withdraw(id, early), signatures.withdraw(id, early)])
    expect([first, second].filter((done) => done)).toHaveLength(1)
    expect(await tables.selectFrom('signature').select('id').where('withdraws', '=', id).execute()).toHaveLength(1)
    expect(await signatures.withdraw(id, { by: 'engineer', at: said.at, why: 'again' })).toBe(false)
    expect(await signatures.all()).toMatchObject([{ state: 'withdrawn', withdrawn: { why: 'signed too early' } }])
    await live.store.close()
  })

  test('a sheet with a failing check is not signed, nor one that is not there', async () => {
    const { live, signatures } = await opened(newPlace(), (d) => {
      d.parts.block.mass.value = '60 t'
    })
    expect(await signatures.sign({ ...asked, revision: 1 })).toMatchObject({ problems: [{ pointer: '/subject' }] })
    expect(await signatures.sign({ ...asked, subject: 'none', revision: 1 })).toMatchObject({ problems: [{}] })
    expect(await signatures.sign({ ...asked, revision: 7 })).toMatchObject({ problems: [{ pointer: '/revision' }] })
    expect(await signatures.all()).toEqual([])
    await live.store.close()
  })
})

async function opened(
  place: Place,
  change?: Parameters<typeof smallProject>[0],
): Promise<{ live: Live; signatures: Signing }> {
  const store = await openStore(place)
  await store.append({ on: 0, patch: [{ op: 'add', path: '', value: smallProject(change) }], ...said })
  const live = liveProject(store, mkdtempSync(join(tmpdir(), 'signing-')))
  return { live, signatures: signing(live) }
}

async function edit(live: Live, patch: Patch, by = 'planner'): Promise<void> {
  const { revision } = await live.kept()
  const changed = await live.change({ ...said, revision, patch, by })
  expect(changed.problems).toBeUndefined()
}
