import { readFileSync } from 'node:fs'
import { beforeAll, expect, test } from 'vitest'
import { parse } from 'yaml'
import { site } from '../../ground/ground.fixture.ts'
import type { Ground } from '../../model/index.ts'
import { type Drawing, dimensionsOf, primitivesOf, textsOf } from '../drawing.ts'
import { blockOnTwoLegs, stagesOf } from '../sheet/sheet.fixture.ts'
import type { SheetStages } from '../sheet/subject.ts'
import { wordsAstray } from '../words.fixture.ts'
import { coursesOf, settledMostStep } from './bayCourses.ts'
import { sitePicture } from './picture.ts'
import { siteSettlement } from './siteSettlement.ts'
import { siteSubject } from './subject.ts'
import { troughLines } from './troughLines.ts'
import { placesSettled } from './troughTable.ts'

let recovery: SheetStages
beforeAll(() => {
  recovery = stagesOf(
    parse(readFileSync(new URL('../../../../examples/recovery/project.yaml', import.meta.url), 'utf8')),
  )
})

/** Words that meet other words, and words or lines outside the border, on any page. */
function faultsOf(pages: readonly Drawing[], border = 10): string[] {
  return pages.flatMap((page) => {
    const isOut = (x: number, y: number): boolean =>
      x < border - 0.01 || y < border - 0.01 || x > page.width - border + 0.01 || y > page.height - border + 0.01
    const points = primitivesOf(page.marks).flatMap((p) =>
      p.kind === 'line' ? p.points : p.kind === 'shape' ? p.loops.flat() : [],
    )
    return [
      ...wordsAstray(page, border),
      ...points.flatMap(([x, y]) => (isOut(x, y) ? [`line at ${x}, ${y}`] : [])),
      ...page.missing.map((m) => `no glyph ${m.glyph}`),
    ]
  })
}

test('no words meet and nothing leaves the border on the sheets of settlement', () => {
  expect(faultsOf(siteSettlement(recovery, { step: 'S05-upper-left' }))).toEqual([])
  expect(faultsOf(siteSettlement(recovery, { units: 'US' }))).toEqual([])
  expect(faultsOf(siteSettlement(recovery, { paper: 'A2' }))).toEqual([])
})

test('neither on a page, wide or narrow', () => {
  for (const width of [230, 120])
    for (const of of ['settlement', 'courses'] as const)
      expect([of, width, ...faultsOf([sitePicture(recovery, of, { width })], 0)]).toEqual([of, width])
})

test('each dimension is as long on paper as its value at the scale of its view', () => {
  const dimensions = siteSettlement(recovery).flatMap((page) => dimensionsOf(page.marks))
  expect(dimensions.length).toBeGreaterThan(10)
  for (const { from, to, value, scale } of dimensions)
    expect((Math.hypot(to[0] - from[0], to[1] - from[1]) * scale) / 1000).toBeCloseTo(value, 9)
})

test('its lines pass through every bay and both rails', () => {
  const lines = troughLines(siteSubject(recovery, {}))
  const { bays } = recovery.model.project
  expect(new Set(lines.flatMap((l) => l.bays))).toEqual(new Set(Object.keys(bays)))
  expect(lines.filter((l) => l.feet).map((l) => l.off)).toEqual([-13.6, 13.6])
})

test('at the step where a bay settles most its figure is that of its check', () => {
  const subject = siteSubject(recovery, {})
  const courses = coursesOf(subject)
  expect(courses.length).toBe(7)
  const step = settledMostStep(courses) as string
  const bay = courses.find(({ most }) => most.step === step)
  const ground = recovery.model.project.ground as NonNullable<typeof recovery.model.project.ground>
  const place = placesSettled(siteSubject(recovery, { step }), ground).find(({ name }) => name === bay?.name)
  const check = recovery.ground.checks.find((c) => c.kind === 'ground.bay.settlement' && c.subject.id === bay?.id)
  expect(place?.together).toBeCloseTo(check?.demand.value as number, 12)
  expect((place?.own as number) + (place?.beside as number)).toBeCloseTo(place?.together as number, 12)
})

test('the sheet begins with the step that uses most of what a bay may settle', () => {
  const step = settledMostStep(coursesOf(siteSubject(recovery, {})))
  expect(step).toBe('S30-old-bearing')
  const words = textsOf(siteSettlement(recovery)[0]?.marks ?? []).map((t) => t.text)
  expect(words).toContain('after S30-old-bearing, Main bearing')
})

test('a project without ground has a sheet that says so, and none over the campaign', () => {
  const without = (...sections: string[]): SheetStages =>
    stagesOf(Object.fromEntries(Object.entries(blockOnTwoLegs()).filter(([key]) => !sections.includes(key))))
  const wordsOf = (stages: SheetStages): string =>
    siteSettlement(stages)
      .flatMap((p) => textsOf(p.marks))
      .map((t) => t.text)
      .join(' ')
  expect(wordsOf(without('ground'))).toContain('No ground in the project')
  expect(wordsOf(without())).toContain('Settlement over the campaign')
  expect(wordsOf(without('ground'))).not.toContain('Settlement over the campaign')
})

test('with no order the lines are drawn over what stands on the site, and each bay has it before any step', () => {
  const { steps, order, pieces, lifts, transports, ...rest } = site
  const { instruments, ...ground } = site.ground
  const heap = { what: 'segments', centre: ['0 m', '25 m'], size: ['3 m', '3 m'], height: '2 m', mass: '70 t' }
  const stages = stagesOf({ ...rest, ground, order: [], bays: { B: { ...site.bays.B, stored: { heap } } } })
  expect([steps, order, pieces, lifts, transports, instruments].includes(undefined as never)).toBe(false)
  const subject = siteSubject(stages, {})
  expect(subject.words).toBe('as it stands, before any step')
  const [course] = coursesOf(subject)
  expect(course?.steps.map(({ step }) => step)).toEqual(['as-it-stands'])
  const settled = placesSettled(subject, stages.model.project.ground as Ground).find(({ name }) => name === 'Bay B')
  expect(settled?.own).toBeGreaterThan(0)
  const words = siteSettlement(stages)
    .flatMap((page) => textsOf(page.marks).map((t) => t.text))
    .join(' ')
  expect(words).toContain('as it stands, before any step')
  expect(words).not.toContain('nothing stands there')
})
