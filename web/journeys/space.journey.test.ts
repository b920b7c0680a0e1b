import AxeBuilder from '@axe-core/playwright'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { boxFaults } from './boxes.ts'
import { openWorkbench, type Workbench } from './workbench.ts'

let workbench: Workbench
let page: Page
beforeAll(async () => {
  workbench = await openWorkbench()
  page = await opened({ width: 1440, height: 900 })
})
afterAll(() => workbench?.close())

async function opened(size: { width: number; height: number }): Promise<Page> {
  const made = await workbench.context.newPage()
  await made.setViewportSize(size)
  await made.goto(`${workbench.address}#model`)
  await made.waitForFunction(() => Number(document.querySelector<HTMLElement>('.space')?.dataset.frames) > 0, null, {
    timeout: 60_000,
  })
  return made
}

const region = (p = page) => p.getByRole('application')
const card = () => page.getByRole('complementary', { name: 'Card' })

/** What the last drawing took, and how many there have been. */
const drawn = async (): Promise<Record<'calls' | 'triangles' | 'frames' | 'inked' | 'looks', number>> =>
  region().evaluate((e) => {
    const { calls, triangles, frames, inked, looks } = (e as HTMLElement).dataset
    return {
      calls: Number(calls),
      triangles: Number(triangles),
      frames: Number(frames),
      inked: Number(inked),
      looks: Number(looks),
    }
  })

/** After something has been done, once it is drawn. */
async function afterDrawing<T>(act: () => Promise<T>): Promise<T> {
  const { frames } = await drawn()
  const done = await act()
  await expect.poll(async () => (await drawn()).frames, { timeout: 10_000 }).toBeGreaterThan(frames)
  return done
}

const slider = () => page.getByLabel('Along the order')

test('nothing is drawn at rest, and one drawing takes few calls', async () => {
  await page.waitForTimeout(1500)
  const before = await drawn()
  await page.waitForTimeout(1500)
  expect((await drawn()).frames).toBe(before.frames)
  expect(before.calls).toBeLessThanOrEqual(5)
  expect(before.triangles).toBeGreaterThan(10_000)
  expect(before.triangles).toBeLessThan(60_000)
})

test('what is pointed at has its card beside the drawing, with mass, basis and links', async () => {
  const box = await region().boundingBox()
  if (box === null) throw new Error('the drawing has no place')
  await page.mouse.click(box.x + box.width * 0.45, box.y + box.height * 0.72)
  await expect.poll(() => card().textContent()).toContain('Let go')
  const text = (await card().textContent()) ?? ''
  expect(text).toContain('Mass')
  expect(text).toMatch(/±/)
  expect(text).toMatch(/calculated|weighed|catalogue|estimated/)
  expect(await card().getByRole('link').count()).toBeGreaterThan(0)
  const place = await card().boundingBox()
  expect(place?.x).toBeGreaterThanOrEqual(box.x + box.width)
  await card().getByRole('button', { name: 'Let go' }).click()
  await expect.poll(() => card().textContent()).toContain('Pick a part')
})

test('a section stands where its slider says, in the units chosen, and cuts', async () => {
  await afterDrawing(() => page.getByRole('button', { name: 'Section across x' }).click())
  await afterDrawing(() => page.getByLabel('Place of the section').fill('3'))
  expect(await page.locator('.section-at').textContent()).toMatch(/x 3\.00\s+m/)
  await page.getByRole('button', { name: 'US', exact: true }).click()
  expect(await page.locator('.section-at').textContent()).toMatch(/x 9\.84\s+ft/)
  await page.getByRole('button', { name: 'SI', exact: true }).click()
  await afterDrawing(() => page.getByRole('button', { name: 'Section across x' }).click())
})

test('two things are measured by keys alone: from one bay to the next it is as far as the project says', async () => {
  await region().focus()
  await page.keyboard.press('m')
  const list = page.locator('.in-view')
  await list.locator('summary').press('Enter')
  for (const name of ['Bay B1', 'Bay B2']) await list.getByRole('button', { name, exact: true }).press('Enter')
  await expect.poll(() => page.locator('.measured').textContent()).toContain('17.50')
  await region().focus()
  await page.keyboard.press('Escape')
  await expect.poll(() => page.locator('.measured').count()).toBe(0)
  await list.locator('summary').press('Enter')
})

