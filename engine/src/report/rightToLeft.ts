import { JOINING_FORMS, LAM_ALEF } from './fontMetrics.ts'

const RIGHT_TO_LEFT = /[\p{Script=Hebrew}\p{Script=Arabic}]/u
const ARABIC = /\p{Script=Arabic}/u
const LAM = '\u0644'
/** Lengthening stroke and joiner: what joins on both sides and has one form. */
const JOINERS = '\u0640\u200d'

/** Whether some of a text is written from right to left. */
export const isRightToLeft = (text: string): boolean => RIGHT_TO_LEFT.test(text)

/** A figure with the unit or word after it, as far as the word's beginning. */
const FIGURE = /[−±+-]?\d+(?:[.,\u202f]\d+)*[ \u00a0\u202f]?(?=[A-Za-z°%])/g
/** Marks of direction, left to right and right to left: nothing is seen of them. */
const MARK = '\u200e'
const BACK_MARK = '\u200f'

/** Words that were cut, with an ellipsis where the rest of them would go on: on the left of a word that runs from right to left. */
export const endedShort = (words: string): string => `${words}…${isRightToLeft(words.slice(-1)) ? BACK_MARK : ''}`

/**
 * A text in which a figure after a name that runs from right to left stays beside its own unit. By the rules of Unicode it
 * would stand before that name, and its unit behind it; a mark that is not seen keeps it to what follows.
 */
export const figuresKept = (text: string): string =>
  isRightToLeft(text) ? text.replace(FIGURE, (figure) => MARK + figure) : text

interface Forms {
  final: string | undefined
  initial: string | undefined
  medial: string | undefined
}

const letterOf = (code: string | undefined): string | undefined =>
  code === undefined || code === '-' ? undefined : String.fromCodePoint(Number.parseInt(code, 16))

const forms: ReadonlyMap<string, Forms> = new Map(
  JOINING_FORMS.map((row) => {
    const [letter, final, initial, medial] = row.split(' ').map(letterOf)
    return [letter as string, { final, initial, medial }]
  }),
)

/** Of lam with each alef: the isolated and the final form of the two as one. */
const lamAlef: ReadonlyMap<string, { alone: string; final: string }> = new Map(
  LAM_ALEF.map((row) => {
    const [alef, alone, final] = row.split(' ').map(letterOf) as [string, string, string]
    return [alef, { alone, final }]
  }),
)

const joinsBack = (letter = ''): boolean =>
  letter !== '' && (forms.get(letter)?.final !== undefined || JOINERS.includes(letter))
const joinsOn = (letter = ''): boolean =>
  letter !== '' && (forms.get(letter)?.initial !== undefined || JOINERS.includes(letter))

/**
 * A text with its Arabic letters in the forms that they have beside their neighbours, in the order in which they are read;
 * lam with alef is one. Any other text is as it was.
 *
 * Source: the presentation forms of the Unicode Character Database; which letters join, by which forms they have there.
 */
export function joined(text: string): string {
  if (!ARABIC.test(text)) return text
  const letters = [...text]
  return letters
    .map((letter, i) => {
      const before = letters[i - 1]
      const isAfter = joinsOn(before) && joinsBack(letter)
      if (before === LAM && lamAlef.has(letter)) return ''
      const pair = letter === LAM ? lamAlef.get(letters[i + 1] ?? '') : undefined
      if (pair !== undefined) return isAfter ? pair.final : pair.alone
      return formOf(letter, isAfter, joinsOn(letter) && joinsBack(letters[i + 1]))
    })
    .join('')
}

function formOf(letter: string, isAfter: boolean, isBefore: boolean): string {
  const own = forms.get(letter)
  const form = isAfter && isBefore ? own?.medial : isAfter ? own?.final : isBefore ? own?.initial : undefined
  return form ?? letter
}
