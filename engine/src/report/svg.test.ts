import { expect, test } from 'vitest'
import { drawing, type Primitive, primitivesOf, standFor, text } from './drawing.ts'
import { liftSheetPages } from './sheet/pages.ts'
import { blockOnTwoLegs, stagesOf } from './sheet/sheet.fixture.ts'
import { svgOf } from './svg.ts'

test('the SVG holds every primitive of the drawing, once and in its order', () => {
  for (const page of liftSheetPages(stagesOf(blockOnTwoLegs()), 'block-out') ?? []) {
    const kinds = [...svgOf(page).matchAll(/<(path|circle|text)\b/g)].map((m) => m[1])
    const due = primitivesOf(page.marks).map((p: Primitive) =>
      p.kind === 'line' || p.kind === 'shape' ? 'path' : p.kind,
    )
    expect(kinds).toEqual(due)
  }
})

test('signs that mean something to XML are written as text', () => {
  const svg = svgOf(drawing('a & b', 100, 50, [text([10, 20], 'u < 1 & "open"')]))
  expect(svg).toContain('u &lt; 1 &amp; &quot;open&quot;')
  expect(svg).toContain('<title>a &amp; b</title>')
})

test('marks that stand for something carry its address and a sentence; both are written as text', () => {
  const svg = svgOf(drawing('Site', 100, 50, [standFor('/bays/B "1"', 'Bay 1 < Bay 2', [text([10, 20], 'B1')])]))
  expect(svg).toContain('<g class="about" data-about="/bays/B &quot;1&quot;">\n<title>Bay 1 &lt; Bay 2</title>\n<text')
})

// Regression snapshot: what this program drew when it was looked at and found right; not an outside truth.
test('a small drawing is written as it was when it was last looked at', () => {
  const svg = svgOf(
    drawing('Snapshot', 60, 40, [
      {
        kind: 'line',
        points: [
          [5, 5],
          [55, 5.12345],
        ],
        stroke: { width: 0.5, ink: 'ink', dash: [3, 1] },
      },
      {
        kind: 'shape',
        loops: [
          [
            [10, 10],
            [20, 10],
            [20, 20],
          ],
        ],
        fill: 'steel',
        stroke: { width: 0.25, ink: 'fail' },
      },
      { kind: 'circle', centre: [40, 20], radius: 4, stroke: { width: 0.18, ink: 'edge' } },
      text([30, 35], '628.0 t', { size: 3, weight: 700, anchor: 'middle', tabular: true }),
      text([58, 30], 'level', { turn: 90, ink: 'quiet' }),
    ]),
  )
  expect(svg).toMatchInlineSnapshot(`
    "<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 60 40" width="60mm" height="40mm" font-family="'Shieldwright Sans', sans-serif" fill="none" stroke-linejoin="round">
    <title>Snapshot</title>
    <path d="M5 5L55 5.123" stroke="#171B19" stroke-width="0.5" stroke-dasharray="3 1"/>
    <path d="M10 10L20 10L20 20Z" fill-rule="evenodd" class="fill-steel" fill="#C3C8C7" stroke="#A31D0B" stroke-width="0.25"/>
    <circle cx="40" cy="20" r="4" stroke="#84827A" stroke-width="0.18"/>
    <text class="ink tabular" x="30" y="35" text-anchor="middle" font-size="3" font-weight="700" fill="#171B19" textLength="10.146">628.0 t</text>
    <text class="quiet" x="58" y="30" transform="rotate(-90 58 30)" font-size="2.5" fill="#555A55" textLength="5.01">level</text>
    </svg>
    "
  `)
})
