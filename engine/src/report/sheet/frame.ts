import type { Mark } from '../drawing.ts'
import { borderMarks, type Field, roomOf } from '../paper/border.ts'
import type { LiftSheet } from './liftSheet.ts'

/** A3 landscape, mm. */
export const PAGE = { width: 420, height: 297 }

/** The room for drawings and tables. */
export const ROOM = roomOf(PAGE)

/** Border and title block: which lift, what it weighs, what it does to the hook, what stops it, and whether it is signed. */
export const frameMarks = (sheet: LiftSheet, page: number, pages: number): Mark[] =>
  borderMarks(PAGE, fieldsOf(sheet, page, pages))

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
