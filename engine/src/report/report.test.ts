import { readFileSync } from 'node:fs'
import { beforeAll, expect, test } from 'vitest'
import { parse } from 'yaml'
import { distance, ZERO } from '../numeric/vector.ts'
import { programme } from '../programme/index.ts'
import { risk } from '../risk/index.ts'
import { freshMemory } from '../working/memory.ts'
import { dimensionsOf, textsOf } from './drawing.ts'
import { LIFT_PAPERS } from './paper/size.ts'
import { type ReportResult, report } from './report.ts'
import { type LiftSheet, liftSheet } from './sheet/liftSheet.ts'
import { liftSheetPages } from './sheet/pages.ts'
import { type Block, blockOnTwoLegs, stagesOf } from './sheet/sheet.fixture.ts'
import { type SheetStages, type SheetSubject, subjectOf } from './sheet/subject.ts'
import { sceneOf } from './views/scene.ts'
import { wordsAstray } from './words.fixture.ts'

function reportOf(block: Block): ReportResult {
  const stages = stagesOf(blockOnTwoLegs(block))
  const memory = freshMemory()
  const plan = programme(stages.model, stages.mass, stages.strip, stages.lift, stages.ground, memory)
  const risks = risk(stages.model, stages.lift, plan, memory)
  return report(stages.model, stages.mass, stages.strip, stages.lift, stages.ground, plan, risks, memory)
}

test('every lift has a sheet that can be issued; one with an open figure says which', () => {
  const [whole] = reportOf({}).documents
  expect(whole).toMatchObject({
    id: 'lift-sheet/block-out',
    kind: 'lift-sheet',
    of: 'block-out',
    title: 'Block, out of the shaft',
    open: [],
  })
  const [lacking] = reportOf({ dragDecided: false }).documents
  expect(lacking?.open).toEqual(['/lifts/block-out/drag'])
  expect(lacking?.readiness).not.toBe('ready')
})

test('the rigging of each lift, the campaign and the site can be put on paper; what each lacks is named', () => {
  const documents = reportOf({}).documents
  expect(documents.map((d) => d.id)).toEqual([
    'lift-sheet/block-out',
    'rigging/block-out',
    'order',
    'campaign',
    'site-plan',
    'site-sections',
    'site-shaft',
    'site-settlement',
  ])
  // the block has no programme; its shaft, bay and ground are there
  expect(documents.map((d) => d.open)).toEqual([[], [], [], ['/programme'], [], [], [], []])
  for (const d of documents) if (d.counts.fail > 0) expect(d.readiness).toBe('failing')
})

let recovery: SheetStages
beforeAll(() => {
  recovery = stagesOf(parse(readFileSync(new URL('../../../examples/recovery/project.yaml', import.meta.url), 'utf8')))
})

/** Every paper in both systems of units, dealt out over the lifts of the example. */
const SETTINGS = LIFT_PAPERS.flatMap((paper) => (['SI', 'US'] as const).map((units) => ({ paper, units })))

test.each(SETTINGS.map((setting, i) => ({ ...setting, i })))(
  'on the sheets of the recovery no words meet and nothing is cut, on $paper in $units',
  ({ paper, units, i }) => {
    const lifts = Object.keys(recovery.lift.lifts).filter((_, k) => k % SETTINGS.length === i)
    expect(lifts.length).toBeGreaterThan(7)
    for (const id of lifts) {
      const pages = liftSheetPages(recovery, id, { paper, units }) ?? []
      expect(pages.length).toBeGreaterThan(1)
      for (const page of pages) {
        expect(page.missing).toEqual([])
        expect(wordsAstray(page), `${id}: ${page.title}`).toEqual([])
        for (const { from, to, value, scale } of dimensionsOf(page.marks))
          expect((Math.hypot(to[0] - from[0], to[1] - from[1]) * scale) / 1000).toBeCloseTo(value, 9)
      }
    }
  },
  120_000,
)

test('a turn shows both hooks at every stage, and their shares carry the piece', () => {
  const [page] = liftSheetPages(recovery, 'head-drive-turn') ?? []
  const words = textsOf(page?.marks ?? []).map((t) => t.text)
  const { turning, demand } = recovery.lift.lifts['head-drive-turn'] ?? { turning: [], demand: undefined }
  expect(turning.length).toBeGreaterThan(4)
  for (const { main, tail } of turning) {
    // plumb or nearly so: the vertical parts of both pulls are the weight of what hangs, never more than the hook's demand
    expect((main.value ?? 0) + (tail.value ?? 0)).toBeLessThan(1.08 * (demand?.value ?? 0) * 9.80665)
    for (const share of [main, tail]) expect(words.some((w) => w === ((share.value ?? 0) / 1000).toFixed(1))).toBe(true)
  }
})

test.each(['head-drive-out', 'material-lock-out', 'upper-right-out', 'motor-04-out'])(
  'the gap that the order found is the gap between the real shapes where it is drawn, never more: %s',
  (id) => {
    // two roads to one number: a sure bound from sweeps, and nearest points of the two parts at the drawn pose
    const gap = sceneOf(subjectOf(recovery, id) as SheetSubject).gap
    const drawn = distance(gap?.ends?.from ?? ZERO, gap?.ends?.to ?? ZERO)
    expect(gap?.value).toBeLessThanOrEqual(drawn + 1e-6)
    expect(drawn - (gap?.value ?? 0)).toBeLessThan(0.03)
  },
)

test('every lug, beam, frame bolt and strand unit of a turn stands on its sheet with a clause and a check of the derivation', () => {
  const outcome = recovery.lift.lifts['head-drive-turn']
  const { carriers } = liftSheet(recovery, 'head-drive-turn') as LiftSheet
  const shown = carriers.flatMap(({ rows }) => rows.map(({ check }) => check.id))
  const carrying = (outcome?.checks ?? []).filter((c) =>
    /^lift\.(leg\.tension|component\.use|lug\.(strength|foot|weld|parent)|beam\.|bolts\.|units\.(use|lost|strand))/.test(
      c.kind,
    ),
  )
  expect(carrying.length).toBeGreaterThan(30)
  expect(carrying.filter((c) => !shown.includes(c.id)).map((c) => c.id)).toEqual([])
  expect(new Set(shown).size).toBe(shown.length)
  for (const { clause } of carriers) expect(clause).toMatch(/^(read|from memory|derived|common practice): ./)
})
