import { expect, test } from 'vitest'
import { mass } from '../mass/index.ts'
import { model } from '../model/index.ts'
import { restsOn } from '../working/answer.ts'
import { freshMemory } from '../working/memory.ts'
import { applyPatch } from '../working/patch.ts'
import { plainLifts, plainStrip, site } from './ground.fixture.ts'
import { type GroundResult, ground } from './ground.ts'

/** What stands in for an input that is left out, each said in the working or the assumptions. */
const STAND_INS: Readonly<Record<string, string>> = {
  '/cradle/restart/stops': 'no stops are counted',
  '/ground/layers/clay/cohesion': 'no cohesion is counted',
  '/ground/instruments/S1/readings/2031-11-24': 'the reading before it stands, with its day',
  '/ground/water/upper/tide': 'the mean head stands',
  '/shaft/wall/lining': 'no lining is counted',
  '/systems/crane/tracks/mat/0': 'the track itself bears',
  '/systems/crane/tracks/mat/1': 'the track itself bears',
  '/systems/tower/foundation/toe': 'the load presses from the collar',
}

function without(pointer: string): GroundResult | undefined {
  const path = pointer.replace(/(\/\d+)+$/, '')
  const patched = applyPatch(site, [{ op: 'remove', path }])
  if ('problems' in patched) return undefined
  const memory = freshMemory()
  const read = model(patched.document, memory)
  if (read.model === undefined) return undefined
  const masses = mass(read.model, memory)
  return ground(read.model, masses, plainStrip(read.model), plainLifts(read.model, masses), memory)
}

function whole(): GroundResult {
  const memory = freshMemory()
  const read = model(site, memory)
  if (read.model === undefined) throw new Error('the small site is not valid')
  const masses = mass(read.model, memory)
  return ground(read.model, masses, plainStrip(read.model), plainLifts(read.model, masses), memory)
}

test('a check without one of its inputs is open at that address, or has a stand-in that is named: never a silent pass', () => {
  const { checks } = whole()
  const resting = checks.map((c) => [c, new Set([...restsOn(c.demand), ...restsOn(c.capacity)])] as const)
  const pointers = [...new Set(resting.flatMap(([, on]) => [...on]))]
  const removable = pointers.flatMap((pointer) => {
    const left = without(pointer)
    return left === undefined ? [] : [{ pointer, left }]
  })
  expect(removable.length).toBeGreaterThan(40)
  const silent = removable.flatMap(({ pointer, left }) =>
    resting
      .filter(([c, on]) => on.has(pointer) && left.checks.some((l) => l.id === c.id && l.verdict !== 'open'))
      .map(([c]) => `${pointer}: ${c.id}`)
      .filter(() => !Object.hasOwn(STAND_INS, pointer)),
  )
  expect(silent).toEqual([])
})
