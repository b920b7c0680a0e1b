import { readdirSync, readFileSync } from 'node:fs'
import { gzipSync } from 'node:zlib'
import type { BrowserContext, Page } from 'playwright-core'
import { openWorkbench } from '../web/journeys/workbench.ts'
import { atMost, type Line, reported, timeAtMost } from './line.ts'

const FIRST_VIEW = 1500
const EDIT = 100
const LONGEST_TASK = 50
const SCRIPT = 300
/** The view in space plays so long, ms: under a trace, and under the browser's own count of long tasks. */
const PLAYED = 4000
const OBSERVED = 20_000

/** Built page. */
const ASSETS = new URL('../web/dist/assets/', import.meta.url)

/**
 * The page in a browser, on the demo or a project file: when its first view stands, how long an edit takes to the standing
 * strip, and the longest task while a table scrolls and while the view in space plays.
 */
export async function pageLines(name: string, file?: string): Promise<Line[]> {
  const workbench = await openWorkbench(...(file === undefined ? [] : [file]))
  try {
    // What runs in the page is sent as text, and the loader of this bench marks names in it with a function of its own.
    await workbench.context.addInitScript('globalThis.__name = (of) => of')
    await oneEdit(workbench.address)
    await fetch(`${workbench.address}/api/summary`)
    const views = await times(3, () => firstView(workbench.context, workbench.address))
    const page = await opened(workbench.context, workbench.address)
    await page.waitForTimeout(2500)
    const edits = await edited(page)
    await at(page, 'mass')
    await page.waitForTimeout(1000)
    const scrolling = await longestTask(page, () => scrolled(page))
    await atSpace(page)
    const playing = await longestTask(page, () => played(page, PLAYED))
    await stopped(page)
    const seen = await longTasks(page, () => played(page, OBSERVED))
    return [
      timeAtMost(`${name}: first view`, Math.min(...views), FIRST_VIEW),
      timeAtMost(`${name}: an edit kept, to the strip`, Math.min(...edits), EDIT),
      timeAtMost(`${name}: longest task while scrolling`, scrolling, LONGEST_TASK),
      timeAtMost(`${name}: longest task while playing`, playing, LONGEST_TASK),
      reported(`${name}: long tasks in ${OBSERVED / 1000} s of playing, by the browser's own count`, seen.length, ''),
      timeAtMost(`${name}: the longest of them`, Math.max(0, ...seen), LONGEST_TASK),
      reported(`${name}: elements on the page of masses`, await elements(page), ''),
    ]
  } finally {
    await workbench.close()
  }
}

/** What the page is made of, compressed: the script that must be there before anything is shown, and the engine beside it. */
export function scriptLines(): Line[] {
  const size = (start: string): number => {
    const file = readdirSync(ASSETS).find((name) => name.startsWith(start) && name.endsWith('.js'))
    return file === undefined ? Number.NaN : gzipSync(readFileSync(new URL(file, ASSETS))).length / 1000
  }
  return [
    atMost('initial script, compressed', size('index'), 'kB', SCRIPT),
    reported('engine in its worker, compressed', size('worker'), 'kB'),
  ]
}

async function times<T>(runs: number, run: () => Promise<T>): Promise<T[]> {
  const all: T[] = []
  for (let i = 0; i < runs; i++) all.push(await run())
  return all
}

async function opened(context: BrowserContext, address: string, hash = ''): Promise<Page> {
  const page = await context.newPage()
  await page.setViewportSize({ width: 1440, height: 900 })
  await page.goto(`${address}#${hash}`)
  await page.getByRole('navigation', { name: 'Stages' }).waitFor({ timeout: 60_000 })
  return page
}

/** From the start of the navigation to the first check on the page, ms. */
async function firstView(context: BrowserContext, address: string): Promise<number> {
  const page = await context.newPage()
  await page.addInitScript(() => {
    const seen = new MutationObserver(() => {
      if (document.querySelector('main .verdict') === null) return
      seen.disconnect()
      requestAnimationFrame(() => performance.mark('first view'))
    })
    seen.observe(document, { childList: true, subtree: true })
  })
  await page.goto(address)
  await page.waitForFunction(() => performance.getEntriesByName('first view').length > 0, undefined, {
    timeout: 60_000,
  })
  const at = await page.evaluate(() => performance.getEntriesByName('first view')[0]?.startTime as number)
  await page.close()
  return at
}

const EDITS = 4

/** Keeps an edit of one mass, as a page of this user would: what undo and redo then have to take back and do again. */
async function oneEdit(address: string): Promise<void> {
  const { revision, document } = await (await fetch(`${address}/api/project`)).json()
  const parts = (document as { parts: Record<string, { mass?: { value: string } }> }).parts
  const id = Object.keys(parts).find((part) => parts[part]?.mass !== undefined)
  const patch = [{ op: 'replace', path: `/parts/${id}/mass/value`, value: '38 t' }]
  const body = JSON.stringify({ revision, patch, why: 'a mass for the bench' })
  await fetch(`${address}/api/change`, { method: 'POST', headers: { 'content-type': 'application/json' }, body })
}

