import {
  type Circle,
  type Drawing,
  INKS,
  type Ink,
  type Mark,
  type PaperPoint,
  type Stroke,
  type Text,
} from './drawing.ts'

/** Hundredths of a millimetre and better: finer than any printer. */
const DECIMALS = 3

export const FONT_FAMILY = 'Shieldwright Sans'

/**
 * A drawing as SVG (W3C SVG 1.1) in millimetres. Text keeps its measured width with any font that stands in; colours are
 * attributes with a class each, so that a page may set others.
 */
export function svgOf(drawing: Drawing): string {
  const { width, height, title } = drawing
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}mm" height="${height}mm" font-family="'${FONT_FAMILY}', sans-serif" fill="none" stroke-linejoin="round">`,
    `<title>${escaped(title)}</title>`,
    ...drawing.marks.map(markText),
    '</svg>',
    '',
  ].join('\n')
}

const escaped = (text: string): string =>
  text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;')

const shown = (value: number): string => String(Number(value.toFixed(DECIMALS)) + 0)

const pathOf = (points: readonly PaperPoint[]): string => points.map(([x, y]) => `${shown(x)} ${shown(y)}`).join('L')

function markText(mark: Mark): string {
  switch (mark.kind) {
    case 'line':
      return `<path d="M${pathOf(mark.points)}"${strokeText(mark.stroke)}/>`
    case 'shape': {
      const path = mark.loops.map((loop) => `M${pathOf(loop)}Z`).join('')
      return `<path d="${path}" fill-rule="evenodd"${fillText(mark.fill)}${strokeText(mark.stroke)}/>`
    }
    case 'circle':
      return circleText(mark)
    case 'text':
      return textText(mark)
    case 'dimension':
      return `<g class="dimension" aria-label="${escaped(mark.name)}">\n${mark.marks.map(markText).join('\n')}\n</g>`
    case 'view':
      return mark.about === undefined
        ? `<g class="view" data-view="${escaped(mark.id)}" aria-label="${escaped(mark.title)}">\n${mark.marks.map(markText).join('\n')}\n</g>`
        : `<g class="about" data-about="${escaped(mark.about.pointer)}">\n<title>${escaped(mark.about.words)}</title>\n${mark.marks.map(markText).join('\n')}\n</g>`
    default:
      return mark satisfies never
  }
}

function circleText({ centre: [x, y], radius, fill, stroke }: Circle): string {
  return `<circle cx="${shown(x)}" cy="${shown(y)}" r="${shown(radius)}"${fillText(fill)}${strokeText(stroke)}/>`
}

function textText({ at: [x, y], anchor, text, size, weight, tabular, ink, turn, width }: Text): string {
  const place = `x="${shown(x)}" y="${shown(y)}"`
  const turned = turn === 0 ? '' : ` transform="rotate(-90 ${shown(x)} ${shown(y)})"`
  const anchored = anchor === 'start' ? '' : ` text-anchor="${anchor}"`
  const bold = weight === 400 ? '' : ` font-weight="${weight}"`
  const figures = tabular ? ' tabular' : ''
  return `<text class="${ink}${figures}" ${place}${turned}${anchored} font-size="${shown(size)}"${bold} fill="${INKS[ink]}" textLength="${shown(width)}">${escaped(text)}</text>`
}

const fillText = (fill: Ink | undefined): string =>
  fill === undefined ? '' : ` class="fill-${fill}" fill="${INKS[fill]}"`

function strokeText(stroke: Stroke | undefined): string {
  if (stroke === undefined) return ''
  const dash = stroke.dash === undefined ? '' : ` stroke-dasharray="${stroke.dash.map(shown).join(' ')}"`
  return ` stroke="${INKS[stroke.ink]}" stroke-width="${shown(stroke.width)}"${dash}`
}
