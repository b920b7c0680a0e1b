import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'

const css = readFileSync(new URL('./look.css', import.meta.url), 'utf8')

type Tokens = Readonly<Record<string, string>>

/** Tokens of a rule of look.css, over those of the day. */
function tokensOf(selector: string): Tokens {
  const at = css.indexOf(`${selector} {`)
  if (at < 0) throw new Error(`look.css has no rule "${selector}"`)
  const rule = css.slice(at, css.indexOf('}', at))
  return Object.fromEntries([...rule.matchAll(/--([a-z]+): (#[0-9a-f]{6});/g)].map(([, name, value]) => [name, value]))
}

const day = tokensOf(':root')
const LIGHTS: Readonly<Record<string, Tokens>> = {
  day,
  dark: { ...day, ...tokensOf(':root[data-light="dark"]') },
  sun: { ...day, ...tokensOf(':root[data-light="sun"]') },
}

/** Relative luminance; WCAG 2.2, definition "relative luminance". */
function luminance(colour: string): number {
  const [r, g, b] = [1, 3, 5].map((i) => {
    const c = Number.parseInt(colour.slice(i, i + 2), 16) / 255
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4
  }) as [number, number, number]
  return 0.2126 * r + 0.7152 * g + 0.0722 * b
}

/** Contrast ratio; WCAG 2.2, definition "contrast ratio". */
function contrast(a: string, b: string): number {
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x) as [number, number]
  return (light + 0.05) / (dark + 0.05)
}

test('black on white has the greatest contrast there is, and a colour on itself none', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 10) // WCAG 2.2: ratios range from 1 to 21.
  expect(contrast('#a31d0b', '#a31d0b')).toBe(1)
})

/** Least ratios: WCAG 2.2, 1.4.3 (text 4.5), 1.4.6 (text 7, asked for in sunlight), 1.4.11 (what carries meaning 3). */
test.each(Object.entries(LIGHTS))(
  'in the light “%s” every text is legible on the sheet and on the wash of an edit',
  (light, t) => {
    const least = light === 'sun' ? 7 : 4.5
    for (const ground of ['sheet', 'wash']) {
      for (const text of ['ink', 'quiet', 'fail', 'edit']) {
        const ratio = contrast(t[text] as string, t[ground] as string)
        expect(ratio, `${text} on ${ground}: ${ratio.toFixed(2)}`).toBeGreaterThanOrEqual(least)
      }
      const edge = contrast(t.edge as string, t[ground] as string)
      expect(edge, `edge on ${ground}: ${edge.toFixed(2)}`).toBeGreaterThanOrEqual(3)
    }
  },
)

test('sunlight has more contrast than day in every token', () => {
  const { day: plain, sun } = LIGHTS as Record<'day' | 'sun', Tokens>
  for (const text of ['ink', 'quiet', 'edge', 'fail', 'edit'])
    expect(contrast(sun[text] as string, sun.sheet as string)).toBeGreaterThan(
      contrast(plain[text] as string, plain.sheet as string),
    )
})
