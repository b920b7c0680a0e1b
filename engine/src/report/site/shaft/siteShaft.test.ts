import { readFileSync } from 'node:fs'
import { beforeAll, expect, test } from 'vitest'
import { parse } from 'yaml'
import { type Drawing, dimensionsOf, primitivesOf, textsOf } from '../../drawing.ts'
import { blockOnTwoLegs, stagesOf } from '../../sheet/sheet.fixture.ts'
import type { SheetStages } from '../../sheet/subject.ts'
import { wordsAstray } from '../../words.fixture.ts'
import { besidePicture, sitePicture } from '../picture.ts'
import { siteSubject } from '../subject.ts'
import { SHAFT_PICTURES, siteShaft } from './siteShaft.ts'
import { wayIn } from './slide.ts'

/** Piles as set out, plumb but for one that leans in and one that leans along the ring. */
function surveyed(project: { shaft: { wall: Record<string, unknown> } }): unknown {
  const asBuilt = Object.fromEntries(
    Array.from({ length: 64 }, (_, i) => {
      const bearing = (2 * Math.PI * i) / 64
      const [c, s] = [Math.cos(bearing), Math.sin(bearing)]
      const [r, t] = [10.8 - (i === 20 ? 0.14 : 0), i === 7 ? 0.1 : 0]
      const [head, low] = [
        [10.8 * c, 10.8 * s],
        [r * c - t * s, r * s + t * c],
      ].map((at) => at.map((v) => `${v} m`))
      return [`P${i + 1}`, { head, low, lowAt: '-45 m' }]
    }),
  )
  return { ...project, shaft: { ...project.shaft, wall: { ...project.shaft.wall, asBuilt } } }
}

/** The same shaft of panels: one leans in, one along the wall. */
function ofPanels(project: { shaft: { wall: Record<string, unknown> } }): unknown {
  const asBuilt = Object.fromEntries(
    Array.from({ length: 24 }, (_, i) => {
      const bearing = (2 * Math.PI * (i + 0.5)) / 24
      const [c, s] = [Math.cos(bearing), Math.sin(bearing)]
      const [r, t] = [10.8 - (i === 10 ? 0.14 : 0), i === 4 ? 0.1 : 0]
      const [head, low] = [
        [10.8 * c, 10.8 * s],
        [r * c - t * s, r * s + t * c],
      ].map((at) => at.map((v) => `${v} m`))
      return [`E${i + 1}`, { head, low, lowAt: '-45 m' }]
    }),
  )
  const wall = { ...project.shaft.wall, kind: 'slurry panels', thickness: '1.5 m', piles: 24, ringDiameter: '21.6 m' }
  return { ...project, shaft: { ...project.shaft, wall: { ...wall, asBuilt } } }
}

let recovery: SheetStages
let asSurveyed: SheetStages
let asPanels: SheetStages
beforeAll(() => {
  const project = parse(readFileSync(new URL('../../../../../examples/recovery/project.yaml', import.meta.url), 'utf8'))
  recovery = stagesOf(project)
  asSurveyed = stagesOf(surveyed(project))
  asPanels = stagesOf(ofPanels(project))
})

/** Words astray, lines outside the border, letters that the font lacks. */
function faultsOf(pages: readonly Drawing[], border = 10): string[] {
  return pages.flatMap((page) => {
    const isOut = ([x, y]: readonly [number, number]): boolean =>
      x < border - 0.01 || y < border - 0.01 || x > page.width - border + 0.01 || y > page.height - border + 0.01
    const points = primitivesOf(page.marks).flatMap((p) =>
      p.kind === 'line' ? p.points : p.kind === 'shape' ? p.loops.flat() : [],
    )
    return [
      ...wordsAstray(page, border),
      ...points.filter(isOut).map(([x, y]) => `line at ${x}, ${y}`),
      ...page.missing.map((m) => `no glyph ${m.glyph}`),
    ]
  })
}

test('no words meet and nothing leaves the border on the sheets of the shaft', () => {
  expect(faultsOf(siteShaft(recovery))).toEqual([])
  expect(faultsOf(siteShaft(asSurveyed, { units: 'US' }))).toEqual([])
  expect(faultsOf(siteShaft(asSurveyed, { paper: 'A1' }))).toEqual([])
  expect(faultsOf(siteShaft(asPanels))).toEqual([])
})

test('neither on a page, wide or narrow', () => {
  for (const width of [265, 135, 110])
    for (const of of SHAFT_PICTURES)
      expect([of, width, ...faultsOf([sitePicture(asSurveyed, of, { width })], 0)]).toEqual([of, width])
  for (const width of [265, 135, 110])
    expect([width, ...faultsOf([sitePicture(asPanels, 'as-built', { width })], 0)]).toEqual([width])
})

test('each dimension is as long on paper as its value at the scale of its view', () => {
  const dimensions = siteShaft(asSurveyed).flatMap((page) => dimensionsOf(page.marks))
  expect(dimensions.length).toBeGreaterThan(12)
  for (const { from, to, value, scale } of dimensions)
    expect((Math.hypot(to[0] - from[0], to[1] - from[1]) * scale) / 1000).toBeCloseTo(value, 9)
})

