import type { Mark, PaperBox } from '../drawing.ts'
import { borderMarks, type Field, roomOf } from '../paper/border.ts'
import { type LiftPaper, LYING } from '../paper/size.ts'
import type { LiftSheet } from './liftSheet.ts'

/** The room for drawings and tables on a paper that lies. */
export const roomOn = (paper: LiftPaper): PaperBox => roomOf(LYING[paper])

/** Border and title block: which lift, what it weighs, what it does to the hook, what stops it, and whether it is signed. */
export const frameMarks = (sheet: LiftSheet, paper: LiftPaper, page: number, pages: number): Mark[] =>
  borderMarks(LYING[paper], fieldsOf(sheet, `${page} of ${pages} · ${paper}`))

function fieldsOf(sheet: LiftSheet, page: string): Field[] {
  const { titleBlock: t } = sheet
  const red = (fails: boolean): Pick<Field, 'ink'> => (fails ? { ink: 'fail' } : {})
  return [
    {
      name: `Lift · ${sheet.project}`,
      words: sheet.title,
      under: `${sheet.id} · ${sheet.system}, ${sheet.hook} · ${sheet.critical}`,
      share: 23,
    },
    { name: 'Mass of the piece', words: t.mass, under: sheet.mass.basis, share: 14 },
    {
      name: `At the hook ${sheet.refs.hook}`,
      words: t.hook,
      under: 'load that the rating counts, of what the plan may use',
      share: 19,
      ...red((sheet.use ?? 0) > 1),
    },
    {
      name: `Wind, stop above ${sheet.refs.wind}`,
      words: t.wind,
      under: "or the machine's own limit, if lower",
      share: 13,
    },
    { name: 'Checks', words: sheet.summary, under: sheet.governing, share: 20, ...red(sheet.verdict === 'fail') },
    { name: 'Revision', words: t.revision, under: `${t.content} · ${t.signed}`, share: 18 },
    { name: 'Sheet', words: page, under: t.notice, share: 13 },
  ]
}
