import { box, line, type Mark, type PaperBox, text } from '../drawing.ts'
import { textWidth, wrapText } from '../fontWidth.ts'
import { OUTLINE, RULE, SMALL } from '../paper/pen.ts'
import type { LiftSheet } from './liftSheet.ts'

/** A3 landscape, mm. */
export const PAGE = { width: 420, height: 297 }
const MARGIN = 10
const BLOCK = 15

/** The room for drawings and tables. */
export const ROOM: PaperBox = {
  left: MARGIN + 2.5,
  top: MARGIN + 2.5,
  right: PAGE.width - MARGIN - 2.5,
  bottom: PAGE.height - MARGIN - BLOCK - 1.5,
}

interface Field {
  name: string
  words: string
  under: string
  share: number
  ink?: 'fail'
}

/** Border and title block: which lift, what it weighs, what it does to the hook, what stops it, and whether it is signed. */
export function frameMarks(sheet: LiftSheet, page: number, pages: number): Mark[] {
  const top = PAGE.height - MARGIN - BLOCK
  const whole: PaperBox = { left: MARGIN, top: MARGIN, right: PAGE.width - MARGIN, bottom: PAGE.height - MARGIN }
  return [
    box(whole, { stroke: OUTLINE }),
    line(
      [
        [whole.left, top],
        [whole.right, top],
      ],
      OUTLINE,
    ),
    ...fieldMarks(fieldsOf(sheet, page, pages), { ...whole, top }),
  ]
}

function fieldsOf(sheet: LiftSheet, page: number, pages: number): Field[] {
  const { titleBlock: t } = sheet
  const red = (fails: boolean): Pick<Field, 'ink'> => (fails ? { ink: 'fail' } : {})
  return [
    {
      name: `Lift · ${sheet.project}`,
      words: sheet.title,
      under: `${sheet.id} · ${sheet.system}, ${sheet.hook} · ${sheet.critical}`,
      share: 29,
    },
    { name: 'Mass of the piece', words: t.mass, under: sheet.mass.basis, share: 15 },
    {
      name: 'At the hook',
      words: t.hook,
      under: 'load that the rating counts, of what the plan may use',
      share: 17,
      ...red((sheet.use ?? 0) > 1),
    },
    { name: 'Wind', words: t.wind, under: "or the machine's own limit, if lower", share: 14 },
    { name: 'Checks', words: sheet.summary, under: sheet.governing, share: 16, ...red(sheet.verdict === 'fail') },
    { name: 'Revision', words: t.revision, under: `${t.content} · ${t.signed}`, share: 15 },
    { name: 'Sheet', words: `${page} of ${pages} · A3`, under: t.notice, share: 13 },
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
      text([x, room.top + 8], shortened(field.words, 3.2, width - 3, 700), {
        size: 3.2,
        weight: 700,
        ink: field.ink ?? 'ink',
      }),
      ...wrapText(field.under, { size: SMALL, weight: 400, tabular: false }, width - 3)
        .slice(0, 2)
        .map((words, k) => text([x, room.top + 11.1 + k * 2.6], words, { size: SMALL, ink: 'quiet' })),
    ]
  })
}

/** Words cut to a width with an ellipsis; the whole stands on the next page. */
export function shortened(words: string, size: number, width: number, weight: 400 | 700 = 400): string {
  const face = { size, weight, tabular: false }
  if (textWidth(words, face) <= width) return words
  let kept = words
  while (kept.length > 0 && textWidth(`${kept.trimEnd()}…`, face) > width) kept = kept.slice(0, -1)
  return `${kept.trimEnd()}…`
}
