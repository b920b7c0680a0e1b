import { beforeAll, describe, expect, test } from 'vitest'
import { demoDocument } from './demo.fixture.ts'
import { type Derivation, startDerivation } from './derivation.ts'
import { shuffled } from './shuffled.fixture.ts'
import { type WhatIf, whatIf } from './whatif.ts'
import { leavesOf } from './working/answer.ts'
import { type Check, countVerdicts, type Verdict } from './working/check.ts'
import type { Operation, Patch } from './working/patch.ts'
import { at, pointerOf } from './working/pointer.ts'
import { readQuantity } from './working/quantity.ts'

/*
 * One fault at a time in a copy of the demo whose ids say nothing and whose collections stand in another order: what it breaks
 * is found, named and explained, whatever things are called.
 */
const { document, renamed } = shuffled(demoDocument(), 20311103)
let whole: Derivation

beforeAll(() => {
  whole = startDerivation(document)
  expect(whole.derived.problems).toEqual([])
})

const replace = (path: string, value: unknown): Operation => ({ op: 'replace', path, value })
const kilograms = (pointer: string): number => readQuantity(String(at(document, pointer)), 'kg') as number

/** Everything the demo says of one piece, times a factor. */
function heavier(piece: string, factor: number): Patch {
  const parts = at(document, pointerOf('pieces', piece, 'parts')) as string[]
  return parts
    .map((part) => pointerOf('parts', part, 'mass', 'value'))
    .filter((pointer) => at(document, pointer) !== undefined)
    .map((pointer) => replace(pointer, `${factor * kilograms(pointer)} kg`))
}

interface Broken {
  change: WhatIf
  after: Derivation
  /** The check of a kind on a subject, after the fault. */
  found: (kind: string, subject?: string) => Check[]
  /** Checks that went to a verdict. */
  went: (to: Verdict, kind?: string) => Check[]
}

function broken(patch: Patch): Broken {
  const { whatIf: change, derivation: after, problems } = whatIf(whole, patch)
  expect(problems).toEqual([])
  const checks = after?.derived.stages?.checks ?? []
  const moved = new Map(change?.changes.filter((c) => c.moved).map((c) => [c.check, c.after?.verdict]))
  return {
    change: change as WhatIf,
    after: after as Derivation,
    found: (kind, subject) =>
      checks.filter((c) => c.kind === kind && (subject === undefined || c.subject.id === subject)),
    went: (to, kind) => checks.filter((c) => moved.get(c.id) === to && (kind === undefined || c.kind === kind)),
  }
}

const restsOn = (check: Check): string[] =>
  [...leavesOf(check.demand), ...leavesOf(check.capacity)].map((leaf) => leaf.pointer)

describe('masses', () => {
  test('head and drive 7 % heavier than said: the main hook is overloaded, and the working leads to the masses', () => {
    const patch = heavier('head-drive', 1.07)
    const { went, change } = broken(patch)
    const lift = renamed('head-drive-out')
    const [hook] = went('fail', 'lift.hook.use').filter((c) => c.subject.id === lift)
    expect(hook?.utilisation).toBeGreaterThan(1)
    expect(hook?.utilisation).toBeLessThan(1.03)
    expect(restsOn(hook as Check)).toEqual(expect.arrayContaining(patch.map((operation) => operation.path)))
    expect(change.after.counts.fail).toBeGreaterThan(change.before.counts.fail)
  })

  test('a part without a weight: everything that hangs from it is open, and names what is missing', () => {
    const part = renamed('CH-HUB')
    const { went } = broken([{ op: 'remove', path: pointerOf('parts', part, 'mass') }])
    const open = went('open')
    expect(open.map((c) => c.stage)).toEqual(expect.arrayContaining(['mass', 'lift']))
    for (const c of open) expect(c.reasons.join(), c.id).toContain(pointerOf('parts', part, 'mass'))
    expect(went('pass')).toEqual([])
  })

  test('a machine that lies more rolled than surveyed is found by the survey', () => {
    const { went } = broken([replace('/machine/pose/roll', '2.4 deg')])
    const survey = went('fail', 'mass.pose.survey')
    expect(survey.length).toBeGreaterThan(0)
    for (const c of survey) expect(restsOn(c)).toContain('/machine/pose/roll')
  })
})

