import { chmodSync, mkdirSync, mkdtempSync, utimesSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { chromiumPath } from './chromium.mjs'
import { areCurrent } from './packages.mjs'
import { newest } from './page.mjs'

const early = new Date('2030-01-01T00:00:00Z')
const late = new Date('2030-01-02T00:00:00Z')

test('packages are current only when installed after the lock file last changed', () => {
  const folder = mkdtempSync(join(tmpdir(), 'project-'))
  const lock = file(folder, 'package-lock.json', early)
  expect(areCurrent(folder)).toBe(false)
  file(folder, 'node_modules/.package-lock.json', late)
  expect(areCurrent(folder)).toBe(true)
  utimesSync(lock, late, new Date('2030-01-03T00:00:00Z'))
  expect(areCurrent(folder)).toBe(false)
})

test('the newest change in a folder counts, however deep', () => {
  const folder = mkdtempSync(join(tmpdir(), 'sources-'))
  file(folder, 'a/b/deep.ts', late)
  file(folder, 'top.ts', early)
  expect(newest(folder)).toBe(late.getTime())
  expect(newest(join(folder, 'missing'))).toBe(-1)
})

test('CHROMIUM_PATH is taken when it can be run, and nothing takes its place when it cannot', () => {
  const folder = mkdtempSync(join(tmpdir(), 'chromium-'))
  const chosen = file(folder, 'my-chromium', early)
  expect(chromiumPath({ CHROMIUM_PATH: chosen, PATH: folder })).toBeUndefined()
  chmodSync(chosen, 0o755)
  expect(chromiumPath({ CHROMIUM_PATH: chosen, PATH: '' })).toBe(chosen)
})

function file(folder: string, name: string, changed: Date): string {
  const path = join(folder, name)
  mkdirSync(join(path, '..'), { recursive: true })
  writeFileSync(path, '', { mode: 0o644 })
  utimesSync(path, changed, changed)
  return path
}
