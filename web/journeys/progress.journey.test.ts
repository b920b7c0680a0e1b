import AxeBuilder from '@axe-core/playwright'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { openWorkbench, type Workbench } from './workbench.ts'

let workbench: Workbench
let page: Page
beforeAll(async () => {
  workbench = await openWorkbench()
  page = await workbench.context.newPage()
  await page.goto(`${workbench.address}#programme`)
  await progress()
    .getByRole('heading', { name: /^Three weeks from/ })
    .waitFor({ timeout: 60_000 })
}, 90_000)
afterAll(() => workbench?.close())

const progress = () => page.locator('section.progress')
const said = async (): Promise<string> => ((await progress().textContent()) ?? '').replaceAll(/\s+/g, ' ')

/** Keeps the edit that is looked at and waits until the page says so. */
async function keep(): Promise<void> {
  await page.getByRole('button', { name: /^Keep Ctrl/ }).click()
  await page.getByRole('button', { name: /^Keep Ctrl/ }).waitFor({ state: 'detached' })
}

test('without a data date everything is a forecast, and the first weeks are those of the start', async () => {
  expect(await said()).toContain('no data date yet')
  expect(await said()).toContain('Three weeks from Mon 3 Nov 2031')
  expect(await said()).toMatch(
    /continuous: .*00:00 to 24:00\s*Stop recorded, machine made safe, face supported\s*00:00\s*24:00\s*goes on/,
  )
  expect(await said()).toContain('No baseline is kept')
})

test('the plan is kept as a baseline, an edit like any other; the restart is then as planned', async () => {
  await progress().getByRole('button', { name: 'Keep the plan as a baseline' }).click()
  await keep()
  await expect.poll(said).toMatch(/Restart as planned against “Plan kept on/)
})

test('of a table of progress the bad rows are named with what is due, and the rest shows what it moves before it is kept', async () => {
  const table = [
    'activity,start,finish,remaining days,note',
    'A010,2031-11-03,2031-11-12,,face water',
    'A020,2031-11-05,2032-01-05,,',
    'NOPE,2031-11-05,,,',
  ].join('\n')
  await progress().getByLabel('Known up to').fill('2031-11-14')
  await progress()
    .getByLabel('Table of progress')
    .setInputFiles({ name: 'week 1.csv', mimeType: 'text/csv', buffer: Buffer.from(table) })
  const report = progress().getByRole('status', { name: 'Report of the table' })
  await report.waitFor()
  const words = await report.textContent()
  expect(words).toContain('1 rows would change something')
  expect(words).toContain('2 refused')
  expect(words).toContain('row 4, column "activity": found "NOPE", expected the id of an activity')
  expect(words).toContain('a date not after the data date')
  await report.getByRole('button', { name: 'Show what it moves' }).click()
  await keep()
  await expect.poll(said).toContain('1 of ')
  expect(await said()).toMatch(/as of Fri 14 Nov 2031|as of Sat 15 Nov 2031/)
})

test('the restart is late by what the causes along the driving path add up to', async () => {
  await expect.poll(said).toMatch(/Restart [\d.]+ days late against/)
  const late = Number(/Restart ([\d.]+) days late/.exec(await said())?.[1])
  const causes = progress().getByRole('table').filter({ hasText: 'On the driving path' }).locator('tbody tr')
  const days = await causes.locator('td.num').allInnerTexts()
  const sum = days.reduce((total, text) => total + Number(text.replace('−', '-')), 0)
  expect(Math.abs(sum - late)).toBeLessThan(0.06 * days.length + 0.06)
  expect(await causes.first().textContent()).toContain('began late')
})

test('nothing on the section is out of reach of a reader of screens', async () => {
  const { violations } = await new AxeBuilder({ page }).include('section.progress').analyze()
  expect(violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html).join(' ')}`)).toEqual([])
})
