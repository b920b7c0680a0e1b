import AxeBuilder from '@axe-core/playwright'
import type { Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { consequences, keep, previewed } from './cells.ts'
import { openWorkbench, type Workbench } from './workbench.ts'

const LINE = '/parts/CH-HUB/solids/0/profile'

let workbench: Workbench
let page: Page
beforeAll(async () => {
  workbench = await openWorkbench()
  page = await workbench.context.newPage()
  await page.goto(`${workbench.address}#model/parts`, { waitUntil: 'commit', timeout: 90_000 })
  await page.locator('th[data-pointer="/parts/CH-HUB"] button').click({ timeout: 90_000 })
}, 200_000)
afterAll(() => workbench?.close())

const drawing = (): Locator => page.locator(`[data-profile="${LINE}"]`)
const corner = (index: number): Locator => drawing().locator(`[data-corner="${index}"]`)
const figure = async (title: string): Promise<string> =>
  (await drawing().locator('.solid-figures > div').filter({ hasText: title }).locator('.strong').textContent()) ?? ''
const line = async (): Promise<string[][]> => {
  const { document } = await (await page.request.get(`${workbench.address}/api/project`)).json()
  return document.parts['CH-HUB'].solids[0].profile
}
/** Pulled by the pointer from where it is. */
async function pull(handle: Locator, dx: number, dy: number): Promise<void> {
  await handle.scrollIntoViewIfNeeded()
  const box = await handle.boundingBox()
  if (box === null) throw new Error('not on the page')
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2]
  await page.mouse.move(x, y)
  await page.mouse.down()
  await page.mouse.move(x + dx, y + dy, { steps: 6 })
}

test('a ring is drawn as a line of corners that weighs what it weighed', async () => {
  await page.getByRole('button', { name: /solids 1: draw its profile/ }).click()
  await drawing().waitFor({ timeout: 60_000 })
  const said = await previewed(page)
  expect(said).toContain('Nothing is kept yet')
  expect(await figure('Area of the section')).toContain('1.28')
  await keep(page)
  expect(await line()).toEqual([
    ['1.25 m', '0.5 m'],
    ['2.6 m', '0.5 m'],
    ['2.6 m', '1.45 m'],
    ['1.25 m', '1.45 m'],
  ])
})

test('a corner pulled by the pointer snaps to the grid, moves area, mass and centre beside it, and is one edit', async () => {
  const before = await figure('Mass of this solid')
  await pull(corner(2), 31, 0)
  await expect.poll(() => figure('Mass of this solid'), { timeout: 30_000 }).not.toBe(before)
  await page.mouse.up()
  expect(await previewed(page)).toMatch(/profile: corner 3, 2\.6 m, 1\.45 m → 2\.\d5? m, 1\.45 m/)
  expect(await drawing().locator('.solid-figures').textContent()).toContain('was')
  await keep(page)
  const [, , [x, r] = []] = await line()
  expect((Number(x?.replace(' m', '')) * 20) % 1).toBeCloseTo(0, 6)
  expect(r).toBe('1.45 m')
  await page.keyboard.press('Control+z')
  await expect.poll(async () => (await line())[2]?.[0], { timeout: 20_000 }).toBe('2.6 m')
  await expect.poll(() => corner(2).getAttribute('aria-label'), { timeout: 20_000 }).toMatch(/at 2\.60\sm/)
  await expect.poll(() => corner(2).getAttribute('aria-label'), { timeout: 20_000 }).toMatch(/at 2\.60\sm/)
})

test('a line that would meet itself is refused by the names of its edges, in red while it is pulled, and stays as it was', async () => {
  const place = await corner(2).getAttribute('aria-label')
  await pull(corner(2), -400, 120)
  await drawing()
    .getByText(/meets itself: edge \d–\d (meets|folds back on) edge \d–\d/)
    .waitFor()
  expect(await drawing().locator('line.wrong').count()).toBe(2)
  await page.mouse.up()
  await drawing().getByText('Left as it was').waitFor()
  await expect.poll(() => corner(2).getAttribute('aria-label')).toBe(place)
  await consequences(page).waitFor({ state: 'detached', timeout: 20_000 })
})

test('Escape while a corner is held puts it back', async () => {
  const place = await corner(1).getAttribute('aria-label')
  await pull(corner(1), 40, 0)
  await page.keyboard.press('Escape')
  await page.mouse.up()
  await expect.poll(() => corner(1).getAttribute('aria-label')).toBe(place)
  await consequences(page).waitFor({ state: 'detached', timeout: 20_000 })
})

test('with keys alone a corner is added, moved by the grid and by ten, and taken away; typed coordinates take any unit', async () => {
  await corner(3).focus()
  await page.keyboard.press('Insert')
  await expect.poll(() => drawing().locator('[data-corner]').count()).toBe(5)
  await expect.poll(() => page.evaluate(() => (document.activeElement as HTMLElement).dataset.corner)).toBe('4')
  await page.keyboard.press('ArrowLeft')
  await page.keyboard.press('Shift+ArrowLeft')
  await expect.poll(() => corner(4).getAttribute('aria-label')).toMatch(/at 0\.70\sm, 0\.9[78]\sm/)
  const typed = page.locator(`[data-pointer="${LINE}/4/1"]`)
  await typed.getByRole('button').click()
  await typed.locator('input').fill('3 ft 2 in')
  await typed.locator('input').press('Enter')
  await expect.poll(() => corner(4).getAttribute('aria-label')).toMatch(/0\.97\sm/)
  await previewed(page)
  expect(await figure('Area of the section')).toMatch(/1\.\d+/)
  await corner(4).focus()
  await page.keyboard.press('Delete')
  await expect.poll(() => drawing().locator('[data-corner]').count()).toBe(4)
  await page.keyboard.press('Escape')
  await consequences(page).waitFor({ state: 'detached', timeout: 20_000 })
})

test('the middle of an edge is pulled out into a new corner', async () => {
  await pull(drawing().locator('[data-edge="2"]'), 0, -30)
  await page.mouse.up()
  await expect.poll(() => drawing().locator('[data-corner]').count()).toBe(5)
  expect(await previewed(page)).toContain('4 corners → 5 corners')
  await page.keyboard.press('Escape')
  await consequences(page).waitFor({ state: 'detached', timeout: 20_000 })
})

test('the drawing has no accessibility violations and keeps its place at three sizes, in both unit systems', async () => {
  for (const [width, height] of [
    [1440, 900],
    [1024, 768],
    [390, 844],
  ] as const) {
    await page.setViewportSize({ width, height })
    for (const system of ['US', 'SI']) {
      await page.getByRole('button', { name: system, exact: true }).click()
      await drawing().scrollIntoViewIfNeeded()
      const { violations } = await new AxeBuilder({ page }).include('.profile').analyze()
      expect(violations.map((v) => `${width}, ${system}, ${v.id}: ${v.nodes[0]?.html.slice(0, 200)}`)).toEqual([])
      expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true)
      if (process.env.LOOK !== undefined) await page.screenshot({ path: `${process.env.LOOK}-${width}-${system}.png` })
    }
  }
})
