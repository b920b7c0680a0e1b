import AxeBuilder from '@axe-core/playwright'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { keep } from './cells.ts'
import { openWorkbench, type Workbench } from './workbench.ts'

const file = new URL('../../examples/under-way/project.yaml', import.meta.url)
const GONE = '0'.repeat(64)

let workbench: Workbench
beforeAll(async () => {
  workbench = await openWorkbench(file.pathname)
})
afterAll(() => workbench?.close())

test('a photograph is added to an opened part, seen there and printed in the dossier; one that is gone is said to be', async () => {
  const page = await workbench.context.newPage()
  await page.goto(`${workbench.address}#model/inspections`, { waitUntil: 'commit', timeout: 90_000 })
  await page.getByRole('button', { name: 'swivel', exact: true }).click({ timeout: 60_000 })
  const buffer = await page.screenshot({ type: 'jpeg', clip: { x: 0, y: 0, width: 400, height: 300 } })
  const input = page.getByLabel(/^Add a photograph to /)
  await input.setInputFiles({ name: 'list.txt', mimeType: 'text/plain', buffer: Buffer.from('a list') })
  await page.getByText('a JPEG or PNG is due').waitFor()
  await input.setInputFiles({ name: 'bearing.jpg', mimeType: 'image/jpeg', buffer })
  await keep(page)
  const picture = page.getByRole('img', { name: 'bearing', exact: true })
  await picture.waitFor({ timeout: 30_000 })
  await expect.poll(() => picture.evaluate((img) => (img as HTMLImageElement).naturalWidth)).toBe(400)

  const { revision, document } = await (await page.request.get(`${workbench.address}/api/project`)).json()
  expect(document.inspections.swivel.attachments).toMatchObject([{ caption: 'bearing' }])
  const path = '/inspections/swivel/attachments/-'
  const patch = [{ op: 'add', path, value: { hash: GONE, caption: 'gone' } }]
  const sent = await page.request.post(`${workbench.address}/api/change`, { data: { revision, patch, why: 'by hand' } })
  expect(sent.status()).toBe(200)
  await page.getByText('not in the store').waitFor({ timeout: 30_000 })
  const { violations } = await new AxeBuilder({ page }).include('.photographs').analyze()
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([])

  const pdf = await (await page.request.get(`${workbench.address}/api/report/dossier/dossier.pdf`)).body()
  expect(pdf.toString('latin1').match(/\/Subtype \/Image/g)).toHaveLength(1)
  const data = await (await page.request.get(`${workbench.address}/api/report/dossier.json`)).json()
  expect(data.parts[0].attachments.map(({ state }: { state: string }) => state)).toEqual([
    'printed',
    'not in the store',
  ])
})
