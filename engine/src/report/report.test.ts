import { readFileSync } from 'node:fs'
import { beforeAll, expect, test } from 'vitest'
import { parse } from 'yaml'
import { distance, ZERO } from '../numeric/vector.ts'
import { programme } from '../programme/index.ts'
import { risk } from '../risk/index.ts'
import { freshMemory } from '../working/memory.ts'
import { boxesMeet, dimensionsOf, textBox, textsOf } from './drawing.ts'
import { type ReportResult, report } from './report.ts'
import { liftSheetPages } from './sheet/pages.ts'
import { type Block, blockOnTwoLegs, stagesOf } from './sheet/sheet.fixture.ts'
import { type SheetStages, type SheetSubject, subjectOf } from './sheet/subject.ts'
import { sceneOf } from './views/scene.ts'

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
  ])
  // the block has no programme; its shaft, bay and ground are there
  expect(documents.map((d) => d.open)).toEqual([[], [], [], ['/programme'], [], []])
  for (const d of documents) if (d.counts.fail > 0) expect(d.readiness).toBe('failing')
})

/** The recovery of the example: one lift of every kind, by tower and by crane. */
const LIFTS = [
  'crown-out',
  'motor-04-out',
  'head-drive-out',
  'head-drive-back',
  'head-drive-turn',
  'drive-off',
  'drive-upright',
  'outer-seal-off',
]

let recovery: SheetStages
beforeAll(() => {
  recovery = stagesOf(parse(readFileSync(new URL('../../../examples/recovery/project.yaml', import.meta.url), 'utf8')))
}, 60_000)

test.each(LIFTS)(
  'on the sheets of the recovery no words meet and nothing is cut: %s',
  (id) => {
    const pages = liftSheetPages(recovery, id) ?? []
    expect(pages.length).toBeGreaterThan(1)
    for (const page of pages) {
      expect(page.missing).toEqual([])
      const boxes = textsOf(page.marks).map((t) => ({ words: t.text, box: textBox(t) }))
      expect(boxes.filter(({ box }) => box.left < 10 || box.top < 10 || box.right > 410 || box.bottom > 287)).toEqual(
        [],
      )
      const meeting = boxes.flatMap((a, i) =>
        boxes.slice(i + 1).flatMap((b) => (boxesMeet(a.box, b.box) ? [`${a.words} | ${b.words}`] : [])),
      )
      expect(meeting).toEqual([])
      for (const { from, to, value, scale } of dimensionsOf(page.marks))
        expect((Math.hypot(to[0] - from[0], to[1] - from[1]) * scale) / 1000).toBeCloseTo(value, 9)
    }
  },
  60_000,
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
