import { readFileSync } from 'node:fs'
import fc from 'fast-check'
import { beforeAll, expect, test } from 'vitest'
import { parse } from 'yaml'
import { keepBaseline, momentText, programme } from '../../programme/index.ts'
import { risk } from '../../risk/index.ts'
import { freshMemory } from '../../working/memory.ts'
import { civilDay, DAY, dayText } from '../civil.ts'
import {
  boxesMeet,
  type Drawing,
  type Mark,
  type PaperBox,
  primitivesOf,
  textBox,
  textsOf,
  type View,
} from '../drawing.ts'
import { stagesOf } from '../sheet/sheet.fixture.ts'
import { svgOf } from '../svg.ts'
import { manyPieces } from './campaign.fixture.ts'
import { type Campaign, type CampaignStages, campaignOf } from './campaign.ts'
import { campaignDiagram, campaignSheet } from './diagram.ts'
import { crossingsOf, laneOrder, type Passage } from './lanes.ts'
import type { Paper } from './layout.ts'
import { queueSteps } from './resourceUse.ts'
import { alongAt, type Stop, timeAlong } from './stops.ts'
import { timeAxis, weekOf } from './timeAxis.ts'
import { weekdayText } from './words.ts'

test('days of the calendar agree with those of the platform, over leap years and centuries', () => {
  const weekdays = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat']
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 80_000 }), (days) => {
      const instant = new Date(Date.UTC(1996, 1, 20) + days * DAY * 1000)
      const expected = { year: instant.getUTCFullYear(), month: instant.getUTCMonth() + 1, day: instant.getUTCDate() }
      expect(civilDay('1996-02-20T00:00:00Z', days * DAY)).toEqual(expected)
      expect(weekdayText('1996-02-20T00:00:00Z', days * DAY)).toBe(weekdays[instant.getUTCDay()])
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

test('a place on the axis gives back its instant', () => {
  for (let day = 1; day < 400; day += 7) expect(axis.at(axis.xAt(day * DAY)) / DAY).toBeCloseTo(day, 6)
})

test('a day with a lift is drawn wider than a day of work on the bays, and that wider than waiting', () => {
  const day = (d: number): number => axis.xAt((d + 1) * DAY) - axis.xAt(d * DAY)
  expect(day(102)).toBeGreaterThan(day(200))
  expect(day(200)).toBeGreaterThan(day(350))
  // the paces asked for: 2, 0.8 and 0.3 mm
  expect(day(102) / day(200)).toBeCloseTo(2 / 0.8, 9)
  expect(day(200) / day(350)).toBeCloseTo(0.8 / 0.3, 9)
})

test('at one even pace every week is as wide as the next', () => {
  const even = timeAxis({ from: 0, to: 140, lifts: [10], works: [], left: 0, right: 280, isEven: true })
  for (let day = 7; day < 140; day += 7) expect(even.xAt(day * DAY) - even.xAt((day - 7) * DAY)).toBeCloseTo(14, 9)
})

test('where waiting would get less than 0.15 mm a day it is cut, and days of lifting keep their paper', () => {
  const years = timeAxis({ from: 0, to: 4000, lifts: [100, 3900], works: [], left: 0, right: 400 })
  const cut = years.stretches.filter((s) => s.cut)
  expect(cut.length).toBeGreaterThan(0)
  for (const s of years.stretches.filter((s) => s.pace === 'lift')) expect(weekOf(s)).toBeGreaterThan(7 * 2)
  for (let day = 1; day < 4000; day += 10) expect(years.xAt(day * DAY)).toBeGreaterThan(years.xAt((day - 1) * DAY))
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

const wholeStages = (document: unknown): CampaignStages => {
  const left = stagesOf(document)
  const memory = freshMemory()
  const plan = programme(left.model, left.mass, left.strip, left.lift, left.ground, memory)
  return { ...left, programme: plan, risk: risk(left.model, left.lift, plan, memory) }
}

let stages: CampaignStages
let campaign: Campaign
let page: Drawing
beforeAll(() => {
  const document = parse(
    readFileSync(new URL('../../../../examples/recovery/project.yaml', import.meta.url), 'utf8'),
  ) as { programme: { today?: string } }
  document.programme.today = '2032-11-10'
  stages = wholeStages(document)
  campaign = campaignOf(stages) as Campaign
  page = campaignDiagram(stages) as Drawing
})

test('every piece that a lift takes away has one track, from when its lift ends to when its return begins, as planned', () => {
  const lifted = new Set(stages.strip.steps.filter((s) => s.lift !== undefined).map((s) => s.piece))
  const turnedOnly = [...lifted].filter((piece) => {
    const steps = stages.strip.steps.filter((s) => s.piece === piece && s.lift !== undefined)
    return steps.every((s) => stages.model.project.lifts[s.lift as string]?.kind === 'turn')
  })
  const expected = [...lifted].filter((p) => !turnedOnly.includes(p))
  expect(campaign.tracks.map((t) => t.piece)).toEqual(expected)
  expect(campaign.tracks.length).toBeGreaterThan(20)
  for (const { out, back, liftOut } of campaign.tracks) {
    const own = Object.values(stages.programme.activities).filter((a) => a.lift === liftOut)
    expect(own.map((a) => stages.programme.plan[a.id]?.finish)).toContain(out)
    if (back !== undefined) expect(back).toBeGreaterThan(out)
  }
})

const views = (marks: readonly Mark[]): View[] =>
  marks.flatMap((m) => (m.kind === 'view' ? [m, ...views(m.marks)] : []))

test('every piece is drawn leaving once and returning once: its track reaches its lane at both dates', () => {
  const { drawing, field } = campaignSheet(campaign)
  const drawn = views(drawing.marks)
  for (const track of campaign.tracks) {
    const own = drawn.filter((v) => v.about?.pointer === track.pointer)
    expect(own).toHaveLength(1)
    const points = primitivesOf(own[0]?.marks ?? []).flatMap((p) => (p.kind === 'line' ? [...p.points] : []))
    const reaches = (at: number): boolean =>
      points.some(([x, y]) => Math.abs(x - field.axis.xAt(at)) < 0.01 && Math.abs(y - field.onBay(track)) < 0.01)
    expect([track.piece, reaches(track.out)]).toEqual([track.piece, true])
    if (track.back !== undefined) expect([track.piece, reaches(track.back)]).toEqual([track.piece, true])
  }
})

test('today stands between the Monday before and the one after it', () => {
  const { drawing, field } = campaignSheet(campaign)
  const today = views(drawing.marks).find((v) => v.about?.pointer === '/programme/today')
  const [x] = primitivesOf(today?.marks ?? []).flatMap((p) => (p.kind === 'line' ? [p.points[0]?.[0] as number] : []))
  const day = (Date.parse('2032-11-10') - Date.parse('2031-11-03')) / 86_400_000
  const monday = Math.floor(day / 7) * 7
  expect(x).toBeGreaterThan(field.axis.xAt(monday * DAY))
  expect(x).toBeLessThan(field.axis.xAt((monday + 7) * DAY))
})

test('what is before today is drawn solid, what is ahead of it hollow or dashed', () => {
  const drawn = views(page.marks)
  const of = (piece: string) =>
    primitivesOf(drawn.find((v) => v.about?.pointer === `/pieces/${piece}`)?.marks ?? []).flatMap((p) =>
      p.kind === 'line' ? [p.stroke] : [],
    )
  const solid = (piece: string): number => of(piece).filter((s) => s.ink === 'ink' && s.dash === undefined).length
  // the crown is out since 21 October and comes back in March: both a solid and a hollow part
  expect(solid('crown')).toBeGreaterThan(0)
  expect(of('crown').filter((s) => s.ink === 'paper').length).toBeGreaterThan(0)
  // the man lock goes out on 15 November: its way out is dashed
  expect(of('man-lock').some((s) => s.dash !== undefined)).toBe(true)
})

test('a delivery says how many whole days it can slip before it is needed', () => {
  const bearing = campaign.supplies.find((s) => s.id === 'SUP-01')
  const need = stages.programme.plan['S30-old-bearing.back']?.start as number
  const first = Object.values(stages.programme.activities)
    .filter((a) => a.after.some((l) => l.to === 'B060'))
    .map((a) => stages.programme.plan[a.id]?.start as number)
  expect(bearing?.arrives).toBe(stages.programme.plan.B060?.finish)
  expect(bearing?.needed).toBeLessThanOrEqual(need)
  expect(first).toContain(bearing?.needed)
})

test('the shaft is sunk to the levels that the names of the stages give, one after another', () => {
  expect(campaign.sinking.dig.map((d) => [d.from, d.to])).toEqual([
    [0, -12],
    [-12, -25],
    [-25, -38.58],
  ])
})

test('wind ahead is the share of hours above the limit of the lift that least wind stops, rising towards winter', () => {
  const wind = campaign.wind
  const least = Math.min(...Object.values(stages.lift.lifts).map((l) => l.allowableWind.value ?? 99))
  expect(wind?.gust).toBe(least)
  const share = (month: number): number | undefined =>
    wind?.months.find((m) => civilDay(campaign.origin, m.start).month === month)?.share
  expect(share(12)).toBeGreaterThan(share(10) as number)
})

const inside = (b: PaperBox, width: number, height: number): boolean =>
  b.left >= -0.5 && b.top >= -0.5 && b.right <= width + 0.5 && b.bottom <= height + 0.5

function faults({ marks, width, height }: Drawing): string[] {
  const boxes = textsOf(marks).map((t) => ({ words: t.text, box: textBox(t) }))
  const meeting = boxes.flatMap((a, i) =>
    boxes.slice(i + 1).flatMap((b) => (boxesMeet(a.box, b.box) ? [`${a.words} | ${b.words}`] : [])),
  )
  const cut = boxes.filter(({ box }) => !inside(box, width, height)).map(({ words }) => `cut: ${words}`)
  const outside = primitivesOf(marks).flatMap((p) => {
    const points = p.kind === 'line' ? p.points : p.kind === 'shape' ? p.loops.flat() : []
    const off = points.find(
      ([x, y]) => !Number.isFinite(x + y) || !inside({ left: x, right: x, top: y, bottom: y }, width, height),
    )
    return off === undefined ? [] : [`outside: ${p.kind} at ${off}`]
  })
  return [...meeting, ...cut, ...outside]
}

for (const paper of ['A1', 'A2', 'A3', 'A4'] as const satisfies readonly Paper[]) {
  test(`on ${paper} no words meet, nothing is cut, every mark is inside, and no type is too small to read`, () => {
    const { drawing } = campaignSheet(campaign, {
      paper,
      simulated: { p10: 4.5e7, p50: 4.6e7, p80: 4.75e7, p90: 4.9e7 },
    })
    expect(faults(drawing)).toEqual([])
    expect(drawing.missing).toEqual([])
    const least = { A1: 2.8, A2: 2.55, A3: 1.8, A4: 1.75 }[paper]
    expect(Math.min(...textsOf(drawing.marks).map((t) => t.size))).toBeGreaterThanOrEqual(least)
    const words = textsOf(drawing.marks)
      .map((t) => t.text)
      .join(' ')
    expect(words).toContain('never a reason to shorten a hold point')
    expect(words).toContain('nvented data')
  })
}

test('at the width of a page, in either unit system and at any stretch of time, no words meet and nothing is cut', () => {
  const [day] = campaign.lifts.map((l) => l.day) as [number]
  const shift = { from: day + campaign.hours.from / 24, to: day + campaign.hours.to / 24 }
  for (const width of [258, 366])
    for (const stretch of [
      {},
      { from: 340, to: 420 },
      { from: 360, to: 374 },
      { from: 352.25, to: 354.5 },
      shift,
      { from: 0, to: 300 },
      { isEven: true },
    ])
      for (const units of ['SI', 'US'] as const) {
        const { drawing } = campaignSheet(campaign, { width, stretch, units })
        expect(faults(drawing)).toEqual([])
      }
})

test('the same campaign gives the same drawing, and drawing it changes nothing', () => {
  const before = JSON.stringify(campaign.tracks)
  expect(svgOf(campaignSheet(campaign).drawing)).toBe(svgOf(campaignSheet(campaign).drawing))
  expect(JSON.stringify(campaign.tracks)).toBe(before)
})

test('an earlier plan is drawn only where a lift has moved, with the days between', () => {
  const plan = stages.programme.plan
  const same = campaignSheet(campaign, { baseline: plan })
  const moved = campaignSheet(campaign, {
    baseline: { ...plan, 'S04-crown.out': { start: 0, finish: (plan['S04-crown.out']?.finish as number) - 6 * DAY } },
  })
  const days = (d: Drawing): string[] =>
    textsOf(d.marks)
      .map((t) => t.text)
      .filter((t) => /^\d+ d later$/.test(t))
  expect(days(same.drawing)).toEqual([])
  expect(days(moved.drawing)).toEqual(['6 d later'])
})

for (const [count, years] of [
  [3, 1],
  [60, 1],
  [12, 3],
] as const) {
  test(`${count} pieces, ${years === 1 ? 'one year' : 'three years'}: every piece has its track, no words meet, nothing is cut`, () => {
    const many = campaignOf(wholeStages(manyPieces({ count, years }))) as Campaign
    expect(many.tracks).toHaveLength(count)
    for (const paper of ['A2', 'A3'] as const) {
      const { drawing } = campaignSheet(many, { paper })
      expect(faults(drawing)).toEqual([])
    }
  })
}

/** Five pieces under way: the plan agreed is kept, and all that is done by the data date came days later. */
function underWay(late: number): Campaign {
  const document = manyPieces({ count: 5, years: 1 }) as { programme: Record<string, unknown> }
  const { programme: plan } = wholeStages(document)
  const zone = (plan.solved as NonNullable<typeof plan.solved>).zone
  const [keep] = keepBaseline(plan, { id: 'agreed', name: 'Agreed', made: '2031-10-20' }) ?? []
  const moment = (seconds: number): string => momentText(zone, seconds)
  const dataDate = (plan.plan['S1.out']?.finish as number) + late * DAY
  const done = Object.entries(plan.plan).filter(([, p]) => p.finish + late * DAY <= dataDate)
  const shifted = done.map(([id, p]) => [
    id,
    { start: moment(p.start + late * DAY), finish: moment(p.finish + late * DAY) },
  ])
  document.programme = {
    ...document.programme,
    baselines: { agreed: keep?.op === 'add' ? keep.value : undefined },
    dataDate: moment(dataDate),
    progress: Object.fromEntries(shifted),
  }
  return campaignOf(wholeStages(document)) as Campaign
}

const wordsOn = ({ marks }: Drawing): string =>
  textsOf(marks)
    .map((t) => t.text)
    .join(' | ')

test('under way, what was done lies where it happened, and the days since what was agreed are told', () => {
  const late = underWay(7)
  const [first] = late.tracks
  expect(late.isActual).toBe(true)
  expect(first?.out).toBe((late.agreed?.activities['S0.out']?.finish as number) + 7 * DAY)
  expect(first?.out).toBeLessThanOrEqual(late.today as number)
  for (const paper of ['A2', 'A4'] as const) {
    const { drawing } = campaignSheet(late, { paper })
    expect(faults(drawing)).toEqual([])
    expect(wordsOn(drawing)).toContain('data date')
    expect(wordsOn(drawing)).toMatch(/7 d later than agreed/)
    expect(wordsOn(drawing)).toContain('as agreed')
    expect(wordsOn(drawing)).toMatch(/\| 7 d( later)? \|/)
  }
  expect(wordsOn(campaignSheet(late, { baseline: {} }).drawing)).not.toMatch(/\| 7 d( later)? \|/)
})

test('on time, nothing is later than agreed', () => {
  const { drawing } = campaignSheet(underWay(0))
  expect(wordsOn(drawing)).not.toContain('than agreed')
})

test('the steps of a queue add up to the time that all in it wait', () => {
  const wait = fc.tuple(fc.integer({ min: 0, max: 500 }), fc.integer({ min: 1, max: 90 }))
  fc.assert(
    fc.property(fc.array(wait, { maxLength: 12 }), (list) => {
      const waits = list.map(([ready, long], i) => ({ activity: `A${i}`, name: '', ready, start: ready + long }))
      const area = queueSteps(waits).reduce((sum, s) => sum + s.count * (s.to - s.from), 0)
      expect(area).toBe(list.reduce((sum, [, long]) => sum + long, 0))
    }),
  )
})

test('what waits for a resource is ready by its links before the resource is handed over, and is in nobody else\u2019s queue', () => {
  const waits = campaign.uses.flatMap((u) => u.waits)
  expect(waits.length).toBeGreaterThan(10)
  for (const { activity, ready, start } of waits) {
    const ends = (stages.programme.activities[activity]?.after ?? []).flatMap(({ to, type, lag }) =>
      type === 'FS' && lag === 0 ? [stages.programme.plan[to]?.finish ?? 0] : [],
    )
    expect(ready).toBeGreaterThanOrEqual(Math.max(0, ...ends) - 1e-6)
    expect(start).toBe(stages.programme.plan[activity]?.start)
  }
  expect(new Set(waits.map((w) => w.activity)).size).toBe(waits.length)
})

test('of one shift every hour is told, as wide as the next, and the lift goes up within it', () => {
  const [first] = campaign.lifts as [Campaign['lifts'][number]]
  const { from, to } = campaign.hours
  const { drawing, field } = campaignSheet(campaign, {
    width: 366,
    stretch: { from: first.day + from / 24, to: first.day + to / 24 },
  })
  const told = textsOf(drawing.marks).map((t) => t.text)
  for (let hour = from + 1; hour < to; hour++) expect(told).toContain(String(hour))
  const hour = (h: number): number => field.axis.xAt(first.day * DAY + h * 3600)
  for (let h = from + 1; h <= to; h++) expect(hour(h) - hour(h - 1)).toBeCloseTo(hour(from + 1) - hour(from), 6)
  const [run] = first.runs
  expect(field.axis.shows(run?.start as number) && field.axis.shows(run?.finish as number)).toBe(true)
})

test('time never runs back along the order, and a place on the way of a lift gives back its instant', () => {
  const { stops } = campaign
  expect(stops).toHaveLength(2 * stages.strip.steps.length + 1)
  const [first, last] = [stops[0] as Stop, stops.at(-1) as Stop]
  stops.slice(1).forEach(({ begins, reached }, i) => {
    expect(begins).toBeGreaterThanOrEqual((stops[i] as Stop).reached)
    expect(reached).toBeGreaterThanOrEqual(begins)
  })
  let moving = 0
  fc.assert(
    fc.property(fc.double({ min: first.reached, max: last.reached, noNaN: true }), (at) => {
      const along = alongAt(stops, at)
      // between two lifts everything stands where the last one left it
      if (Number.isInteger(along)) expect(timeAlong(stops, along)).toBeLessThanOrEqual(at)
      else {
        moving++
        expect(timeAlong(stops, along)).toBeCloseTo(at, 2)
      }
    }),
  )
  expect(moving).toBeGreaterThan(0)
  const crown = campaign.tracks.find((t) => t.piece === 'crown')
  const step = stages.strip.steps.findIndex((s) => s.step === crown?.step)
  expect(stops[step + 1]?.reached).toBe(crown?.out)
})
