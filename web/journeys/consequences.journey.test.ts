import AxeBuilder from '@axe-core/playwright'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { cellAt, consequences, previewed, typeInto } from './cells.ts'
import { openWorkbench, type Workbench } from './workbench.ts'

let workbench: Workbench
let page: Page
beforeAll(async () => {
  workbench = await openWorkbench()
  page = await workbench.context.newPage()
  await page.goto(`${workbench.address}#mass`, { waitUntil: 'commit', timeout: 90_000 })
  await cellAt(page, '/weighings/head-drive/measured').waitFor({ timeout: 60_000 })
  await typeInto(page, '/weighings/head-drive/measured', '631 t')
  await previewed(page)
}, 180_000)
afterAll(() => workbench?.close())

/** Height of what stays in sight, the line and what hangs from it, as a share of the window's, wherever the page is scrolled to. */
async function covered(): Promise<number> {
  const { height } = (await page.locator('.standing').boundingBox()) ?? { height: Number.NaN }
  return height / (page.viewportSize()?.height ?? 1)
}

test.each([
  [1280, 900],
  [1024, 768],
])('at %i by %i what an edit does leaves room under it, and folded nearly all', async (width, height) => {
  await page.setViewportSize({ width, height })
  expect(await covered()).toBeLessThan(0.56)
  const fold = consequences(page).getByRole('button', { name: 'fold' })
  await fold.click()
  expect(await covered()).toBeLessThan(0.3)
  expect(await consequences(page).getByRole('button', { name: /^Keep/ }).isVisible()).toBe(true)
  expect(await consequences(page).getByLabel('Why').isVisible()).toBe(true)
  await fold.click()
  await consequences(page).getByText('hook load within the rated load').first().waitFor()
})

test('folded it is in reach of a reader of screens, and the next edit is folded too', async () => {
  await consequences(page).getByRole('button', { name: 'fold' }).click()
  const { violations } = await new AxeBuilder({ page }).include('.consequences').analyze()
  expect(violations.map((v) => `${v.id}: ${v.nodes.map((n) => n.html).join(' ')}`)).toEqual([])
  await consequences(page)
    .getByRole('button', { name: /^Discard/ })
    .click()
  await consequences(page).waitFor({ state: 'detached' })
  await typeInto(page, '/weighings/head-drive/measured', '632 t')
  await consequences(page).getByRole('button', { name: 'fold', pressed: true }).waitFor()
})
