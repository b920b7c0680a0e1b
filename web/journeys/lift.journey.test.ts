import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { boxFaults } from './boxes.ts'
import { openWorkbench, type Workbench } from './workbench.ts'

let workbench: Workbench
/** Opened once: each lift is gone to as a reader does. */
let page: Page
beforeAll(async () => {
  workbench = await openWorkbench()
  page = await workbench.context.newPage()
  await page.goto(`${workbench.address}#lift/head-drive-out`)
  await page.getByRole('heading', { name: 'Mass on the hook' }).waitFor({ timeout: 60_000 })
})
afterAll(() => workbench?.close())

async function toLift(lift: string, size = { width: 1440, height: 900 }): Promise<void> {
  await page.setViewportSize(size)
  await page.evaluate((id) => {
    location.hash = 'project'
    location.hash = `lift/${id}`
  }, lift)
  await page.locator(`[data-lift="${lift}"]`).waitFor({ timeout: 20_000 })
}

const working = () => page.getByRole('region', { name: /^Working: / })

test('keys alone walk from the use of the hook down to a figure of the file, and back to the number', async () => {
  await toLift('head-drive-out')
  const use = page.getByRole('button', { name: /^Use 0\.\d+\. Working$/ })
  await use.focus()
  await page.keyboard.press('w')
  await working().waitFor()
  expect(await working().locator('math').first().textContent()).toContain('use')
  let depth = 0
  for (; depth < 12 && (await page.locator('.leaf').count()) === 0; depth++) {
    const before = await working().getAttribute('aria-label')
    await page.locator('[data-down]:focus').waitFor()
    await page.keyboard.press('Enter')
    await page.waitForFunction((was) => document.querySelector('.working')?.getAttribute('aria-label') !== was, before)
  }
  expect(depth).toBeGreaterThan(2)
  const pointer = await page.locator('.leaf code').textContent()
  expect(pointer).toMatch(/^\/(parts|pieces|settings|stock|gear)\//)
  expect(await page.locator('.leaf').textContent()).toContain('Basis')
  for (; depth > 0; depth--) {
    const before = await working().getAttribute('aria-label')
    await page.keyboard.press('Backspace')
    await page.waitForFunction((was) => document.querySelector('.working')?.getAttribute('aria-label') !== was, before)
    await page.locator('.working:focus, .working :focus').first().waitFor()
  }
  await expect.poll(() => page.locator('.trail').count()).toBe(0)
  await page.keyboard.press('Escape')
  await working().waitFor({ state: 'detached' })
  expect(await use.evaluate((button) => button === document.activeElement)).toBe(true)
})

test('a figure found at the foot of a working is changed there, and shows what it moves before it is kept', async () => {
  await toLift('head-drive-out')
  await page.getByRole('button', { name: /^Retained: .* Working$/i }).click()
  await working()
    .getByRole('button', { name: /Change$/ })
    .click()
  await page.keyboard.press('ControlOrMeta+a')
  await page.keyboard.type('58.8 t')
  await page.keyboard.press('Enter')
  const preview = page.getByRole('region', { name: 'Consequences of this edit' })
  await preview.waitFor()
  await preview.getByText('FAIL').first().waitFor()
  await preview.getByRole('button', { name: /^Discard/ }).click()
  await preview.waitFor({ state: 'detached' })
})

test('the verification cases of a formula are run when they are opened, expected beside got', async () => {
  await toLift('head-drive-out')
  await page.getByRole('button', { name: /^side load of the piece: .* Working$/i }).click()
  await working().getByRole('button', { name: 'Verification cases of this formula' }).click()
  const cases = page.getByRole('table', { name: /run just now/ })
  await cases.waitFor({ timeout: 20_000 })
  const rows = cases.locator('tbody')
  expect(await rows.count()).toBeGreaterThan(0)
  expect(await cases.locator('caption').textContent()).toMatch(/(\d+) of \1 agree/)
  for (const cell of await rows.locator('td:nth-child(2)').allTextContents()) expect(cell).toMatch(/\d/)
})

test('the cursor of a turn reads at each angle what the sheet prints for its stages', async () => {
  await toLift('head-drive-turn')
  const angle = page.getByRole('slider', { name: 'Angle of the turn' })
  await page.getByText('Stages as printed').click()
  const last = await page
    .getByRole('table', { name: 'Stages of the turn' })
    .locator('tbody tr')
    .last()
    .allTextContents()
  await angle.focus()
  await page.keyboard.press('End')
  const said = (await angle.getAttribute('aria-valuetext')) ?? ''
  const [main, tail] = /main ([\d.]+) of.*tail ([\d.]+) of/.exec(said)?.slice(1) ?? []
  expect(said.startsWith('90.0°')).toBe(true)
  expect(last.join()).toContain(main as string)
  expect(last.join()).toContain(tail as string)
  const turned = await page.locator('.turned g').first().getAttribute('transform')
  await page.keyboard.press('Home')
  expect(await angle.getAttribute('aria-valuetext')).toMatch(/^0\.0°/)
  expect(await page.locator('.turned g').first().getAttribute('transform')).not.toBe(turned)
  const box = await page.locator('.shares').boundingBox()
  if (box === null) throw new Error('the shares are not drawn')
  await page.mouse.click(box.x + box.width * 0.4, box.y + box.height * 0.5)
  expect(await angle.getAttribute('aria-valuetext')).toMatch(/^4\d\.\d°/)
})

test('like motors stand in one bundle, and the brackets go through the lifts in order', async () => {
  await toLift('crown-out')
  const strip = page.getByRole('navigation', { name: 'Lifts in order' })
  expect(await strip.getByText('Motors 12').count()).toBe(2)
  await page.keyboard.press(']')
  await page.locator('[data-lift="upper-left-out"]').waitFor()
  await page.keyboard.press('[')
  await page.locator('[data-lift="crown-out"]').waitFor()
})

for (const size of [
  { width: 1440, height: 900 },
  { width: 1024, height: 768 },
]) {
  test(`on the page of a lift nothing overlaps and nothing is cut at ${size.width} × ${size.height}, in both systems`, async () => {
    await toLift('head-drive-out', size)
    for (const system of ['SI', 'US']) {
      await page.getByRole('button', { name: system, exact: true }).click()
      await page.locator('.page-drawing svg').first().waitFor()
      await page.waitForTimeout(400)
      expect(await boxFaults(page)).toEqual([])
      expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true)
    }
  })
}