test('it plays while it is told to, leaves the tables alone, inks each step once, and stops where it is', async () => {
  await slider().fill('3')
  const before = await drawn()
  await page.getByRole('button', { name: 'Play' }).click()
  const tables = await page.evaluate(
    () =>
      new Promise<number>((done) => {
        let changed = 0
        const watch = new MutationObserver((list) => {
          changed += list.length
        })
        for (const table of document.querySelectorAll('table'))
          watch.observe(table, { subtree: true, childList: true, attributes: true, characterData: true })
        setTimeout(() => {
          watch.disconnect()
          done(changed)
        }, 2500)
      }),
  )
  await page.getByRole('button', { name: 'Stop' }).click()
  expect(tables).toBe(0)
  const stopped = Number(await slider().inputValue())
  expect(stopped).toBeGreaterThan(3)
  // how long a task takes hangs from the machine; what is done for a frame does not
  const after = await drawn()
  expect(after.frames).toBeGreaterThan(before.frames)
  expect(after.inked - before.inked).toBeLessThanOrEqual(3 * Math.ceil(stopped - 3) + 3)
  expect(after.looks - before.looks).toBeLessThanOrEqual(8 * Math.ceil(stopped - 3) + 3)
  await page.waitForTimeout(600)
  const { frames } = await drawn()
  await page.waitForTimeout(800)
  expect((await drawn()).frames).toBe(frames)
  expect(Number(await slider().inputValue())).toBe(stopped)
})

test('keys step along the order, look from every side, and let go', async () => {
  await slider().fill('3')
  await region().focus()
  await afterDrawing(() => page.keyboard.press('PageDown'))
  expect(Number(await slider().inputValue())).toBe(4)
  await afterDrawing(() => page.keyboard.press('PageUp'))
  expect(Number(await slider().inputValue())).toBe(3)
  for (const key of ['s', 'f', 'a', 'p', 'o', 'ArrowLeft', 'Shift+ArrowUp', '+'])
    await afterDrawing(() => page.keyboard.press(key))
  await afterDrawing(() => page.keyboard.press('Space'))
  await page.getByRole('button', { name: 'Stop' }).waitFor()
  await page.keyboard.press('Space')
  await page.getByRole('button', { name: 'Play' }).waitFor()
})

test('words beside the slider say which step it is, out and back', async () => {
  await slider().fill('3.5')
  await expect.poll(() => page.locator('.where').textContent()).toContain('step 4 of 30')
  await slider().fill('56.5')
  await expect.poll(() => page.locator('.where').textContent()).toMatch(/^back, step 4 of 30/)
  await slider().fill('60')
  await expect.poll(() => page.locator('.where p').first().textContent()).toBe('all back')
  await slider().fill('0')
})

test('what the piece is nearest to is told while it is on its way, in the units chosen, and not once it stands', async () => {
  const near = page.locator('.clear-now')
  await slider().fill('3.1')
  await expect
    .poll(() => near.textContent(), { timeout: 30_000 })
    .toMatch(/^Nearest now: 3\.34\u00a0m, .* to ventilation duct/)
  await expect
    .poll(() => page.locator('.space-label.edit').allTextContents())
    .toContainEqual(expect.stringContaining('3.34\u00a0m'))
  await page.getByRole('button', { name: 'US', exact: true }).click()
  await expect.poll(() => near.textContent()).toMatch(/^Nearest now: 10\.9\d*\u00a0ft/)
  await page.getByRole('button', { name: 'SI', exact: true }).click()
  // down in the machine it is a part that is nearest
  await slider().fill('18.01')
  await expect.poll(() => near.textContent(), { timeout: 30_000 }).toContain('Front segment, lower left')
  await slider().fill('4')
  await expect.poll(() => near.textContent()).toBe('')
})

/** What is looked at may be kept once it is worked out. */
async function keepByKey(): Promise<void> {
  await expect.poll(() => page.getByRole('button', { name: /^Keep/ }).isEnabled(), { timeout: 30_000 }).toBe(true)
  await page.keyboard.press('Control+Enter')
}

