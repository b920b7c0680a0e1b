import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { killedWriter } from '../host/src/store/killed.fixture.ts'
import type { Place } from '../host/src/store/place.ts'
import { postgresPath, startPostgres } from '../scripts/postgres.mjs'
import { atMost, type Line, reported } from './line.ts'

/** Longest time that a writer is let write, ms. */
const LONGEST = 600

/** Writers killed at random points of their writing, one after the other on one store of each engine. */
export async function killedLines(kills = 40): Promise<Line[]> {
  const file = join(mkdtempSync(join(tmpdir(), 'killed-')), 'project.sqlite')
  const lines = await linesOn('SQLite', { file }, kills)
  if (postgresPath() === undefined) return [...lines, { what: 'killed on PostgreSQL', value: 'no server', holds: true }]
  const server = await startPostgres()
  try {
    return [...lines, ...(await linesOn('PostgreSQL', { url: server.url, project: 'killed' }, kills))]
  } finally {
    await server.stop()
  }
}

async function linesOn(engine: string, place: Place, kills: number): Promise<Line[]> {
  let [writes, faults] = [0, 0]
  for (let i = 0; i < kills; i++) {
    const { acknowledged, fault } = await killedWriter(place, Math.random() * LONGEST)
    writes = Math.max(writes, acknowledged)
    if (fault === undefined) continue
    faults++
    console.error(`${engine}: ${fault}`)
  }
  return [
    reported(`writes acknowledged on ${engine}, ${kills} writers killed among them`, writes, ''),
    atMost('  after which one was lost, half visible, or a gap', faults, '', 0),
  ]
}
