import { describe, expect, test } from 'vitest'
import { LIFT_CAUTIONS, READING_CAUTIONS, SHAFT_CAUTIONS, WIND_CAUTIONS } from '../../lift/caution.ts'
import { type Drawing, dimensionsOf, primitivesOf, textBox, textsOf } from '../drawing.ts'
import { textWidth } from '../fontWidth.ts'
import { LIFT_PAPERS } from '../paper/size.ts'
import { wordsAstray } from '../words.fixture.ts'
import { DEFERRAL } from './cautions.ts'
import { type LiftSheet, liftSheet } from './liftSheet.ts'
import { type LiftSheetOptions, liftSheetPages } from './pages.ts'
import { type Block, blockOnCrane, blockOnTwoLegs, stagesOf } from './sheet.fixture.ts'

const sheetOf = (block: Block = {}): LiftSheet => liftSheet(stagesOf(blockOnTwoLegs(block)), 'block-out') as LiftSheet
const pagesOf = (block: Block = {}, options: LiftSheetOptions = {}): Drawing[] =>
  liftSheetPages(stagesOf(blockOnTwoLegs(block)), 'block-out', {
    revision: '3',
    contentHash: 'abcdef0123456789',
    date: '2032-12-09',
    ...options,
  }) as Drawing[]

const printed = (text: string): number => Number(text.replace(/[\u202f\u00a0 ]/g, '').replace('\u2212', '-'))

test('the printed lines of the hook load add up to the printed sum', () => {
  const { chain, demand } = sheetOf()
  const sum = chain.lines.reduce((total, line) => total + printed(line.figure.text), 0)
  expect(chain.lines.length).toBeGreaterThan(4)
  expect(sum).toBeCloseTo(printed(chain.total.text), 2)
  // 100 t + 5 % of it, 0.5 t retained, two grommets of 300 kg, two shackles of 100 kg, spreader of 2 t: by hand
  expect(printed(demand.text)).toBeCloseTo(100 + 5 + 0.5 + 0.6 + 0.2 + 2, 3)
})

test('a tension is the other arm over both arms of the load on the legs, as printed', () => {
  const sheet = sheetOf({ left: 1.6, right: 1.4 })
  const load = (printed(sheet.demand.text) - 2) * 9.80665
  const arm = (leg: number): number =>
    Math.abs(printed((sheet.legPlaces[2 * leg] as LiftSheet['legPlaces'][number]).at[1]))
  const [left, right] = sheet.legs.map((leg) => printed(leg.tension.text)) as [number, number]
  // statics of two plumb legs: moments about the other leg; printed to a millimetre and a tenth of a kilonewton
  expect(left).toBeCloseTo((load * arm(1)) / (arm(0) + arm(1)), -0.3)
  expect(right).toBeCloseTo((load * arm(0)) / (arm(0) + arm(1)), -0.3)
  expect(left).toBeLessThan(right)
})

test('every caution that must be seen stands on the sheet, with the deferral and the notice of invented data', () => {
  const sheet = sheetOf()
  expect(sheet.cautions).toEqual(expect.arrayContaining([...LIFT_CAUTIONS, ...READING_CAUTIONS, ...WIND_CAUTIONS]))
  const words = pagesOf()
    .flatMap((page) => textsOf(page.marks))
    .map((t) => t.text)
    .join(' ')
  for (const caution of sheet.cautions) expect(words).toContain(caution)
  expect(words).toContain(DEFERRAL)
  expect(words).toContain('Invented data')
  expect(words).toContain('lift director: not signed')
})

test('a missing drag coefficient leaves the wind open, named by its address, and never a number', () => {
  const sheet = sheetOf({ dragDecided: false })
  expect(sheet.wind.limit.text).toBe('open')
  expect(sheet.open).toContain('/lifts/block-out/drag')
  expect(sheet.titleBlock.wind).toBe('wind limit open')
})

test('the same content gives the same sheet, and units change nothing but what is printed', () => {
  const stages = stagesOf(blockOnTwoLegs())
  expect(liftSheet(stages, 'block-out')).toEqual(sheetOf())
  const customary = liftSheet(stages, 'block-out', { units: 'US' }) as LiftSheet
  expect(customary.demand.si).toBe(sheetOf().demand.si)
  // 108.3 t in thousands of pounds of 0.45359237 kg
  expect(printed(customary.demand.text)).toBeCloseTo(108300 / 453.59237, 3)
})

