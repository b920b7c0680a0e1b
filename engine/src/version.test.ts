import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { ENGINE_VERSION } from './version.ts'

test('the engine gives the version of its package', () => {
  const { version } = JSON.parse(readFileSync(new URL('../package.json', import.meta.url), 'utf8'))
  expect(ENGINE_VERSION).toBe(version)
})
