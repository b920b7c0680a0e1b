import { type Drawing, drawing, type Mark } from '../drawing.ts'
import { borderMarks, type Field } from './border.ts'
import { type HandPaper, upright } from './size.ts'

/**
 * Pages to carry to the work, each in its border and numbered.
 *
 * @param fieldsFor fields of the title block, given which page of how many it is and on what paper
 */
export function handSheets(
  title: string,
  paper: HandPaper,
  pages: readonly (readonly Mark[])[],
  fieldsFor: (page: string) => readonly Field[],
): Drawing[] {
  const size = upright(paper)
  return pages.map((marks, i) => {
    const page = `${i + 1} of ${pages.length}`
    const border = borderMarks(size, fieldsFor(`${page} · ${paper}`))
    return drawing(`${title}, sheet ${page}`, size.width, size.height, [...border, ...marks])
  })
}