test.each(LIFT_PAPERS.flatMap((paper) => (['SI', 'US'] as const).map((units) => [paper, units] as const)))(
  'on %s in %s no words on any page meet other words or leave the frame',
  (paper, units) => {
    for (const block of [
      {},
      { name: 'A block whose name is so long that it fills the whole of its line and more than that' },
      { left: 1.9, right: 1.2 },
    ]) {
      for (const page of pagesOf(block, { paper, units })) {
        expect(wordsAstray(page)).toEqual([])
      }
    }
  },
)

/** The block on so many legs from two rows of points along it, each leg with its words: more than find room beside the piece. */
function blockOnLegs(count: number): Record<string, unknown> {
  // biome-ignore lint/suspicious/noExplicitAny: a document before it is read
  const document = blockOnTwoLegs() as any
  const at = (i: number): string[] => [
    `${-1.8 + (3.6 * Math.floor(i / 2)) / (count / 2 - 1)} m`,
    `${i % 2 === 0 ? 1.5 : -1.5} m`,
    '1.5 m',
  ]
  const ids = Array.from({ length: count }, (_, i) => `p${i}`)
  document.pieces.block.points = Object.fromEntries(ids.map((id, i) => [id, { at: at(i), rated: '80 t' }]))
  Object.assign(document.stock.S, { quantity: count, length: '6 m' })
  const { rigging } = document.lifts['block-out']
  Object.assign(rigging, { nodes: {}, legs: ids.map((to) => ({ item: 'S', to })) })
  return document
}

test.each([12, 16])(
  'the words of %i legs, most of them listed under the view, meet neither the day beside it nor other words',
  (count) => {
    const stages = stagesOf(blockOnLegs(count))
    for (const paper of LIFT_PAPERS)
      for (const units of ['SI', 'US'] as const) {
        const pages = liftSheetPages(stages, 'block-out', { paper, units }) as Drawing[]
        const words = pages.flatMap((page) => textsOf(page.marks)).map((t) => t.text)
        expect(words.some((w) => w.startsWith('No room for: leg'))).toBe(true)
        expect(pages.flatMap((page) => wordsAstray(page))).toEqual([])
      }
  },
)

test('the shipped font has every letter of a sheet; one that it lacks is reported and printed as its code point', () => {
  expect(pagesOf().flatMap((page) => page.missing)).toEqual([])
  const [page] = pagesOf({ name: 'Block 甲' }) as [Drawing]
  expect(page.missing).toContainEqual({ glyph: '甲', text: 'Block 甲, out of the shaft' })
  const words = textsOf(page.marks).map((t) => t.text)
  expect(words).toContain('Block [U+7532], out of the shaft')
  expect(words.join()).toContain('any other is printed by its code point in Unicode')
  expect(
    pagesOf()
      .flatMap((sheet) => textsOf(sheet.marks).map((t) => t.text))
      .join(),
  ).not.toContain('code point')
})

test('a name of 120 letters, in any script, stays on the sheet and meets no other words', () => {
  for (const name of [
    'Weatherproof undercarriage counterbalance assembly of the northernmost intermediate platform with its bearers and rails.',
    'לוח כבד של המדף העליון ליד הקיר הצפוני עם הברגים הארוכים והטבעת הרחבה שנמצאת מתחת לשולחן הגדול בחדר השני מימין למדרגות',
    'اللوح الثقيل للرف العلوي بجانب الجدار الشمالي مع البراغي الطويلة والحلقة العريضة الموجودة تحت الطاولة الكبيرة قرب السلم',
  ])
    for (const page of pagesOf({ name })) {
      expect(wordsAstray(page)).toEqual([])
      expect(page.missing).toEqual([])
    }
})

test('each dimension is as long on paper as its value at the scale of its view', () => {
  const dimensions = pagesOf().flatMap((page) => dimensionsOf(page.marks))
  expect(dimensions.length).toBeGreaterThan(6)
  for (const { from, to, value, scale } of dimensions) {
    expect((Math.hypot(to[0] - from[0], to[1] - from[1]) * scale) / 1000).toBeCloseTo(value, 9)
  }
})

