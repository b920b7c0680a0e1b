import { readFileSync } from 'node:fs'
import { beforeAll, expect, test } from 'vitest'
import { parse } from 'yaml'
import {
  boxesMeet,
  type Drawing,
  dimensionsOf,
  type Mark,
  primitivesOf,
  textBox,
  textsOf,
  type View,
} from '../drawing.ts'
import { blockOnTwoLegs, stagesOf } from '../sheet/sheet.fixture.ts'
import type { SheetStages } from '../sheet/subject.ts'
import { svgOf } from '../svg.ts'
import { wordsAstray } from '../words.fixture.ts'
import { sitePicture } from './picture.ts'
import { sitePlan } from './sitePlan.ts'
import { siteSections } from './siteSections.ts'
import type { SiteOptions } from './subject.ts'

const wordsOf = (pages: readonly Drawing[]): string[] => pages.flatMap((p) => textsOf(p.marks)).map((t) => t.text)
const both = (stages: SheetStages, options: SiteOptions = {}): Drawing[] => [
  ...sitePlan(stages, options),
  ...siteSections(stages, options),
]
const without = (...sections: string[]): SheetStages => {
  const all = Object.entries(blockOnTwoLegs()).filter(([key]) => !sections.includes(key))
  return stagesOf(Object.fromEntries(all))
}

/** Marks that stand for a thing, wherever they are. */
const aboutOf = (marks: readonly Mark[], pointer: string): View[] =>
  marks.flatMap((m) =>
    m.kind === 'view' ? [...(m.about?.pointer === pointer ? [m] : []), ...aboutOf(m.marks, pointer)] : [],
  )

let recovery: SheetStages
beforeAll(() => {
  recovery = stagesOf(
    parse(readFileSync(new URL('../../../../examples/recovery/project.yaml', import.meta.url), 'utf8')),
  )
})

/** Words that meet other words, words outside the border, and letters that are not there, on any page. */
const faultsOf = (pages: readonly Drawing[]): string[] =>
  pages.flatMap((page) => [...wordsAstray(page), ...page.missing.map((m) => `no glyph ${m.glyph}`)])

test.each(['A3', 'A2', 'A1'] as const)(
  'on the site sheets of the recovery no words meet, nothing leaves the border, every letter is there: %s',
  (paper) => {
    for (const step of paper === 'A3'
      ? ['S01-deck', 'S05-upper-left', 'S19-head-drive', 'S30-old-bearing']
      : ['S22-material-lock'])
      expect([step, ...faultsOf(both(recovery, { paper, step }))]).toEqual([step])
    expect(faultsOf(both(recovery, { paper, units: 'US' }))).toEqual([])
  },
  60_000,
)

test('no line leaves the border either', () => {
  for (const page of both(recovery)) {
    const points = primitivesOf(page.marks).flatMap((p) =>
      p.kind === 'line' ? p.points : p.kind === 'shape' ? p.loops.flat() : [],
    )
    const out = points.filter(([x, y]) => x < 9.99 || y < 9.99 || x > page.width - 9.99 || y > page.height - 9.99)
    expect(out).toEqual([])
  }
})

test('each dimension is as long on paper as its value at the scale of its view', () => {
  const dimensions = both(recovery).flatMap((page) => dimensionsOf(page.marks))
  expect(dimensions.length).toBeGreaterThan(25)
  for (const { from, to, value, scale } of dimensions)
    expect((Math.hypot(to[0] - from[0], to[1] - from[1]) * scale) / 1000).toBeCloseTo(value, 9)
})

test('scales are those of ISO 5455 or 1 : 250 and its tenfolds', () => {
  const scales = (['A3', 'A2', 'A1'] as const).flatMap((paper) =>
    both(recovery, { paper }).flatMap((p) => p.marks.flatMap((m) => (m.kind === 'view' ? (m.scale ?? []) : []))),
  )
  expect(scales.length).toBeGreaterThan(8)
  for (const scale of scales) expect([1, 2, 2.5, 5]).toContain(scale / 10 ** Math.floor(Math.log10(scale)))
})

test('a larger paper never makes the plan smaller', () => {
  const scaleOn = (paper: SiteOptions['paper']): number =>
    Math.max(
      ...(sitePlan(recovery, { paper })[0]?.marks ?? []).flatMap((m) => (m.kind === 'view' ? (m.scale ?? []) : [])),
    )
  expect(scaleOn('A2')).toBeLessThanOrEqual(scaleOn('A3'))
  expect(scaleOn('A1')).toBeLessThanOrEqual(scaleOn('A2'))
})

