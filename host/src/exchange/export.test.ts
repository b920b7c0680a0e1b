import { TABLE_NAMES, tableOf } from '@shieldwright/engine/report/tables/index.ts'
import { readSheet } from 'read-excel-file/node'
import { describe, expect, test } from 'vitest'
import { csvOf } from './csv.ts'
import { derived, onePiece, smallPlan } from './exchange.fixture.ts'
import { calendarFile, csvFile, workbook } from './files.ts'
import { calendarOf } from './ical.ts'
import { unzipped } from './zip.ts'

const ISSUE = { units: 'SI', at: '2032-02-01T00:00:00Z', sequence: 3 } as const

/** Content lines unfolded: CRLF and the one space or tab after it go (RFC 5545, 3.1: read on a public page of the standard). */
const unfolded = (text: string): string[] =>
  text
    .replace(/\r\n[ \t]/g, '')
    .split('\r\n')
    .slice(0, -1)

/** A text value as it was before it was escaped (RFC 5545, 3.3.11: from memory). */
const unescaped = (value: string): string =>
  value.replace(/\\([\\;,nN])/g, (_, mark: string) => (mark.toLowerCase() === 'n' ? '\n' : mark))

/** Events by UID; fails where the nesting of the components does not hold. */
function eventsIn(text: string): Map<string, Map<string, string>> {
  const events = new Map<string, Map<string, string>>()
  const open: string[] = []
  let event = new Map<string, string>()
  for (const line of unfolded(text)) {
    const [, name = '', value = ''] = /^([A-Z-]+)(?:;[^:]*)?:(.*)$/s.exec(line) ?? []
    expect(name, line).not.toBe('')
    if (name === 'BEGIN') {
      open.push(value)
      event = new Map()
    } else if (name === 'END') {
      expect(open.pop()).toBe(value)
      if (value === 'VEVENT') events.set(event.get('UID') as string, event)
    } else {
      expect(event.has(name), `${name} once`).toBe(false)
      event.set(name, value)
    }
  }
  expect(open).toEqual([])
  return events
}

describe('dates as iCalendar', () => {
  const { stages } = derived(smallPlan())
  const text = calendarFile(stages, ISSUE)

  test('lines end with CRLF and hold at most 75 octets (3.1: read)', () => {
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/)
    const long = calendarOf(
      [
        {
          id: 'x',
          kind: 'lift',
          title: 'ü€😀'.repeat(60),
          words: 'w',
          start: '2032-03-01T00:00:00Z',
          finish: '2032-03-01T01:00:00Z',
        },
      ],
      { title: 'Long', at: ISSUE.at, sequence: 0 },
    )
    for (const line of [...text.split('\r\n'), ...long.split('\r\n')])
      expect(new TextEncoder().encode(line).length).toBeLessThanOrEqual(75)
    expect(eventsIn(long).get('x@shieldwright')?.get('SUMMARY')).toBe('ü€😀'.repeat(60))
  })

  test('a calendar names its version and its maker, and every entry its UID, its stamp and its start (3.6, 3.6.1: from memory)', () => {
    const lines = unfolded(text)
    expect(lines[0]).toBe('BEGIN:VCALENDAR')
    expect(lines.at(-1)).toBe('END:VCALENDAR')
    expect(lines).toContain('VERSION:2.0')
    expect(lines.filter((line) => line.startsWith('PRODID:'))).toHaveLength(1)
    const events = [...eventsIn(text).values()]
    expect(events).toHaveLength(3)
    for (const event of events)
      for (const name of ['UID', 'DTSTAMP', 'DTSTART']) expect(event.get(name), name).toBeDefined()
  })

  test('times are in UTC, before and after the clocks change', () => {
    const events = eventsIn(text)
    // by hand: two and four days from Monday 2032-03-01; B ends on Monday 2032-03-08 at 19:00 in Paris, UTC + 1
    expect(events.get('delivery-seals@shieldwright')?.get('DTSTART')).toBe('20320308T180000Z')
    const summer = derived(smallPlan({ start: '2032-03-29' }))
    // clocks went forward on 2032-03-28: 19:00 is 17:00 UTC
    expect(eventsIn(calendarFile(summer.stages, ISSUE)).get('delivery-seals@shieldwright')?.get('DTSTART')).toBe(
      '20320405T170000Z',
    )
  })

  test('an instant has no end, and what lasts ends after it starts', () => {
    for (const event of eventsIn(text).values()) expect(event.has('DTEND')).toBe(false)
    const lift = calendarOf(
      [
        {
          id: 'lift S1.out',
          kind: 'lift',
          title: 'L',
          words: 'w',
          start: '2032-03-01T06:00:00Z',
          finish: '2032-03-01T09:30:00Z',
        },
      ],
      { title: 'T', at: ISSUE.at, sequence: 0 },
    )
    const event = eventsIn(lift).get('lift-S1.out@shieldwright')
    expect([event?.get('DTSTART'), event?.get('DTEND')]).toEqual(['20320301T060000Z', '20320301T093000Z'])
  })

  test('commas, semicolons, backslashes and new lines come through', () => {
    const words = 'a, b; c\\d\nBEGIN:VEVENT'
    const one = calendarOf(
      [
        {
          id: 'x',
          kind: 'restart',
          title: words,
          words,
          start: '2032-03-01T06:00:00Z',
          finish: '2032-03-01T06:00:00Z',
        },
      ],
      { title: 'T', at: ISSUE.at, sequence: 0 },
    )
    expect(unescaped(eventsIn(one).get('x@shieldwright')?.get('DESCRIPTION') ?? '')).toBe(words)
  })

  test('an entry keeps its UID when the plan moves, and a later issue has a higher number', () => {
    const moved = derived(smallPlan({ start: '2032-03-08' }))
    const [before, after] = [eventsIn(text), eventsIn(calendarFile(moved.stages, { ...ISSUE, sequence: 4 }))]
    expect([...after.keys()].sort()).toEqual([...before.keys()].sort())
    expect(after.get('restart@shieldwright')?.get('DTSTART')).not.toBe(
      before.get('restart@shieldwright')?.get('DTSTART'),
    )
    expect(after.get('restart@shieldwright')?.get('SEQUENCE')).toBe('4')
  })
})

