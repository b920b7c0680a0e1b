import { expect, test } from 'vitest'
import { demoDocument } from './demo.fixture.ts'
import { derive } from './derive.ts'

type Demo = ReturnType<typeof demoDocument>
interface Tailed {
  system: string
  hook: string
  tail?: { system?: string; hook: string }
}

/** Every lift on two hooks has its tail on a machine of its own, alike in everything and with hooks of the same names. */
function onTwoMachines(): Demo {
  const demo = demoDocument()
  const [lifts, systems] = [demo.lifts, demo.systems] as unknown as [Record<string, Tailed>, Record<string, unknown>]
  for (const lift of Object.values(lifts)) {
    if (lift.tail === undefined) continue
    systems[`${lift.system}-2`] = structuredClone(systems[lift.system])
    lift.tail = { ...lift.tail, system: `${lift.system}-2`, hook: lift.hook }
  }
  return demo
}

test.each([
  ['the demo', demoDocument],
  ['the demo with two machines alike', onTwoMachines],
])('no two checks of %s share an id', (_, document) => {
  const { stages, problems } = derive(document())
  expect(problems).toEqual([])
  const ids = stages?.checks.map((c) => c.id) ?? []
  expect(ids.length).toBeGreaterThan(1000)
  const seen = new Set<string>()
  expect(ids.filter((id) => seen.has(id) || !seen.add(id))).toEqual([])
})
