import AxeBuilder from '@axe-core/playwright'
import type { Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { consequences, keep, previewed } from './cells.ts'
import { openWorkbench, type Workbench } from './workbench.ts'

let workbench: Workbench
let page: Page
beforeAll(async () => {
  workbench = await openWorkbench()
  page = await workbench.context.newPage()
  await page.goto(`${workbench.address}#ground`)
  const plan = page.getByRole('region', { name: 'Plan of the site', exact: true })
  await plan.locator('svg').waitFor({ timeout: 90_000 })
  await plan.getByRole('button', { name: 'Move on the plan' }).click()
}, 120_000)
afterAll(() => workbench?.close())

const handle = (pointer: string): Locator => page.locator(`[data-moves="${pointer}"]`)
const project = async () => (await (await page.request.get(`${workbench.address}/api/project`)).json()) as never
const revision = async (): Promise<number> => {
  const { changes } = await (await page.request.get(`${workbench.address}/api/log?after=0`)).json()
  return changes.at(-1)?.revision ?? 0
}

test('a bay is taken by the pointer, shows where it is on the grid, and is one edit when it is kept; undo puts it back', async () => {
  const bay = handle('/bays/B4/centre')
  await bay.scrollIntoViewIfNeeded()
  const before = await bay.boundingBox()
  const first = await revision()
  if (before === null) throw new Error('no bay on the plan')
  const [x, y] = [before.x + before.width / 2, before.y + before.height / 2]
  await page.mouse.move(x, y)
  await page.mouse.down()
  await page.mouse.move(x + 14, y + 3, { steps: 5 })
  const said = bay.locator('.coordinates')
  await said.waitFor()
  for (const figure of ((await said.textContent()) ?? '').replaceAll('−', '-').matchAll(/(-?[\d.]+) m/g))
    expect(Math.abs((Number(figure[1]) * 2) % 1)).toBe(0)
  await page.mouse.move(x + 30, y, { steps: 6 })
  await page.mouse.up()
  const after = await bay.boundingBox()
  expect((after?.x ?? 0) - before.x).toBeGreaterThan(15)
  const text = await previewed(page)
  expect(text).toContain('Bay B4')
  expect(text).toContain('Nothing is kept yet')
  await keep(page)
  expect(await revision()).toBe(first + 1)
  const kept = JSON.stringify(await project())
  await page.keyboard.press('Control+z')
  await expect
    .poll(async () => Math.round((await bay.boundingBox())?.x ?? 0), { timeout: 20_000 })
    .toBe(Math.round(before.x))
  expect(JSON.stringify(await project())).not.toBe(kept)
})

test('with keys alone a bay moves by the grid and Escape leaves it where it was; nothing is kept', async () => {
  const bay = handle('/bays/B2/centre')
  const first = await revision()
  const before = await bay.getAttribute('aria-label')
  await bay.focus()
  await page.keyboard.press('ArrowRight')
  await page.keyboard.press('ArrowRight')
  await expect.poll(() => bay.getAttribute('aria-label')).not.toBe(before)
  const x = (label: string | null): number => Number(/at (−?[\d.]+)/.exec(label ?? '')?.[1]?.replace('−', '-'))
  expect(x(await bay.getAttribute('aria-label')) - x(before)).toBeCloseTo(1, 6)
  await consequences(page).waitFor()
  await page.keyboard.press('Escape')
  await consequences(page).waitFor({ state: 'detached' })
  expect(await bay.getAttribute('aria-label')).toBe(before)
  expect(await bay.evaluate((element) => element === element.ownerDocument.activeElement)).toBe(true)
  expect(await revision()).toBe(first)
})

test('Escape while the pointer holds it leaves it where it was', async () => {
  const crane = handle('/systems/CR1/standings/0')
  await crane.scrollIntoViewIfNeeded()
  const before = await crane.boundingBox()
  if (before === null) throw new Error('no standing on the plan')
  const [x, y] = [before.x + before.width / 2, before.y + before.height / 2]
  await page.mouse.move(x, y)
  await page.mouse.down()
  await page.mouse.move(x + 25, y - 20, { steps: 4 })
  await crane.locator('.coordinates').waitFor()
  await page.keyboard.press('Escape')
  await page.mouse.up()
  await consequences(page).waitFor({ state: 'detached' })
  expect((await crane.boundingBox())?.x).toBeCloseTo(before.x, 0)
})

test('the plan with its handles has no accessibility violations', async () => {
  const { violations } = await new AxeBuilder({ page }).include('.site-picture').analyze()
  expect(violations.map((v) => `${v.id}: ${v.nodes[0]?.html.slice(0, 200)}`)).toEqual([])
  if (process.env.LOOK !== undefined) await page.locator('.site-picture').first().screenshot({ path: process.env.LOOK })
})
