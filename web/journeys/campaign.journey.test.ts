import AxeBuilder from '@axe-core/playwright'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { openWorkbench, type Workbench } from './workbench.ts'

let workbench: Workbench
let page: Page
beforeAll(async () => {
  workbench = await openWorkbench()
  page = await workbench.context.newPage()
  await page.goto(`${workbench.address}#programme`)
  await page.locator('.campaign svg').waitFor({ timeout: 60_000 })
}, 90_000)
afterAll(() => workbench?.close())

const track = (piece: string) => page.locator(`.campaign g.about[data-about="/pieces/${piece}"]`)
const heard = (): Promise<string | null> => page.locator('.campaign .heard').textContent()

/** Puts the pointer on the part of a track that lies on its bay. */
async function restOn(piece: string): Promise<void> {
  const at = await track(piece).evaluate((group) => {
    const paths = [...group.querySelectorAll<SVGPathElement>('.hold')]
    const longest = paths.reduce((a, b) => (b.getTotalLength() > a.getTotalLength() ? b : a))
    const point = longest
      .getPointAtLength(longest.getTotalLength() / 2)
      .matrixTransform(longest.getScreenCTM() as DOMMatrix)
    scrollBy(0, point.y - innerHeight / 2)
    const placed = longest
      .getPointAtLength(longest.getTotalLength() / 2)
      .matrixTransform(longest.getScreenCTM() as DOMMatrix)
    return { x: placed.x, y: placed.y }
  })
  await page.mouse.move(at.x, at.y)
}

test('resting on a track shows its numbers, and the others step back', async () => {
  await restOn('crown')
  const card = page.locator('.campaign .card')
  await card.waitFor()
  expect(await card.textContent()).toContain('Front segment, crown')
  expect(await card.textContent()).toMatch(/hook\s*[\d.]+ of 660 t/)
  const opacity = (piece: string) => track(piece).evaluate((g) => getComputedStyle(g).opacity)
  expect(await opacity('crown')).toBe('1')
  expect(Number(await opacity('cover'))).toBeCloseTo(0.35, 3)
  await page.mouse.move(2, 2)
  expect(await opacity('cover')).toBe('1')
})

