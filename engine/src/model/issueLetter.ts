/** Issues of a document are called by letters, A to Z and then AA to ZZ. */
export const isIssueLetter = (text: string): boolean => /^[A-Z]{1,2}$/.test(text)

/** The last of the letters that have gone out; undefined where none has. */
export const lastLetter = (letters: readonly string[]): string | undefined =>
  letters
    .filter(isIssueLetter)
    .sort((a, b) => numberOf(a) - numberOf(b))
    .at(-1)

/** The letter of the next issue: A after none, AA after Z. Undefined after ZZ. */
export function letterAfter(last: string | undefined): string | undefined {
  const number = last === undefined ? 0 : numberOf(last) + 1
  if (number < COUNT) return letterOf(number)
  const [tens, ones] = [Math.floor(number / COUNT) - 1, number % COUNT]
  return tens < COUNT ? letterOf(tens) + letterOf(ones) : undefined
}

const COUNT = 26
const CODE_A = 65

const letterOf = (number: number): string => String.fromCharCode(CODE_A + number)

/** A is 0, Z 25, AA 26. */
const numberOf = (letters: string): number =>
  [...letters].reduce((sum, letter) => (sum + 1) * COUNT + letter.charCodeAt(0) - CODE_A, -1)
