import read from 'jsqr'
import { describe, expect, test } from 'vitest'
import type { Shape } from '../drawing.ts'
import { qrMarks } from './qr.ts'
import { serviceLink } from './tagSheets.ts'

/** Dots to a millimetre of a coarse printer. */
const DOTS = 8

/** Marks put on paper as dots, by the even-odd rule at the middle of each: what a camera would see. */
function printed(marks: readonly Shape[], side: number, soiled?: { from: number; to: number }): Uint8ClampedArray {
  const width = side * DOTS
  const image = new Uint8ClampedArray(width * width * 4).fill(255)
  for (const { loops, fill } of marks) {
    if (fill !== 'ink') continue
    for (const loop of loops) {
      const [x0, x1] = [Math.min(...loop.map(([x]) => x)), Math.max(...loop.map(([x]) => x))]
      const [y0, y1] = [Math.min(...loop.map(([, y]) => y)), Math.max(...loop.map(([, y]) => y))]
      for (let y = Math.ceil(y0 * DOTS - 0.5); y + 0.5 < y1 * DOTS; y++)
        for (let x = Math.ceil(x0 * DOTS - 0.5); x + 0.5 < x1 * DOTS; x++)
          image.fill(0, (y * width + x) * 4, (y * width + x) * 4 + 3)
    }
  }
  if (soiled !== undefined)
    for (let y = soiled.from; y < soiled.to; y++)
      for (let x = soiled.from; x < soiled.to; x++) image.fill(0, (y * width + x) * 4, (y * width + x) * 4 + 3)
  return image
}

const decoded = (words: string, soiled?: { from: number; to: number }): string | undefined => {
  const image = printed(qrMarks(words, [0, 0], 30), 30, soiled)
  return read(image, 30 * DOTS, 30 * DOTS)?.data
}

describe('the symbol of a tag', () => {
  test.each([
    'W-MM01I',
    'http://127.0.0.1:4000/#model/services/W-MM01I',
    `https://site-office.example:8443/#model/services/${'A'.repeat(64)}`,
    'Schlauch 7, Rücklauf – الخط الراجع',
  ])('read back from paper it says %s', (words) => {
    expect(decoded(words)).toBe(words)
  })

  test('with a smear of grease in its middle it still reads', () => {
    const words = serviceLink('https://site-office.example/', 'C-MM04')
    expect(decoded(words, { from: 112, to: 132 })).toBe(words)
  })

  test('its dark modules keep four light ones round them, and no two of them overlap', () => {
    const [paper, ink] = qrMarks('W-1', [10, 20], 30)
    const points = ink?.loops.flat() ?? []
    const modules = 21 + 8 // a short text fits the least symbol
    const quiet = (4 * 30) / modules
    expect(Math.min(...points.map(([x]) => x))).toBeCloseTo(10 + quiet, 9)
    expect(Math.max(...points.map(([, y]) => y))).toBeCloseTo(50 - quiet, 9)
    expect(paper?.loops[0]).toEqual([
      [10, 20],
      [40, 20],
      [40, 50],
      [10, 50],
    ])
  })
})

test('the address of a line is the workbench’s own, whatever was typed after it', () => {
  for (const base of [
    'http://office:4000',
    'http://office:4000/',
    'http://office:4000/#report',
    'http://office:4000/?x=1#y',
  ])
    expect(serviceLink(base, 'W-1')).toBe('http://office:4000/#model/services/W-1')
})
