import { dateText } from '../civil.ts'
import type { SheetOptions } from '../sheet/liftSheet.ts'

const HASH_SHOWN = 12

/** What a title block says of the issue: revision with its date, and the content under it. */
export const issuedWords = ({ revision, date, contentHash }: SheetOptions): { words: string; under: string } => ({
  words: [
    revision === undefined ? 'not issued' : `revision ${revision}`,
    ...(date === undefined ? [] : [dateText(date)]),
  ].join(', '),
  under: contentHash === undefined ? 'content not fixed' : `content ${contentHash.slice(0, HASH_SHOWN)}`,
})
