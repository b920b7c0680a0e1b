import AxeBuilder from '@axe-core/playwright'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { openWorkbench, type Workbench } from './workbench.ts'

let workbench: Workbench
beforeAll(async () => {
  workbench = await openWorkbench()
})
afterAll(() => workbench?.close())

test('a lift sheet is signed by keys alone, stands through an edit elsewhere, and is overtaken by one of its own', async () => {
  const page = await workbench.context.newPage()
  await page.goto(`${workbench.address}#lift/motor-04-out`)
  const signatures = page.getByRole('region', { name: 'Signatures on its sheet' })
  await signatures.getByText('not signed').waitFor({ timeout: 90_000 })
  await signatures.getByLabel('Adding').focus()
  await page.keyboard.type('read and checked')
  await page.keyboard.press('Enter')
  await signatures.getByText('1 stand').waitFor({ timeout: 60_000 })
  const href = await signatures.getByRole('link', { name: 'signed document' }).getAttribute('href')
  const signed = await page.request.get(new URL(href ?? '', workbench.address).href)
  expect((await signed.body()).subarray(0, 5).toString()).toBe('%PDF-')
  const change = async (path: string, value: string) => {
    const { revision } = await (await page.request.get(`${workbench.address}/api/project`)).json()
    const patch = [{ op: 'replace', path, value }]
    const data = { revision, patch, why: 'as the maker says' }
    expect((await page.request.post(`${workbench.address}/api/change`, { data })).status()).toBe(200)
  }
  await change('/lifts/crown-out/note', 'with the second crew')
  await signatures.getByRole('button', { name: 'revision 2' }).waitFor({ timeout: 60_000 })
  await signatures.getByText('1 stand').waitFor()
  await change('/pieces/motor-04/points/front/rated', '1.9 t')
  await signatures.getByText('Overtaken', { exact: true }).waitFor({ timeout: 60_000 })
  const told = await signatures.textContent()
  expect(told).toMatch(/by revision 3,.*as the maker says.*\/pieces\/motor-04\/points\/front\/rated/s)
  expect(told?.match(/points\/front\/rated/g)).toHaveLength(1)
  const moved = await signatures
    .getByRole('row', { name: /lifting point front/ })
    .getByRole('cell')
    .allTextContents()
  expect(moved[0]).not.toBe(moved[1])
  const scan = await new AxeBuilder({ page }).include('.signatures').analyze()
  expect(scan.violations.map(({ id }) => id)).toEqual([])
  await signatures.scrollIntoViewIfNeeded()
  if (process.env.PICTURES) await page.screenshot({ path: `${process.env.PICTURES}/signing-1440.png` })
  await page.setViewportSize({ width: 1024, height: 768 })
  await signatures.scrollIntoViewIfNeeded()
  if (process.env.PICTURES) await page.screenshot({ path: `${process.env.PICTURES}/signing-1024.png` })
  await page.close()
})