describe('tables', () => {
  const { stages } = derived(smallPlan({}, onePiece))

  test('a text that a spreadsheet would take for a formula is one no longer; a negative number stays a number', () => {
    const table = {
      name: 't',
      title: 'T',
      columns: [
        { title: '=1+1', kind: 'text' as const },
        { title: 'n', kind: 'number' as const },
      ],
      rows: [
        ['=HYPERLINK("x")', -2.5],
        ['+1', 0],
        ['-a', 0],
        ['@SUM(A1)', 0],
        ['\t=1', 0],
        ['plain', 0],
      ],
    }
    expect(csvOf(table, 'SI').slice(1).split('\r\n')).toEqual([
      "'=1+1,n",
      `"'=HYPERLINK(""x"")",-2.5`,
      "'+1,0",
      "'-a,0",
      "'@SUM(A1),0",
      "'\t=1,0",
      'plain,0',
      '',
    ])
  })

  test('numbers stand in one unit, said in the heading, in either system', () => {
    const [si, us] = (['SI', 'US'] as const).map((units) =>
      csvFile(stages, 'masses', { ...ISSUE, units }).split('\r\n'),
    )
    expect(si?.[0]).toContain('"net, t"')
    expect(us?.[0]).toMatch(/"net, (kip|lb)"/)
    // a steel sphere of 1 m radius: 4/3 π × 7.85 t
    expect(Number(si?.[1]?.split(',')[3])).toBeCloseTo((4 / 3) * Math.PI * 7.85, 6)
  })

  test('a workbook holds every table, numbers as numbers and times as dates; the same tables give the same bytes', async () => {
    const book = await workbook(stages, ISSUE)
    expect(await workbook(stages, ISSUE)).toEqual(book)
    const sheet = await readSheet(Buffer.from(book), 'Programme')
    const heading = sheet[0] as string[]
    const a = sheet[1] as unknown[]
    expect(a[heading.indexOf('activity')]).toBe('A')
    expect(a[heading.indexOf('work left, days')]).toBe(2)
    // local time in the fields of UTC, as spreadsheets have it
    expect(a[heading.indexOf('start, Europe/Paris')]).toEqual(new Date('2032-03-01T07:00:00Z'))
    const parts = unzipped(book, { entries: 100, bytes: 1e7 })
    const xml = 'entries' in parts ? parts.entries.map(({ bytes }) => new TextDecoder().decode(bytes)).join() : ''
    expect(xml).not.toContain('<f>')
    expect(
      'entries' in parts && parts.entries.filter(({ name }) => name.startsWith('xl/worksheets/sheet')),
    ).toHaveLength(TABLE_NAMES.length)
  })

  test('the shift under way at the data date has its hours, in local time', () => {
    const { rows } = tableOf(derived(smallPlan({ today: '2032-03-01' })).stages, 'shift')
    const [first] = rows
    expect(first?.slice(1, 5)).toEqual(['next', '2032-03-01T07:00', '2032-03-01T19:00', 'A'])
    expect(first?.slice(7, 9)).toEqual(['2032-03-01T07:00', '2032-03-01T19:00'])
  })

  test('the look-ahead begins at the data date, else today', () => {
    const on = (programme: Record<string, unknown>) =>
      tableOf(derived(smallPlan(programme)).stages, 'look-ahead', { weeks: 1 }).rows.map((row) => `${row[0]} ${row[2]}`)
    expect(on({})).toEqual(['A starts', 'B starts'])
    expect(on({ today: '2032-03-08' })).toEqual(['B goes on', 'C starts'])
    expect(
      on({
        today: '2032-03-01',
        dataDate: '2032-03-05',
        progress: { A: { start: '2032-03-01', finish: '2032-03-05' } },
      }),
    ).toEqual(['B starts', 'C starts'])
  })
})
