import fc from 'fast-check'
import { expect, test } from 'vitest'
import { boxesMeet, textBox, textsOf } from '../drawing.ts'
import { type Label, labelMarks, placeLabels } from './labels.ts'

const room = { left: 0, top: 0, right: 80, bottom: 60 }
const label = (words: string, x: number, y: number): Label => ({ lines: words.split('|'), at: [x, y] })
const wordBoxes = (marks: Parameters<typeof textsOf>[0]) => textsOf(marks).map(textBox)

test('labels that crowd round one point stand clear of each other, inside the room', () => {
  const spot = fc.tuple(
    fc.integer({ min: 20, max: 60 }),
    fc.integer({ min: 15, max: 45 }),
    fc.constantFrom('duct', 'stair tower|3.01', 'main hook'),
  )
  fc.assert(
    fc.property(fc.array(spot, { minLength: 2, maxLength: 14 }), (spots) => {
      const labels = spots.map(([x, y, words]) => label(words, x, y))
      const { marks, unplaced } = placeLabels(labels, [], room)
      const boxes = wordBoxes(marks)
      expect(boxes.some((a, i) => boxes.slice(i + 1).some((b) => boxesMeet(a, b)))).toBe(false)
      expect(boxes.every((b) => b.left >= 0 && b.top >= 0 && b.right <= 80 && b.bottom <= 60)).toBe(true)
      // every line of every label is either on paper or given back
      const lines = (list: readonly Label[]): number => list.reduce((sum, l) => sum + l.lines.length, 0)
      expect(boxes.length + lines(unplaced)).toBe(lines(labels))
    }),
  )
})

test('words already there are kept clear of', () => {
  const taken = { left: 30, top: 20, right: 60, bottom: 40 }
  const { marks } = placeLabels([label('hook', 45, 30)], [taken], room)
  expect(wordBoxes(marks).some((b) => boxesMeet(b, taken))).toBe(false)
})

test('a label that finds no room is listed at the foot, not dropped', () => {
  const wide = label('a label far wider than the room that is left for it to stand in', 10, 10)
  const small = { left: 0, top: 0, right: 30, bottom: 40 }
  const words = textsOf(labelMarks([wide], [], small))
    .map((t) => t.text)
    .join(' ')
  expect(words).toContain('No room for: a label far wider')
})

test('a long name in a drawing is cut in its middle, keeps the figure at its end, and stands whole at the foot', () => {
  const name = 'Weatherproof undercarriage counterbalance assembly of the northernmost platform 12.5 t'
  const texts = textsOf(labelMarks([label(name, 40, 20)], [], room)).map((t) => t.text)
  expect(texts[0]).toMatch(/^Weather.*….*12\.5 t$/)
  expect(texts.slice(1).join(' ')).toContain(`In full: ${name}`)
})
