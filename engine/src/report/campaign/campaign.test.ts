import { readFileSync } from 'node:fs'
import fc from 'fast-check'
import { beforeAll, expect, test } from 'vitest'
import { parse } from 'yaml'
import { programme } from '../../programme/index.ts'
import { freshMemory } from '../../working/memory.ts'
import { civilDay, DAY, dayText } from '../civil.ts'
import { boxesMeet, type Drawing, textBox, textsOf } from '../drawing.ts'
import { stagesOf } from '../sheet/sheet.fixture.ts'
import { type Campaign, type CampaignStages, campaignOf } from './campaign.ts'
import { campaignDiagram } from './diagram.ts'
import { crossingsOf, laneOrder, type Passage } from './lanes.ts'
import { timeAxis, weekOf } from './timeAxis.ts'

test('days of the calendar agree with those of the platform, over leap years and centuries', () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 80_000 }), (days) => {
      const instant = new Date(Date.UTC(1996, 1, 20) + days * DAY * 1000)
      const expected = { year: instant.getUTCFullYear(), month: instant.getUTCMonth() + 1, day: instant.getUTCDate() }
      expect(civilDay('1996-02-20T00:00:00Z', days * DAY)).toEqual(expected)
    }),
  )
  expect(dayText('2032-02-28T00:00:00Z', 1.5 * DAY, true)).toBe('29 Feb 2032')
})

const axis = timeAxis({ from: 0, to: 400, lifts: [100, 104, 300], works: [[110, 290]], left: 100, right: 500 })

test('time runs forward on the axis, from edge to edge, and never at more than three paces', () => {
  expect([axis.xAt(0), axis.xAt(400 * DAY)]).toEqual([100, 500])
  for (let hour = 6; hour <= 9600; hour += 6) expect(axis.xAt(hour * 3600)).toBeGreaterThan(axis.xAt((hour - 6) * 3600))
  expect(new Set(axis.stretches.map((s) => weekOf(s).toFixed(6))).size).toBe(3)
})

test('a day with a lift is drawn wider than a day of work on the bays, and that wider than waiting', () => {
  const day = (d: number): number => axis.xAt((d + 1) * DAY) - axis.xAt(d * DAY)
  expect(day(102)).toBeGreaterThan(day(200))
  expect(day(200)).toBeGreaterThan(day(350))
  // the paces asked for: 2, 0.8 and 0.3 mm
  expect(day(102) / day(200)).toBeCloseTo(2 / 0.8, 9)
  expect(day(200) / day(350)).toBeCloseTo(0.8 / 0.3, 9)
})

test('nested tracks, first out and last back, cross nowhere when the first is on top', () => {
  const nested: Passage[] = ['A', 'B', 'C'].map((lane, i) => ({ lane, out: i, back: 10 - i }))
  expect(crossingsOf(['A', 'B', 'C'], nested)).toBe(0)
  expect(crossingsOf(['C', 'B', 'A'], nested)).toBeGreaterThan(0)
  expect(laneOrder(['C', 'A', 'B'], nested)).toEqual({ order: ['A', 'B', 'C'], crossings: 0 })
})

test('no order of the lanes has fewer crossings than the one chosen', () => {
  const passage = fc.record({
    lane: fc.constantFrom('A', 'B', 'C', 'D'),
    out: fc.integer({ min: 0, max: 20 }),
    stay: fc.integer({ min: 1, max: 20 }),
  })
  fc.assert(
    fc.property(
      fc.array(passage, { minLength: 1, maxLength: 9 }),
      fc.shuffledSubarray(['A', 'B', 'C', 'D'], { minLength: 4 }),
      (list, order) => {
        const passages = list.map(({ lane, out, stay }) => ({ lane, out, back: out + stay }))
        expect(laneOrder(['A', 'B', 'C', 'D'], passages).crossings).toBeLessThanOrEqual(crossingsOf(order, passages))
      },
    ),
  )
})

let stages: CampaignStages
let campaign: Campaign
let page: Drawing
beforeAll(() => {
  const left = stagesOf(
    parse(readFileSync(new URL('../../../../examples/recovery/project.yaml', import.meta.url), 'utf8')),
  )
  stages = { ...left, programme: programme(left.model, left.mass, left.strip, left.lift, left.ground, freshMemory()) }
  campaign = campaignOf(stages) as Campaign
  page = campaignDiagram(stages) as Drawing
}, 60_000)

test('every piece that is lifted has a track, from when its lift ends to when its return begins, as the plan has them', () => {
  const lifted = new Set(stages.strip.steps.filter((s) => s.lift !== undefined).map((s) => s.piece))
  expect(new Set(campaign.tracks.map((t) => t.piece))).toEqual(lifted)
  for (const { out, back, liftOut } of campaign.tracks) {
    const own = Object.values(stages.programme.activities).filter((a) => a.lift === liftOut)
    expect(own.map((a) => stages.programme.plan[a.id]?.finish)).toContain(out)
    if (back !== undefined) expect(back).toBeGreaterThan(out)
  }
})

test('on the sheet no words meet, nothing is cut, and it says that dates never shorten a hold point', () => {
  const boxes = textsOf(page.marks).map((t) => ({ words: t.text, box: textBox(t) }))
  expect(boxes.filter(({ box }) => box.left < 5 || box.top < 5 || box.right > 589 || box.bottom > 415)).toEqual([])
  expect(
    boxes.flatMap((a, i) =>
      boxes.slice(i + 1).flatMap((b) => (boxesMeet(a.box, b.box) ? [`${a.words} | ${b.words}`] : [])),
    ),
  ).toEqual([])
  expect(page.missing).toEqual([])
  const words = boxes.map((b) => b.words).join(' ')
  expect(words).toContain('never a reason to shorten a hold point')
  expect(words).toContain('Invented data')
})