test('the shaft is drawn as wide as its dimension says, and the ratios of scales are whole', () => {
  const [page] = pagesOf() as [Drawing]
  const views = page.marks.filter((m) => m.kind === 'view')
  for (const { scale } of views) expect(Number.isInteger(scale)).toBe(true)
  const section = views.find((v) => v.id === 'section')
  const clear = dimensionsOf(page.marks).find((d) => d.name.startsWith('clear diameter'))
  const edges = (section?.marks ?? []).flatMap((m) =>
    m.kind === 'shape' && m.fill === 'concrete' ? m.loops.flat().map(([x]) => x) : [],
  )
  // the inner faces of the wall are where the dimension ends
  for (const end of [clear?.from[0], clear?.to[0]])
    expect(edges.some((x) => Math.abs(x - (end as number)) < 1e-9)).toBe(true)
})

test('text is measured by the advances of the font: tabular figures are all one width, others are not', () => {
  const face = { size: 10, weight: 400, tabular: true } as const
  expect(textWidth('1111', face)).toBe(textWidth('8888', face))
  expect(textWidth('1111', { ...face, tabular: false })).toBeLessThan(textWidth('8888', { ...face, tabular: false }))
})

test.each(LIFT_PAPERS)(
  'on %s every figure that names a check names one of the derivation, and the list says which',
  (paper) => {
    const stages = stagesOf(blockOnTwoLegs())
    const ids = new Set([...stages.lift.checks, ...stages.ground.checks].map((c) => c.id))
    const words = (liftSheetPages(stages, 'block-out', { paper }) ?? [])
      .flatMap((p) => textsOf(p.marks))
      .map((t) => t.text)
    const sheet = liftSheet(stages, 'block-out') as LiftSheet
    const listed = sheet.checks.map((c) => `[${c.number}]`)
    const named = words.flatMap((w) => w.match(/\[\d+\]/g) ?? [])
    // hook, both legs, tilt, height, wind and the day at least, beside the list itself
    expect(named.length).toBeGreaterThan(listed.length + 6)
    for (const ref of named) expect(listed).toContain(ref)
    const printed = words.join('').replace(/\s/g, '')
    for (const { id } of sheet.checks) {
      expect(ids.has(id)).toBe(true)
      expect(printed).toContain(id.replace(/\s/g, ''))
    }
  },
)

test('on a small paper the same figures stand as on the large one', () => {
  const numbers = (paper: 'A3' | 'A4'): string[] =>
    [
      ...new Set(
        pagesOf({}, { paper })
          .flatMap((p) => textsOf(p.marks))
          .flatMap((t) => t.text.match(/\d[\d.]+\s(t|kN|MPa|m)\b/g) ?? []),
      ),
    ].sort()
  expect(numbers('A3').length).toBeGreaterThan(8)
  expect(numbers('A4')).toEqual(numbers('A3'))
})

test('the way in time adds up: each stage ends after it began by what it takes, and the last when the lift ends', () => {
  const { day } = sheetOf()
  const minutes = (text: string): number => Number(text.split(':')[0]) * 60 + Number(text.split(':')[1])
  expect(day.stages.length).toBeGreaterThan(2)
  for (const [i, { from, takes, until }] of day.stages.entries()) {
    expect(Math.abs(minutes(from) + minutes(takes) - minutes(until))).toBeLessThanOrEqual(1)
    expect(from).toBe(day.stages[i - 1]?.until ?? '0:00')
  }
  // up 22 m at 12 m/h, by hand: 1 h 50 min of hoisting at the least
  expect(minutes(day.stages.at(-1)?.until as string)).toBeGreaterThan(110)
  expect(day.pointOfNoReturn).toContain('the wind has to hold')
})

test('each allowance stands once, with its clause', () => {
  const { allowances } = sheetOf()
  expect(new Set(allowances.map((a) => a.title)).size).toBe(allowances.length)
  expect(allowances.length).toBeGreaterThan(4)
  for (const { clause } of allowances) expect(clause).toMatch(/^(read|memory|derived|common practice): ./)
  const words = pagesOf()
    .flatMap((p) => textsOf(p.marks))
    .map((t) => t.text)
    .join(' ')
  for (const { title } of allowances) expect(words).toContain(title)
})

