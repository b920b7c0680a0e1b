import { expect, test } from 'vitest'
import { programmeOf, task, WORK } from '../../programme/programme.fixture.ts'
import { forecastBreakthrough, measures } from '../../risk/index.ts'
import { simulated, small } from '../../risk/risk.fixture.ts'
import { boxesMeet, primitivesOf, textBox, textsOf } from '../drawing.ts'
import { riskSheets } from './riskSheets.ts'

const made = small({
  programme: programmeOf({
    activities: {
      A: task({ days: [30, 40, 80] }),
      B: task({ days: [20, 45, 60] }),
      Z: task({ days: [0, 0, 0], after: [{ to: 'A' }, { to: 'B' }] }),
    },
    restart: 'Z',
    work: { ...WORK, drive: { calendar: 'always' } },
    drive: {
      stages: [
        { to: '30 m', rate: '3 m/d' },
        { to: '1000 m', rate: '10 m/d' },
      ],
      pace: [0.8, 1, 1.4],
    },
  }),
  risks: {
    R1: {
      risk: 'Bearing late',
      probability: 0.3,
      delayDays: [5, 10, 24],
      cost: 1000,
      activities: ['A'],
      mitigation: { what: 'Reserved slot', probabilityAfter: 0.1, cost: 500 },
    },
  },
})
const simulation = simulated(made, { byList: true })
const told = {
  title: 'A recovery',
  invented: true,
  origin: made.programme.origin as string,
  simulation,
  breakthrough: forecastBreakthrough(simulation, made.programme, made.model, { seed: 1 }),
  whatIfs: measures(made.programme, made.lifts, made.model, { runs: 200, seed: 1 }),
}
const sheets = riskSheets(told)

test('percentiles, errors, drivers and what buys it back stand on the sheet', () => {
  const words = sheets.flatMap((sheet) => textsOf(sheet.marks).map((t) => t.text))
  for (const due of ['P50', 'P80', 'Where paths meet, the latest decides', 'What buys it back', 'R1  Reserved slot'])
    expect(words).toContain(due)
  expect(words.some((w) => w.includes('never a reason') || w.includes('calculation aid'))).toBe(true)
})

test('the chance curve and the course of the drive never fall', () => {
  const [sheet] = sheets
  const lines = primitivesOf(sheet?.marks ?? []).filter((m) => m.kind === 'line' && m.points.length > 20)
  expect(lines.length).toBeGreaterThanOrEqual(3)
  for (const curve of lines) {
    if (curve.kind !== 'line') continue
    curve.points.slice(1).forEach(([x, y], i) => {
      const [before, above] = curve.points[i] as readonly [number, number]
      expect(x).toBeGreaterThanOrEqual(before)
      expect(y).toBeLessThanOrEqual(above)
    })
  }
})

test('no two texts overlap and none leaves the paper', () => {
  for (const sheet of sheets) {
    const boxes = textsOf(sheet.marks).map((t) => ({ words: t.text, box: textBox(t) }))
    boxes.forEach((a, i) => {
      expect(a.box.left).toBeGreaterThan(0)
      expect(a.box.right).toBeLessThan(sheet.width)
      for (const b of boxes.slice(i + 1)) expect(boxesMeet(a.box, b.box) ? [a.words, b.words] : []).toEqual([])
    })
  }
})