test('a bay stands as far from the shaft as its printed distance, and the ruler says the same', () => {
  // bay N1: middle at x 0, y 15 m; by Pythagoras 15 m from the shaft's centre
  const pages = sitePlan(stagesOf(blockOnTwoLegs()))
  expect(wordsOf(pages)).toContain('15.00 away')
  const stop = dimensionsOf(pages[0]?.marks ?? []).find((d) => d.name.startsWith('y of N1'))
  expect(stop?.value).toBe(15)
  expect(stop?.name).toContain('15.00')
})

test('a bay aside is as far as the hypotenuse of its coordinates', () => {
  const document = blockOnTwoLegs() as { bays: Record<string, { centre: string[] }> }
  ;(document.bays.N1 as { centre: string[] }).centre = ['9 m', '12 m']
  expect(wordsOf(sitePlan(stagesOf(document)))).toContain('15.00 away')
})

test('the section shows each layer at its level, on paper and in words', () => {
  const [page] = siteSections(stagesOf(blockOnTwoLegs()))
  const along = (page?.marks ?? []).find((m) => m.kind === 'view' && m.id === 'site-along') as View
  const log = aboutOf([along], '/ground/layers/B').at(-1) as View
  expect(textsOf(log.marks).map((t) => t.text)).toEqual(expect.arrayContaining(['\u22129.00', 'B stiff clay']))
  const top = (pointer: string): number => {
    const line = aboutOf([along], pointer)
      .at(-1)
      ?.marks.find((m) => m.kind === 'line')
    return line?.kind === 'line' ? (line.points[0]?.[1] ?? Number.NaN) : Number.NaN
  }
  expect(((top('/ground/layers/B') - top('/ground/layers/A')) * (along.scale ?? 0)) / 1000).toBeCloseTo(9, 9)
})

test('the scale bar is as long as it says', () => {
  for (const [units, unit] of [
    ['SI', 1],
    ['US', 0.3048],
  ] as const) {
    const bar = dimensionsOf(sitePlan(recovery, { units })[0]?.marks ?? []).find((d) => d.name.startsWith('scale bar'))
    const printed = Number(bar?.name.match(/: (\d+)/)?.[1])
    expect(((bar?.to[0] ?? 0) - (bar?.from[0] ?? 0)) * (bar?.scale ?? 0)).toBeCloseTo(printed * unit * 1000, 6)
  }
})

test('units change what is printed, never where things stand', () => {
  const stages = stagesOf(blockOnTwoLegs())
  const customary = sitePlan(stages, { units: 'US' })
  // 15 m over 0.3048 m to the foot
  expect(wordsOf(customary)).toContain('49.21 away')
  const shape = (pages: readonly Drawing[]) => aboutOf(pages[0]?.marks ?? [], '/bays/N1')[0]?.marks[0]
  expect(shape(customary)).toEqual(shape(sitePlan(stages)))
})

