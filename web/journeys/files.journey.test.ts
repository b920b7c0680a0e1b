import { mkdtempSync, truncateSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { zipOf } from '../../host/src/exchange/zip.fixture.ts'
import { openWorkbench, type Workbench } from './workbench.ts'

const underWay = new URL('../../examples/under-way/project.yaml', import.meta.url)
const folder = mkdtempSync(join(tmpdir(), 'files-'))

const MEBIBYTE = 1024 * 1024
/** What a refusal may take, against hanging: none of these files is worth a wait. */
const SOON = 20_000

/** A file of that name with these bytes; of so many bytes where a number is given, without writing them. */
function file(name: string, content: Uint8Array | string | number): string {
  const path = join(folder, name)
  writeFileSync(path, typeof content === 'number' ? '' : content)
  if (typeof content === 'number') truncateSync(path, content)
  return path
}

const garbage = Uint8Array.from({ length: 4000 }, (_, i) => (i * 7919 + 13) % 256)
/** A binary STL that says it has twelve triangles and has one and a half. */
const cutStl = Buffer.concat([Buffer.alloc(80, 'cut'), Buffer.from([12, 0, 0, 0]), Buffer.alloc(75, 7)])
const GLTF = JSON.stringify({
  asset: { version: '2.0' },
  buffers: [{ uri: 'https://elsewhere.invalid/corners.bin', byteLength: 84 }],
})
const bomb = zipOf('xl/worksheets/sheet1.xml', Buffer.alloc(80 * MEBIBYTE, 32), 100)
const lines = `activity,start,finish,note\n${'A010,2032-05-01,,\n'.repeat(200_000)}`

let workbench: Workbench
let page: Page
/** Faults of the page, and addresses asked for beside its host. */
const complaints: string[] = []

async function opened(...args: string[]): Promise<void> {
  workbench = await openWorkbench(...args)
  page = await workbench.context.newPage()
  page.on('pageerror', (error) => complaints.push(error.message))
  page.on('request', (r) => /^(http:\/\/(127|localhost)|blob:|data:)/.test(r.url()) || complaints.push(r.url()))
}

const project = async (): Promise<string> => (await page.request.get(`${workbench.address}/api/project`)).text()

describe('on the pages of a project', () => {
  let before: string
  beforeAll(async () => {
    await opened(underWay.pathname)
    before = await project()
  }, 120_000)
  afterAll(() => workbench?.close())

  test.each<[what: string, path: string, said: RegExp]>([
    ['a workbook that unpacks to eighty megabytes', file('bomb.xlsx', bomb), /bomb\.xlsx.*found more than.*unpacked/],
    ['200,000 lines', file('lines.csv', lines), /lines\.csv.*found more than 20000 rows, expected at most 20000/],
    ['a file of a gigabyte', file('huge.csv', 1024 * MEBIBYTE), /huge\.csv: found 1024 MB, expected a table.*4\.0 MB/],
    [
      'binary garbage',
      file('garbage.csv', garbage),
      /garbage\.csv: found bytes that are no UTF-8 in line 1, expected text/,
    ],
    ['nothing at all', file('empty.csv', ''), /empty\.csv: found an empty file, expected.*such as .activity,start/],
    ['a mesh cut short', file('cut.stl', cutStl), /cut\.stl: found bytes of zero/],
    [
      'a mesh whose bytes lie elsewhere',
      file('else.gltf', GLTF),
      /else\.gltf: found a mesh \(glTF\), expected a table/,
    ],
    ['formulas where an id is due', file('sums.csv', 'activity,start\n=1+1,2032-05-01\n'), /1 refused.*found .=1\+1/s],
  ])('as a table of progress, %s is refused in a clear line', async (_, path, said) => {
    await page.goto(`${workbench.address}#programme`)
    const section = page.locator('.bringIn')
    await section.getByLabel('Table of progress').setInputFiles(path, { timeout: 60_000 })
    await expect
      .poll(async () => (await section.textContent())?.replaceAll(/\s+/g, ' '), { timeout: SOON })
      .toMatch(said)
    expect(await project()).toBe(before)
  })

  test.each<[what: string, path: string, said: RegExp]>([
    ['a workbook', file('ticks.xlsx', bomb), /found a workbook.*expected a file of ticks/],
    ['binary garbage', file('garbage.json', garbage), /control character.*expected plain text/],
    ['nothing at all', file('empty.json', ''), /empty\.json: found an empty file, expected a file of ticks.*such as/],
    ['the progress of the week', file('week.csv', 'activity,start\n'), /found "a" at line 1, column 1/],
    ['a file of a gigabyte', file('huge.json', 1024 * MEBIBYTE), /huge\.json: found 1024 MB/],
  ])('as ticks, %s is refused in a clear line', async (_, path, said) => {
    await page.goto(`${workbench.address}#report`)
    await page.getByLabel('File of ticks').setInputFiles(path, { timeout: 60_000 })
    const alert = page.locator('section.along [role="alert"]')
    await expect.poll(() => alert.textContent(), { timeout: SOON }).toMatch(said)
    expect(await project()).toBe(before)
  })

  test.each<[what: string, path: string, said: RegExp]>([
    ['garbage called a picture', file('garbage.jpg', garbage), /garbage\.jpg is no picture, by its first bytes/],
    ['a document called a picture', file('paper.png', '%PDF-1.7\n'), /paper\.png is a document \(PDF\)/],
    ['nothing at all', file('empty.jpg', ''), /empty\.jpg: found an empty file, expected a picture/],
    ['a picture of thirteen megabytes', file('large.jpg', 13 * MEBIBYTE), /large\.jpg: found 13 MB/],
  ])('as a photograph, %s is refused in a clear line', async (_, path, said) => {
    await page.goto(`${workbench.address}#model/inspections`)
    const input = page.getByLabel(/^Add a photograph to /)
    if ((await input.count()) === 0) await page.getByRole('button', { name: 'swivel', exact: true }).click()
    await input.setInputFiles(path)
    await expect.poll(() => page.locator('.photographs [role="status"]').textContent(), { timeout: SOON }).toMatch(said)
    expect(await project()).toBe(before)
  })

  test('a file dropped beside every place that takes one is said not to be read, and the page stays', async () => {
    await page.goto(`${workbench.address}#ground`)
    await page.locator('.stages a[aria-current="page"]', { hasText: 'ground' }).waitFor({ timeout: 60_000 })
    const client = await workbench.context.newCDPSession(page)
    const data = { items: [], files: [file('dropped.csv', 'activity\n')], dragOperationsMask: 1 }
    for (const type of ['dragEnter', 'dragOver', 'drop'] as const)
      await client.send('Input.dispatchDragEvent', { type, x: 700, y: 600, data })
    const alert = page.getByRole('alert').filter({ hasText: 'dropped.csv' })
    await alert.waitFor()
    expect(page.url()).toBe(`${workbench.address}/#ground`)
    await alert.getByRole('button', { name: 'Close' }).click()
    await alert.waitFor({ state: 'detached' })
    expect(await project()).toBe(before)
  })

  test('after all of it the page still takes a sound table, and nothing else was asked for', async () => {
    await page.goto(`${workbench.address}#programme`)
    const section = page.locator('.bringIn')
    await section.getByLabel('Table of progress').setInputFiles(file('sound.csv', 'activity,note\n'))
    await section.getByRole('status', { name: 'Report of the table' }).waitFor()
    expect(complaints).toEqual([])
  })
})

describe('at the start of an empty project', () => {
  beforeAll(async () => {
    await opened('--empty')
    await page.goto(workbench.address)
    await page.getByLabel(/JSON or YAML/).waitFor({ timeout: 60_000 })
  }, 120_000)
  afterAll(() => workbench?.close())

  const deep = `{ "a": ${'['.repeat(5000)}${']'.repeat(5000)} }`
  const laughs = ['a0: &a0 [x, x]', ...Array.from({ length: 30 }, (_, i) => `a${i + 1}: &a${i + 1} [*a${i}, *a${i}]`)]
  test.each<[what: string, path: string, said: RegExp]>([
    [
      'a workbook',
      file('plan.xlsx', bomb),
      /found a workbook \(XLSX\).*expected a project file, JSON or YAML.*project\.yaml/,
    ],
    ['a mesh', file('hub.gltf', GLTF), /found a mesh \(glTF\).*beside which its meshes lie/],
    ['a mesh cut short', file('hub.stl', cutStl), /control character|bytes that are no text/],
    ['binary garbage', file('garbage.yaml', garbage), /control character/],
    ['nothing at all', file('empty.yaml', ''), /found an empty file.*expected a project file/],
    ['a table', file('table.yaml', 'activity,start\nA,2032-01-01\n'), /is not a sound project/],
    ['a file of a gigabyte', file('huge.yaml', 1024 * MEBIBYTE), /found 1024 MB.*at most 64 MB/],
    ['lists within lists', file('deep.json', deep), /levels|deep/],
    ['aliases that double thirty times', file('laughs.yaml', laughs.join('\n')), /values|aliases/],
  ])('as a project, %s is refused in a clear line', async (_, path, said) => {
    const input = page.getByLabel(/JSON or YAML/)
    await input.setInputFiles(path)
    const section = page.getByRole('region', { name: 'Open a project file' })
    await expect.poll(() => section.getByRole('alert').textContent(), { timeout: SOON }).toMatch(said)
    expect(JSON.parse(await project()).document.parts ?? {}).toEqual({})
    expect(complaints).toEqual([])
  })
})