test('words on a leg keep off the outline of the piece', () => {
  for (const paper of LIFT_PAPERS) {
    const views = pagesOf({}, { paper })
      .flatMap((p) => p.marks)
      .flatMap((m) => (m.kind === 'view' && m.id === 'rigging' ? [m] : []))
    const outline = views
      .flatMap((v) => v.marks)
      .flatMap((m) => (m.kind === 'shape' && m.fill === 'pale' ? m.loops : []))
    const legs = views.flatMap((v) => textsOf(v.marks)).filter((t) => /^(leg|worst|use|wire rope grommet)/.test(t.text))
    expect(legs.length).toBeGreaterThan(4)
    for (const t of legs) {
      const { left, right, top, bottom } = textBox(t)
      const near = outline
        .flat()
        .filter(([x, y]) => x > left - 0.5 && x < right + 0.5 && y > top - 0.5 && y < bottom + 0.5)
      expect(near, t.text).toEqual([])
    }
  }
})

test('what a plan is to hold is listed; what is not stated, or not for a model to say, is named as missing', () => {
  const { contents, arranged } = sheetOf()
  const stateOf = (what: string): string | undefined => contents.find((item) => item.what.startsWith(what))?.state
  // nothing is arranged for the block: whatever its class demands is missing
  expect(arranged.length).toBeGreaterThan(1)
  for (const { text } of arranged) expect(stateOf(text)).toBe('open')
  expect(stateOf('mass')).toBe('here')
  expect(stateOf('emergency')).toBe('by hand')
  expect(stateOf('weather: gust')).toBe('here')
  const undecided = sheetOf({ dragDecided: false }).contents.find((item) => item.what.startsWith('weather: gust'))
  expect(undecided).toMatchObject({ state: 'open', where: 'wind: open' })
})

test('a lift out of the shaft carries the cautions of the shaft', () => {
  expect(sheetOf().cautions).toEqual(expect.arrayContaining([...SHAFT_CAUTIONS]))
})

test('plan and both elevations show the least gaps of the way at their length, or mark where they are', () => {
  const sheet = sheetOf()
  const { number } = sheet.checks.find((c) => c.id === 'lift.path.clearance/block-out/LAD') as { number: number }
  const inPlan = stagesOf(blockOnTwoLegs()).lift.lifts['block-out']?.clearance?.gap.value as number
  const views = pagesOf()
    .flatMap((p) => p.marks)
    .flatMap((m) => (m.kind === 'view' ? [m] : []))
  const of = (id: string) => views.find((v) => v.id === id)?.marks ?? []
  const drawn = (id: string): number[] =>
    dimensionsOf(of(id))
      .filter((d) => d.name.startsWith('least gap'))
      .map((d) => d.value)
  const words = (id: string): string[] => textsOf(of(id)).flatMap((t) => (t.text.startsWith('least') ? [t.text] : []))
  // by hand: 2.5 m of block beside a ladder at 5 m, less a tilt; its bottom at 2.5 m passes over the ladder's top at 1 m
  expect(inPlan).toBeCloseTo(2.5, 1)
  expect(drawn('elevation')).toEqual([expect.closeTo(1.5, 6), inPlan])
  expect(words('elevation')).toEqual(['least 1.50', `least 2.48 [${number}]`])
  // from the side the ladder lies behind the block, from above it lies under it
  expect(drawn('section')).toEqual([expect.closeTo(1.5, 6)])
  expect(words('section')).toEqual(['least 1.50', `least 2.48, aslant here [${number}]`])
  expect(drawn('plan')).toEqual([])
  expect(words('plan')).toEqual(['least 1.50, upright'])
  expect(dimensionsOf(of('plan')).map((d) => d.value)).toContain(inPlan)
})

