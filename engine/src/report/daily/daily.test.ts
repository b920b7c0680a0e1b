import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { model } from '../../model/index.ts'
import { readText } from '../../model/text.ts'
import { programmeFor } from '../../programme/programme.fixture.ts'
import { freshMemory } from '../../working/memory.ts'
import { everyRecord } from '../dossier/dossier.fixture.ts'
import { textsOf } from '../drawing.ts'
import { stagesOf } from '../sheet/sheet.fixture.ts'
import { dailyPages } from './dailyPages.ts'
import { dailySheet } from './dailySheet.ts'
import { recordedOn } from './recordedOn.ts'

const file = new URL('../../../../examples/under-way/project.yaml', import.meta.url)
const document = readText(readFileSync(file, 'utf8')).document as Record<string, unknown>
const underWay = { ...stagesOf(document), programme: programmeFor(document) }
const refusals = (diary: object) =>
  model({ schemaVersion: 1, about: { title: 'Small' }, diary }, freshMemory()).problems

test('the report is of the last day of the diary, and of another where one is asked for', () => {
  expect(dailySheet(underWay)?.day).toBe('2032-06-24')
  expect(dailySheet(underWay, { day: '2032-06-23' })?.entries.map(({ id }) => id)).toEqual(['2032-06-23-early'])
  expect(dailySheet(underWay, { day: '2032-06-22' })).toBeUndefined()
})

test('an action is open until the day it is done, and late from the day after it was due', () => {
  const on = (day: string) => dailySheet(underWay, { day })?.actions.map(({ due, late }) => [due, late])
  expect(on('2032-06-23')).toEqual([['2032-06-23', false]])
  expect(on('2032-06-24')).toEqual([
    ['2032-06-23', true],
    ['2032-06-25', false],
    ['2032-06-26', false],
  ])
})

test('hours lost and heads are sums over the shifts of the day, and stand on paper as written', () => {
  const sheet = dailySheet(underWay)
  expect([sheet?.lost, sheet?.people]).toEqual([45 * 60, 20])
  const words = (dailyPages(underWay) ?? []).flatMap((page) => textsOf(page.marks)).map((t) => t.text)
  expect(words).toContain('0.75')
  expect(words.join(' ')).toContain('Hose of rig 1 changed')
})

test('the shift ahead is the one under way at the data date, with the piles in it', () => {
  const [late] = dailySheet(underWay)?.shifts ?? []
  expect([late?.isUnderWay, late?.from, late?.work.map(({ id }) => id)]).toEqual([true, '2032-06-24 15:00', ['C040']])
})

test('people below ground stand on it: counts of the day, and what is open or fails of checks 98 to 104', () => {
  const of = (belowGround: object) => {
    const told = { ...document, belowGround }
    return { ...stagesOf(told), programme: programmeFor(told) }
  }
  const line = { who: 'fitter', in: '2032-06-24T07:00' }
  const counts = {
    now: { at: '2032-06-24T15:10', below: 0, by: 'banksman' },
    before: { at: '2032-06-23T15:10', below: 7, by: 'banksman' },
  }
  const gone = dailySheet(of({ board: { a: line }, counts }))?.below
  expect(gone?.counts).toEqual([{ at: '15:10', below: 0, by: 'banksman', before: '' }])
  const board = gone?.lines.find(({ title }) => title.includes('head count'))
  expect([board?.verdict, board?.words.includes('0 counted, 1 on the board')]).toEqual(['fail', true])
  const words = (dailyPages(of({ board: { a: line }, counts })) ?? []).flatMap((page) => textsOf(page.marks))
  expect(words.map((t) => t.text)).toContain('People below ground')
})

test('what was measured, decided, examined and tightened stands in the report of its day, and of no other', () => {
  const on = (day: string, more: object = {}) => {
    const entry = { on: day, shift: ['06:00', '15:00'], by: 'Superintendent' }
    const told = { ...document, diary: { day: entry }, ...more }
    const stages = { ...stagesOf(told), programme: programmeFor(told) }
    const words = (dailyPages(stages) ?? []).flatMap((page) => textsOf(page.marks)).map((t) => t.text)
    return { recorded: dailySheet(stages)?.recorded.map(({ words, by }) => [words, by]), words: words.join(' ') }
  }
  expect(on('2032-06-05').recorded).toEqual([['decided: replaced', 'Foreman of plant']])
  expect(on('2032-06-11').recorded).toEqual([['Radial play of the bearing: 0.1\u00a0mm', 'Fitter of plant']])
  expect(on('2032-05-13').recorded).toEqual([
    ['examined, MT: accepted', 'Examiner 2'],
    ['Least throat: 8.4\u00a0mm', 'Examiner 2'],
    ['examined, MT: rejected, crack 30 mm at the toe', 'Examiner 2'],
  ])
  expect(on('2032-05-14').words).toContain('last pass laid')
  const { project } = stagesOf(everyRecord()).model
  expect(['2033-01-18', '2033-01-19'].map((day) => recordedOn(project, day))).toEqual([
    [{ of: 'B1, bolts of J1', words: '10 bolts tightened', by: 'fitter' }],
    [{ of: 'B1, bolts of J1', words: 'looked at again after they have settled', by: 'foreman' }],
  ])
  const logged = {
    lift: 'L1',
    step: 3,
    what: 'Rig as in C.',
    by: 'rigger',
    on: '2033-01-20T07:41+01:00',
    note: undefined,
  }
  expect(recordedOn({ ...project, liftLog: { e: logged } }, '2033-01-20')).toEqual([
    { of: 'lift L1, step 3', words: 'Rig as in C.', by: 'rigger' },
  ])
  const quiet = on('2032-06-24')
  expect([quiet.recorded, quiet.words.includes('Put on record')]).toEqual([[], false])
})

test('a record that contradicts itself is refused at its place', () => {
  const entry = {
    on: '2032-06-24',
    shift: ['22:00', '06:00'],
    by: 'Superintendent',
    lost: [
      { time: '9 h', cause: 'wind' },
      { time: '8 h', cause: 'wind' },
    ],
    actions: [{ what: 'clear', owner: 'Foreman', due: '2032-06-23' }],
  }
  expect(refusals({ night: entry }).map(({ pointer }) => pointer)).toEqual([
    '/diary/night/lost/0/time',
    '/diary/night/actions/0/due',
  ])
  const lacking = refusals({ night: { ...entry, lost: [{ time: '2', cause: 'wind' }], actions: [] } })
  expect(lacking.map(({ pointer }) => pointer)).toEqual(['/diary/night/lost/0/time'])
  expect(lacking[0]?.example).toBeDefined()
})
