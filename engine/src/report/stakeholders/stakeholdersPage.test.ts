import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { readText } from '../../model/text.ts'
import { programmeFor } from '../../programme/programme.fixture.ts'
import { risk, simulate } from '../../risk/index.ts'
import { freshMemory } from '../../working/memory.ts'
import { textsOf } from '../drawing.ts'
import { HAND_PAPERS } from '../paper/size.ts'
import { stagesOf } from '../sheet/sheet.fixture.ts'
import { movedWords, stakeholdersPage } from './stakeholdersPage.ts'
import { type StakeholderStages, stakeholdersSheet } from './stakeholdersSheet.ts'

const file = new URL('../../../../examples/under-way/project.yaml', import.meta.url)
const document = readText(readFileSync(file, 'utf8')).document as Record<string, Record<string, unknown>>
const DAY = 86_400

const riskOf = (name: string, more: object = {}) => ({
  risk: name,
  probability: 0.2,
  delayDays: [4, 10, 30],
  cost: 50_000,
  activities: ['C090'],
  owner: 'ground engineer',
  ...more,
})

function underWay(more: object = {}): StakeholderStages {
  const told = { ...document, ...more }
  const stages = { ...stagesOf(told), programme: programmeFor(told) }
  const risks = risk(stages.model, stages.lift, stages.programme, freshMemory())
  return { ...stages, risk: risks, checks: stages.programme.checks }
}

const simulated = (stages: StakeholderStages) => {
  const { result } = simulate(stages.programme, stages.lift, stages.model, { runs: 300, seed: 1 })
  if (result === undefined) throw new Error('the example has a plan')
  return result
}

const stages = underWay()
const simulation = simulated(stages)
const sheetOf = (of: StakeholderStages) => stakeholdersSheet(of, { simulation: simulated(of) })

test('what moved the restart adds up to how far it moved, and a delay on record stands beside its work', () => {
  const sheet = stakeholdersSheet(stages, { simulation })
  const moved = (stages.programme.slippage?.restart?.slip ?? Number.NaN) / DAY
  expect(moved).toBeGreaterThan(1)
  expect(sheet?.movers.reduce((sum, { days }) => sum + days, 0)).toBeCloseTo(moved, 6)
  expect(sheet?.movers.find(({ recorded }) => recorded.includes('swivel'))?.words).toContain('Secant piles')
})

test('the planned date, the even chance and the fairly sure one come in this order, each against the baseline', () => {
  const over = stakeholdersSheet(stages, { simulation })?.restart.map(({ overBaseline }) => overBaseline as number)
  expect(over).toEqual([...(over ?? [])].sort((a, b) => a - b))
  expect(over?.[0]).toBe(Math.round((stages.programme.slippage?.restart?.slip ?? 0) / DAY))
})

test('an issue held against itself has moved by nothing; one with another first day is held by date', () => {
  const { origin = '' } = stages.programme
  const before = { name: 'issue 1', origin, simulation, slippage: undefined }
  const by = (first: string) =>
    stakeholdersSheet(stages, { simulation, before: { ...before, origin: first } })?.restart.map((r) => r.overBefore)
  expect(by(origin)).toEqual([0, 0, 0])
  // begun ten days earlier with as many days to the restart, it ended ten days earlier
  const earlier = new Date(Date.parse(origin) - 10 * DAY * 1000).toISOString()
  expect(by(earlier)).toEqual([10, 10, 10])
})

test('the dearest risk on average stands first, with the price of its days; one whose work is done is gone', () => {
  const risks = {
    small: riskOf('Small', { probability: 0.01 }),
    large: riskOf('Large'),
    over: riskOf('Over', { activities: ['C010'] }),
  }
  const told = sheetOf(underWay({ risks }))?.risks
  expect(told?.map(({ name }) => name)).toEqual(['Large', 'Small'])
  expect(told?.[0]?.price).toBe(50_000 + 10 * simulated(underWay({ risks })).day.p50)
})

test('hold points are those ahead, at most three, the next first', () => {
  const activities = { ...(document.programme?.activities as Record<string, object>) }
  for (const id of ['C010', 'C040', 'C060', 'C070', 'C080'])
    activities[id] = { ...activities[id], holdPoint: `held ${id}` }
  const holds = sheetOf(underWay({ programme: { ...document.programme, activities } }))?.holds
  expect(holds).toHaveLength(3)
  expect(holds?.map(({ what }) => what)).not.toContain('held C010')
})

test('it is one page on either paper, however long its words are, with its cautions', () => {
  const long = 'a name that somebody wrote at great length because nobody said where it would have to stand'
  const risks = Object.fromEntries(
    Array.from({ length: 30 }, (_, i) => [
      `R${i}`,
      riskOf(`${i} ${long}`, { owner: long, mitigation: { what: long, probabilityAfter: 0.1, cost: 1 } }),
    ]),
  )
  for (const of of [stages, underWay({ risks })])
    for (const paper of HAND_PAPERS) {
      const pages = stakeholdersPage(of, { simulation: simulated(of), paper })
      expect(pages).toHaveLength(1)
      const words = pages?.flatMap((page) => textsOf(page.marks).map((t) => t.text)).join(' ')
      expect(words).toContain('no date is a reason to shorten a hold point')
      expect(words).toContain('Invented data')
    }
})

test('days are told as later, earlier or unchanged', () => {
  expect([-1, 0, 12].map(movedWords)).toEqual(['1 day earlier', 'unchanged', '12 days later'])
})
