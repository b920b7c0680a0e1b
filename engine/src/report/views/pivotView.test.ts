import { expect, test } from 'vitest'
import { boxesMeet, type Drawing, dimensionsOf, primitivesOf, textBox, textsOf, type View } from '../drawing.ts'
import { liftPage } from '../page/liftPage.ts'
import { LIFT_PAPERS } from '../paper/size.ts'
import { type LiftSheet, liftSheet } from '../sheet/liftSheet.ts'
import { type LiftSheetOptions, liftSheetPages } from '../sheet/pages.ts'
import { blockOnItsEdge, stagesOf } from '../sheet/sheet.fixture.ts'
import { wordsAstray } from '../words.fixture.ts'

const stages = stagesOf(blockOnItsEdge())
const pagesOf = (options: LiftSheetOptions = {}): Drawing[] =>
  liftSheetPages(stages, 'block-tipped', {
    contentHash: 'abcdef0123456789',
    date: '2032-12-09',
    ...options,
  }) as Drawing[]
const pivotOf = (units: 'SI' | 'US' = 'SI') =>
  (liftSheet(stages, 'block-tipped', { units }) as LiftSheet).pivot as NonNullable<LiftSheet['pivot']>
const views = (pages: readonly Drawing[]): View[] =>
  pages.flatMap((p) => p.marks).filter((m): m is View => m.kind === 'view' && m.id === 'pivot')

test('each stage drawn shows both arms from the pivot, with which hook and weight balance about it', () => {
  const drawn = dimensionsOf(views(pagesOf()))
  const { stages: own } = pivotOf()
  expect(own.map((s) => s.angleText)).toEqual(['0.0°', '−15.0°', '−30.0°', '−45.0°', '−60.0°'])
  expect(drawn).toHaveLength(2 * own.length)
  for (const [i, { hook, up, angle }] of own.entries()) {
    const [toCog, toLine] = [drawn[2 * i]?.value as number, drawn[2 * i + 1]?.value as number]
    // lower rear edge to the points: 3.9 m forward and 2 m up, turned by hand
    expect(toLine).toBeCloseTo(Math.abs(3.9 * Math.cos(angle) + 2 * Math.sin(angle)), 9)
    const weight = (hook.si as number) + (up.si as number)
    expect(Math.abs(hook.si as number) * toLine).toBeCloseTo(weight * toCog, 0)
  }
})

test('the piece stands on its edge at every stage, nothing of it in the ground', () => {
  const [view] = views(pagesOf()) as [View]
  const shapes = view.marks.filter((m) => m.kind === 'shape' && m.fill === 'steel')
  const pivots = primitivesOf(view.marks).flatMap((m) => (m.kind === 'circle' && m.radius === 0.9 ? [m.centre] : []))
  expect(shapes).toHaveLength(5)
  for (const [i, shape] of shapes.entries()) {
    const lowest = Math.max(...(shape.kind === 'shape' ? shape.loops.flat().map(([, y]) => y) : []))
    expect(lowest).toBeCloseTo(pivots[i]?.[1] as number, 6)
  }
})

test('a trunnion on its stand is drawn as high over the bay as it is, and no words meet', () => {
  // biome-ignore lint/suspicious/noExplicitAny: a document before it is read
  const document = blockOnItsEdge() as any
  document.lifts['block-tipped'].turn.pivot = {
    ...document.lifts['block-tipped'].turn.pivot,
    at: ['-2 m', '0 m', '-1 m'],
    height: '0.5 m',
  }
  const onStand = liftSheetPages(stagesOf(document), 'block-tipped', {
    contentHash: 'abcdef0123456789',
    date: '2032-12-09',
  }) as Drawing[]
  const [view] = views(onStand) as [View]
  const shape = view.marks.find((m) => m.kind === 'shape' && m.fill === 'steel')
  const lowest = Math.max(...(shape?.kind === 'shape' ? shape.loops.flat().map(([, y]) => y) : []))
  const [pivot] = primitivesOf(view.marks).flatMap((m) => (m.kind === 'circle' && m.radius === 0.9 ? [m.centre] : []))
  // upright, its lower edge stands on the bay, half a metre under the trunnion; paper in mm
  expect(((lowest - (pivot?.[1] as number)) * (view.scale as number)) / 1000).toBeCloseTo(0.5, 6)
  for (const page of onStand) expect(wordsAstray(page)).toEqual([])
})

test('beyond the over-centre angle the sheet says so, with the force that holds the piece back', () => {
  const last = pivotOf().stages.at(-1)
  expect(last?.holding).toBe('over centre')
  const weight = (last?.hook.si as number) + (last?.up.si as number)
  expect(last?.holdBack?.si as number).toBeCloseTo((weight * Math.abs(last?.cog[0] as number)) / Math.hypot(3.9, 2), 3)
  const words = JSON.stringify(views(pagesOf()))
  expect(words).toContain(`over centre, hold ${last?.holdBack?.text}`)
})

test.each(LIFT_PAPERS.flatMap((paper) => (['SI', 'US'] as const).map((units) => [paper, units] as const)))(
  'on %s in %s no words of a turn about a pivot meet others or leave the frame',
  (paper, units) => {
    const pages = pagesOf({ paper, units })
    expect(views(pages).length).toBe(paper === 'A3' ? 1 : 2)
    for (const page of pages) expect(wordsAstray(page)).toEqual([])
  },
)

test.each(['SI', 'US'] as const)('the page draws every stage once, and its words keep apart, in %s', (units) => {
  const drawn = liftPage(stages, 'block-tipped', { units })?.pivot as Drawing
  expect(dimensionsOf(drawn.marks)).toHaveLength(2 * 5)
  const boxes = textsOf(drawn.marks).map(textBox)
  for (const [i, a] of boxes.entries()) {
    expect(a.left >= 0 && a.right <= drawn.width && a.top >= 0 && a.bottom <= drawn.height).toBe(true)
    for (const b of boxes.slice(i + 1)) expect(boxesMeet(a, b)).toBe(false)
  }
  expect(liftPage(stages, 'block-out')?.pivot).toBeUndefined()
})
