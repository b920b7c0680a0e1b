import { expect, test } from 'vitest'
import { boxesMeet, type Drawing, dimensionsOf, textBox, textsOf, type View } from '../drawing.ts'
import { blockOnTwoLegs, stagesOf } from '../sheet/sheet.fixture.ts'
import { type LiftPage, liftPage } from './liftPage.ts'

const page = (): LiftPage => liftPage(stagesOf(blockOnTwoLegs()), 'block-out') as LiftPage

const inside = (drawing: Drawing): boolean =>
  textsOf(drawing.marks)
    .map(textBox)
    .filter((b) => b.bottom > 0)
    .every((b) => b.left >= 0 && b.right <= drawing.width + 0.1 && b.bottom <= drawing.height + 0.1)

test('the heights drawn are the height chain: rigging, piece, gap and barrier add up to the hook', () => {
  const { hanging, sheet } = page()
  const heights = dimensionsOf(hanging.marks)
  const whole = heights.find((d) => d.name.startsWith('hook height needed'))
  const [over, gap, below] = sheet.height.chain.lines.map((l) => l.figure.si as number) as [number, number, number]
  expect(whole?.value).toBeCloseTo(over + gap + below, 9)
  const drawn = heights.filter((d) => d !== whole).reduce((sum, d) => sum + d.value, 0)
  expect(drawn).toBeGreaterThan(below - 1e-9)
  expect(drawn).toBeLessThan((whole?.value ?? 0) + 1e-9)
  for (const { from, to, value, scale } of heights)
    expect(Math.hypot(to[0] - from[0], to[1] - from[1])).toBeCloseTo((value * 1000) / scale, 6)
})

test('every component beside the drawing has the use that its check has', () => {
  const { hanging, subject } = page()
  const shown = hanging.marks.filter((m): m is View => m.kind === 'view' && m.id.includes('/'))
  expect(shown.length).toBeGreaterThan(3)
  for (const { id, marks } of shown) {
    const check = subject.outcome.checks.find((c) => c.id === id)
    const words = textsOf(marks).map((t) => t.text)
    expect(words.some((w) => w.endsWith(check?.utilisation?.toFixed(3) ?? 'open'))).toBe(true)
  }
})

test('words of the drawings stay on the paper and do not lie over each other', () => {
  const { hanging, plan } = page()
  for (const drawing of [hanging, plan]) {
    expect(inside(drawing)).toBe(true)
    const boxes = textsOf(drawing.marks).map(textBox)
    for (const [i, a] of boxes.entries()) for (const b of boxes.slice(i + 1)) expect(boxesMeet(a, b)).toBe(false)
  }
})

test('what does not turn has no pose to be turned', () => {
  expect(page().turned).toBeUndefined()
  expect(liftPage(stagesOf(blockOnTwoLegs()), 'no-such-lift')).toBeUndefined()
})
