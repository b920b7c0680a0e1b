import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { freshMemory, type Memory } from '../working/memory.ts'
import { applyPatch, type Patch } from '../working/patch.ts'
import { pointerOf } from '../working/pointer.ts'
import { model } from './model.ts'
import { readText } from './text.ts'

const file = new URL('../../../examples/recovery/project.yaml', import.meta.url)

/** The demo, with a step named where its own jacking of the shield names none. */
const project = patched(readText(readFileSync(file, 'utf8')).document, [
  { op: 'add', path: '/cradle/jacking/before', value: 'S01-deck' },
]) as Tree

interface Tree {
  [name: string]: Tree | string
}

test('an id that comes to name nothing is told of one edit as it is of the whole file looked through afresh', () => {
  const memory = freshMemory()
  expect(model(project, memory).problems).toEqual([])
  const places = placesOfIds()
  expect(places.length).toBeGreaterThan(60)
  for (const path of places) {
    const edited = patched(project, [{ op: 'replace', path, value: 'nowhere' }])
    const { problems } = model(edited, memory.fork())
    expect([path, problems]).toEqual([path, model(edited, onlyEntitiesOf(memory)).problems])
  }
})

/** Remembers how entities read, which costs most, and nothing that is made of several. */
function onlyEntitiesOf(memory: Memory): Memory {
  const fork = memory.fork()
  return { ...fork, once: (key, from, made) => (key.startsWith('model/entity') ? fork.once(key, from, made) : made()) }
}

/** Where an id stands, one place of each kind: ids and numbers on the way are of one kind. */
function placesOfIds(): string[] {
  const ids = new Set(Object.values(project).flatMap((section) => Object.keys(section)))
  const kinds = new Map<string, string>()
  const walk = (value: Tree | string, way: readonly string[]): void => {
    if (typeof value === 'object' && value !== null)
      for (const [name, inner] of Object.entries(value)) walk(inner, [...way, name])
    else if (ids.has(value) && way.length > 1)
      kinds.set(way.map((word) => (ids.has(word) || /^\d+$/.test(word) ? '*' : word)).join('/'), pointerOf(...way))
  }
  walk(project, [])
  return [...kinds.values()]
}

function patched(document: unknown, patch: Patch): unknown {
  const after = applyPatch(document, patch)
  if ('problems' in after) throw new Error(JSON.stringify(after.problems))
  return after.document
}
