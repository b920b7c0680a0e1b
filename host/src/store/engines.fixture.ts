import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll } from 'vitest'
import { type Postgres, startPostgres } from '../../../scripts/postgres.mjs'
import type { Place } from './place.ts'

/** An engine that a store can lie on, and a new empty place on it. */
export interface Engine {
  name: string
  newPlace: () => Place
}

/** Both engines, for `describe.each`; PostgreSQL is started for the tests of the file and ended after them. */
export function engines(): Engine[] {
  let server: Postgres | undefined
  let places = 0
  beforeAll(async () => {
    server = await startPostgres()
  }, 60_000)
  afterAll(() => server?.stop())
  return [
    { name: 'SQLite', newPlace: newFile },
    { name: 'PostgreSQL', newPlace: () => ({ url: server?.url ?? '', project: `project_${++places}` }) },
  ]
}

/** A SQLite file of its own that is not there yet. */
export const newFile = (): Place => ({ file: join(mkdtempSync(join(tmpdir(), 'store-')), 'project.sqlite') })
