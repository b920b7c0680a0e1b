import AxeBuilder from '@axe-core/playwright'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { cellAt, typeInto } from './cells.ts'
import { openWorkbench, type Workbench } from './workbench.ts'

let workbench: Workbench
beforeAll(async () => {
  workbench = await openWorkbench()
})
afterAll(() => workbench?.close())

const STAGES = ['project', 'model', 'mass', 'strip', 'lift', 'ground', 'programme', 'risk', 'report']

async function at(stage: string, size = { width: 1440, height: 900 }): Promise<Page> {
  const page = await workbench.context.newPage()
  await page.setViewportSize(size)
  await page.goto(`${workbench.address}#${stage}`)
  await page.getByRole('navigation', { name: 'Stages' }).waitFor({ timeout: 30_000 })
  return page
}

test('the first page names what is wrong, worst first, and nothing is refused by its own security policy', async () => {
  const page = await workbench.context.newPage()
  const complaints: string[] = []
  page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()))
  page.on('pageerror', (error) => complaints.push(error.message))
  await page.goto(workbench.address)
  await page.getByRole('heading', { name: 'Wrong, near, open' }).waitFor({ timeout: 30_000 })
  const verdicts = await page.locator('tbody .verdict').allTextContents()
  const rank = (word: string): number => ['FAIL', 'near', 'open', 'passes'].findIndex((w) => word.startsWith(w))
  expect(verdicts.length).toBeGreaterThan(3)
  expect(verdicts.map(rank)).toEqual([...verdicts.map(rank)].sort((a, b) => a - b))
  await page.evaluate(() => document.fonts.ready)
  expect(await page.evaluate(() => document.fonts.check('14px "Shieldwright Sans"'))).toBe(true)
  expect(complaints).toEqual([])
})

for (const size of [
  { width: 1440, height: 900 },
  { width: 1024, height: 768 },
]) {
  test(`no page has accessibility violations or runs out of a window of ${size.width} × ${size.height}`, async () => {
    const page = await at('project', size)
    for (const stage of STAGES) {
      await page.evaluate((hash) => {
        location.hash = hash
      }, stage)
      await page.locator('.stages a[aria-current="page"]', { hasText: stage }).waitFor()
      const { violations, passes } = await new AxeBuilder({ page }).analyze()
      expect(passes.length).toBeGreaterThan(0)
      expect(violations.map((v) => `${stage}, ${v.id}: ${v.nodes[0]?.html}`)).toEqual([])
      expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true)
    }
    await page.close()
  })
}

test('text keeps its contrast in the dark and in sunlight', async () => {
  const page = await at('lift')
  for (const light of ['dark', 'sun']) {
    await page.getByRole('button', { name: light, exact: true }).click()
    const { violations } = await new AxeBuilder({ page }).withRules(['color-contrast']).analyze()
    expect(violations.map((v) => v.nodes[0]?.html)).toEqual([])
  }
})

test('a heavier part shows which lifts change before it is kept; kept, it stands; undone, all is as before', async () => {
  const page = await at('mass')
  const cell = cellAt(page, '/parts/CH-HUB/mass/value')
  const before = (await cell.textContent())?.match(/[\d.]+ ?t/)?.[0] ?? ''
  await typeInto(page, '/parts/CH-HUB/mass/value', '90 t')
  const preview = page.getByRole('region', { name: 'Consequences of this edit' })
  await preview.getByText('results read this').waitFor()
  expect(await preview.textContent()).toContain('Nothing is kept yet')
  expect(await preview.textContent()).toContain('FAIL')
  await preview.getByRole('button', { name: /^Keep/ }).click()
  await page.getByText('Last edit').waitFor()
  await page.reload()
  await cell.waitFor({ timeout: 30_000 })
  expect(await cell.textContent()).toContain('90')
  await typeInto(page, '/parts/CH-HUB/mass/value', before)
  await preview.getByText('results read this').waitFor()
  await page.getByRole('button', { name: /^Keep/ }).click()
  await page.getByText('Last edit').waitFor()
  expect(await cell.textContent()).toContain(before.split(' ')[0])
})

test('a mass without its unit is refused with an example, and nothing is kept', async () => {
  const page = await at('mass')
  await typeInto(page, '/parts/CH-HUB/mass/value', '47.9')
  await page.getByText('A mass needs its unit. Type 47.9 t or 105.6 kip. Not kept.').waitFor()
  expect(await page.getByRole('region', { name: 'Consequences of this edit' }).count()).toBe(0)
})

test('every number leads to its working, and the working down to the file', async () => {
  const page = await at('lift/head-drive-out')
  const row = page.getByRole('button', { name: /hook/i }).first()
  await row.click()
  const working = page.locator('.working').first()
  await working.waitFor()
  for (let depth = 0; depth < 6 && (await working.getByRole('button', { name: 'working' }).count()) > 0; depth++) {
    await working.getByRole('button', { name: 'working' }).first().click()
    await page.waitForTimeout(150)
  }
  expect(await working.textContent()).toMatch(/\/(parts|pieces|lifts|systems|stock|gear|settings|weighings|changes)\//)
})

test('keys alone reach every stage', async () => {
  const page = await at('project')
  for (const [index, stage] of STAGES.entries()) {
    await page.keyboard.press('g')
    await page.keyboard.press(String(index + 1))
    await page.locator('.stages a[aria-current="page"]', { hasText: stage }).waitFor()
  }
  await page.keyboard.press('/')
  await page.getByRole('dialog', { name: 'Find anything' }).waitFor()
})

test('the view in space is drawn, and only when something changes', async () => {
  const page = await at('model')
  const canvas = page.locator('.space canvas')
  await canvas.waitFor({ timeout: 30_000 })
  await page.waitForTimeout(500)
  const picture = (): Promise<string> => canvas.evaluate((c) => (c as HTMLCanvasElement).toDataURL())
  const first = await picture()
  expect(first.length).toBeGreaterThan(20_000)
  await page.getByLabel('Along the order').fill('6')
  expect(await picture()).not.toBe(first)
})
