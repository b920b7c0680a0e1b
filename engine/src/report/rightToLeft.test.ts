import { expect, test } from 'vitest'
import { missingGlyphs, textWidth } from './fontWidth.ts'
import { endedShort, figuresKept, joined } from './rightToLeft.ts'

const names = (text: string): string[] => [...text].map((letter) => (letter.codePointAt(0) as number).toString(16))

test('a letter of Arabic script has the form that its neighbours ask for', () => {
  // beh alone, at the beginning, in the middle and at the end of a word
  expect(names(joined('ب'))).toEqual(['628'])
  expect(names(joined('ببب'))).toEqual(['fe91', 'fe92', 'fe90'])
  // reh joins to what stands before it and not to what follows
  expect(names(joined('برب'))).toEqual(['fe91', 'feae', '628'])
  // a space parts
  expect(names(joined('ب ب'))).toEqual(['628', '20', '628'])
})

test('lam and alef are one, alone and after a letter that joins', () => {
  expect(names(joined('لا'))).toEqual(['fefb'])
  expect(names(joined('بلا'))).toEqual(['fe91', 'fefc'])
  // after an alef, which joins to nothing behind it
  expect(names(joined('الأ'))).toEqual(['627', 'fef7'])
})

test('a form is a form of its letter, by the tables of Unicode', () => {
  const text = 'اللوح الثقيل للرف العلوي بجانب الجدار الشمالي مع البراغي الطويلة پچژگک'
  expect(joined(text)).not.toBe(text)
  expect(joined(text).normalize('NFKC')).toBe(text)
})

test('other scripts are left as they are', () => {
  for (const text of ['Head, 412 t', 'לוח כבד', 'Щит']) expect(joined(text)).toBe(text)
})

test('Hebrew and Arabic are printed, and joined letters are narrower than the same letters apart', () => {
  expect(missingGlyphs('לוח כבד, 12')).toEqual([])
  expect(missingGlyphs('اللوح الثقيل ١٢')).toEqual([])
  const face = { size: 1, weight: 400, tabular: false } as const
  expect(textWidth('ببب', face)).toBeLessThan(3 * textWidth('ب', face))
  expect(textWidth('ببب', face)).toBeGreaterThan(textWidth('ب', face))
})

test('a figure keeps to its unit and not to the name before it; a number in a name stays in it', () => {
  expect(figuresKept('לוח 12.5 t')).toBe('לוח \u200e12.5 t')
  expect(figuresKept('לוח 12, back')).toBe('לוח 12, back')
  expect(figuresKept('Plate 12.5 t')).toBe('Plate 12.5 t')
})

test('an ellipsis stands where the words would go on', () => {
  expect(endedShort('Plate')).toBe('Plate…')
  expect(endedShort('לוח')).toBe('לוח…\u200f')
})
