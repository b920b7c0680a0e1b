import { describe, expect, test } from 'vitest'
import { stated } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import * as kinds from './kinds.ts'
import { fixtures } from './lift.fixture.ts'
import { liftsOf } from './small.fixture.ts'

/** What is cryptic to a reader on site, or was never filled in. */
const CRYPTIC: readonly (readonly [RegExp, string])[] = [
  [/\b(lift|mass|strip|model)\.[a-z]+\b/, 'an id'],
  [/\brad\b|\d e[+-]?\d|\d{6,}/, 'a figure in units that nobody reads'],
  [/undefined|NaN|Infinity|\bopen\b|\[object/, 'a gap'],
]

/** A reason ends in what would cure it: after a colon or a semicolon, or as what would bear, clear or hold it. */
const CURE = /[:;] [a-z0-9].{8,}|\bwould (bear|clear)\b/

const missing = /^\/\S+ is not given$/

/** What is wrong with the words of a check that fails or is open. */
function wordFaults({ verdict, reasons }: Check): string[] {
  if (reasons.length === 0) return ['it says nothing']
  const told = reasons.filter((words) => !missing.test(words))
  return [
    ...told.flatMap((words) => CRYPTIC.flatMap(([sign, what]) => (sign.test(words) ? [`${what} in "${words}"`] : []))),
    ...told.filter((words) => words.split(/\s+/).length < 5).map((words) => `too short: "${words}"`),
    ...(verdict === 'fail' && !reasons.some((words) => CURE.test(words)) ? [`no cure in "${reasons.join('; ')}"`] : []),
  ]
}

describe.each(Object.entries(fixtures))('%s', (_, { fail, open }) => {
  test('says in plain words why it fails, and what would cure it', () => {
    expect(wordFaults(fail())).toEqual([])
  })

  test('says why it is open', () => {
    expect(wordFaults(open())).toEqual([])
  })
})

const made = (demand: number, found: string[]): Check =>
  check({
    kind: kinds.hookUse,
    subject: { pointer: '', id: 'x', name: 'x' },
    demand: stated('kg', demand, 'demand'),
    capacity: stated('kg', 1, 'capacity'),
    near: 0.9,
    found,
  })

test('a failure without words, in figures of the engine or without a cure is told apart from one that has both', () => {
  expect(wordFaults(made(2, []))).toEqual(['it says nothing'])
  expect(wordFaults(made(2, ['outside the limits of lift.bridle.uniform: beta <= 1.04721']))).toHaveLength(1)
  expect(wordFaults(made(2, ['it leans 1.2 rad out of plumb: longer legs hold it']))).toHaveLength(1)
  expect(wordFaults(made(2, ['the piece strikes the wall of the shaft']))).toHaveLength(1)
  expect(wordFaults(made(2, ['the piece strikes the wall of the shaft: other moves, or a smaller piece']))).toEqual([])
})

/** Bad input of a lift, and what is to be said of it. */
test.each<[string, Parameters<typeof liftsOf>[0], string, RegExp]>([
  [
    'legs that are too short to reach',
    (d) => {
      d.stock.sling.length = '0.7 m'
    },
    'lift.leg.angle',
    /too short, and does not reach over 1\.50 m: 2\.12 m over the same distance, or a spreader/,
  ],
  [
    'legs of the tail hook that do not reach across',
    (d) => {
      d.stock.sling.length = '0.7 m'
    },
    'lift.leg.tension',
    /a leg is shorter than the way across .*: longer legs/,
  ],
  [
    'a centre of gravity above the points under short legs',
    (d) => {
      for (const p of Object.values(d.pieces.block.points) as { at: string[] }[]) p.at[2] = '-3 m'
      d.stock.sling.length = '1.8 m'
    },
    'lift.hang.stability',
    /would turn over; it lies \d\.\d\d m too high; longer legs, higher points/,
  ],
  [
    'two of four legs too long to carry anything',
    (d) => {
      d.stock.long = { ...d.stock.sling, length: '6 m' }
      for (const leg of d.lifts.out.rigging.legs.slice(0, 2)) leg.item = 'long'
    },
    'lift.hang.tilt',
    /leg 1 is slack, leg 2 is slack by plan/,
  ],
  [
    'a bridle flatter than its rule counts',
    (d) => {
      d.stock.sling.length = '1.6 m'
      d.settings.legAngle = '80 deg'
    },
    'lift.leg.rule',
    /angle of the flattest leg from the vertical is 68\.\d\s°, where it holds only for no more than 60\.0\s°/,
  ],
  [
    'a lug thinner than its hole allows',
    (d) => {
      for (const p of Object.values(d.pieces.block.points) as { lug: { plate: string } }[]) p.lug.plate = '20 mm'
    },
    'lift.lug.strength',
    /a plate of at least 21\smm would bear it/,
  ],
  [
    'a hole that leaves no edge about it',
    (d) => {
      for (const p of Object.values(d.pieces.block.points) as { lug: { hole: string } }[]) p.lug.hole = '140 mm'
    },
    'lift.lug.strength',
    /an edge 170\smm from the centre would bear it/,
  ],
  [
    'a certificate that ran out before the lift',
    (d) => {
      d.lifts.out.on = '2031-11-20'
      d.stock.sling.certificateUntil = '2031-11-19'
    },
    'lift.stock.certificate',
    /certificate ran out on 2031-11-19, the lift is on 2031-11-20; examine it before, or take another/,
  ],
])('%s: told with a cure', (_, change, kind, words) => {
  const told = liftsOf(change).checks.filter((c) => c.kind === kind && c.verdict !== 'pass' && c.verdict !== 'near')
  expect(told.map((c) => c.reasons.join('; ')).join('\n')).toMatch(words)
})
