import { isForbidden } from '../working/plain.ts'
import type { Problem } from '../working/problem.ts'

/** Characters of a file, in all. */
export const LONGEST_TEXT = 32 * 1024 * 1024
/** Faults of one text that are listed; the rest are counted. */
const MOST_LISTED = 100

/** Line and column, from 1, of a place in a text. */
export function placeOf(text: string, offset: number): string {
  let line = 1
  let start = 0
  for (let next = text.indexOf('\n'); next >= 0 && next < offset; next = text.indexOf('\n', start)) {
    line++
    start = next + 1
  }
  return `line ${line}, column ${offset - start + 1}`
}

/** A fault in the text itself: no pointer yet, so the place is told by line and column. */
export const textProblem = (text: string, offset: number, found: string, expected: string): Problem => ({
  pointer: '',
  found: `${found} at ${placeOf(text, offset)}`,
  expected,
})

/** What is wrong with a name in an object, if anything is. */
export function nameFault(name: string, taken: boolean): { found: string; expected: string } | undefined {
  const shown = JSON.stringify(name.length > 60 ? `${name.slice(0, 60)}…` : name)
  if (isForbidden(name)) return { found: `the name ${shown}`, expected: 'a name that is not part of an object itself' }
  return taken ? { found: `the name ${shown} a second time`, expected: 'each name once in an object' } : undefined
}

/** Faults of a text as they are met: the first ones placed, the rest counted, for to place each costs a walk. */
export interface Faults {
  listed: Problem[]
  more: number
}

export const noFaults = (): Faults => ({ listed: [], more: 0 })

export function addFault(faults: Faults, text: string, offset: number, found: string, expected: string): void {
  if (faults.listed.length < MOST_LISTED) faults.listed.push(textProblem(text, offset, found, expected))
  else faults.more++
}

/** What to report: the first faults, and how many more there are. */
export const reported = ({ listed, more }: Faults): Problem[] =>
  more === 0 ? listed : [...listed, { pointer: '', found: `${more} faults more`, expected: 'a text without' }]