test('keys go by event and by piece, select, and open the lift; the table follows the same selection', async () => {
  const field = page.getByRole('application', { name: /^Campaign diagram/ })
  await field.focus()
  await page.keyboard.press('n')
  expect(await heard()).toMatch(/Thu 21 Oct 2032: Front segment, crown out/)
  await page.keyboard.press('ArrowRight')
  expect(await heard()).toMatch(/Front segment, upper left out/)
  await page.keyboard.press('Enter')
  expect(
    await page.locator('.campaign g.selected').evaluateAll((all) => all.map((g) => (g as SVGGElement).dataset.about)),
  ).toEqual(['/pieces/upper-left'])
  await page.getByRole('checkbox', { name: 'as a table' }).check()
  expect(await page.locator('.campaign tr.chosen').textContent()).toContain('Front segment, upper left')
  await page.locator('.campaign tr', { hasText: 'Cutting head with drive' }).getByRole('button').click()
  expect(await track('head-drive').getAttribute('aria-pressed')).toBe('true')
  await field.focus()
  await page.keyboard.press('ArrowDown')
  expect(await heard()).toMatch(/./)
  await page.keyboard.press('n')
  await page.keyboard.press('Enter')
  await page.keyboard.press('Enter')
  await page.waitForURL(/#lift\/crown-out/)
  await page.goto(`${workbench.address}#programme`)
  await page.locator('.campaign svg').waitFor({ timeout: 60_000 })
  expect(await track('crown').getAttribute('aria-pressed')).toBe('true')
})

test('plus zooms time about the event one stands at, and the stretch is drawn anew; all of it comes back', async () => {
  const days = () => page.locator('.campaign svg text').evaluateAll((all) => all.map((t) => t.textContent).join(' | '))
  const whole = await days()
  await page.getByRole('application', { name: /^Campaign diagram/ }).focus()
  await page.keyboard.press('n')
  for (let i = 0; i < 5; i++) await page.keyboard.press('+')
  await page.waitForFunction(
    (before) => [...document.querySelectorAll('.campaign svg text')].map((t) => t.textContent).join(' | ') !== before,
    whole,
  )
  await page.waitForTimeout(600)
  expect(await days()).toContain('Crown out 21 Oct')
  await page.getByRole('button', { name: 'All of it' }).click()
  await page.waitForFunction(
    (before) => [...document.querySelectorAll('.campaign svg text')].map((t) => t.textContent).join(' | ') === before,
    whole,
  )
})

test('S shows the shift of a lift by its hours, and All of it comes back', async () => {
  const field = page.getByRole('application', { name: /^Campaign diagram/ })
  await field.focus()
  await page.keyboard.press('n')
  await page.keyboard.press('s')
  const words = () => page.locator('.campaign svg text').evaluateAll((all) => all.map((t) => t.textContent).join('|'))
  await expect.poll(words, { timeout: 10_000 }).toContain('|Thu 21 Oct 2032|')
  expect(await words()).toMatch(/\|8\|9\|10\|11\|/)
  await page.getByRole('button', { name: 'All of it' }).click()
  await expect.poll(words, { timeout: 10_000 }).not.toContain('|8|9|10|')
})

test('the place in time is one for all views: a lift reached here is where the model stands', async () => {
  await page.getByRole('application', { name: /^Campaign diagram/ }).focus()
  await page.keyboard.press('n')
  await page.locator('.campaign .now').waitFor()
  await page.goto(`${workbench.address}#model`)
  const slider = page.getByRole('slider', { name: 'Along the order' })
  await slider.waitFor({ timeout: 60_000 })
  expect(Number(await slider.inputValue())).toBeGreaterThan(0)
  await slider.focus()
  await page.keyboard.press('Home')
  await page.goto(`${workbench.address}#programme`)
  await page.locator('.campaign svg').waitFor({ timeout: 60_000 })
  expect(await page.locator('.campaign .now').count()).toBe(0)
})

test('one instant is shared: moved by keys in the diagram, on the page of a lift, and in the model', async () => {
  const instant = async (): Promise<string> =>
    /\d+ \w+ \d{4} \d\d:\d\d/.exec((await page.locator('.instant').first().textContent()) ?? '')?.[0] ?? ''
  const go = async (stage: string): Promise<void> => {
    await page.evaluate((hash) => {
      location.hash = hash
    }, stage)
    await page.locator('.instant').first().waitFor({ timeout: 60_000 })
  }
  const field = page.getByRole('application', { name: /^Campaign diagram/ })
  await field.focus()
  await page.keyboard.press('n')
  const lift = await instant()
  for (let days = 0; days < 3; days++) await page.keyboard.press('Shift+ArrowRight')
  await expect.poll(instant).not.toBe(lift)
  const chosen = await instant()
  expect(Date.parse(`${chosen} UTC`) - Date.parse(`${lift} UTC`)).toBe(3 * 86_400_000)
  await page.locator('.campaign .now').waitFor()

  await go('#model')
  expect(await instant()).toBe(chosen)
  await go('#lift/crown-out')
  expect(await instant()).toBe(chosen)
  const moment = page.getByRole('slider', { name: 'The instant of all views' })
  await moment.fill('0')
  await moment.press('ArrowRight')
  await expect.poll(instant).not.toBe(chosen)
  expect(await page.locator('tr[aria-current="time"]').count()).toBe(1)
  const within = await instant()

  await go('#model')
  expect(await instant()).toBe(within)
  const along = page.getByRole('slider', { name: 'Along the order' })
  expect(Math.floor(Number(await along.inputValue()))).toBe(3)
  await along.fill('4')
  await expect.poll(instant).not.toBe(within)
  const reached = await instant()
  await go('#programme')
  await expect.poll(instant, { timeout: 30_000 }).toBe(reached)
})

test('the sheet answers as PDF on every paper, and as SVG', async () => {
  for (const name of ['PDF, A1', 'PDF, A2', 'PDF, A3', 'PDF, A4', 'SVG, A2', 'SVG, A4']) {
    const href = await page.getByRole('link', { name }).getAttribute('href')
    const answer = await page.request.get(new URL(href as string, workbench.address).href)
    expect([name, answer.status(), answer.headers()['content-type']]).toEqual([
      name,
      200,
      name.startsWith('PDF') ? 'application/pdf' : 'image/svg+xml',
    ])
  }
})

test('a bearing that comes a month later moves the restart, and nothing is kept until it is said', async () => {
  const cell = page.getByRole('textbox', { name: /^Main bearing.*promised for/ })
  await cell.fill('next month')
  await cell.press('Enter')
  expect(await page.getByRole('alert').first().textContent()).toContain('a date is due')
  await cell.fill('14 Feb 2033')
  await cell.press('Enter')
  const preview = page.getByRole('region', { name: /consequences/i })
  await preview.waitFor()
  expect(await preview.textContent()).toContain('14 Feb 2033')
  await expect.poll(() => preview.textContent(), { timeout: 10_000 }).toMatch(/restart|Restart/)
  await page.keyboard.press('Escape')
  await preview.waitFor({ state: 'detached' })
  await page.waitForFunction((input) => (input as HTMLInputElement).value === '', await cell.elementHandle())
})

test('of a long list only the rows in sight are in the page; words find the rest', async () => {
  const list = page.getByRole('region', { name: 'Activities' })
  expect(Number(await list.locator('table').getAttribute('aria-rowcount'))).toBeGreaterThan(600)
  expect(await list.locator('tbody tr').count()).toBeLessThan(90)
  await list.evaluate((box) => box.scrollTo(0, box.scrollHeight))
  await list.getByText('Drive to 1860 m').waitFor()
  await page.getByLabel('find').fill('bearing order')
  await list.getByRole('button', { name: 'Main bearing order to delivery' }).click()
  expect(await page.locator('.activities .detail').textContent()).toContain('drives the restart')
  expect(await list.locator('tr.chosen').count()).toBe(1)
  await page.getByLabel('find').fill('')
})

for (const size of [
  { width: 1440, height: 900 },
  { width: 1024, height: 768 },
])
  test(`at ${size.width} × ${size.height} nothing runs out of the window and nobody is kept out`, async () => {
    await page.setViewportSize(size)
    await page.waitForTimeout(800)
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true)
    const { violations } = await new AxeBuilder({ page }).include('.campaign').include('.activities').analyze()
    expect(violations.map((v) => `${v.id}: ${v.nodes[0]?.html.slice(0, 200)}`)).toEqual([])
  })
