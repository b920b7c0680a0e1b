import { boxesMeet, type Drawing, textBox, textsOf } from './drawing.ts'

/** Least distance of words from the edge of the paper, mm: the border. */
const BORDER = 10

/**
 * Words of a page that lie on other words, or that leave its frame; none on a sheet that can be read.
 *
 * @param border mm; 0 for a picture that fills its page
 */
export function wordsAstray(page: Drawing, border = BORDER): string[] {
  const boxes = textsOf(page.marks)
    .map((t) => ({ words: t.text, box: textBox(t) }))
    .sort((a, b) => a.box.left - b.box.left)
  const cut = boxes.filter(
    ({ box }) =>
      box.left < border || box.top < border || box.right > page.width - border || box.bottom > page.height - border,
  )
  const meeting = boxes.flatMap((a, i) => {
    const met: string[] = []
    for (let k = i + 1; k < boxes.length; k++) {
      const b = boxes[k] as (typeof boxes)[number]
      if (b.box.left > a.box.right) break
      if (boxesMeet(a.box, b.box)) met.push(`${a.words} | ${b.words}`)
    }
    return met
  })
  return [...cut.map(({ words }) => `cut: ${words}`), ...meeting]
}