describe('order', () => {
  test('the upper left segment before the crown: the step names the crown as what it strikes', () => {
    const order = document.order
    const [crown, left] = [renamed('S04-crown'), renamed('S05-upper-left')]
    const { went, after } = broken([
      { op: 'move', from: `/order/${order.indexOf(left)}`, path: `/order/${order.indexOf(crown)}` },
    ])
    const [path] = went('fail', 'strip.step.path')
    expect(path?.subject.id).toBe(left)
    expect(path?.reasons.join()).toContain(renamed('FS-CR'))
    const { strip } = after.derived.stages ?? {}
    expect(strip?.feasible).toBe(false)
    expect(strip?.failures[0]).toMatchObject({ step: left, blockers: [expect.stringContaining(renamed('FS-CR'))] })
  })
})

describe('lifts', () => {
  test('a leg shortened: the legs of that lift are loaded unevenly, and no other lift notices', () => {
    const lift = renamed('head-drive-out')
    const item = at(document, pointerOf('lifts', lift, 'rigging', 'legs', 0, 'item')) as string
    const shorter = { ...(at(document, pointerOf('stock', item)) as object), length: '2.4 m' }
    const { went, change } = broken([
      { op: 'add', path: '/stock/cut-short', value: shorter },
      replace(pointerOf('lifts', lift, 'rigging', 'legs', 0, 'item'), 'cut-short'),
    ])
    expect(went('fail').length).toBeGreaterThan(0)
    for (const c of went('fail')) expect(c.subject.id, c.id).toBe(lift)
    const lifts = new Set(change.changes.filter((c) => c.stage === 'lift').map((c) => c.check.split('/')[1]))
    expect([...lifts]).toEqual([lift])
  })
})

describe('ground', () => {
  test('a bay on soft ground: the pressure under what is laid there is too much, and says on which bay', () => {
    const { went } = broken([replace('/bays/B1/allowable', '20 kPa')])
    const [pressure, ...others] = went('fail')
    expect(others).toEqual([])
    expect(pressure).toMatchObject({ kind: 'ground.bay.pressure', subject: { id: 'B1' } })
    expect(restsOn(pressure as Check)).toContain('/bays/B1/allowable')
  })
})

describe('programme', () => {
  test('a bearing that comes half a year late: its delivery fails by name, and the restart moves with it', () => {
    const { change, found } = broken([replace('/programme/activities/B060/days', [500, 560, 600])])
    const [delivery] = found('programme.delivery.in-time', 'SUP-01')
    expect(delivery).toMatchObject({ verdict: 'fail', subject: { pointer: '/programme/deliveries/SUP-01' } })
    const told = change.changes.find((c) => c.check === delivery?.id)
    expect(told?.after?.demand).toBeGreaterThan((told?.before?.demand as number) + 100 * 86_400)
    const [before, after] = [change.before, change.after].map((s) => Date.parse(s.restart.planned ?? ''))
    expect((after as number) - (before as number)).toBeGreaterThan(60 * 86_400_000)
  })

  test('no crew for the joints: the plan cannot be kept, and the resource says so', () => {
    const crew = Object.keys(at(document, '/programme/work/joints/needs') as object)[0] as string
    const { went } = broken([replace(pointerOf('programme', 'resources', crew, 'capacity'), 0)])
    expect([...went('fail'), ...went('open')].map((c) => c.stage)).toContain('programme')
  })
})

test('names mean nothing: under other names and in another order as many checks stand as before', () => {
  const named = startDerivation(demoDocument()).derived.stages?.checks ?? []
  const byStage = (checks: readonly Check[]) =>
    Object.fromEntries(
      [...new Set(checks.map((c) => c.stage))].map((s) => [s, countVerdicts(checks.filter((c) => c.stage === s))]),
    )
  expect(byStage(whole.derived.stages?.checks ?? [])).toEqual(byStage(named))
})
