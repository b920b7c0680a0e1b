import fc from 'fast-check'
import { expect, test } from 'vitest'
import { box, type Drawing, drawing, type Mark, text } from '../drawing.ts'
import { partChange } from './changes.ts'

const sheet = (...marks: Mark[]): Drawing => drawing('sheet', 210, 297, marks)
const said = (words: readonly string[], from = 20): Mark[] => words.map((w, i) => text([20, from + 8 * i], w))

test('a document against itself has not changed, whatever it says', () => {
  fc.assert(
    fc.property(fc.array(fc.array(fc.string({ maxLength: 12 }), { maxLength: 6 }), { maxLength: 3 }), (pages) => {
      const drawn = pages.map((words) => sheet(...said(words)))
      expect(partChange(drawn, drawn).state).toBe('as before')
    }),
  )
})

test('words that only moved, down the sheet or on to the next, are no change', () => {
  const before = [sheet(...said(['hook 52.0 t', 'wind 11 m/s', 'use 0.951']))]
  const after = [sheet(...said(['hook 52.0 t'], 60)), sheet(...said(['wind 11 m/s', 'use 0.951']))]
  expect(partChange(after, before)).toMatchObject({ now: [], was: [] })
})

test('a figure that changed is told with what it was, and marked where it stands and nowhere else', () => {
  const before = [sheet(...said(['hook 52.0 t', 'wind 11 m/s']))]
  const after = [sheet(...said(['hook 54.1 t', 'wind 11 m/s']))]
  const change = partChange(after, before)
  expect(change).toMatchObject({ state: 'changed', now: ['hook 54.1 t'], was: ['hook 52.0 t'] })
  const [bands] = change.bands as [{ top: number; bottom: number }[]]
  expect(bands).toHaveLength(1)
  expect(bands[0]?.top).toBeLessThan(20)
  expect(bands[0]?.bottom).toBeGreaterThan(20)
  expect(bands[0]?.bottom).toBeLessThan(26)
})

test('where no word differs, a line that moved is found, and one that moved less than can be seen is not', () => {
  const of = (top: number): Drawing[] => [
    sheet(...said(['plan']), box({ left: 40, right: 90, top, bottom: 120 }, { fill: 'steel' })),
  ]
  expect(partChange(of(102), of(100))).toMatchObject({ state: 'redrawn', bands: [[{ top: 102, bottom: 120 }]] })
  expect(partChange(of(100.001), of(100)).state).toBe('as before')
})

test('a document that was not there is new; one that is there no more is gone', () => {
  const drawn = [sheet(...said(['bolts']))]
  expect(partChange(drawn, []).state).toBe('new')
  expect(partChange([], drawn).state).toBe('gone')
})
