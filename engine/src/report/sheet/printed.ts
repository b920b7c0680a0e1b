import { shortNames, withShortNames } from '../paper/shortNames.ts'
import { type LiftSheet, type SheetOptions, sheetOf } from './liftSheet.ts'
import type { SheetSubject } from './subject.ts'

/** The sheet as it is printed: names too long for its tables short, and each of them whole in a list. */
export function printedSheet(subject: SheetSubject, options: SheetOptions): LiftSheet {
  const found = new Set<string>()
  const short = shortNames(subject.stages.model.project)
  const sheet = withShortNames(sheetOf(subject, options), short, (name) => found.add(name))
  return found.size === 0
    ? sheet
    : { ...sheet, inFull: [...found].map((name) => ({ name, short: short.get(name) as string })) }
}
