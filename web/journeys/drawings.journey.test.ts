import AxeBuilder from '@axe-core/playwright'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { openWorkbench, type Workbench } from './workbench.ts'

let workbench: Workbench
/** One page for all: opened once, and led from stage to stage as a reader goes. */
let page: Page
beforeAll(async () => {
  workbench = await openWorkbench()
  page = await workbench.context.newPage()
  await page.goto(`${workbench.address}#ground`)
  await page.locator('.site-picture svg').first().waitFor({ timeout: 90_000 })
})
afterAll(() => workbench?.close())

const LONG = { timeout: 60_000 }

async function at(stage: string): Promise<void> {
  await page.evaluate((hash) => {
    location.hash = hash
  }, stage)
  await page
    .locator(stage === 'report' ? '.preview svg' : '.site-picture svg')
    .first()
    .waitFor(LONG)
}

const bytesOf = async (href: string): Promise<Buffer> =>
  (await page.request.get(new URL(href, workbench.address).href)).body()

test('a bay chosen in the table is marked in the plan, and one pressed in the plan is marked in the table', async () => {
  await at('ground')
  const plan = page.getByRole('region', { name: 'Plan of the site' })
  await plan.locator('svg').waitFor(LONG)
  const row = page.getByRole('button', { name: 'Bay B4', exact: true })
  await row.focus()
  await page.keyboard.press('Enter')
  await plan.locator('g.selected[data-about="/bays/B4"]').waitFor({ state: 'attached' })
  expect(await row.getAttribute('aria-pressed')).toBe('true')
  await plan
    .locator('g[data-about="/bays/B2"] path')
    .first()
    .click({ position: { x: 4, y: 40 } })
  const other = page.getByRole('button', { name: 'Bay B2', exact: true })
  await expect.poll(() => other.getAttribute('aria-pressed')).toBe('true')
  expect(await row.getAttribute('aria-pressed')).toBe('false')
})

test('a stage chosen by key is marked in its section, and the check beside the picture opens to its working', async () => {
  await at('ground')
  const stages = page.getByRole('region', { name: 'Stages of the shaft', exact: true })
  await stages.locator('svg').first().waitFor(LONG)
  await stages
    .locator('tbody')
    .getByRole('button', { name: /^dug to −30/ })
    .focus()
  await page.keyboard.press('Enter')
  await stages.locator('g.selected[data-about="/shaft/stages/1"]').waitFor({ state: 'attached' })
  const jacks = page.getByRole('region', { name: 'Jacks under the shield', exact: true })
  await jacks.getByRole('button', { name: /^Heaviest jack under the shield/ }).focus()
  await page.keyboard.press('Enter')
  await jacks.getByRole('heading', { name: /^Working: Heaviest jack/ }).waitFor(LONG)
  const link = page.getByRole('link', { name: 'Download shaft of the site as PDF, A3' })
  const pdf = await bytesOf((await link.getAttribute('href')) as string)
  expect(pdf.subarray(0, 5).toString()).toBe('%PDF-')
})

test('another step shows what lies there then, in the drawing and in words; its print is of that step', async () => {
  await at('ground')
  const plan = page.getByRole('region', { name: 'Plan of the site' })
  await plan.locator('svg').waitFor(LONG)
  expect(await plan.locator('g[data-about="/pieces/head-drive"]').count()).toBe(0)
  await page.getByLabel('After step', { exact: true }).selectOption('S30-old-bearing')
  await plan.locator('g[data-about="/pieces/head-drive"]').first().waitFor({ state: 'attached' })
  await page.getByText('after S30-old-bearing').first().waitFor()
  await page.getByRole('button', { name: 'Heaviest for the wall' }).click()
  await plan.locator('g[data-about="/pieces/head-drive"]').waitFor({ state: 'detached' })
  await page.getByLabel('After step', { exact: true }).selectOption('S19-head-drive')
  const link = page.getByRole('link', { name: 'Download plan of the site as PDF, A2' })
  await expect.poll(() => link.getAttribute('href'), LONG).toContain('step=S19-head-drive')
  const pdf = await bytesOf((await link.getAttribute('href')) as string)
  expect(pdf.subarray(0, 5).toString()).toBe('%PDF-')
})

test('a drawing is enlarged by button and can then be scrolled by keys', async () => {
  await at('ground')
  const plan = page.getByRole('region', { name: 'Plan of the site', exact: true })
  await plan.locator('svg').waitFor(LONG)
  const width = async (): Promise<number> => (await plan.locator('svg').first().boundingBox())?.width ?? 0
  const before = await width()
  await page.getByRole('button', { name: 'Plan of the site: larger' }).click()
  await expect.poll(width).toBeGreaterThan(before * 1.4)
  const enlarged = page.getByRole('region', { name: 'Plan of the site, enlarged' })
  await enlarged.focus()
  await page.keyboard.press('ArrowDown')
  await expect.poll(() => enlarged.evaluate((e) => e.scrollTop)).toBeGreaterThan(0)
  expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true)
})

test('the decisions of the ground are all there, and the missing one names who decides', async () => {
  await at('ground')
  const table = page.getByRole('table', { name: /Decisions G1 to G10/ })
  await table.waitFor(LONG)
  expect(await table.locator('tbody tr').count()).toBe(10)
  const missing = table.locator('tr', { hasText: 'G8' })
  expect(await missing.textContent()).toContain('still to be decided by')
})

test('every document is listed with its verdict, shown beside, and downloads as a real PDF', async () => {
  await at('report')
  const show = page.getByRole('button', { name: 'Show Sections of the site' })
  await show.waitFor(LONG)
  await show.focus()
  await page.keyboard.press('Enter')
  const preview = page.getByRole('region', { name: 'Preview: Sections of the site' })
  await preview.locator('svg').waitFor(LONG)
  expect(await preview.textContent()).toMatch(/content [0-9a-f]{12}/)
  expect(await preview.textContent()).toContain('Not to be issued')
  const links = page.getByRole('link', { name: /^Download .*PDF, A[1-4]$/ })
  const wanted = [
    /Plan of the site, PDF, A3/,
    /Cutting head with drive, out of the shaft, PDF, A3/,
    /^Download Rigging: .*A4/,
  ]
  expect(await links.count()).toBeGreaterThan(20)
  for (const name of wanted) {
    const href = (await page.getByRole('link', { name }).first().getAttribute('href')) as string
    expect((await bytesOf(href)).subarray(0, 5).toString()).toBe('%PDF-')
  }
})

test('ground and report with their drawings have no accessibility violations', async () => {
  for (const stage of ['ground', 'report']) {
    await at(stage)
    const { violations, passes } = await new AxeBuilder({ page }).analyze()
    expect(passes.length).toBeGreaterThan(0)
    expect(violations.map((v) => `${stage}, ${v.id}: ${v.nodes[0]?.html}`)).toEqual([])
  }
})

test('on a small window the sections part, and nothing runs out of it', async () => {
  await page.setViewportSize({ width: 1024, height: 768 })
  for (const stage of ['report', 'ground']) {
    await at(stage)
    // the marks of the drawings are those already looked at; what is new is how the page lies
    const { violations } = await new AxeBuilder({ page }).exclude('.drawn svg').analyze()
    expect(violations.map((v) => `${stage}, ${v.id}: ${v.nodes[0]?.html}`)).toEqual([])
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true)
  }
  await page.getByRole('region', { name: 'Section across the drive' }).locator('svg').waitFor(LONG)
})