describe('a lift by a crane', () => {
  const stages = stagesOf(blockOnCrane())
  const outcome = stages.lift.lifts['block-out'] as (typeof stages.lift.lifts)[string]
  const given = { contentHash: 'abcdef0123456789', date: '2032-12-09' }
  const pages = (options: LiftSheetOptions = {}): Drawing[] =>
    liftSheetPages(stages, 'block-out', { ...given, ...options }) as Drawing[]
  const views = pages()
    .flatMap((p) => p.marks)
    .flatMap((m) => (m.kind === 'view' ? [m] : []))
  const wordsIn = (id: string): string[] => textsOf(views.find((v) => v.id === id)?.marks ?? []).map((t) => t.text)
  const refTo = (kind: string): string => {
    const { checks } = liftSheet(stages, 'block-out') as LiftSheet
    return `[${checks.find((c) => c.id === `${kind}/block-out`)?.number}]`
  }
  const gapOf = (kind: string): number => outcome.checks.find((c) => c.kind === kind)?.capacity.value as number

  test.each(['section', 'plan', 'elevation'])(
    'has on its %s the gaps of its rigging and to its boom, by their checks',
    (id) => {
      const words = wordsIn(id).join('\n')
      for (const [kind, what] of [
        ['lift.path.rigging', 'the spreader to ladder'],
        ['lift.path.boom', 'to the boom'],
      ] as const) {
        expect(words).toContain(what)
        expect(words).toMatch(new RegExp(`least ${gapOf(kind).toFixed(2)}.*\\${refTo(kind).replace(']', '\\]')}`))
      }
    },
  )

  test('its rigging is nearest where the way leads past what is fixed, as far from it as its check says', () => {
    const { from, along, gap, what } = outcome.overhead.nearest[0] as (typeof outcome.overhead.nearest)[number]
    // the spreader ends at y = 1.5 m, 0.25 m thick about its axis; the ladder begins at y = 5 m and goes up to z = 1 m
    expect(what).toBe('the spreader')
    expect(gap).toBe(gapOf('lift.path.rigging'))
    expect(from[1] + gap * along[1]).toBeCloseTo(5, 6)
    expect(from[1]).toBeCloseTo(1.75, 0)
    expect(from[2]).toBeLessThan(1)
    const measured = views.find((v) => v.id === 'elevation')?.marks ?? []
    const drawn = dimensionsOf(measured).find((d) => d.name.startsWith('least gap of the spreader to ladder'))
    expect(drawn?.value).toBe(gap)
  })

  test.each(LIFT_PAPERS)('on %s no words meet other words or leave the frame', (paper) => {
    for (const units of ['SI', 'US'] as const)
      expect(pages({ paper, units }).flatMap((page) => wordsAstray(page))).toEqual([])
  })
})

test('what stands beside the way is drawn where the gap to it ends, to scale and on its bay', () => {
  // biome-ignore lint/suspicious/noExplicitAny: a document before it is read
  const document = blockOnTwoLegs() as any
  const pile = { what: 'plates', centre: ['6.4 m', '15 m'], size: ['1.6 m', '3 m'], height: '4 m' }
  document.bays.N2 = { ...document.bays.N1, centre: ['7 m', '15 m'], size: ['4 m', '4 m'], stored: { pile } }
  document.settings.clearanceToStanding = '1 m'
  const pages = liftSheetPages(stagesOf(document), 'block-out', { revision: '1', contentHash: 'a', date: '2032-12-09' })
  const views = (pages ?? []).flatMap((p) => p.marks).flatMap((m) => (m.kind === 'view' ? [m] : []))
  const plan = views.find((v) => v.id === 'plan')
  if (plan?.scale === undefined) throw new Error('no plan')
  // by hand: the rod ends at x = 2.8 m, the pile begins at 6.4 − 0.8 m
  expect(textsOf(plan.marks).map((t) => t.text)).toContain('to plates, bay N2')
  const gap = dimensionsOf(plan.marks).find((d) => d.name.startsWith('least gap to plates'))
  expect(gap?.value).toBeCloseTo(5.6 - 2.8, 6)
  const millimetres = (metres: number): number => (metres * 1000) / (plan.scale as number)
  const sizes = primitivesOf(plan.marks).flatMap((m) => {
    if (m.kind !== 'shape' || m.fill !== 'steel') return []
    const [xs, ys] = [0, 1].map((axis) => m.loops.flat().map((p) => p[axis] as number)) as [number[], number[]]
    return [[Math.max(...xs) - Math.min(...xs), Math.max(...ys) - Math.min(...ys)]]
  })
  expect(sizes).toContainEqual([expect.closeTo(millimetres(1.6), 6), expect.closeTo(millimetres(3), 6)])
  expect((pages ?? []).flatMap((page) => wordsAstray(page))).toEqual([])
})
