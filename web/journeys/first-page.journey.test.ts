import AxeBuilder from '@axe-core/playwright'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { openWorkbench, type Workbench } from './workbench.ts'

let workbench: Workbench
beforeAll(async () => {
  workbench = await openWorkbench()
})
afterAll(() => workbench?.close())

test('the first page says what the tool is for, and nothing is refused by its own security policy', async () => {
  const page = await workbench.context.newPage()
  const complaints: string[] = []
  page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()))
  page.on('pageerror', (error) => complaints.push(error.message))
  await page.goto(workbench.address)
  expect(await page.getByRole('heading', { level: 1 }).textContent()).toBe('Shieldwright')
  await page.evaluate(() => document.fonts.ready)
  expect(await page.evaluate(() => document.fonts.check('16px "Sofia Sans Variable"'))).toBe(true)
  expect(complaints).toEqual([])
})

test('the first page has no accessibility violations', async () => {
  const page = await workbench.context.newPage()
  await page.goto(workbench.address)
  await page.getByRole('heading', { level: 1 }).waitFor()
  const { violations, passes } = await new AxeBuilder({ page }).analyze()
  expect(passes.length).toBeGreaterThan(0)
  expect(violations).toEqual([])
})
