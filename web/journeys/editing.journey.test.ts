import AxeBuilder from '@axe-core/playwright'
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { cellAt, consequences, keep, paste, previewed, typeInto } from './cells.ts'
import { openWorkbench, type Workbench } from './workbench.ts'

let workbench: Workbench
let page: Page
beforeAll(async () => {
  workbench = await openWorkbench()
  page = await workbench.context.newPage()
  await at('mass')
})
afterAll(() => workbench?.close())

async function at(hash: string): Promise<void> {
  await page.goto(`${workbench.address}#${hash}`, { waitUntil: 'commit', timeout: 90_000 })
  await page.getByRole('navigation', { name: 'Stages' }).waitFor({ timeout: 60_000 })
}

test('a weighing 7 % heavy names the lifts that fail before it is kept, and the sheet of the lift carries it after', async () => {
  await cellAt(page, '/weighings/head-drive/measured').waitFor()
  const before = await loadOnSheet('head-drive-back')
  await typeInto(page, '/weighings/head-drive/measured', '631 t')
  const said = await previewed(page)
  expect(said).toContain('Nothing is kept yet')
  expect(said).toMatch(/hook load within the rated load.*near.*→.*FAIL/)
  expect(await cellAt(page, '/weighings/head-drive/measured').textContent()).toMatch(/631.*t.*1391\.1.kip/)
  await consequences(page).getByLabel('Why').fill('load cells, trial lift')
  await keep(page)
  await page.getByText('Last edit').waitFor()
  const log = await (await page.request.get(`${workbench.address}/api/log?after=1`)).json()
  expect(log.changes.at(-1).why).toBe('Cutting head with drive, weighed: 590 t → 631 t. Why: load cells, trial lift')
  const after = await loadOnSheet('head-drive-back')
  expect(after - before).toBeGreaterThan(41 * 0.99)
  expect(after - before).toBeLessThan(41 * 1.1)
})

/** Load at the hook as the printed sheet of a lift has it, t. */
async function loadOnSheet(lift: string): Promise<number> {
  const pdf = await page.request.get(`${workbench.address}/api/report/lift/${lift}.pdf`)
  const paper = await getDocument({ data: new Uint8Array(await pdf.body()), verbosity: 0 }).promise
  const { items } = await (await paper.getPage(1)).getTextContent()
  const text = items.map((item) => ('str' in item ? item.str : '')).join(' ')
  return Number(/At the hook(?: \[\d+\])?\s+([\d.]+)/.exec(text)?.[1])
}

test('undo and redo reach over a reload, and a new edit ends what could be redone', async () => {
  await at('mass')
  const kept = async (): Promise<string | null> => cellAt(page, '/weighings/head-drive/measured').textContent()
  await cellAt(page, '/weighings/head-drive/measured').waitFor()
  await page.reload()
  await page.getByRole('button', { name: /^Undo/ }).waitFor({ timeout: 60_000 })
  await page.keyboard.press('Control+z')
  await expect.poll(kept, { timeout: 20_000 }).toContain('590')
  await page.reload()
  await page.getByRole('button', { name: /^Redo/ }).waitFor({ timeout: 60_000 })
  await page.keyboard.press('Control+Shift+Z')
  await expect.poll(kept, { timeout: 20_000 }).toContain('631')
  await page.getByRole('button', { name: /^Undo/ }).click()
  await expect.poll(kept, { timeout: 20_000 }).toContain('590')
  await typeInto(page, '/weighings/crown/accuracy', '0.02')
  await keep(page)
  expect(await page.getByRole('button', { name: /^Redo/ }).count()).toBe(0)
})

test('a refused cell keeps its text and says what is due, while another edit is looked at', async () => {
  await typeInto(page, '/weighings/crown/measured', '47.9')
  const cell = cellAt(page, '/weighings/crown/measured')
  expect(await cell.textContent()).toContain('47.9')
  expect(await cell.getAttribute('aria-invalid')).toBe('true')
  await page.getByText('A mass needs its unit. Type 47.9 t or 105.6 kip. Not kept.').waitFor()
  await typeInto(page, '/parts/CH-HUB/mass/uncertainty', '4 %')
  await previewed(page)
  expect(await cell.textContent()).toContain('47.9')
  await page.keyboard.press('Escape')
  await consequences(page).waitFor({ state: 'detached' })
  expect(await cell.textContent()).toContain('47.9')
  await cell.click()
  await page.keyboard.press('Escape')
  await expect.poll(async () => cell.textContent()).toContain('47.6')
})

