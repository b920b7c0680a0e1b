import { type Stages, startDerivation } from '@shieldwright/engine'
import { type OnSite, type OnSiteScope, onSite } from '@shieldwright/engine/report/on-site/onSite.ts'
import { expect, test } from 'vitest'
import { demoDocument } from '../../../../engine/src/demo.fixture.ts'

const ISSUE = { contentHash: 'a'.repeat(64), date: '2032-10-19', revision: '7', units: 'SI' } as const

function stagesOf(document: unknown): Stages {
  const { stages, problems } = startDerivation(document).derived
  if (stages === undefined) throw new Error(JSON.stringify(problems))
  return stages
}

const demo = stagesOf(demoDocument())
const fileOf = (scope: OnSiteScope, stages = demo): OnSite => onSite(stages, scope, ISSUE) as OnSite
const ticksOf = (file: OnSite, beginning: string): string[] =>
  file.lists
    .filter(({ id }) => id.startsWith(beginning))
    .flatMap(({ lines }) => lines.flatMap((l) => l.ticks.map((t) => t.at)))
const busiest = [...demo.strip.steps].sort((a, b) => b.services.length - a.services.length)[0]?.step as string

test('services come off in the order of the step, and go back on in the reverse', () => {
  const file = fileOf({ step: busiest })
  const records = (beginning: string, record: string): string[] =>
    ticksOf(file, beginning).flatMap((at) => (at.endsWith(`/${record}`) ? [at.split('/')[2] as string] : []))
  const off = records('off-', 'parted')
  expect(off.length).toBeGreaterThan(2)
  expect(off).toEqual(demo.strip.steps.find((s) => s.step === busiest)?.services)
  expect(records('on-', 'joined')).toEqual([...off].reverse())
})

test('every circuit that a step needs dead stands before its services, each act in its order', () => {
  const { lists } = fileOf({ step: busiest })
  const at = lists.findIndex(({ id }) => id === 'isolations')
  expect(at).toBeGreaterThanOrEqual(0)
  expect(at).toBeLessThan(lists.findIndex(({ id }) => id.startsWith('off-')))
  for (const line of lists[at]?.lines ?? []) {
    const acts = line.ticks.map((t) => t.at.split('/').at(-1))
    expect(['isolated,locked,discharged,proved', 'isolated,locked,proved']).toContain(acts.join())
  }
})

test('what leads to a part that is scrapped is parted and not joined again', () => {
  const document = demoDocument()
  const services = demo.strip.steps.find((s) => s.step === busiest)?.services ?? []
  const [first = ''] = services
  const ends = [document.services[first]?.from, document.services[first]?.to] as string[]
  const entry = ends.find((end) => document.parts[end] ?? demo.model.instances.byId.has(end)) as string
  const part = demo.model.instances.byId.get(entry)?.entry ?? entry
  ;(document.parts[part] as { fate: string }).fate = 'scrapped'
  const file = fileOf({ step: busiest }, stagesOf(document))
  expect(ticksOf(file, 'off-')).toContain(`/services/${first}/parted`)
  expect(ticksOf(file, 'on-')).not.toContain(`/services/${first}/joined`)
})

test('a lift out of the shaft parts, the same piece on its way back joins; each brings its own sheet', () => {
  const step = demo.strip.steps.find((s) => s.step === busiest)
  const back = demo.model.project.steps[busiest]?.back as string
  const out = fileOf({ lifts: [step?.lift as string] })
  expect(ticksOf(out, 'off-').length).toBeGreaterThan(0)
  expect(ticksOf(out, 'on-')).toEqual([])
  const home = fileOf({ lifts: [back] })
  expect(ticksOf(home, 'on-').length).toBeGreaterThan(0)
  expect(ticksOf(home, 'off-')).toEqual([])
  expect(home.sheets.map((s) => s.lift)).toEqual([back])
  expect(home.sheets[0]?.pages.length).toBeGreaterThan(1)
})

test('bolts of the return go on record as tightened, looked at and looked at again; steps of its lifts into the lift log', () => {
  const step = demo.strip.steps.find((s) => s.step === 'S07-motor-04')
  const file = fileOf({ step: 'S07-motor-04' })
  expect(step?.joints.length).toBeGreaterThan(0)
  expect(ticksOf(file, 'closed-')).toEqual(
    step?.joints.flatMap((j) => ['', '/checkedBy', '/rechecked'].map((field) => `/joints/${j}/tightened${field}`)),
  )
  expect(ticksOf(file, 'opened-')).toEqual(step?.joints.map((j) => `/programme/progress/S07-motor-04.open.${j}/finish`))
  expect(ticksOf(file, 'lift-')[0]).toBe(`/lifts/${step?.lift}/steps/1`)
  const says = (units: 'SI' | 'US') =>
    onSite(demo, { step: 'S07-motor-04' }, { ...ISSUE, units })?.lists.flatMap((l) => l.lines.map((line) => line.says))
  expect(says('US')).toEqual(says('SI'))
})

test('what is recorded already is shown with who and when, and is not asked for again', () => {
  const document = demoDocument()
  const [id = ''] = demo.strip.steps.find((s) => s.step === busiest)?.services ?? []
  Object.assign(document.services[id] as object, { parted: { by: 'Night fitter', on: '2032-10-18' } })
  const { lists } = fileOf({ step: busiest }, stagesOf(document))
  const tick = lists
    .flatMap((l) => l.lines.flatMap((line) => line.ticks))
    .find((t) => t.at === `/services/${id}/parted`)
  expect(tick?.stands).toEqual({ by: 'Night fitter', on: '2032-10-18' })
})

test('the shift at a moment holds what the plan has in it, and the lists that its activities ask for', () => {
  const parting = Object.values(demo.programme.activities).find((a) => a.kind === 'part')
  const zone = demo.programme.solved?.zone
  const start = demo.programme.plan[parting?.id ?? '']?.start as number
  const at = new Date((zone?.origin ?? 0) + (start + 60) * 1000).toISOString().replace(/\.\d+/, '')
  const file = fileOf({ at })
  expect(ticksOf(file, 'shift-')).toContain(`/programme/progress/${parting?.id}/finish`)
  const asked = parting?.from.flatMap((p) => (p.startsWith('/services/') ? [`${p}/parted`] : [])) ?? []
  expect(asked.length).toBeGreaterThan(0)
  expect(ticksOf(file, 'off-')).toEqual(expect.arrayContaining(asked))
})

test('a lift or a step that is none has no file', () => {
  expect(onSite(demo, { lifts: ['no-such-lift'] }, ISSUE)).toBeUndefined()
  expect(onSite(demo, { step: 'no-such-step' }, ISSUE)).toBeUndefined()
})
