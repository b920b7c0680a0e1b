import { isRightToLeft, joined } from '@shieldwright/engine/report/rightToLeft.ts'
import bidiFactory from 'bidi-js'

const bidi = bidiFactory()

/** The first letter that belongs to one script. */
const OF_A_SCRIPT = /[^\p{Script=Common}\p{Script=Inherited}\p{Script=Unknown}]/u

/**
 * A line of text in stretches from left to right as they are seen: the order is that of the Unicode bidirectional algorithm in
 * a line that runs from left to right. The letters of each stretch stand as the paper writer wants them: it turns a stretch
 * round whose first letter is of a script that runs from right to left, and no other.
 */
export function visualRuns(text: string): string[] {
  if (!isRightToLeft(text)) return [text]
  const shaped = joined(text)
  const levels = bidi.getEmbeddingLevels(shaped, 'ltr')
  const mirrored = bidi.getMirroredCharactersMap(shaped, levels.levels)
  const seen = bidi.getReorderedIndices(shaped, levels)
  const stretches: { letters: string[]; level: number }[] = []
  for (const index of seen) {
    const level = levels.levels[index] as number
    const letter = mirrored.get(index) ?? (shaped[index] as string)
    const last = stretches.at(-1)
    if (last?.level === level) last.letters.push(letter)
    else stretches.push({ letters: [letter], level })
  }
  return stretches.map(({ letters }) => asWritten(letters))
}

function asWritten(letters: readonly string[]): string {
  const first = letters.find((letter) => OF_A_SCRIPT.test(letter))
  return first !== undefined && isRightToLeft(first) ? letters.toReversed().join('') : letters.join('')
}
