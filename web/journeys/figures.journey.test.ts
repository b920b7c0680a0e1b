import { readdirSync, readFileSync } from 'node:fs'
import { gzipSync } from 'node:zlib'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { openWorkbench, type Workbench } from './workbench.ts'

let workbench: Workbench
beforeAll(async () => {
  workbench = await openWorkbench()
})
afterAll(() => workbench?.close())

const ASSETS = new URL('../dist/assets/', import.meta.url)
/** Bytes, compressed, of everything that must come before anything is shown. */
const MOST_SCRIPT = 300_000

test('the script that the first view waits for is under 300 kB compressed, and the view in space is no part of it', () => {
  const html = readFileSync(new URL('../dist/index.html', import.meta.url), 'utf8')
  const named = [...html.matchAll(/(?:src|href)="\/assets\/([^"]+\.js)"/g)].map((m) => m[1] as string)
  expect(named.length).toBeGreaterThan(0)
  const sizes = named.map((name) => gzipSync(readFileSync(new URL(name, ASSETS))).length)
  expect(sizes.reduce((sum, size) => sum + size, 0)).toBeLessThan(MOST_SCRIPT)
  expect(readdirSync(ASSETS).some((name) => name.startsWith('space-'))).toBe(true)
  expect(named.some((name) => name.startsWith('space-'))).toBe(false)
})

test('findings are on the page before its own engine has derived anything, and are the same once it has', async () => {
  await fetch(`${workbench.address}/api/summary`)
  const page = await workbench.context.newPage()
  // The engine of this page never comes: what is seen then was derived by the host.
  let kept = 0
  await page.route(/worker-[^/]*\.js$/, (route) => {
    kept++
    return route.abort()
  })
  await page.goto(workbench.address)
  await page.locator('main .verdict').first().waitFor({ timeout: 30_000 })
  const counts = (of: typeof page): Promise<string | null> =>
    of.getByRole('navigation', { name: 'Stages' }).textContent()
  const first = await counts(page)
  expect(kept).toBeGreaterThan(0)
  await page.close()
  const whole = await workbench.context.newPage()
  await whole.goto(workbench.address)
  await whole.locator('main .verdict').first().waitFor({ timeout: 30_000 })
  await whole.waitForTimeout(4000)
  expect(await counts(whole)).toBe(first)
  await whole.close()
})
