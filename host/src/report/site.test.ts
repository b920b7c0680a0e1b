import { startDerivation } from '@shieldwright/engine'
import { textsOf } from '@shieldwright/engine/report/drawing.ts'
import { blockOnTwoLegs } from '@shieldwright/engine/report/sheet/sheet.fixture.ts'
import { sitePlan, siteSections, siteSettlement, siteShaft } from '@shieldwright/engine/report/site/index.ts'
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs'
import { expect, test } from 'vitest'
import { riggingPdf, sitePdf } from './site.ts'

const issue = { date: '2032-12-09', contentHash: 'abcdef012345', revision: '3', units: 'SI' } as const

function stagesOfBlock() {
  const { stages, problems } = startDerivation(blockOnTwoLegs()).derived
  if (stages === undefined) throw new Error(JSON.stringify(problems))
  return stages
}

/** Words of every page, read back by a PDF library, without spaces. */
async function wordsIn(bytes: Uint8Array): Promise<string[]> {
  const document = await getDocument({ data: bytes.slice(), verbosity: 0 }).promise
  return Promise.all(
    Array.from({ length: document.numPages }, async (_, i) => {
      const { items } = await (await document.getPage(i + 1)).getTextContent()
      return items
        .map((item) => ('str' in item ? item.str : ''))
        .join('')
        .replace(/\s/g, '')
    }),
  )
}

test('the PDF of a site drawing holds the words of the drawing, page by page and in order', async () => {
  const stages = stagesOfBlock()
  for (const [name, pages] of [
    ['plan', sitePlan(stages, issue)],
    ['sections', siteSections(stages, issue)],
    ['shaft', siteShaft(stages, issue)],
    ['settlement', siteSettlement(stages, issue)],
  ] as const) {
    const due = pages.map((p) =>
      textsOf(p.marks)
        .map((t) => t.text.replace(/\s/g, ''))
        .join(''),
    )
    expect(await wordsIn(await sitePdf(stages, name, issue))).toEqual(due)
  }
})

test('the same content and date give the same bytes; another paper does not', async () => {
  const stages = stagesOfBlock()
  const one = await sitePdf(stages, 'plan', issue)
  expect(Buffer.compare(one, await sitePdf(stages, 'plan', issue))).toBe(0)
  expect(Buffer.compare(one, await sitePdf(stages, 'plan', { ...issue, paper: 'A1' }))).not.toBe(0)
})

test('the rigging of a lift lists what hangs with its tags, and there is none of an unknown lift', async () => {
  const stages = stagesOfBlock()
  const [page = ''] = await wordsIn((await riggingPdf(stages, 'block-out', issue)) as Uint8Array)
  // two grommets S, two shackles K, the spreader SP
  for (const words of ['2wireropegrommetS', '2shackleK', '1SpreaderSP', '160.0t']) expect(page).toContain(words)
  expect(await riggingPdf(stages, 'no-such-lift', issue)).toBeUndefined()
})
