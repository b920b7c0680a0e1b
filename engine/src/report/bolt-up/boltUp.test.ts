import { expect, test } from 'vitest'
import { bolted, lidOnTub } from '../../strip/strip.fixture.ts'
import { boxesMeet, type Drawing, primitivesOf, textBox, textsOf, type View } from '../drawing.ts'
import { HAND_PAPERS } from '../paper/size.ts'
import { stagesOf } from '../sheet/sheet.fixture.ts'
import { boltUpPages } from './boltUpPages.ts'
import { BOLTING_CAUTIONS, type BoltUpBlock, boltUpSheets } from './boltUpSheet.ts'

/** A lid on twelve M36 that are pulled to 500 kN by a tensioner of 52 cm². */
const lid = (bolts: Record<string, unknown> = {}) =>
  stagesOf(
    lidOnTub({
      joints: {
        J1: bolted('lid', 'tub', {
          bolts: {
            thread: 'M36',
            grade: '10.9',
            count: 12,
            circle: '2 m',
            preload: '500 kN',
            method: 'hydraulic tension',
            tensioner: { area: '52 cm2', transfer: 1.12 },
            least: '300 kN',
            timeOff: '6 min',
            timeOn: '9 min',
            ...bolts,
          },
        }),
      },
    }),
  )

const blockOf = (bolts: Record<string, unknown> = {}): BoltUpBlock =>
  boltUpSheets(lid(bolts), { units: 'SI' })[0]?.blocks[0] as BoltUpBlock
const pagesOf = (bolts: Record<string, unknown> = {}): Drawing[] =>
  boltUpPages(lid(bolts), 'S1', { units: 'SI' }) as Drawing[]
const wordsOf = (pages: readonly Drawing[]): string[] => pages.flatMap((page) => textsOf(page.marks).map((t) => t.text))

test('each pass says the tension it leaves and what the tensioner is pumped to', () => {
  // by hand: 30, 60 and 100 % of 500 kN; pressure = tension x 1.12 / 52 cm2: 32.3, 64.6 and 107.7 MPa
  expect(blockOf().passes.map((p) => [p.share, p.tension.replace('\u00a0', ' '), p.setting])).toEqual([
    ['30 %', '150.0 kN', '32.3 MPa'],
    ['60 %', '300.0 kN', '64.6 MPa'],
    ['100 %', '500.0 kN', '107.7 MPa'],
  ])
})

test('a torque is printed as finely as a wrench is set', () => {
  const { passes } = blockOf({ method: 'torque', lubrication: 'paste', nutFactor: 0.12, tensioner: undefined })
  // by hand: T = K F d = 0.12 x 500 kN x 36 mm = 2160 N m, and 30 and 60 % of it
  expect(passes.map((p) => p.setting.replace(/[^\d Nm]/g, ''))).toEqual(['648 N m', '1296 N m', '2160 N m'])
})

test('every bolt has a box for every pass, in the order in which it is taken', () => {
  const { strokes } = blockOf()
  expect(strokes.flat().toSorted((a, b) => a - b)).toEqual(Array.from({ length: 12 }, (_, i) => i + 1))
  // on a circle opposite bolts follow one another (common practice, no source)
  expect(Math.abs((strokes[0]?.[0] as number) - (strokes[1]?.[0] as number))).toBe(6)
  const boxes = primitivesOf((pagesOf()[0] as Drawing).marks).filter(
    (m) => m.kind === 'shape' && isSquarish(m.loops[0]),
  )
  // three passes and a check pass of twelve bolts
  expect(boxes.length).toBe(12 * 4)
})

const isSquarish = (loop: readonly (readonly [number, number])[] | undefined): boolean => {
  const [a, , c] = loop ?? []
  return a !== undefined && c !== undefined && Math.abs(c[1] - a[1] - 3.8) < 1e-9
}

test('the bolts are drawn to scale: the distance of each from the middle is the radius at the ratio of the view', () => {
  const [page] = pagesOf() as [Drawing]
  const view = page.marks.find((m): m is View => m.kind === 'view')
  const circles = primitivesOf(view?.marks ?? []).filter((m) => m.kind === 'circle')
  const [ring, ...bolts] = circles
  expect(bolts).toHaveLength(12)
  for (const bolt of bolts) {
    if (bolt.kind !== 'circle' || ring?.kind !== 'circle') throw new Error('a circle is due')
    const [dx, dy] = [bolt.centre[0] - ring.centre[0], bolt.centre[1] - ring.centre[1]]
    expect((Math.hypot(dx, dy) * (view?.scale as number)) / 1000).toBeCloseTo(1, 9)
    // M36
    expect((2 * bolt.radius * (view?.scale as number)) / 1000).toBeCloseTo(0.036, 9)
  }
})

test('what is not known is open by its address, and the sheet says that it is not tightened by', () => {
  const block = blockOf({ tensioner: undefined })
  expect(block.passes.map((p) => p.setting)).toEqual(['open', 'open', 'open'])
  expect(block.open).toContain('/joints/J1/bolts/tensioner/area')
  expect(wordsOf(pagesOf({ tensioner: undefined })).join(' ')).toContain('not to be tightened by this sheet')
})

test('every check that is printed is one of the derivation, with its id; cautions and deferral stand on each sheet', () => {
  const stages = lid()
  const ids = new Set(stages.strip.checks.map((c) => c.id))
  const [sheet] = boltUpSheets(stages)
  const checks = sheet?.blocks[0]?.checks ?? []
  expect(checks.length).toBeGreaterThan(1)
  const words = wordsOf(pagesOf()).join(' ')
  for (const { id } of checks) {
    expect(ids.has(id)).toBe(true)
    expect(words.replace(/ /g, '')).toContain(id)
  }
  for (const due of [...BOLTING_CAUTIONS, sheet?.deferral as string]) expect(words).toContain(due)
})

test('a step that closes no joint with bolts has no sheet', () => {
  expect(boltUpPages(lid(), 'S2')).toBeUndefined()
})

test.each([
  ['twelve on a circle', {}],
  ['ninety-six on a circle', { count: 96 }],
  ['three hundred, four tools at once', { count: 300, tools: 4 }],
  ['an arc', { count: 20, arc: '80 deg' }],
  ['two rows', { count: 34, circle: undefined, rows: { number: 2, pitch: '150 mm', gauge: '200 mm' } }],
  ['places not known', { count: 34, circle: undefined }],
] as const)(
  '%s: on A4 and on Letter no words meet other words or leave the frame, in both systems of units',
  (_, bolts) => {
    const stages = lid(bolts)
    for (const paper of HAND_PAPERS) {
      for (const units of ['SI', 'US'] as const) {
        for (const page of boltUpPages(stages, undefined, { paper, units }) ?? []) {
          const boxes = textsOf(page.marks).map((t) => ({ words: t.text, box: textBox(t) }))
          const outside = boxes.filter(
            ({ box: b }) => b.left < 10 || b.top < 10 || b.right > page.width - 10 || b.bottom > page.height - 10,
          )
          expect(outside).toEqual([])
          const meeting = boxes.flatMap((a, i) =>
            boxes.slice(i + 1).flatMap((b) => (boxesMeet(a.box, b.box) ? [`${a.words} | ${b.words}`] : [])),
          )
          expect(meeting).toEqual([])
          expect(page.missing).toEqual([])
        }
      }
    }
  },
)
