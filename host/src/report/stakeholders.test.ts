import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { changeDerivation, type Derivation, startDerivation } from '@shieldwright/engine'
import type { Patch } from '@shieldwright/engine/working/patch.ts'
import { beforeAll, expect, test } from 'vitest'
import { readDocument } from '../project/readDocument.ts'
import { api } from '../server/api.ts'
import { liveProject } from '../server/live.ts'
import { nameRevision } from '../store/baselines.ts'
import { openStore, type Store } from '../store/store.ts'
import { issueBefore } from './stakeholders.ts'

const file = new URL('../../../examples/under-way/project.yaml', import.meta.url)
const RUNS = { runs: 200, seed: 1 }
const DAY = 86_400
/** Ten days more of piling are left than the example says. */
const LONGER: Patch = [{ op: 'replace', path: '/programme/progress/C040/remainingDays', value: [26, 29, 36] }]
const { document } = (await readDocument(file.pathname)) as { document: object }
const then = startDerivation(document)
const now = changeDerivation(then, LONGER).derivation as Derivation

test('the issue before tells what moved the plan since it, not since the baseline that the project keeps', () => {
  const before =
    then.derived.stages && issueBefore(now, then.derived.stages, { name: 'A', date: '2032-06-24', ...RUNS })
  const [was, is] = [then, now].map(({ derived }) => derived.stages?.programme.restart as number) as [number, number]
  expect(is - was).toBeGreaterThan(DAY)
  expect(before?.slippage?.restart?.slip).toBeCloseTo(is - was, 3)
  expect(before?.slippage?.causes[0]).toMatchObject({ activity: 'C040', kind: 'took longer', delays: ['rig'] })
  expect(now.derived.stages?.programme.slippage?.baseline).toBe('agreed')
})

let store: Store
beforeAll(async () => {
  store = await openStore(join(mkdtempSync(join(tmpdir(), 'stakeholders-')), 'project.sqlite'))
  const append = (on: number, patch: Patch) => store.append({ on, patch, by: 'planner', why: 'progress', at: 'now' })
  await append(0, [{ op: 'add', path: '', value: document }])
  await nameRevision(store, { name: 'June', revision: 1, at: 'now', by: 'manager', why: 'issued' })
  await append(1, LONGER)
})

test('on the page the issue before is the last revision that was given a name, or the one that is asked for', async () => {
  const here = { user: 'tester', clock: () => new Date('2032-06-24T17:00:00Z') }
  const app = api(liveProject(store, tmpdir()), here)
  const page = async (query: string) => {
    const answer = await app.request(`/report/stakeholders/stakeholders.${query}`)
    return { status: answer.status, text: await answer.text() }
  }
  expect((await page('svg')).text).toContain('since June')
  expect((await page('svg?since=1&paper=Letter')).text).toContain('since revision 1')
  expect((await page('svg?since=July')).status).toBe(404)
  expect((await page('pdf')).text.slice(0, 5)).toBe('%PDF-')
})
