import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import AxeBuilder from '@axe-core/playwright'
import { manyPieces } from '@shieldwright/engine/report/campaign/campaign.fixture.ts'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { openWorkbench, type Workbench } from './workbench.ts'

/** A book of two pieces is made in some seconds; on a busy machine in a minute. */
const MADE = { timeout: 110_000 }

let workbench: Workbench
let page: Page
beforeAll(async () => {
  const file = join(mkdtempSync(join(tmpdir(), 'book-')), 'project.json')
  writeFileSync(file, JSON.stringify(manyPieces({ count: 2, years: 1 })))
  workbench = await openWorkbench(file)
  page = await workbench.context.newPage()
  await page.goto(`${workbench.address}#report`)
  await section().waitFor({ timeout: 60_000 })
}, 90_000)
afterAll(() => workbench?.close())

const section = () => page.getByRole('region', { name: 'Campaign book' })
const make = (letter: string) => section().getByRole('button', { name: `Make issue ${letter}` })
const download = () => section().getByRole('link', { name: 'Download the PDF' })
const issue = (letter: string) => section().getByRole('row', { name: new RegExp(`^${letter} `) })

test('the making of the book shows how far it is, and can be cancelled', async () => {
  await make('A').click()
  await section().getByRole('progressbar').waitFor()
  await section().getByRole('button', { name: 'Cancel' }).click()
  await make('A').waitFor(MADE)
  expect(await download().count()).toBe(0)
}, 120_000)

test('it is made although one leaves the page meanwhile, had as a file, and put on record as issue A', async () => {
  await make('A').click()
  await section().getByRole('progressbar').waitFor()
  await page.goto(`${workbench.address}#lift`)
  await page.goto(`${workbench.address}#report`)
  await download().waitFor(MADE)
  const [file] = await Promise.all([page.waitForEvent('download'), download().click()])
  expect(file.suggestedFilename()).toBe('campaign-book-A.pdf')
  expect(readFileSync(await file.path(), 'latin1').slice(0, 5)).toBe('%PDF-')
  await section().getByLabel('Note').fill('lift meeting')
  await section().getByRole('button', { name: 'Put on record as issue A' }).click()
  await issue('A').waitFor()
  const words = await issue('A').textContent()
  expect(words).toContain('first issue')
  // the host writes it, but this page asked for it
  const last = page.locator('.last')
  await last.getByText('campaign book issued as A').waitFor()
  expect(await last.textContent()).not.toContain('another page')
  expect(words).toContain('lift meeting')
  await make('B').waitFor()
  expect(await section().textContent()).toContain('on record')
}, 120_000)

test('the next issue is compared with the last; or any revision with any other', async () => {
  const since = section().getByRole('combobox', { name: /^compared with/ })
  expect(await since.locator('option:checked').textContent()).toBe('issue A, the last')
  await since.selectOption('a revision by its number')
  await section().getByLabel('compared with: number of the revision').fill('1')
  await make('B').click()
  await section().getByText('of revision 2, since revision 1').waitFor(MADE)
}, 120_000)

test('nothing on the section is out of reach of a reader of screens', async () => {
  const { violations } = await new AxeBuilder({ page }).include('section.book').analyze()
  expect(violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html).join(' ')}`)).toEqual([])
})
