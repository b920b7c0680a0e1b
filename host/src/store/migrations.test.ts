import { sql } from 'kysely'
import { describe, expect, test } from 'vitest'
import { engines } from './engines.fixture.ts'
import { PlaceFault } from './place.ts'
import { openStore } from './store.ts'

const said = { by: 'tester', why: 'to see', at: '2031-11-03T00:00:00Z' }

describe.each(engines())('on $name', ({ newPlace }) => {
  test('a store that a later version has written is told to be one, and left as it is', async () => {
    const place = newPlace()
    const store = await openStore(place)
    const { tables } = store.database
    await sql`insert into kysely_migration (name, timestamp) values ('9999-later', '2031-11-03')`.execute(tables)
    const fault = await openStore(place).catch((error: unknown) => error)
    expect(fault).toBeInstanceOf(PlaceFault)
    expect((fault as PlaceFault).problem.found).toContain('a later version')
    await store.close()
  })

  test('a step that was cut off half way is done again, and what was kept before it is there', async () => {
    const place = newPlace()
    const store = await openStore(place)
    await store.append({ on: 0, patch: [{ op: 'add', path: '', value: { n: 1 } }], ...said })
    // As it stands where the program ended in the middle of the second step: its first table made, the rest not.
    const { tables } = store.database
    for (const name of ['attachment', 'signature', 'audit', 'account', 'session', 'job_result', 'job'])
      await sql`drop table ${sql.id(name)}`.execute(tables)
    await sql`delete from kysely_migration where name > '0001-log'`.execute(tables)
    await store.close()
    const again = await openStore(place)
    expect((await again.current()).document).toEqual({ n: 1 })
    expect(await again.append({ on: 1, patch: [{ op: 'replace', path: '/n', value: 2 }], ...said })).toEqual({
      revision: 2,
    })
    for (const name of ['change', 'attachment', 'job'] as const)
      expect(await again.database.tables.selectFrom(name).selectAll().execute()).toHaveLength(name === 'change' ? 2 : 0)
    await again.close()
  })
})
