import { expect, test } from 'vitest'
import { type Drawing, textsOf } from '../drawing.ts'
import { LIFT_PAPERS } from '../paper/size.ts'
import { wordsAstray } from '../words.fixture.ts'
import { type LiftSheet, liftSheet } from './liftSheet.ts'
import { liftSheetPages } from './pages.ts'
import { blockOnTwoLegs, stagesOf } from './sheet.fixture.ts'

const stages = stagesOf({
  ...blockOnTwoLegs(),
  temporaryWorks: {
    footing: {
      name: 'Footing of the tower',
      carries: { systems: ['T'] },
      category: 3,
      designed: { by: 'A. Designer', on: '2031-06-01' },
      permitToLoad: { by: 'C. Coordinator', on: '2031-08-01', until: '2031-12-01' },
      approvals: { road: { of: 'Owner of the road' } },
    },
    elsewhere: { name: 'Scaffold elsewhere' },
  },
})
const pagesOn = (paper: (typeof LIFT_PAPERS)[number]): Drawing[] =>
  liftSheetPages(stages, 'block-out', { paper, date: '2032-12-09' }) as Drawing[]

test('a sheet names what the lift rests on, and what of it is not entered is open, never a blank', () => {
  const { works, checks, refs } = liftSheet(stages, 'block-out') as LiftSheet
  expect(works).toEqual([
    {
      id: 'footing',
      name: 'Footing of the tower',
      category: '3',
      designed: 'A. Designer, 2031-06-01',
      checked: 'open',
      permitToLoad: 'C. Coordinator, 2031-08-01 to 2031-12-01',
      approvals: ['Owner of the road: open'],
    },
  ])
  const own = checks.find((c) => c.id === 'lift.works.ready/block-out')
  expect(own?.verdict).toBe('open')
  expect(refs.works).toBe(`[${own?.number}]`)
})

test.each(LIFT_PAPERS)('on %s they are printed with the check that judges them, and nothing is cut', (paper) => {
  const pages = pagesOn(paper)
  for (const page of pages) expect(wordsAstray(page)).toEqual([])
  const words = pages.flatMap((p) => textsOf(p.marks)).map((t) => t.text)
  expect(words.some((w) => /^Temporary works under it \[\d+\]$/.test(w))).toBe(true)
  expect(words.join(' ')).toContain('Owner of the road: open')
  expect(words.join(' ')).not.toContain('Scaffold elsewhere')
})
