import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { parse } from 'yaml'
import { largeProject } from '../../bench/large.ts'
import { openWorkbench, type Workbench } from './workbench.ts'

const PARTS = 1000
const SERVICES = 5000
const DEMO = new URL('../../examples/recovery/project.yaml', import.meta.url)

let workbench: Workbench
beforeAll(async () => {
  const file = join(mkdtempSync(join(tmpdir(), 'large-')), 'large.json')
  writeFileSync(file, JSON.stringify(largeProject(parse(readFileSync(DEMO, 'utf8')), PARTS, SERVICES)))
  workbench = await openWorkbench(file)
  await fetch(`${workbench.address}/api/summary`)
})
afterAll(() => workbench?.close())

/** Elements on one page of the workbench: however many parts there are, a browser draws some thousands with ease. */
const MOST_ELEMENTS = 9000

test(`with ${PARTS} parts and ${SERVICES} services every page is drawn in bounds, and one of the parts is found by its id`, async () => {
  const page = await workbench.context.newPage()
  await page.goto(workbench.address)
  await page.locator('main .verdict').first().waitFor({ timeout: 60_000 })
  const counted: [string, number][] = []
  for (const stage of ['project', 'mass', 'strip', 'lift', 'ground', 'programme', 'report']) {
    await page.evaluate((hash) => {
      location.hash = hash
    }, stage)
    await page.locator('.stages a[aria-current="page"]', { hasText: stage }).waitFor()
    await page.waitForTimeout(500)
    counted.push([stage, await page.evaluate(() => document.querySelectorAll('*').length)])
  }
  expect(counted.filter(([, n]) => n > MOST_ELEMENTS)).toEqual([])
  await page.keyboard.press('/')
  const dialog = page.getByRole('dialog', { name: 'Find anything' })
  await dialog.waitFor()
  await page.keyboard.type('CH-HUB-c12')
  await dialog.getByText('CH-HUB-c12').first().waitFor()
  expect(await dialog.locator('*').count()).toBeLessThan(1000)
  await page.close()
})
