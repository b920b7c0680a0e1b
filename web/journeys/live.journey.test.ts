import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { cellAt, keep, previewed, typeInto } from './cells.ts'
import { openWorkbench, type Workbench } from './workbench.ts'

let workbench: Workbench
let [one, two] = [] as unknown as [Page, Page]
beforeAll(async () => {
  workbench = await openWorkbench()
  one = await opened()
  two = await opened()
})
afterAll(() => workbench?.close())

async function opened(): Promise<Page> {
  const page = await workbench.context.newPage()
  await page.goto(`${workbench.address}#mass`, { waitUntil: 'commit', timeout: 90_000 })
  await cellAt(page, '/weighings/crown/measured').waitFor({ timeout: 60_000 })
  return page
}

test('what one page keeps the other shows, says from where, and leaves what is being typed there', async () => {
  await cellAt(two, '/weighings/crown/measured').click()
  await cellAt(two, '/weighings/crown/measured').locator('input').fill('48.2 t')
  await typeInto(one, '/weighings/crown/accuracy', '0.02')
  await keep(one)
  await expect.poll(() => cellAt(two, '/weighings/crown/accuracy').textContent(), { timeout: 20_000 }).toContain('0.02')
  expect(await cellAt(two, '/weighings/crown/measured').locator('input').inputValue()).toBe('48.2 t')
  await two.getByText(/another page/).waitFor()
  await two.keyboard.press('Enter')
  await keep(two)
  await expect.poll(() => cellAt(one, '/weighings/crown/measured').textContent(), { timeout: 20_000 }).toContain('48.2')
})

test('an edit that meets another says by whom, what stands there now, and is tried on top of it', async () => {
  await typeInto(two, '/weighings/upper-left/measured', '50 t')
  await previewed(two)
  await typeInto(one, '/weighings/upper-left/measured', '49 t')
  await keep(one)
  const conflict = two.getByRole('alert')
  await conflict.waitFor({ timeout: 20_000 })
  const said = (await conflict.textContent()) ?? ''
  expect(said).toContain('the project was changed under it')
  expect(said).toContain('49 t')
  expect(said).toContain('50 t')
  await conflict.getByRole('button', { name: 'Try mine on top' }).click()
  await keep(two)
  await expect
    .poll(() => cellAt(one, '/weighings/upper-left/measured').textContent(), { timeout: 20_000 })
    .toContain('50')
})

test('an undo over what another page has changed since is refused, and says what stands there', async () => {
  await one.keyboard.press('Control+z')
  await one.getByText(/another value there since/).waitFor()
  expect(await cellAt(one, '/weighings/upper-left/measured').textContent()).toContain('50')
})

test('a page whose host runs another engine can look and not keep', async () => {
  const page = await workbench.context.newPage()
  await page.route('**/api/changes*', (route) =>
    route.fulfill({
      contentType: 'text/event-stream',
      body: 'event: joined\ndata: {"revision":1,"engine":"0.0.1"}\n\n',
    }),
  )
  await page.goto(`${workbench.address}#mass`, { waitUntil: 'commit', timeout: 90_000 })
  await page
    .getByText(/runs engine .* and its host 0\.0\.1/)
    .first()
    .waitFor({ timeout: 60_000 })
  await cellAt(page, '/weighings/crown/measured').click()
  expect(await page.locator('td input').count()).toBe(0)
  await page.close()
})

test('a page without its host says so, and takes over what it missed when it is back', async () => {
  const page = await workbench.context.newPage()
  await page.route('**/api/changes*', (route) => route.abort())
  await page.goto(`${workbench.address}#mass`, { waitUntil: 'commit', timeout: 90_000 })
  await page.getByText(/No host since/).waitFor({ timeout: 60_000 })
  await typeInto(one, '/weighings/crown/includes', 'muck and water')
  await keep(one)
  expect(await cellAt(page, '/weighings/crown/includes').textContent()).not.toContain('water')
  await page.unroute('**/api/changes*')
  await expect
    .poll(() => cellAt(page, '/weighings/crown/includes').textContent(), { timeout: 30_000 })
    .toContain('water')
  expect(await page.getByText(/No host since/).count()).toBe(0)
  await page.close()
})