test('the same words are in the SVG as in the drawing', () => {
  for (const page of both(stagesOf(blockOnTwoLegs()))) {
    const written = [...svgOf(page).matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map((m) => m[1])
    expect(written).toEqual(textsOf(page.marks).map((t) => t.text.replace(/&/g, '&amp;').replace(/</g, '&lt;')))
  }
})

test('what the project does not have is said on the drawing', () => {
  const said = (pages: readonly Drawing[]): string => wordsOf(pages).join(' ')
  expect(said(sitePlan(without('bays', 'lifts', 'steps', 'order')))).toContain('No laydown bays in the project')
  expect(said(sitePlan(without('systems', 'lifts', 'steps', 'order')))).toContain('No lifting machine with rails')
  expect(said(siteSections(without('ground')))).toContain('No ground layers in the project')
  expect(said(siteSections(without('shaft')))).toContain('No shaft in the project')
  expect(said(sitePlan(stagesOf(blockOnTwoLegs())))).toContain('North is not in the model')
})

test('an empty project gives empty drawings that say so, and no fault', () => {
  const empty = stagesOf({ schemaVersion: 1, about: { title: 'Nothing yet' } })
  expect(faultsOf(both(empty))).toEqual([])
  const words = wordsOf(both(empty)).join(' ')
  expect(words).toContain('No shaft in the project')
  expect(words).toContain('No machine in the project')
})

test('names however long keep inside the border and off each other', () => {
  const long = 'a name so long that no bay, no column and no title block was ever made to hold the whole of it'
  const document = blockOnTwoLegs({ name: long }) as {
    about: { title: string }
    bays: Record<string, { name?: string }>
    ground: { layers: Record<string, { name: string }> }
    shaft: { obstructions: Record<string, { what: string }> }
  }
  document.about.title = long
  ;(document.bays.N1 as { name?: string }).name = long
  ;(document.ground.layers.A as { name: string }).name = `${long}, sand`
  ;(document.shaft.obstructions.LAD as { what: string }).what = long
  expect(faultsOf(both(stagesOf(document)))).toEqual([])
})

test('a letter that the font lacks is reported and printed as its code point', () => {
  const document = blockOnTwoLegs({ name: 'Block 甲' })
  const pages = sitePlan(stagesOf(document))
  expect(pages.flatMap((p) => p.missing).map((m) => m.glyph)).toContain('甲')
  expect(wordsOf(pages).some((w) => w.includes('[U+7532]'))).toBe(true)
})

test.each([
  ['plan', 145],
  ['sections', 284],
  ['along', 200],
  ['across', 200],
  ['plan', 110],
] as const)(
  'on a page the %s keeps to a place of %d mm: no words meet, none is cut, and no ratio is claimed',
  (of, width) => {
    const picture = sitePicture(recovery, of, { width })
    expect(picture.width).toBe(width)
    const boxes = textsOf(picture.marks).map((t) => ({ words: t.text, box: textBox(t) }))
    expect(boxes.filter(({ box }) => box.left < 0 || box.right > picture.width || box.bottom > picture.height)).toEqual(
      [],
    )
    const meeting = boxes.flatMap((a, i) =>
      boxes.slice(i + 1).flatMap((b) => (boxesMeet(a.box, b.box) ? [`${a.words} | ${b.words}`] : [])),
    )
    expect(meeting).toEqual([])
    expect(boxes.some(({ words }) => /1 : \d/.test(words))).toBe(false)
  },
)

test('a piece lies on its bay as large as it is', () => {
  // the block is 4 m by 5 m in plan with a stub of 0.8 m in front
  const [page] = sitePlan(stagesOf(blockOnTwoLegs()))
  const scale = page?.marks.flatMap((m) => (m.kind === 'view' ? (m.scale ?? []) : []))[0] as number
  const [piece] = aboutOf(page?.marks ?? [], '/pieces/block')
  const points = primitivesOf(piece?.marks ?? []).flatMap((p) => (p.kind === 'shape' ? p.loops.flat() : []))
  const span = (axis: 0 | 1): number =>
    Math.max(...points.map((p) => p[axis])) - Math.min(...points.map((p) => p[axis]))
  expect((span(0) * scale) / 1000).toBeCloseTo(4.8, 2)
  expect((span(1) * scale) / 1000).toBeCloseTo(5, 2)
})

test('the step that is asked for is the one that is drawn', () => {
  expect(wordsOf(sitePlan(recovery)).join(' ')).toContain(`after ${recovery.ground.governing}`)
  const late = sitePlan(recovery, { step: 'S30-old-bearing' })
  expect(wordsOf(late).join(' ')).toContain('after S30-old-bearing')
  expect(aboutOf(late[0]?.marks ?? [], '/pieces/head-drive')).toHaveLength(1)
  expect(aboutOf(sitePlan(recovery)[0]?.marks ?? [], '/pieces/head-drive')).toHaveLength(0)
})

test('pressures over the campaign: a bar for each step, as long as its pressure', () => {
  const page = siteSections(recovery).find(({ title }) => title.startsWith('Pressures'))
  const bars = aboutOf(page?.marks ?? [], '/steps/S05-upper-left')
  const lengthOf = (view: View | undefined): number => {
    const xs = primitivesOf(view?.marks ?? []).flatMap((p) =>
      p.kind === 'shape' ? p.loops.flat().map(([x]) => x) : [],
    )
    return Math.max(...xs) - Math.min(...xs)
  }
  const wall = (step: string) => recovery.ground.steps.find((s) => s.step === step)?.wall?.pressure.value as number
  const other = aboutOf(page?.marks ?? [], '/steps/S19-head-drive')
  expect(lengthOf(other[0]) / lengthOf(bars[0])).toBeCloseTo(wall('S19-head-drive') / wall('S05-upper-left'), 6)
  expect(textsOf(bars).map((t) => t.text)).toContain('57.1')
  expect(faultsOf(siteSections(recovery))).toEqual([])
})
