/** A colour in shares of red, green and blue, as the page mixes them. */
export type Ink = readonly [number, number, number]

/** Colours of the drawing, from the tokens of the light the page is in. */
export interface Palette {
  sheet: Ink
  ink: Ink
  fail: Ink
  edit: Ink
  /** Between paper and ink. */
  grey: (share: number) => Ink
  /** Drawn on dark paper: faces are kept closer to it, lines are what is read. */
  dark: boolean
}

const channel = (hex: string, at: number): number => Number.parseInt(hex.slice(at, at + 2), 16) / 255

/** A token written as #rrggbb. */
export function inkOf(hex: string): Ink {
  const full = hex.length === 4 ? `#${[...hex.slice(1)].map((c) => c + c).join('')}` : hex
  return [channel(full, 1), channel(full, 3), channel(full, 5)]
}

export const mix = (a: Ink, b: Ink, share: number): Ink => [
  a[0] + (b[0] - a[0]) * share,
  a[1] + (b[1] - a[1]) * share,
  a[2] + (b[2] - a[2]) * share,
]

export function paletteOf(token: (name: string) => string): Palette {
  const [sheet, ink] = [inkOf(token('--sheet')), inkOf(token('--ink'))]
  return {
    sheet,
    ink,
    fail: inkOf(token('--fail')),
    edit: inkOf(token('--edit')),
    grey: (share) => mix(sheet, ink, share),
    dark: sheet[0] < ink[0],
  }
}
