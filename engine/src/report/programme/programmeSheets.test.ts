import { expect, test } from 'vitest'
import type { ProgrammeResult } from '../../programme/index.ts'
import { modelOf, programmeFor, programmeOf, task } from '../../programme/programme.fixture.ts'
import { boxesMeet, type Drawing, type Mark, type PaperBox, primitivesOf, textBox, textsOf } from '../drawing.ts'
import { PROGRAMME_PAPERS, type ProgrammePaper, programmeSheets } from './programmeSheets.ts'

type Raw = Readonly<Record<string, unknown>>

/** Rows of three tasks, each row a phase of its own, the last of one row driving the restart. */
function rows(count: number, more: Raw = {}): Raw {
  const activities = Object.fromEntries(
    Array.from({ length: count }, (_, i) => [
      [`A${i}`, task({ phase: `phase ${i}`, days: [1, 3, 5] })],
      [`B${i}`, task({ phase: `phase ${i}`, days: [2, 2 + (i % 4), 9], after: [{ to: `A${i}` }] })],
      [`C${i}`, task({ phase: `phase ${i}`, after: [{ to: `B${i}` }] })],
    ]).flat(),
  )
  return { programme: programmeOf({ activities, restart: 'C3', ...more }) }
}

function drawn(raw: Raw, paper: ProgrammePaper = 'A3'): { sheets: Drawing[]; programme: ProgrammeResult } {
  const programme = programmeFor(raw)
  const sheets = programmeSheets({ model: modelOf(raw), programme }, { paper })
  if (sheets === undefined) throw new Error('nothing drawn')
  return { sheets, programme }
}

const wordsOf = (sheets: readonly Drawing[]): string[] =>
  sheets.flatMap(({ marks }) => textsOf(marks).map((t) => t.text))
const standing = (marks: readonly Mark[]): string[] =>
  marks.flatMap((m) => (m.kind === 'view' ? [m.id, ...standing(m.marks)] : []))

test.each(PROGRAMME_PAPERS)(
  'on %s every activity stands once, within the sheet, and every letter can be printed',
  (paper) => {
    const { sheets, programme } = drawn(rows(40), paper)
    const ids = sheets.flatMap(({ marks }) => standing(marks))
    expect(ids.sort()).toEqual(
      Object.keys(programme.activities)
        .map((id) => `/programme/activities/${id}`)
        .sort(),
    )
    for (const { marks, width, height, missing } of sheets) {
      expect(missing).toEqual([])
      for (const t of textsOf(marks)) {
        const { left, right, top, bottom } = textBox(t)
        expect(left >= 0 && top >= 0 && right <= width && bottom <= height, t.text).toBe(true)
      }
    }
  },
)

test('no two labels of a sheet meet', () => {
  let seen = 0
  for (const { marks } of drawn(rows(40)).sheets) {
    const boxes = textsOf(marks)
      .filter((t) => /^[ABC]\d/.test(t.text))
      .map(textBox)
    seen += boxes.length
    for (const [i, a] of boxes.entries())
      for (const b of boxes.slice(i + 1))
        expect(a.left < b.right && b.left < a.right && a.top < b.bottom - 0.05 && b.top < a.bottom - 0.05).toBe(false)
  }
  expect(seen).toBe(120)
})

test('what drives the restart is in full ink, and nothing else is', () => {
  const { sheets, programme } = drawn(rows(6))
  const full = sheets.flatMap(({ marks }) =>
    marks.flatMap((m) =>
      m.kind === 'view' && primitivesOf(m.marks).some((p) => p.kind === 'shape' && p.fill === 'ink') ? [m.id] : [],
    ),
  )
  const driving = Object.keys(programme.plan).filter((id) => programme.plan[id]?.planCritical)
  expect(full.sort()).toEqual(driving.map((id) => `/programme/activities/${id}`).sort())
})

/** Many short tasks in one row, and every third of them in a phase far below: links that would cross many words. */
function tangled(): Raw {
  const activities = Object.fromEntries(
    Array.from({ length: 45 }, (_, i) => [
      `A${i}`,
      task({ phase: `phase ${i % 3}`, days: [1, 1, 1], after: i === 0 ? [] : [{ to: `A${i - 1}` }] }),
    ]),
  )
  return { programme: programmeOf({ activities, restart: 'A44' }) }
}

test('no link goes through words: it is a line that crosses none, or the same number at both its ends', () => {
  let [lines, pairs] = [0, 0]
  for (const { marks } of drawn(tangled()).sheets) {
    const labels = textsOf(marks).filter((t) => /^A\d/.test(t.text))
    const links = marks.filter((m) => m.kind === 'line' && m.points.length >= 4)
    for (const link of links)
      for (const label of labels) expect(goesThrough(link, textBox(label)), label.text).toBe(false)
    lines += links.length
    const numbers = marks.flatMap((m) => (m.kind === 'text' && /^\(?\d+\)?$/.test(m.text) ? [m] : []))
    const ends = (anchor: string) => numbers.flatMap((t) => (t.anchor === anchor ? [t.text.replace(/[()]/g, '')] : []))
    expect([...new Set(ends('end'))].sort()).toEqual(ends('start').sort())
    pairs += ends('end').length
    for (const [i, a] of numbers.entries())
      for (const b of numbers.slice(i + 1)) expect(boxesMeet(textBox(a), textBox(b)), `${a.text} ${b.text}`).toBe(false)
    for (const n of numbers) for (const l of labels) expect(boxesMeet(textBox(n), textBox(l)), l.text).toBe(false)
  }
  expect(lines).toBeGreaterThan(3)
  expect(pairs).toBeGreaterThan(3)
})

function goesThrough(link: Mark, { left, right, top, bottom }: PaperBox): boolean {
  if (link.kind !== 'line') return false
  return link.points.slice(1).some(([x, y], i) => {
    const [a, b] = link.points[i] as readonly [number, number]
    return Math.min(a, x) < right && Math.max(a, x) > left && Math.min(b, y) < bottom && Math.max(b, y) > top
  })
}

test('the data date, the baseline and how far the restart is from it are said where they are given', () => {
  const more = {
    dataDate: '2031-11-05',
    progress: { A0: { start: '2031-11-03', finish: '2031-11-05' } },
    baselines: {
      first: {
        name: 'As tendered',
        made: '2031-10-01',
        restart: '2031-11-10',
        activities: { B0: ['2031-11-05', '2031-11-06'] },
      },
    },
  }
  const told = wordsOf(drawn(rows(6, more)).sheets)
  expect(told).toContain('data date 6 Nov 2031, 00:00')
  expect(told).toContain('baseline "As tendered"')
  expect(told.some((t) => /^Restart \d+\.\d days after the baseline/.test(t))).toBe(true)
  const plain = wordsOf(drawn(rows(6)).sheets).join()
  expect(plain).not.toContain('data date')
  expect(plain).not.toContain('baseline')
})

test('without a plan there is nothing to draw', () => {
  const raw = { programme: programmeOf() }
  expect(programmeSheets({ model: modelOf(raw), programme: programmeFor(raw) })).toBeUndefined()
})
