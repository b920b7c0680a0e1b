import { readdirSync, readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { importBreaches, impureCalls, type SourceFile } from '../../scripts/import-order.ts'
import manifest from '../package.json' with { type: 'json' }

const packages = Object.keys(manifest.dependencies)
const engine = sourcesUnder(new URL('./', import.meta.url))

test('every stage reads only what lies to its left', () => {
  expect(engine.map(({ path }) => path)).toContain('index.ts')
  expect(importBreaches(engine, packages)).toEqual([])
})

test('no stage takes the clock or chance by itself', () => {
  expect(impureCalls(engine)).toEqual([])
})

test.each([
  ['mass/rollup.ts', `import { lift } from '../lift/index.ts'`, 'imports from its right'],
  ['mass/rollup.ts', `import type { Lift } from '../lift/index.ts'`, 'imports from its right'],
  ['model/part.ts', `export * from '../mass/index.ts'`, 'imports from its right'],
  ['strip/order.ts', `const risk = await import('../risk/index.ts')`, 'imports from its right'],
  ['working/unit.ts', `import '../model/index.ts'`, 'imports from its right'],
  ['numeric/vector.ts', `import { unit } from '../working/unit.ts'`, 'imports from its right'],
  ['lift/lift.ts', `import { derive } from '../derive.ts'`, 'imports from its right'],
  ['lift/lift.test.ts', `import { risk } from '../risk/index.ts'`, 'imports from its right'],
  ['lift/lift.ts', `import { store } from '../../../host/src/store/index.ts'`, 'reaches into host or web'],
  ['lift/lift.test.ts', `import { store } from '../../../host/src/store/index.ts'`, 'reaches into host or web'],
  ['lift/lift.ts', `import { store } from '@shieldwright/host/store.ts'`, 'imports a workspace by name'],
  ['lift/lift.ts', `import '../../../bench/bench.ts'`, 'leaves the engine'],
  ['lift/lift.ts', `import { readFileSync } from 'node:fs'`, 'imports from Node'],
  ['lift/lift.ts', `import { readFileSync } from 'fs'`, 'imports from Node'],
  ['lift/lift.ts', `import { parse } from 'mathjs'`, 'imports a package that the engine does not depend on'],
])('a planted import is found: %s, %s', (path, text, reason) => {
  expect(importBreaches([{ path, text }], packages).map((breach) => breach.reason)).toEqual([reason])
})

test('a folder outside the order is found', () => {
  const [breach] = importBreaches([{ path: 'crane/a.ts', text: `import '../model/index.ts'` }], packages)
  expect(breach?.reason).toContain('not in the order')
})

test.each([
  ['lift/lift.ts', `import { mass } from '../mass/index.ts'`],
  ['lift/lift.ts', `import { sling } from './sling.ts'`],
  ['working/unit.ts', `import { root } from '../numeric/root.ts'`],
  ['derive.ts', `import { risk } from './risk/index.ts'`],
  ['model/part.ts', `import { z } from 'zod'`],
  ['model/part.test.ts', `import { readFileSync } from 'node:fs'`],
])('an import to the left is let be: %s, %s', (path, text) => {
  expect(importBreaches([{ path, text }], packages)).toEqual([])
})

test.each(['Math.random()', 'Date.now()', 'new Date()', 'Temporal.Now.instant()'])('planted %s is found', (call) => {
  expect(impureCalls([{ path: 'risk/risk.ts', text: `const x = ${call}` }])).toHaveLength(1)
})

function sourcesUnder(folder: URL): SourceFile[] {
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map((path) => path.replaceAll('\\', '/'))
    .filter((path) => path.endsWith('.ts'))
    .map((path) => ({ path, text: readFileSync(new URL(path, folder), 'utf8') }))
}
