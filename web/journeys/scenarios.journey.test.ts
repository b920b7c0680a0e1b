import AxeBuilder from '@axe-core/playwright'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { openWorkbench, type Workbench } from './workbench.ts'

let workbench: Workbench
let page: Page
beforeAll(async () => {
  workbench = await openWorkbench()
  page = await workbench.context.newPage()
  await page.goto(`${workbench.address}#risk`)
  await section().waitFor({ timeout: 60_000 })
}, 90_000)
afterAll(() => workbench?.close())

const section = () => page.locator('section.scenarios')
const row = (name: string) => section().getByRole('row', { name })

test('scenarios stand side by side with verdicts, restart and cost, on the same luck', async () => {
  expect(await section().textContent()).toContain('3 branches of this project')
  await section().getByRole('button', { name: 'Work it out' }).click()
  await section().getByRole('button', { name: 'Work it out again' }).waitFor({ timeout: 110_000 })
  const every = await row('Lifts on every day').locator('td').allTextContents()
  const stands = await row('As it stands').locator('td').allTextContents()
  expect(Number(every[6])).toBeGreaterThan(5)
  expect(Number(every[7])).toBeLessThan(3)
  expect(Date.parse(every[5] as string)).toBeLessThan(Date.parse(stands[5] as string))
  const heavier = await row('Head hub 7 % heavier').locator('td').allTextContents()
  expect(Number(heavier[0])).toBeGreaterThan(Number(stands[0]))
}, 120_000)

test('one of them is looked at like an edit, and left again', async () => {
  await section().getByRole('button', { name: 'Look at Head hub 7 % heavier than drawn' }).click()
  const discard = page.getByRole('button', { name: /^Discard/ })
  await discard.waitFor()
  expect(await page.locator('body').textContent()).toContain('scenario: Head hub 7 % heavier than drawn')
  await discard.click()
  await discard.waitFor({ state: 'detached' })
})

test('nothing on the section is out of reach of a reader of screens', async () => {
  const { violations } = await new AxeBuilder({ page }).include('section.scenarios').analyze()
  expect(violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html).join(' ')}`)).toEqual([])
})
