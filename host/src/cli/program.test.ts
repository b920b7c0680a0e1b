import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { pairedWords, program } from './program.ts'

const page = readFileSync(new URL('../../../docs/command-line.md', import.meta.url), 'utf8')

test('every command stands in the document, with each of its own options, and no other', () => {
  const { commands } = program()
  const rows = [...page.matchAll(/^\| `([a-z]+)(.*?)` \|/gm)]
  expect(new Set(rows.map(([, name]) => name))).toEqual(new Set(commands.map((command) => command.name())))
  for (const command of commands) {
    const text = rows
      .filter(([, name]) => name === command.name())
      .map(([row]) => row)
      .join()
    const own = command.options.filter((o) => !['--json', '--strict', '--units'].includes(o.long ?? ''))
    for (const { long } of own.filter((o) => !['--seed', '--only'].includes(o.long ?? ''))) {
      expect(text, `${command.name()} ${long}`).toContain(long)
    }
  }
})

test('a value that begins with a minus stays the value of its pointer', () => {
  expect(pairedWords(['whatif', 'f', '--set', '/a', '-1 deg', '--json'])).toEqual([
    'whatif',
    'f',
    '--set=/a',
    '--set=-1 deg',
    '--json',
  ])
  expect(pairedWords(['whatif', '--set', '/a', '--json'])).toEqual(['whatif', '--set=/a', '--json'])
})
