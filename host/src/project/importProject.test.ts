import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { emptyProject } from '@shieldwright/engine/model/empty.ts'
import { describe, expect, test } from 'vitest'
import { engines } from '../store/engines.fixture.ts'
import { openStore, type Store } from '../store/store.ts'
import { importProject } from './importProject.ts'

const by = (user: string) => ({ user, clock: () => new Date('2031-11-03T07:00:00Z') })
const folder = (): string => mkdtempSync(join(tmpdir(), 'import-'))

/** The project file of one who has given it another title. */
function fileOf(title: string): string {
  const path = join(folder(), `${title}.json`)
  writeFileSync(path, JSON.stringify({ ...emptyProject(), about: { title } }))
  return path
}

/** A store that lets something happen between the look at it and the change that is made on that. */
const interrupted = (store: Store, meanwhile: () => Promise<unknown>): Store => ({
  ...store,
  current: async () => {
    const kept = await store.current()
    await meanwhile()
    return kept
  },
})

describe.each(engines())('on $name', ({ newPlace }) => {
  test('of two who bring a file into the same project at once one wins, and the other is told who came first', async () => {
    const place = newPlace()
    const [one, two] = [await openStore(place), await openStore(place)]
    expect(await importProject(one, fileOf('begun'), folder(), by('planner'))).toEqual([])
    const first = () => importProject(one, fileOf('first'), folder(), by('planner'))
    const late = await importProject(interrupted(two, first), fileOf('second'), folder(), by('chief'))
    expect(late).toMatchObject([{ found: expect.stringContaining('revision 2 of planner (imported first.json)') }])
    expect(await two.current()).toMatchObject({ revision: 2, document: { about: { title: 'first' } } })
    expect(await importProject(two, fileOf('second'), folder(), by('chief'))).toEqual([])
    expect((await one.logAfter(0)).map((entry) => entry.by)).toEqual(['planner', 'planner', 'chief'])
    for (const store of [one, two]) await store.close()
  })

  test('an edit that is kept while a file is brought in is not overwritten by it', async () => {
    const store = await openStore(newPlace())
    await importProject(store, fileOf('begun'), folder(), by('planner'))
    const edit = () =>
      store.append({
        on: 1,
        patch: [{ op: 'replace', path: '/about/title', value: 'edited' }],
        by: 'editor',
        why: '',
        at: '2031-11-03T07:00:00Z',
      })
    const late = await importProject(interrupted(store, edit), fileOf('brought in'), folder(), by('chief'))
    expect(late).toMatchObject([{ found: expect.stringContaining('revision 2 of editor') }])
    expect(await store.current()).toMatchObject({ revision: 2, document: { about: { title: 'edited' } } })
    await store.close()
  })

  test('a file with half a character in a name is refused by its place', async () => {
    const store = await openStore(newPlace())
    const path = fileOf('whole')
    writeFileSync(path, JSON.stringify({ ...emptyProject(), about: { title: 'half \ud83d' } }))
    expect(await importProject(store, path, folder(), by('planner'))).toMatchObject([{ pointer: '/about/title' }])
    expect((await store.current()).revision).toBe(0)
    await store.close()
  })
})