test('a name that nothing has is refused in its own cell', async () => {
  await typeInto(page, '/weighings/crown/piece', 'crwn')
  await page.getByText(/did you mean "crown"\?/).waitFor({ timeout: 30_000 })
  await cellAt(page, '/weighings/crown/piece').click()
  await page.keyboard.press('Escape')
})

test('a block from a spreadsheet is one edit; one wrong cell in it and nothing of it is taken', async () => {
  await at('model/materials')
  await cellAt(page, '/materials/steel/density').click()
  await page.keyboard.press('Escape')
  await paste(page, 'Id\tDensity (kg/m3)\tNote\nsteel\t7840\tas cast\nbrass\t8500\t"for ""bushes"""\n')
  const said = await previewed(page)
  expect(said).toContain('1 of them new')
  expect(await cellAt(page, '/materials/brass/note').textContent()).toBe('for "bushes"')
  await page.keyboard.press('Escape')
  await consequences(page).waitFor({ state: 'detached' })
  expect(await cellAt(page, '/materials/brass/note').count()).toBe(0)
  await cellAt(page, '/materials/steel/density').click()
  await page.keyboard.press('Escape')
  await paste(page, '7840 kg/m3\n7.8\n1200 kg/m3\n1000 kg/m3')
  await page.getByText('Nothing of the block is kept').waitFor()
  const refused = (await consequences(page).textContent()) ?? ''
  expect(refused).toMatch(/Line 2, Density, “7.8”: A density needs its unit/)
  expect(refused).toContain('Line 4: no row is left')
  await consequences(page).getByRole('button', { name: 'Close' }).click()
})

test('one value for a column of the rows that are shown is one edit, counted before it is looked at, and undone at once', async () => {
  await at('model/bays')
  await page.getByRole('grid', { name: /bays/i }).waitFor({ timeout: 30_000 })
  const cells = page.locator('td[data-pointer^="/bays/"][data-pointer$="/allowable"]')
  await expect.poll(() => cells.first().textContent(), { timeout: 20_000 }).toContain('psf')
  const before = await cells.allTextContents()
  await page.getByRole('button', { name: 'Change a column' }).click()
  const form = page.getByRole('group', { name: /^Change a column/ })
  await form.getByLabel('Set').selectOption('/allowable')
  await form.getByLabel('to').fill('95')
  expect(await form.getByRole('status').textContent()).toContain('needs its unit')
  expect(await form.getByRole('button', { name: 'Look at it' }).isDisabled()).toBe(true)
  await form.getByLabel('to').fill('95 kPa')
  expect(await form.getByRole('status').textContent()).toMatch(
    new RegExp(`${before.length} of all ${before.length} rows would change`),
  )
  await form.getByLabel('to').press('Enter')
  expect(await previewed(page)).toContain(`of ${before.length} rows → 95 kPa`)
  await keep(page)
  for (const text of await cells.allTextContents()) expect(text).toContain('95')
  await page.keyboard.press('Control+z')
  await expect.poll(() => cells.allTextContents(), { timeout: 20_000 }).toEqual(before)
  await cells.first().focus()
  await page.keyboard.press('Shift+ArrowDown')
  await page.keyboard.press('Shift+ArrowDown')
  await page.keyboard.press('Control+d')
  expect(await previewed(page)).toMatch(/filled down: .* of [12] rows? →/)
  await page.keyboard.press('Escape')
  await consequences(page).waitFor({ state: 'detached' })
})