/** That edit undone and done again by key: from the key, over the host's store, to the strip that says so, ms. */
async function edited(page: Page): Promise<number[]> {
  const all: number[] = []
  for (let i = 0; i < EDITS; i++) {
    const revision = await page.evaluate(() => /revision (\d+)/.exec(document.body.textContent ?? '')?.[1] ?? '')
    const key = i % 2 === 0 ? 'Control+z' : 'Control+Shift+Z'
    const button = page.getByRole('button', { name: i % 2 === 0 ? /^undo/i : /^redo/i })
    await button.first().waitFor({ timeout: 60_000 })
    all.push(await timeTo(page, key, new RegExp(`revision ${Number(revision) + 1}`)))
    await page.waitForTimeout(500)
  }
  return all
}

async function at(page: Page, hash: string): Promise<void> {
  await page.evaluate((to) => {
    location.hash = to
  }, hash)
  await page.locator('.stages a[aria-current="page"]', { hasText: hash }).waitFor()
}

/** From the key to the frame in which the words are on the page, ms; both taken inside the page. */
async function timeTo(page: Page, key: string, words: RegExp): Promise<number> {
  const waiting = page.evaluate(
    (wanted) =>
      new Promise<number>((resolve) => {
        const onKey = (event: KeyboardEvent): void => {
          if (event.key.toLowerCase() !== 'z') return
          removeEventListener('keydown', onKey, true)
          const began = performance.now()
          const look = (): void => {
            if (!new RegExp(wanted).test(document.body.textContent ?? '')) requestAnimationFrame(look)
            else resolve(performance.now() - began)
          }
          requestAnimationFrame(look)
        }
        addEventListener('keydown', onKey, true)
      }),
    words.source,
  )
  await page.keyboard.press(key)
  return waiting
}

interface TraceEvent {
  name: string
  pid: number
  tid: number
  ph: string
  /** Microseconds of the processor that the task took, where the trace tells; else its duration. */
  tdur?: number
  dur?: number
  args?: { name?: string }
}

/** The longest task of a page's main thread while something is done, ms of the processor: a busy machine adds next to nothing. */
async function longestTask(page: Page, run: () => Promise<void>): Promise<number> {
  const browser = page.context().browser()
  if (browser === null) throw new Error('the page has no browser of its own')
  await browser.startTracing(page, { categories: ['toplevel', '__metadata'] })
  await run()
  const trace = JSON.parse((await browser.stopTracing()).toString()) as { traceEvents: TraceEvent[] }
  const main = new Set(
    trace.traceEvents
      .filter((e) => e.name === 'thread_name' && e.args?.name === 'CrRendererMain')
      .map((e) => `${e.pid}/${e.tid}`),
  )
  const tasks = trace.traceEvents.filter((e) => e.ph === 'X' && main.has(`${e.pid}/${e.tid}`))
  if (tasks.length === 0) throw new Error('the trace holds no task of the page')
  return tasks.reduce((most, e) => Math.max(most, (e.tdur ?? e.dur ?? 0) / 1000), 0)
}

async function scrolled(page: Page): Promise<void> {
  await page.mouse.move(700, 500)
  for (let i = 0; i < 40; i++) {
    await page.mouse.wheel(0, 250)
    await page.waitForTimeout(16)
  }
}

async function atSpace(page: Page): Promise<void> {
  await at(page, 'model')
  await page.locator('main canvas').first().waitFor({ timeout: 120_000 })
  await page.waitForTimeout(1500)
}

/** Plays the view in space for a while, ms. */
async function played(page: Page, milliseconds: number): Promise<void> {
  await page.getByRole('button', { name: 'Play', exact: true }).click()
  await page.waitForTimeout(milliseconds)
}

async function stopped(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Stop', exact: true }).click()
  await page.getByRole('button', { name: 'Play', exact: true }).waitFor()
}

/**
 * Tasks of the page's main thread that the browser counts as long, over 50 ms, while something is done, ms on the clock: what a
 * person feels, and what a busy machine lengthens.
 */
async function longTasks(page: Page, run: () => Promise<void>): Promise<number[]> {
  await page.evaluate(() => {
    const seen: number[] = []
    const watch = new PerformanceObserver((list) => seen.push(...list.getEntries().map((entry) => entry.duration)))
    watch.observe({ type: 'longtask' })
    Object.assign(globalThis, { longTasksSeen: seen })
  })
  await run()
  return page.evaluate(() => (globalThis as unknown as { longTasksSeen: number[] }).longTasksSeen)
}

const elements = async (page: Page): Promise<number> => {
  await at(page, 'mass')
  await page.waitForTimeout(300)
  return page.evaluate(() => document.querySelectorAll('*').length)
}
