import { box, line, type Mark, type PaperBox, type PaperPoint, type Text, text } from '../drawing.ts'
import { cutInside, mostThat, textWidth, wrapText } from '../fontWidth.ts'
import { endedShort } from '../rightToLeft.ts'
import { OUTLINE, RULE, SMALL } from './pen.ts'

/** Width and height of a sheet, mm. */
export interface SheetSize {
  width: number
  height: number
}

const MARGIN = 10
const BLOCK = 15
const AIR = 2.5

/** One box of the title block. */
export interface Field {
  name: string
  words: string
  under: string
  share: number
  ink?: 'fail'
}

/** The room that border and title block leave for drawings and tables. */
export const roomOf = ({ width, height }: SheetSize): PaperBox => ({
  left: MARGIN + AIR,
  top: MARGIN + AIR,
  right: width - MARGIN - AIR,
  bottom: height - MARGIN - BLOCK - 1.5,
})

/** Border, and a strip of fields at the foot. */
export function borderMarks({ width, height }: SheetSize, fields: readonly Field[]): Mark[] {
  const top = height - MARGIN - BLOCK
  const whole: PaperBox = { left: MARGIN, top: MARGIN, right: width - MARGIN, bottom: height - MARGIN }
  return [
    box(whole, { stroke: OUTLINE }),
    line(
      [
        [whole.left, top],
        [whole.right, top],
      ],
      OUTLINE,
    ),
    ...fieldMarks(fields, { ...whole, top }),
  ]
}

function fieldMarks(fields: readonly Field[], room: PaperBox): Mark[] {
  const total = fields.reduce((sum, f) => sum + f.share, 0)
  let left = room.left
  return fields.flatMap((field, i) => {
    const width = ((room.right - room.left) * field.share) / total
    const x = left + 1.6
    left += width
    return [
      ...(i === 0
        ? []
        : [
            line(
              [
                [x - 1.6, room.top],
                [x - 1.6, room.bottom],
              ],
              RULE,
            ),
          ]),
      text([x, room.top + 3.3], shortened(field.name, SMALL, width - 3), { size: SMALL, ink: 'quiet' }),
      mainText([x, room.top + 8], field, width - 3),
      ...underLines(field.under, width - 3).map((words, k) =>
        text([x, room.top + 11.1 + k * 2.6], words, { size: SMALL, ink: 'quiet' }),
      ),
    ]
  })
}

function mainText(at: PaperPoint, { words, ink }: Field, width: number): Text {
  const face = { size: sizeOf(words, width), weight: 700, tabular: false } as const
  return text(at, cutInside(words, face, width), { ...face, ink: ink ?? 'ink' })
}

/** Words under a field in two lines; what finds no room in them is told by an ellipsis. */
function underLines(words: string, width: number): string[] {
  const [first, ...rest] = wrapText(words, { size: SMALL, weight: 400, tabular: false }, width)
  return [first, rest.join(' ')].flatMap((line) => (line ? [shortened(line, SMALL, width)] : []))
}

const LARGEST = 3.2
const SMALLEST = 2.5

/** The largest letters in which the words of a field fit, down to the smallest that are read at arm's length. */
function sizeOf(words: string, width: number): number {
  const taken = textWidth(words, { size: 1, weight: 700, tabular: false })
  return Math.max(SMALLEST, Math.min(LARGEST, width / taken))
}

/** Words cut to a width with an ellipsis; the whole stands elsewhere. */
export function shortened(words: string, size: number, width: number, weight: 400 | 700 = 400): string {
  const face = { size, weight, tabular: false }
  if (textWidth(words, face) <= width) return words
  const cut = (kept: number): string => endedShort(words.slice(0, kept).trimEnd())
  return cut(mostThat(words.length - 1, (kept) => textWidth(cut(kept), face) <= width))
}
