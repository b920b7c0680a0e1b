import { box, type Mark, type PaperPoint, text, type View } from '../drawing.ts'
import { wrapText } from '../fontWidth.ts'
import { RULE, SMALL } from '../paper/pen.ts'
import type { Row } from '../paper/rows.ts'
import type { DossierAttachment } from './attached.ts'

const ACROSS = 3
const GAP = 4
/** Height of a picture to its width: that of most cameras. */
const RATIO = 3 / 4
const LINE = SMALL * 1.24
/** Digits of a hash that tell a file from the others to the eye. */
const DIGITS = 12

/** A file with the record that names it, where several records share a row. */
export interface Shown extends DossierAttachment {
  of?: string
}

/** Files of several records, each with the id of its own. */
export const ofRecords = (records: readonly { id: string; attachments: readonly DossierAttachment[] }[]): Shown[] =>
  records.flatMap(({ id, attachments }) => attachments.map((one) => ({ ...one, of: id })))

/** Photographs of records, three across, each with its caption; of one that is not printed the frame says why. */
export function pictureRows(all: readonly Shown[], width: number): Row[] {
  const each = (width - GAP * (ACROSS - 1)) / ACROSS
  return Array.from({ length: Math.ceil(all.length / ACROSS) }, (_, i) =>
    rowOf(all.slice(i * ACROSS, (i + 1) * ACROSS), each),
  )
}

function rowOf(shown: readonly Shown[], each: number): Row {
  const captions = shown.map((one) => captionLines(one, each))
  const tall = each * RATIO
  return {
    height: tall + Math.max(...captions.map((c) => c.length)) * LINE + 3,
    marks: ([x, y]) =>
      shown.flatMap((one, i): Mark[] => {
        const left = x + i * (each + GAP)
        return [
          frame(one, [left, y + 1], [each, tall]),
          ...(captions[i] ?? []).map((words, k) =>
            text([left, y + 1 + tall + (k + 1) * LINE], words, { size: SMALL, ink: 'quiet' }),
          ),
        ]
      }),
  }
}

const named = ({ of, caption, hash }: Shown): string =>
  [...(of === undefined ? [] : [of]), caption ?? 'no caption', hash.slice(0, DIGITS)].join(', ')

const captionLines = (shown: Shown, width: number): string[] =>
  wrapText(named(shown), { size: SMALL, weight: 400, tabular: false }, width)

/** Without a store the picture may show all the same, over the words: a page asks its workbench for it. */
function frame(shown: Shown, [left, top]: PaperPoint, [wide, tall]: PaperPoint): View {
  const { hash, state } = shown
  const room = { left, top, right: left + wide, bottom: top + tall }
  const words = state === 'not asked for' ? 'shown where the store has it' : state
  return {
    kind: 'view',
    id: `attachment/${hash}`,
    title: state === 'printed' ? named(shown) : `${named(shown)}: ${words}`,
    marks: [
      ...(state === 'printed'
        ? []
        : [
            text([left + wide / 2, top + tall / 2], words, {
              size: SMALL,
              anchor: 'middle',
              weight: 700,
              ink: state === 'not asked for' ? 'quiet' : 'fail',
            }),
          ]),
      ...(state === 'printed' || state === 'not asked for'
        ? [{ kind: 'photograph' as const, hash, words: named(shown), box: room }]
        : []),
      box(room, { stroke: { ...RULE, ink: 'hair' } }),
    ],
  }
}