test('a view is kept in the project, chosen by a key, undone, and taken out', async () => {
  const views = page.getByRole('region', { name: 'Saved views' })
  const kept = views.getByRole('button', { name: 'Crown from above', exact: true })
  await slider().fill('3')
  await region().focus()
  await afterDrawing(() => page.keyboard.press('a'))
  await page.getByRole('checkbox', { name: 'ground' }).uncheck()
  await views.getByLabel('Name of this view').fill('Crown from above')
  await page.keyboard.press('Enter')
  await page.getByText('view “Crown from above” kept').first().waitFor()
  await keepByKey()
  await kept.waitFor({ timeout: 30_000 })
  // another picture, then back to the one that was kept
  await slider().fill('0')
  await page.getByRole('checkbox', { name: 'ground' }).check()
  await region().focus()
  await afterDrawing(() => page.keyboard.press('1'))
  await expect.poll(() => slider().inputValue()).toBe('3')
  expect(await page.getByRole('checkbox', { name: 'ground' }).isChecked()).toBe(false)
  await page.keyboard.press('Control+z')
  await expect.poll(() => kept.count(), { timeout: 30_000 }).toBe(0)
  await page.keyboard.press('Control+Shift+z')
  await kept.waitFor({ timeout: 30_000 })
  await views.getByRole('button', { name: 'Take out view Crown from above' }).press('Enter')
  await page.getByText('view “Crown from above” taken out').first().waitFor()
  await keepByKey()
  await expect.poll(() => kept.count(), { timeout: 30_000 }).toBe(0)
  await page.getByRole('checkbox', { name: 'ground' }).check()
})

test('the services of a cut that is chosen are marked with their tags and state, and listed', async () => {
  await slider().fill('0')
  const cut = page.getByLabel('Services that cross')
  const option = cut.locator('option', { hasText: 'Front segment, crown' }).first()
  const count = Number(/\((\d+)\)$/.exec((await option.textContent()) ?? '')?.[1])
  await afterDrawing(async () => cut.selectOption((await option.getAttribute('value')) as string))
  const listed = page.getByRole('list', { name: 'Services of the cut' }).getByRole('listitem')
  expect(count).toBeGreaterThan(0)
  await expect.poll(() => listed.count()).toBe(count)
  // the marks come with a drawing after the one that the choice brought: the list stands before they do
  const marked = page.locator('.space-label.ink').filter({ hasText: / open$/ })
  await expect.poll(() => marked.count()).toBe(count)
  await cut.selectOption('')
  await expect.poll(() => listed.count()).toBe(0)
})

test('the card says what is drawn and does not stand in the project', async () => {
  await slider().fill('3.5')
  await expect.poll(() => card().textContent()).toContain('the trailer')
  await slider().fill('0')
})

test('the drawing, its card and its list have no accessibility faults, and nothing runs into anything', async () => {
  await page.locator('.in-view summary').click()
  await page.locator('.in-view').getByRole('button', { name: 'Cutting head with drive' }).first().click()
  await page.waitForTimeout(1200)
  const { violations } = await new AxeBuilder({ page }).include('.space-section').analyze()
  expect(violations.map((v) => `${v.id}: ${v.nodes[0]?.html}`)).toEqual([])
  expect(await boxFaults(page)).toEqual([])
})

test('at 1024 the card stands under the drawing and nothing leaves the window', async () => {
  const narrow = await opened({ width: 1024, height: 768 })
  const [view, under] = [
    await region(narrow).boundingBox(),
    await narrow.getByRole('complementary', { name: 'Card' }).boundingBox(),
  ]
  expect(under?.y).toBeGreaterThan((view?.y ?? 0) + (view?.height ?? 0))
  expect(await narrow.evaluate(() => document.documentElement.scrollWidth <= innerWidth)).toBe(true)
  // The head of the page is measured by a journey of its own.
  await narrow.evaluate(() => {
    for (const e of document.querySelectorAll<HTMLElement>('header, nav')) e.style.display = 'none'
  })
  expect(await boxFaults(narrow)).toEqual([])
  await narrow.close()
})

test('without three dimensions it says so, and the list stands in', async () => {
  const flat = await workbench.context.newPage()
  await flat.addInitScript(() => {
    const own = HTMLCanvasElement.prototype.getContext
    HTMLCanvasElement.prototype.getContext = function (this: HTMLCanvasElement, kind: string, ...rest: unknown[]) {
      return kind.startsWith('webgl') ? null : Reflect.apply(own, this, [kind, ...rest])
    } as typeof own
  })
  const faults: string[] = []
  flat.on('pageerror', (e) => faults.push(e.message))
  await flat.goto(`${workbench.address}#model`)
  await flat.getByText('cannot draw in three dimensions').waitFor({ timeout: 60_000 })
  await flat.locator('.in-view').getByRole('button', { name: 'Bay B1', exact: true }).click()
  await expect
    .poll(() => flat.getByRole('complementary', { name: 'Card' }).textContent())
    .toContain('Allowable pressure')
  expect(faults).toEqual([])
  await flat.close()
})
