import AxeBuilder from '@axe-core/playwright'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { boxFaults } from './boxes.ts'
import { openWorkbench, type Workbench } from './workbench.ts'

let workbench: Workbench
beforeAll(async () => {
  workbench = await openWorkbench('--empty')
})
afterAll(() => workbench?.close())

const STAGES = ['project', 'model', 'mass', 'strip', 'lift', 'ground', 'programme', 'risk', 'report']

async function opened(): Promise<{ page: Page; complaints: string[] }> {
  const page = await workbench.context.newPage()
  const complaints: string[] = []
  page.on('console', (message) => message.type() === 'error' && complaints.push(message.text()))
  page.on('pageerror', (error) => complaints.push(error.message))
  await page.goto(workbench.address)
  await page.getByRole('heading', { name: 'What is needed for the first lift' }).waitFor({ timeout: 30_000 })
  return { page, complaints }
}

async function seriousFaults(page: Page): Promise<string[]> {
  const { violations } = await new AxeBuilder({ page }).analyze()
  const serious = violations.filter((v) => v.impact === 'serious' || v.impact === 'critical')
  return serious.map((v) => `${v.id}: ${v.nodes[0]?.html}`)
}

test('an empty project opens, and no page of it fails or has serious accessibility violations', async () => {
  const { page, complaints } = await opened()
  for (const stage of STAGES) {
    await page.evaluate((hash) => {
      location.hash = hash
    }, stage)
    await page.locator('.stages a[aria-current="page"]', { hasText: stage }).waitFor()
    await page.waitForTimeout(150)
    expect([stage, ...(await seriousFaults(page))]).toEqual([stage])
  }
  expect(complaints).toEqual([])
  await page.close()
})

test('a file that is no sound project is refused with everything that is wrong, line by line', async () => {
  const { page } = await opened()
  const text = 'schemaVersion: 1\nabout: { title: Mine }\nmaterials: { steel: { density: 7850 } }\nlift: {}\n'
  const file = { name: 'mine.yaml', mimeType: 'text/yaml', buffer: Buffer.from(text) }
  await page.getByLabel(/JSON or YAML/).setInputFiles(file)
  const alert = page.getByRole('region', { name: 'Open a project file' }).getByRole('alert')
  await alert.waitFor()
  const lines = await alert.getByRole('listitem').allTextContents()
  expect(lines.length).toBe(2)
  expect(lines.join('\n')).toContain('/materials/steel/density: found 7850')
  expect(lines.join('\n')).toContain('such as')
  await page
    .getByLabel(/JSON or YAML/)
    .setInputFiles({ ...file, buffer: Buffer.from('schemaVersion: 1\nabout: { title: Mine }\n') })
  await page.getByText('mine.yaml is sound').waitFor()
  await page.close()
})

/** Types into the field that has the focus what its example says, or the first word of a choice. */
async function typeExample(page: Page): Promise<void> {
  const [isChoice, hint] = await page.evaluate(() => {
    const field = document.activeElement as HTMLInputElement
    const hint = document.getElementById(field.getAttribute('aria-describedby') ?? '')?.textContent ?? ''
    return [field.tagName === 'SELECT', hint] as const
  })
  if (isChoice) await page.keyboard.press('ArrowDown')
  else await page.keyboard.type(/^such as (.*?)(;|$)/.exec(hint)?.[1] ?? '')
}

const focusIsOn = (page: Page): Promise<string> =>
  page.evaluate(() => document.activeElement?.closest('form')?.getAttribute('aria-label') ?? '')

test('by keys alone, an empty project comes to its first lift with hook load, checks and sheet', async () => {
  const { page, complaints } = await opened()
  const steps = await page.locator('.start > ol > li').count()
  for (let step = 0; step < steps; step++) {
    await page.waitForFunction(() => document.activeElement?.closest('form.start-form') != null)
    const title = await focusIsOn(page)
    const shape = page.locator('form.start-form select[name="shape"]')
    for (
      let field = 0;
      field < 30 && (await page.evaluate(() => document.activeElement?.tagName)) !== 'BUTTON';
      field++
    ) {
      const hasShape = (await shape.count()) > 0 && (await shape.evaluate((e) => e === document.activeElement))
      if (!hasShape) await typeExample(page)
      await page.keyboard.press('Tab')
    }
    await page.keyboard.press('Enter')
    await page.locator('form.start-form [role="status"]').waitFor()
    if (step === 5) expect(await boxFaults(page)).toEqual([])
    await page.keyboard.press('Control+Enter')
    await page.waitForFunction(
      (before) => document.activeElement?.closest('form')?.getAttribute('aria-label') !== before,
      title,
    )
    await page.getByText(`${step + 1} of ${steps} there`).waitFor()
  }
  const lift = page.getByRole('region', { name: 'The first lift' })
  await lift
    .getByText(/hook load/)
    .first()
    .waitFor()
  // 37.6 t, 3 % of it and four slings of 60 kg, all typed above.
  expect(await lift.textContent()).toMatch(/39\.0\s*t/)
  expect(await lift.locator('tbody tr').count()).toBeGreaterThan(5)
  const sheet = await lift.getByRole('link', { name: /Lift sheet/ }).getAttribute('href')
  const pdf = await page.request.get(new URL(sheet ?? '', workbench.address).href)
  expect(pdf.headers()['content-type']).toBe('application/pdf')
  expect((await pdf.body()).subarray(0, 5).toString()).toBe('%PDF-')
  expect(await seriousFaults(page)).toEqual([])
  expect(complaints).toEqual([])
  await page.close()
})