const rowsOf = (stages: SheetStages, of: (typeof SHAFT_PICTURES)[number]) =>
  besidePicture(stages, of, { units: 'SI' })?.table?.rows ?? []

test('the survey names the pile farthest in and the joint that shares least, by hand from its lean', () => {
  const rows = rowsOf(asSurveyed, 'as-built')
  const inward = rows.find(({ cells }) => cells[0] === 'P21')
  // 0.14 m at -45 m, so 0.14 · 36.28/45 at the slab
  expect(inward?.cells[1]).toBe(`\u2212${Math.round((140 * 36.28) / 45)}`)
  expect(inward?.cells[2]).toBe(`${Math.round(45 / 0.14)}`)
  // the pile that leans along the ring leaves the one behind it: the lens of 1.5 m at 1.0597 m and the lean at the base
  const opened = rows.find(({ cells }) => cells[0] === 'P7')
  const apart = 21.6 * Math.sin(Math.PI / 64) + ((0.1 * 38.58) / 45) * Math.cos(Math.PI / 64)
  expect(Number(opened?.cells[5])).toBeCloseTo(1000 * Math.sqrt(1.5 ** 2 - apart ** 2), -1)
  expect(rows.slice(0, 2).map(({ strong }) => strong)).toEqual([true, true])
})

test('of panels the sheet draws straight ones, names the one farthest in and the joint that has parted most, by hand from their lean', () => {
  const [sheet] = siteShaft(asPanels)
  const panels = primitivesOf(sheet?.marks ?? []).filter(
    (p) => p.kind === 'shape' && p.fill === 'concrete' && p.loops[0]?.length === 4,
  )
  expect(panels.length).toBe(24)
  const rows = rowsOf(asPanels, 'as-built')
  expect(rows.find(({ cells }) => cells[0] === 'E11')?.cells[1]).toBe(`\u2212${Math.round((140 * 36.28) / 45)}`)
  const parted = rows.find(({ cells }) => cells[0] === 'E4')
  expect(parted?.cells.at(-1)).toBe(`+${Math.round(((100 * 38.58) / 45) * Math.cos(Math.PI / 24))}`)
  expect(parted?.strong).toBe(true)
  const words = textsOf(sheet?.marks ?? []).map((t) => t.text)
  expect(words.join(' ')).toContain('all 24 panels as surveyed')
  expect(words).toContain('E4–E5 parted')
})

test('until the wall is surveyed the sheet says that the tolerances stand, and draws the bore that they leave', () => {
  const [sheet] = siteShaft(recovery)
  const words = textsOf(sheet?.marks ?? []).map((t) => t.text)
  expect(words.join(' ')).toContain('not surveyed: the tolerances of setting out and verticality stand')
  const left = dimensionsOf(sheet?.marks ?? []).find(({ name }) => name.startsWith('clear bore left'))
  expect(left?.value).toBe(recovery.ground.checks.find((c) => c.kind === 'ground.bore.clear')?.capacity.value)
})

test('the water under each stage is that of its check: by hand, two of four wells take half of the drawdown', () => {
  const rows = rowsOf(recovery, 'stages')
  expect(rows.map(({ cells }) => cells[1])).toEqual(['0', '2', '4', '2', '0'])
  // from -7.10 m at rest to -31.50 m with all four
  expect(rows.map(({ cells }) => cells[2])).toEqual(['−7.10', '−19.30', '−31.50', '−19.30', '−7.10'])
})

test('the place of the way in that presses most is that of its check, and home all of the weight is on the cradle', () => {
  const way = wayIn(siteSubject(recovery, {}))
  const slide = recovery.ground.checks.find((c) => c.kind === 'ground.cradle.slide')
  expect(way?.worst?.pressure).toBeCloseTo(slide?.demand.value as number, 6)
  expect((way?.places.at(-1)?.carried ?? 0) / (way?.numbers.W as number)).toBeCloseTo(1, 6)
  expect(way?.worst?.what).toBe('first touch')
  // never more than the check's bound, which takes all at its worst at once
  for (const { thrust } of way?.places ?? []) expect(thrust).toBeLessThanOrEqual(way?.thrust.bound as number)
})

test('the jacks carry the weight between them, and the heaviest is that of its check', () => {
  const heaviest = recovery.ground.checks.find((c) => c.kind === 'ground.jack.load')
  const strong = rowsOf(recovery, 'jacks').filter((r) => r.strong)
  expect(strong.map(({ cells }) => cells.at(-1))).toEqual([heaviest?.utilisation?.toFixed(3)])
})

test('what a project lacks is said: no shaft, no sheet but one that says why', () => {
  const bare = stagesOf(Object.fromEntries(Object.entries(blockOnTwoLegs()).filter(([key]) => key !== 'shaft')))
  const words = siteShaft(bare).flatMap((p) => textsOf(p.marks).map((t) => t.text))
  expect(words.join(' ')).toContain('No shaft in the project (/shaft)')
  expect(besidePicture(bare, 'jacks', {})?.missing).toContain('/cradle/jacking')
})