test('with keys alone a cell is reached, changed, kept and taken back, and a row opens all its fields', async () => {
  await at('model/materials')
  await cellAt(page, '/materials/rubber/density').waitFor()
  await page.locator('th[data-pointer="/materials/steel"]').focus()
  await page.keyboard.press('Enter')
  await page.keyboard.press('ArrowDown')
  await page.keyboard.press('ArrowRight')
  const focused = (): Promise<string | undefined> =>
    page.evaluate(() => (document.activeElement as HTMLElement | null)?.dataset.pointer)
  expect(await focused()).toBe('/materials/bearing_steel/density')
  await page.keyboard.press('Enter')
  await page.keyboard.press('Control+a')
  await page.keyboard.type('489 lb/ft3')
  await page.keyboard.press('Enter')
  await previewed(page)
  expect(await focused()).toBe('/materials/bearing_steel/density')
  await page.keyboard.press('Control+Enter')
  await consequences(page).waitFor({ state: 'detached', timeout: 30_000 })
  expect(await cellAt(page, '/materials/bearing_steel/density').textContent()).toContain('489')
  await page.keyboard.press('Control+z')
  await expect.poll(async () => cellAt(page, '/materials/bearing_steel/density').textContent()).toContain('7830')
})

test('an entity is added empty and cannot be kept until what is due is there; one that others name cannot go', async () => {
  await at('model/isolations')
  await page.getByLabel('Id of a new isolation').fill('ISO-X')
  await page.getByRole('button', { name: 'Add an isolation' }).click()
  await typeInto(page, '/isolations/ISO-X/what', 'spare feeder')
  await typeInto(page, '/isolations/ISO-X/kind', 'electrical')
  await typeInto(page, '/isolations/ISO-X/where', 'trailer 2')
  await keep(page)
  await page.getByRole('button', { name: 'ISO-E1', exact: true }).click()
  await page.getByRole('button', { name: 'Remove it' }).click()
  await consequences(page)
    .getByText(/\/services\/.*isolation/)
    .first()
    .waitFor({ timeout: 30_000 })
  expect(await consequences(page).getByRole('button', { name: /^Keep/ }).isDisabled()).toBe(true)
  await page.keyboard.press('Escape')
})

test('another way to do an activity is added as a row and adopted for one; the restart then says what it buys', async () => {
  await at('programme')
  await page.getByLabel('Id of a new way').fill('by-air')
  await page.getByRole('button', { name: 'Add a way' }).click()
  await typeInto(page, '/programme/ways/by-air/what', 'Bearing forged first and sent by air')
  await typeInto(page, '/programme/ways/by-air/of/activities', 'B060')
  await typeInto(page, '/programme/ways/by-air/work', '90 %')
  await keep(page)
  await page.getByLabel('Id of a new adjustment').fill('B060')
  await page.getByRole('button', { name: 'Add an adjustment' }).click()
  await typeInto(page, '/programme/adjustments/B060/reason', 'agreed with the maker')
  await typeInto(page, '/programme/adjustments/B060/way', 'by-aer')
  await page.getByText(/did you mean "by-air"\?/).waitFor({ timeout: 30_000 })
  await typeInto(page, '/programme/adjustments/B060/way', 'by-air')
  expect(await previewed(page)).toMatch(/Restart8 Apr 2033 → \d+ (Mar|Apr) 2033 −\d/)
  await page.keyboard.press('Escape')
  await consequences(page).waitFor({ state: 'detached' })
})

test('a set-up opens its times, and one that is longer than the crane stands idle moves what waits for the crane', async () => {
  await page.getByRole('button', { name: 'CR1-standing', exact: true }).click()
  const time = page.locator('[data-pointer="/programme/setUps/CR1-standing/times/1/time"]')
  await time.getByRole('button').click()
  await time.locator('input').fill('20 d')
  await time.locator('input').press('Enter')
  expect(await previewed(page)).toMatch(/Restart8 Apr 2033 → 15 Apr 2033 \+7/)
  await page.keyboard.press('Escape')
})

test('tables, forms and what hangs from the line have no accessibility violations and keep the width of the window', async () => {
  for (const hash of ['model/parts', 'model/shaft', 'model/programme/activities', 'model/order']) {
    await at(hash)
    await page.locator('.grid-table, .fields').first().waitFor({ timeout: 30_000 })
    const { violations } = await new AxeBuilder({ page }).analyze()
    expect(violations.map((v) => `${hash}, ${v.id}: ${v.nodes[0]?.html}`)).toEqual([])
    expect(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true)
  }
  await at('mass')
  await typeInto(page, '/parts/CH-HUB/mass/value', '90 t')
  await previewed(page)
  const { violations } = await new AxeBuilder({ page }).analyze()
  expect(violations.map((v) => `${v.id}: ${v.nodes[0]?.html}`)).toEqual([])
  await page.keyboard.press('Escape')
})
