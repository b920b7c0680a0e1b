import { mkdtempSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { longNames } from '../../engine/src/names.fixture.ts'
import { boxFaults } from './boxes.ts'
import { openWorkbench, type Workbench } from './workbench.ts'

const STAGES = ['project', 'model', 'mass', 'strip', 'lift', 'ground', 'programme', 'risk', 'report']
const SIZES = [
  { width: 1440, height: 900 },
  { width: 820, height: 1180 },
]
const folder = mkdtempSync(join(tmpdir(), 'names-'))

let workbench: Workbench
let page: Page
beforeAll(async () => {
  const file = join(folder, 'project.json')
  writeFileSync(file, JSON.stringify(longNames()))
  workbench = await openWorkbench(file)
  page = await workbench.context.newPage()
  await page.goto(workbench.address)
  await page.getByRole('navigation', { name: 'Stages' }).waitFor({ timeout: 90_000 })
}, 180_000)
afterAll(() => workbench?.close())

/** Drawings to scale are measured on paper, with letters that its font has; a cell that shortens its words has them whole in its title. */
const isOfPage = (fault: string): boolean =>
  !/(svg|g\.\w+|text)\b|> text|\(tr > th\)/.test(fault.replace(/“[^”]*”/g, ''))

/** What is drawn to a width follows a change of the window a moment later: only faults that stay are faults. */
async function faultsOf(): Promise<string[]> {
  let faults: string[] = []
  for (let tries = 0; tries < 6; tries++) {
    faults = (await boxFaults(page)).filter(isOfPage)
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)
    if (over > 0) faults.push(`the page is ${over} px wider than the window`)
    if (faults.length === 0) break
    await page.waitForTimeout(500)
  }
  return faults
}

test.each(SIZES)(
  'names of 120 letters, from left and from right: no page overlaps, is cut or is wider than its window, $width',
  async (size) => {
    await page.setViewportSize(size)
    const told: string[] = []
    for (const stage of STAGES) {
      await page.evaluate((hash) => {
        location.hash = hash
      }, stage)
      await page.locator('.stages a[aria-current="page"]', { hasText: stage }).waitFor()
      await page.waitForTimeout(800)
      const faults = await faultsOf()
      told.push(...faults.map((fault) => `${stage}: ${fault}`))
      const shots = process.env.NAMES_SHOTS
      if (shots !== undefined)
        await page.screenshot({ path: join(shots, `${stage}-${size.width}.png`), fullPage: true })
    }
    expect(told).toEqual([])
  },
)

test('a name from right to left is an island: what stands after it in a line stays after it', async () => {
  const kinds = await page.evaluate(() =>
    [...document.querySelectorAll('a, button.link')].map((e) => getComputedStyle(e).unicodeBidi),
  )
  expect(kinds.length).toBeGreaterThan(5)
  expect(kinds.filter((kind) => kind !== 'isolate')).toEqual([])
})
