import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { gzipSync } from 'node:zlib'
import AxeBuilder from '@axe-core/playwright'
import type { Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest'
import { boxFaults } from './boxes.ts'
import { typeInto } from './cells.ts'
import { openWorkbench, type Workbench } from './workbench.ts'

let workbench: Workbench
beforeAll(async () => {
  workbench = await openWorkbench()
})
afterEach(async () => {
  for (const page of workbench.context.pages()) await page.close()
})
afterAll(() => workbench?.close())

const STAGES = ['project', 'model', 'mass', 'strip', 'lift', 'ground', 'programme', 'risk', 'report']
const SIZES = [
  { width: 1440, height: 900 },
  { width: 1024, height: 768 },
  { width: 390, height: 844 },
]

async function opened(hash: string, size = SIZES[0] as (typeof SIZES)[number]): Promise<Page> {
  const page = await workbench.context.newPage()
  page.setDefaultTimeout(90_000)
  await page.setViewportSize(size)
  await page.goto(`${workbench.address}#${hash}`)
  await page.getByRole('navigation', { name: 'Stages' }).waitFor()
  return page
}

/** What is drawn to a width follows a change of the window a moment later: only faults that stay are faults. */
async function settledFaults(page: Page): Promise<string[]> {
  let faults = await boxFaults(page)
  for (let tries = 0; faults.length > 0 && tries < 6; tries++) {
    await page.waitForTimeout(500)
    faults = await boxFaults(page)
  }
  return faults
}

test('what the page needs before it shows anything is less than 300 kB, compressed', () => {
  const dist = fileURLToPath(new URL('../dist/', import.meta.url))
  const index = readFileSync(`${dist}index.html`, 'utf8')
  const scripts = [...index.matchAll(/(?:src|href)="\/(assets\/[^"]+\.js)"/g)].map(([, name]) => `${dist}${name}`)
  expect(scripts.length).toBeGreaterThan(0)
  const size = scripts.reduce((sum, name) => sum + gzipSync(readFileSync(name)).length, 0)
  expect(size).toBeLessThan(300_000)
  // What draws in space is not among it.
  expect(readdirSync(`${dist}assets`).filter((name) => name.endsWith('.js')).length).toBeGreaterThan(scripts.length)
})

test('nothing overlaps, is cut or leaves the window: every page, large, small and on a phone, in both systems of units', async () => {
  const page = await opened('project')
  const faults: string[] = []
  for (const stage of STAGES) {
    await page.evaluate((hash) => {
      location.hash = hash
    }, stage)
    await page.locator('.stages a[aria-current="page"]', { hasText: stage }).waitFor()
    for (const system of ['SI', 'US']) {
      await page.getByRole('button', { name: system, exact: true }).click()
      for (const size of SIZES) {
        await page.setViewportSize(size)
        const place = `${stage}, ${size.width}, ${system}`
        faults.push(...(await settledFaults(page)).map((fault) => `${place}: ${fault}`))
        const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)
        if (wide > 0) faults.push(`${place}: the page scrolls sideways by ${wide} px`)
      }
    }
  }
  expect(faults).toEqual([])
})

test('whoever comes for the first time is told what it is, what is wrong and what to do; hidden, it stays hidden', async () => {
  const page = await opened('project')
  const told = page.getByRole('region', { name: 'What this is' })
  await told.waitFor()
  expect(await told.textContent()).toMatch(/invented.*tunnel boring machine.*restarts the drive on/i)
  expect(await told.textContent()).toMatch(/\d+ of \d+ checks fail/)
  await told.getByRole('link', { name: 'Open its working' }).click()
  await page.locator('.ledger .working').first().waitFor()
  await told.getByRole('button', { name: 'Hide this' }).click()
  await page.reload()
  await page.getByRole('heading', { name: 'Wrong, near, open' }).waitFor()
  expect(await told.count()).toBe(0)
})

test('the ledger is read, filtered and opened by keys alone', async () => {
  const page = await opened('project')
  await page.keyboard.press('.')
  const working = page.locator('.ledger .working').first()
  await working.waitFor()
  const [first, second] = await page.locator('.ledger .named > button').allTextContents()
  await page.keyboard.press('w')
  await working.waitFor({ state: 'detached' })
  const focused = (): Promise<string | null | undefined> => page.evaluate(() => document.activeElement?.textContent)
  expect(await focused()).toBe(first)
  await page.keyboard.press('ArrowDown')
  expect(await focused()).toBe(second)
  const fails = page.getByRole('button', { name: /^FAIL \d+$/ })
  await fails.focus()
  await page.keyboard.press('Enter')
  const verdicts = await page.locator('.ledger .verdict').allTextContents()
  expect(verdicts.length).toBeGreaterThan(0)
  expect(new Set(verdicts)).toEqual(new Set(['FAIL']))
})

