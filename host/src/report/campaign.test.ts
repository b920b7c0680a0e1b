import { derive, type Stages } from '@shieldwright/engine'
import { manyPieces } from '@shieldwright/engine/report/campaign/campaign.fixture.ts'
import { textsOf } from '@shieldwright/engine/report/index.ts'
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs'
import { expect, test } from 'vitest'
import { type CampaignIssue, campaignPage, campaignPdf, campaignSvg } from './campaign.ts'

const issue: CampaignIssue = { date: '2031-11-03', contentHash: 'a'.repeat(64), revision: '7', units: 'SI' }
const stages = derive(manyPieces({ count: 5, years: 1 })).stages as Stages

const squeezed = (words: readonly string[]): string[] => words.map((w) => w.replace(/\s+/g, '')).filter((w) => w !== '')

test.each(['A1', 'A2', 'A3', 'A4'] as const)('on %s SVG and PDF say the same words', async (paper) => {
  const asked = { ...issue, paper }
  const svg = new TextDecoder().decode(await campaignSvg(stages, asked))
  const drawn = squeezed(textsOf(campaignPage(stages, asked)?.marks ?? []).map((t) => t.text))
  const inSvg = squeezed(
    [...svg.matchAll(/<text [^>]*>([^<]*)<\/text>/g)].map((m) => m[1]?.replace(/&amp;/g, '&') ?? ''),
  )
  expect(inSvg).toEqual(drawn)
  const pdf = await getDocument({ data: (await campaignPdf(stages, asked)) as Uint8Array, verbosity: 0 }).promise
  expect(pdf.numPages).toBe(1)
  const { items } = await (await pdf.getPage(1)).getTextContent()
  const inPdf = squeezed(items.flatMap((i) => ('str' in i ? [i.str] : []))).join('')
  for (const words of drawn) expect(inPdf).toContain(words)
  expect(inPdf.length).toBe(drawn.join('').length)
})

test('the sheet carries its revision, its date of issue and the content it is of', () => {
  const words = textsOf(campaignPage(stages, issue)?.marks ?? [])
    .map((t) => t.text)
    .join(' ')
  expect(words).toContain('revision 7')
  expect(words).toContain('issued 3 Nov 2031')
  expect(words).toContain('content aaaaaaaaaaaa')
})

test('the same stages and issue give the same bytes', async () => {
  expect(Buffer.from((await campaignPdf(stages, issue)) as Uint8Array)).toEqual(
    Buffer.from((await campaignPdf(stages, issue)) as Uint8Array),
  )
})
