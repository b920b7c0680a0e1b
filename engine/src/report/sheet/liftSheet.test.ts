import { expect, test } from 'vitest'
import { LIFT_CAUTIONS, READING_CAUTIONS, WIND_CAUTIONS } from '../../lift/caution.ts'
import { boxesMeet, type Drawing, dimensionsOf, textBox, textsOf } from '../drawing.ts'
import { textWidth } from '../fontWidth.ts'
import { DEFERRAL } from './cautions.ts'
import { type LiftSheet, liftSheet } from './liftSheet.ts'
import { liftSheetPages } from './pages.ts'
import { type Block, blockOnTwoLegs, stagesOf } from './sheet.fixture.ts'

const sheetOf = (block: Block = {}): LiftSheet => liftSheet(stagesOf(blockOnTwoLegs(block)), 'block-out') as LiftSheet
const pagesOf = (block: Block = {}): Drawing[] =>
  liftSheetPages(stagesOf(blockOnTwoLegs(block)), 'block-out', {
    revision: '3',
    contentHash: 'abcdef0123456789',
    date: '2032-12-09',
  }) as Drawing[]

const printed = (text: string): number => Number(text.replace(/[\u202f\u00a0 ]/g, '').replace('\u2212', '-'))

test('the printed lines of the hook load add up to the printed sum', () => {
  const { chain, demand } = sheetOf()
  const sum = chain.lines.reduce((total, line) => total + printed(line.figure.text), 0)
  expect(chain.lines.length).toBeGreaterThan(4)
  expect(sum).toBeCloseTo(printed(chain.total.text), 2)
  // 100 t + 5 % of it, 0.5 t retained, two grommets of 300 kg, two shackles of 100 kg, spreader of 2 t: by hand
  expect(printed(demand.text)).toBeCloseTo(100 + 5 + 0.5 + 0.6 + 0.2 + 2, 3)
})

test('a tension is the other arm over both arms of the load on the legs, as printed', () => {
  const sheet = sheetOf({ left: 1.6, right: 1.4 })
  const load = (printed(sheet.demand.text) - 2) * 9.80665
  const arm = (leg: number): number =>
    Math.abs(printed((sheet.legPlaces[2 * leg] as LiftSheet['legPlaces'][number]).at[1]))
  const [left, right] = sheet.legs.map((leg) => printed(leg.tension.text)) as [number, number]
  // statics of two plumb legs: moments about the other leg; printed to a millimetre and a tenth of a kilonewton
  expect(left).toBeCloseTo((load * arm(1)) / (arm(0) + arm(1)), -0.3)
  expect(right).toBeCloseTo((load * arm(0)) / (arm(0) + arm(1)), -0.3)
  expect(left).toBeLessThan(right)
})

test('every caution that must be seen stands on the sheet, with the deferral and the notice of invented data', () => {
  const sheet = sheetOf()
  expect(sheet.cautions).toEqual(expect.arrayContaining([...LIFT_CAUTIONS, ...READING_CAUTIONS, ...WIND_CAUTIONS]))
  const words = pagesOf()
    .flatMap((page) => textsOf(page.marks))
    .map((t) => t.text)
    .join(' ')
  for (const caution of sheet.cautions) expect(words).toContain(caution)
  expect(words).toContain(DEFERRAL)
  expect(words).toContain('Invented data')
  expect(words).toContain('lift director: not signed')
})

test('a missing drag coefficient leaves the wind open, named by its address, and never a number', () => {
  const sheet = sheetOf({ dragDecided: false })
  expect(sheet.wind.limit.text).toBe('open')
  expect(sheet.open).toContain('/lifts/block-out/drag')
  expect(sheet.titleBlock.wind).toBe('wind limit open')
})

test('the same content gives the same sheet, and units change nothing but what is printed', () => {
  const stages = stagesOf(blockOnTwoLegs())
  expect(liftSheet(stages, 'block-out')).toEqual(sheetOf())
  const customary = liftSheet(stages, 'block-out', { units: 'US' }) as LiftSheet
  expect(customary.demand.si).toBe(sheetOf().demand.si)
  // 108.3 t in thousands of pounds of 0.45359237 kg
  expect(printed(customary.demand.text)).toBeCloseTo(108300 / 453.59237, 3)
})

test('no words on any page meet other words or leave the frame', () => {
  for (const block of [
    {},
    { name: 'A block whose name is so long that it fills the whole of its line and more than that' },
    { left: 1.9, right: 1.2 },
  ]) {
    for (const page of pagesOf(block)) {
      const boxes = textsOf(page.marks).map((t) => ({ words: t.text, box: textBox(t) }))
      const outside = boxes.filter(
        ({ box }) => box.left < 10 || box.top < 10 || box.right > page.width - 10 || box.bottom > page.height - 10,
      )
      expect(outside).toEqual([])
      const meeting = boxes.flatMap((a, i) =>
        boxes.slice(i + 1).flatMap((b) => (boxesMeet(a.box, b.box) ? [`${a.words} | ${b.words}`] : [])),
      )
      expect(meeting).toEqual([])
    }
  }
})

test('the shipped font has every letter of a sheet; one that it lacks is reported and printed as its code point', () => {
  expect(pagesOf().flatMap((page) => page.missing)).toEqual([])
  const [page] = pagesOf({ name: 'Block 甲' }) as [Drawing]
  expect(page.missing).toContainEqual({ glyph: '甲', text: 'Block 甲, out of the shaft' })
  expect(textsOf(page.marks).map((t) => t.text)).toContain('Block [U+7532], out of the shaft')
})

test('each dimension is as long on paper as its value at the scale of its view', () => {
  const dimensions = pagesOf().flatMap((page) => dimensionsOf(page.marks))
  expect(dimensions.length).toBeGreaterThan(6)
  for (const { from, to, value, scale } of dimensions) {
    expect((Math.hypot(to[0] - from[0], to[1] - from[1]) * scale) / 1000).toBeCloseTo(value, 9)
  }
})

test('the shaft is drawn as wide as its dimension says, and the ratios of scales are whole', () => {
  const [page] = pagesOf() as [Drawing]
  const views = page.marks.filter((m) => m.kind === 'view')
  for (const { scale } of views) expect(Number.isInteger(scale)).toBe(true)
  const section = views.find((v) => v.id === 'section')
  const clear = dimensionsOf(page.marks).find((d) => d.name.startsWith('clear diameter'))
  const edges = (section?.marks ?? []).flatMap((m) =>
    m.kind === 'shape' && m.fill === 'concrete' ? m.loops.flat().map(([x]) => x) : [],
  )
  // the inner faces of the wall are where the dimension ends
  for (const end of [clear?.from[0], clear?.to[0]])
    expect(edges.some((x) => Math.abs(x - (end as number)) < 1e-9)).toBe(true)
})

test('text is measured by the advances of the font: tabular figures are all one width, others are not', () => {
  const face = { size: 10, weight: 400, tabular: true } as const
  expect(textWidth('1111', face)).toBe(textWidth('8888', face))
  expect(textWidth('1111', { ...face, tabular: false })).toBeLessThan(textWidth('8888', { ...face, tabular: false }))
})