test('an edit is drawn on the line while it is tried, followed once it is kept, and taken back', async () => {
  const page = await opened('mass')
  await typeInto(page, '/parts/CH-HUB/mass/value', '90 t')
  await page.locator('.counts.tried', { hasText: 'newly FAIL' }).first().waitFor()
  expect(await page.locator('.stages li[data-reach="moved"]').count()).toBeGreaterThan(1)
  await page.keyboard.press('Control+Enter')
  await page.getByText('Last edit').waitFor()
  expect(await page.locator('.last [role="status"]').textContent()).toMatch(/newly FAIL.*check.* move/)
  await page.getByRole('link', { name: 'Follow it' }).click()
  await page.locator('.ledger .working').first().waitFor()
  const opened1 = page.url()
  await page.keyboard.press('Escape')
  await page.keyboard.press('.')
  await page.waitForFunction((url) => location.href !== url, opened1)
  await page.getByRole('button', { name: /^Undo/ }).click()
  await page.locator('.last', { hasText: /undone|taken back/i }).waitFor()
  await page.getByRole('button', { name: /^Redo/ }).waitFor()
})

test('an id finds its entity first, and opens where it stands', async () => {
  const page = await opened('project')
  await page.keyboard.press('/')
  await page.getByRole('combobox', { name: /An id or words/ }).fill('crown-out')
  const first = page.getByRole('listbox', { name: 'Found' }).getByRole('option').first()
  await first.waitFor()
  expect(await first.textContent()).toContain('crown-out')
  await page.keyboard.press('Enter')
  await page.waitForFunction(() => location.hash === '#lift/crown-out')
  expect(await page.getByRole('dialog').count()).toBe(0)
})

test('keys of one letter can be switched off and stay off', async () => {
  const page = await opened('project')
  await page.keyboard.press('?')
  const list = page.getByRole('dialog', { name: 'Keys and marks' })
  await list.getByRole('checkbox').uncheck()
  await page.keyboard.press('Escape')
  await page.keyboard.press('/')
  await page.reload()
  await page.getByRole('navigation', { name: 'Stages' }).waitFor()
  await page.keyboard.press('/')
  await page.waitForTimeout(200)
  expect(await page.getByRole('dialog').count()).toBe(0)
  await page.getByRole('button', { name: /Keys and marks/ }).click()
  await list.getByRole('checkbox').check()
})

test('the restart is simulated beside the page, and what drives it is named', async () => {
  const page = await opened('risk')
  await page.getByRole('button', { name: 'Run', exact: true }).click()
  await page.getByRole('button', { name: 'Cancel' }).click()
  await page.getByRole('button', { name: 'Run', exact: true }).click()
  await page.getByText('P80, four in five').waitFor({ timeout: 60_000 })
  expect(await page.getByRole('img', { name: /^Restarted by .* in half/ }).count()).toBe(1)
  expect(await page.getByRole('img', { name: /m by .* in half of the runs/ }).count()).toBe(1)
  expect(
    await page
      .getByRole('table', { name: /Causes and their share/ })
      .locator('tbody tr')
      .count(),
  ).toBeGreaterThan(3)
  expect((await new AxeBuilder({ page }).analyze()).violations.map((v) => `${v.id}: ${v.nodes[0]?.html}`)).toEqual([])
  expect(await settledFaults(page)).toEqual([])
})

test('twice as large, in the reader’s own colours and without motion the first page still stands', async () => {
  const page = await workbench.context.newPage()
  page.setDefaultTimeout(90_000)
  // A window of 1440 × 900 at 200 % has 720 × 450 px of its own.
  await page.setViewportSize({ width: 720, height: 450 })
  await page.emulateMedia({ forcedColors: 'active', reducedMotion: 'reduce' })
  await page.goto(`${workbench.address}#project`)
  await page.getByRole('heading', { name: 'Wrong, near, open' }).waitFor()
  expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true)
  expect(await settledFaults(page)).toEqual([])
})
