import { expect, test } from 'vitest'
import { demoProject } from '../host/src/project/demo.ts'
import { readDocument } from '../host/src/project/readDocument.ts'
import { soakLines } from './soak.ts'
import { storeLines } from './store.ts'
import { waitingLines } from './waiting.ts'

const read = readDocument(demoProject)
const demo = 'document' in read ? (read.document as object) : {}

test('what one writer keeps, waiting for each end or not, is a log that opens at its last revision', async () => {
  const lines = await storeLines(demo, { edits: 200, longLog: 3000 })
  expect(lines.filter(({ holds, isTime }) => !holds && !isTime)).toEqual([])
  expect(lines.map(({ what }) => what)).toContain('a log of 3399 entries opened')
})

test('one writer who waits for each answer keeps every edit over HTTP, and is told where the time of one goes', async () => {
  const lines = await waitingLines(demo, 20)
  expect(lines.filter(({ holds, isTime }) => !holds && !isTime)).toEqual([])
})

test('open pages hear of every edit once and in order, and memory stays flat', async () => {
  const lines = await soakLines(demo, { pages: 10, rounds: 3, edits: 12 })
  expect(lines.filter(({ holds }) => !holds)).toEqual([])
})
