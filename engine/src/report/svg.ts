import {
  type Circle,
  type Drawing,
  INKS,
  type Ink,
  type Mark,
  type PaperPoint,
  type Photograph,
  type Stroke,
  type Text,
} from './drawing.ts'

/** Hundredths of a millimetre and better: finer than any printer. */
const DECIMALS = 3

export const FONT_FAMILY = 'Shieldwright Sans'

/**
 * A drawing as SVG (W3C SVG 1.1) in millimetres. Text keeps its measured width with any font that stands in; colours are
 * attributes with a class each, so that a page may set others.
 *
 * @param inks colours by what they mean; a page gives its own
 */
export function svgOf(drawing: Drawing, inks: Readonly<Record<Ink, string>> = INKS): string {
  const { width, height, title } = drawing
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}mm" height="${height}mm" font-family="'${FONT_FAMILY}', sans-serif" fill="none" stroke-linejoin="round">`,
    `<title>${escaped(title)}</title>`,
    ...drawing.marks.map((mark) => markText(mark, inks)),
    '</svg>',
    '',
  ].join('\n')
}

const escaped = (text: string): string =>
  text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;')

const shown = (value: number): string => String(Number(value.toFixed(DECIMALS)) + 0)

const pathOf = (points: readonly PaperPoint[]): string => points.map(([x, y]) => `${shown(x)} ${shown(y)}`).join('L')

type Inks = Readonly<Record<Ink, string>>

function markText(mark: Mark, inks: Inks): string {
  switch (mark.kind) {
    case 'line':
      return `<path d="M${pathOf(mark.points)}"${strokeText(mark.stroke, inks)}/>`
    case 'shape': {
      const path = mark.loops.map((loop) => `M${pathOf(loop)}Z`).join('')
      return `<path d="${path}" fill-rule="evenodd"${fillText(mark.fill, inks)}${strokeText(mark.stroke, inks)}/>`
    }
    case 'circle':
      return circleText(mark, inks)
    case 'text':
      return textText(mark, inks)
    case 'photograph':
      return photographText(mark)
    case 'dimension':
      return `<g class="dimension" aria-label="${escaped(mark.name)}">\n${mark.marks.map((inner) => markText(inner, inks)).join('\n')}\n</g>`
    case 'view':
      return mark.about === undefined
        ? `<g class="view" data-view="${escaped(mark.id)}" aria-label="${escaped(mark.title)}">\n${mark.marks.map((inner) => markText(inner, inks)).join('\n')}\n</g>`
        : `<g class="about" data-about="${escaped(mark.about.pointer)}">\n<title>${escaped(mark.about.words)}</title>\n${mark.marks.map((inner) => markText(inner, inks)).join('\n')}\n</g>`
    default:
      return mark satisfies never
  }
}

function circleText({ centre: [x, y], radius, fill, stroke }: Circle, inks: Inks): string {
  return `<circle cx="${shown(x)}" cy="${shown(y)}" r="${shown(radius)}"${fillText(fill, inks)}${strokeText(stroke, inks)}/>`
}

function textText({ at: [x, y], anchor, text, size, weight, tabular, ink, turn, width }: Text, inks: Inks): string {
  const place = `x="${shown(x)}" y="${shown(y)}"`
  const turned = turn === 0 ? '' : ` transform="rotate(-90 ${shown(x)} ${shown(y)})"`
  const anchored = anchor === 'start' ? '' : ` text-anchor="${anchor}"`
  const bold = weight === 400 ? '' : ` font-weight="${weight}"`
  const figures = tabular ? ' tabular' : ''
  return `<text class="${ink}${figures}" ${place}${turned}${anchored} font-size="${shown(size)}"${bold} fill="${inks[ink]}" textLength="${shown(width)}">${escaped(text)}</text>`
}

/** The picture is asked of the workbench that the drawing came from. */
function photographText({ hash, words, box: { left, top, right, bottom } }: Photograph): string {
  const place = `x="${shown(left)}" y="${shown(top)}" width="${shown(right - left)}" height="${shown(bottom - top)}"`
  return `<image href="/api/attachments/${encodeURIComponent(hash)}" ${place} preserveAspectRatio="xMidYMid meet" role="img" aria-label="${escaped(words)}"/>`
}

const fillText = (fill: Ink | undefined, inks: Inks): string =>
  fill === undefined ? '' : ` class="fill-${fill}" fill="${inks[fill]}"`

function strokeText(stroke: Stroke | undefined, inks: Inks): string {
  if (stroke === undefined) return ''
  const dash = stroke.dash === undefined ? '' : ` stroke-dasharray="${stroke.dash.map(shown).join(' ')}"`
  return ` stroke="${inks[stroke.ink]}" stroke-width="${shown(stroke.width)}"${dash}`
}
