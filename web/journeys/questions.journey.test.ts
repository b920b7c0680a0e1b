import AxeBuilder from '@axe-core/playwright'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { PEOPLE } from '../src/questions/questions.ts'
import { openWorkbench, type Workbench } from './workbench.ts'

let workbench: Workbench
let page: Page
beforeAll(async () => {
  workbench = await openWorkbench()
  page = await workbench.context.newPage()
  await page.goto(workbench.address)
  await page.getByRole('heading', { name: 'Wrong, near, open' }).waitFor({ timeout: 30_000 })
})
afterAll(() => workbench?.close())

async function questionsOf(person: string): Promise<void> {
  await page.evaluate(() => {
    location.hash = 'project'
  })
  await page.getByRole('heading', { name: 'Wrong, near, open' }).waitFor()
  await page.getByRole('button', { name: /^Questions/ }).click()
  await page.getByRole('group', { name: 'Who asks' }).getByRole('button', { name: person, exact: true }).click()
}

/** How much of what has the focus is in sight. */
const inSight = (): Promise<boolean> =>
  page.evaluate(() => {
    const { top, bottom } = (document.activeElement as Element).getBoundingClientRect()
    return top < innerHeight - 40 && bottom > 100
  })

for (const { name, questions } of PEOPLE) {
  test(`${name}: from the first page every question is answered, and leads to where its answer stands in full`, async () => {
    for (const { id, asks } of questions) {
      await questionsOf(name)
      const line = page.getByRole('listitem').filter({ has: page.getByRole('button', { name: asks, exact: true }) })
      expect(((await line.locator('p').textContent()) ?? '').length, id).toBeGreaterThan(10)
      await line.getByRole('button', { name: asks, exact: true }).click()
      await page.locator('dialog').waitFor({ state: 'detached' })
      await expect.poll(() => landed(id), { timeout: 20_000, message: asks }).toBe(true)
    }
  })
}

/** The section that was asked for has the focus and is in sight; where a working was asked for, it is open. */
async function landed(id: string): Promise<boolean> {
  if (await page.locator('main .asked:focus').count()) return inSight()
  const opened = await page.locator('main .working').count()
  return opened > 0 || ['heavier', 'added'].includes(id)
}

test('by keys alone: q, a person, a question, and the answer has the focus; Esc closes without going anywhere', async () => {
  await questionsOf('Planner')
  await page.keyboard.press('Escape')
  await page.locator('dialog').waitFor({ state: 'detached' })
  expect(await page.evaluate(() => location.hash)).toBe('#project')
  await page.keyboard.press('q')
  await page.getByRole('list', { name: /Planner/ }).waitFor()
  await page.getByRole('button', { name: 'Is this plan proved best, or by how much not?' }).focus()
  await page.keyboard.press('Enter')
  await expect.poll(() => page.locator('.asked:focus h2').first().textContent()).toBe('Restart')
  expect(await page.evaluate(() => location.hash)).toBe('#programme')
})

test('every mass 7 % heavier is looked at from the question, says what fails and what the restart does, and is not kept', async () => {
  await questionsOf('Manager of the recovery')
  await page.getByRole('button', { name: /^Try it/ }).click()
  const hangs = page.locator('.standing')
  await expect.poll(() => hangs.textContent(), { timeout: 30_000 }).toMatch(/7 % heavier/)
  await expect.poll(() => hangs.textContent(), { timeout: 30_000 }).toMatch(/Cutting head with drive/)
  await page.keyboard.press('Escape')
  await expect.poll(() => hangs.textContent()).toMatch(/No edit since/)
})

test('on both sizes the questions have no accessibility violations and keep within the window', async () => {
  for (const size of [
    { width: 1440, height: 900 },
    { width: 1024, height: 768 },
  ]) {
    await page.setViewportSize(size)
    await questionsOf('Superintendent')
    const { violations } = await new AxeBuilder({ page }).include('dialog').analyze()
    expect(violations.map((v) => `${v.id}: ${v.nodes[0]?.html}`)).toEqual([])
    const box = await page.locator('dialog').boundingBox()
    expect((box?.x ?? -1) >= 0 && (box?.x ?? 0) + (box?.width ?? 0) <= size.width).toBe(true)
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true)
    await page.keyboard.press('Escape')
    await page.locator('dialog').waitFor({ state: 'detached' })
  }
})
