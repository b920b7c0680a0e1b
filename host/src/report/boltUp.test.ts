import { derive, type Stages } from '@shieldwright/engine'
import { textsOf } from '@shieldwright/engine/report/drawing.ts'
import { bolted, lidOnTub } from '@shieldwright/engine/strip/strip.fixture.ts'
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs'
import { expect, test } from 'vitest'
import { boltUpDrawings, boltUpPdf, type HandIssue } from './boltUp.ts'

const issue: HandIssue = { date: '2031-11-03', contentHash: 'a'.repeat(64), revision: '7', units: 'SI' }
const bolts = { thread: 'M36', grade: '10.9', count: 12, circle: '2 m', timeOff: '6 min', timeOn: '9 min' }
const stages = derive(lidOnTub({ joints: { J1: bolted('lid', 'tub', { bolts }) } })).stages as Stages

const plain = (words: string): string => words.replace(/\s/g, '')

test.each(['A4', 'Letter'] as const)(
  'on %s the PDF holds the words of the drawing, page by page and in order',
  async (paper) => {
    const asked = { ...issue, paper }
    const pages = boltUpDrawings(stages, 'S1', asked) ?? []
    const bytes = (await boltUpPdf(stages, 'S1', asked)) as Uint8Array
    const document = await getDocument({ data: bytes.slice(), verbosity: 0 }).promise
    expect(document.numPages).toBe(pages.length)
    for (const [i, page] of pages.entries()) {
      const read = await document.getPage(i + 1)
      const [, , width, height] = read.view as [number, number, number, number]
      // points of an inch: Letter is 612 x 792, A4 595.28 x 841.89
      expect([width, height].map(Math.round)).toEqual(paper === 'Letter' ? [612, 792] : [595, 842])
      const { items } = await read.getTextContent()
      const words = items.map((item) => ('str' in item ? item.str : '')).join('')
      expect(plain(words)).toBe(
        plain(
          textsOf(page.marks)
            .map((t) => t.text)
            .join(''),
        ),
      )
    }
  },
)

test('the same stages and issue give the same bytes; there is none of a step that bolts nothing', async () => {
  const [one, two] = [await boltUpPdf(stages, 'all', issue), await boltUpPdf(stages, 'all', issue)]
  expect(Buffer.compare(one as Uint8Array, two as Uint8Array)).toBe(0)
  expect(await boltUpPdf(stages, 'S9', issue)).toBeUndefined()
})
