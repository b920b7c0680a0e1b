import type { Problem } from '@shieldwright/engine/working/problem.ts'

/** What keeps a store from doing what it was asked, and is neither the asker's fault nor this program's. */
export interface StoreFault {
  problem: Problem
  /** No room is left: what is asked again without more room is refused again. */
  isFull: boolean
}

const NOTHING_KEPT = 'nothing of it was kept'

/** By the beginning of the code: SQLite's names, PostgreSQL's classes (its manual, appendix A, from memory), the system's names. */
const FAULTS: readonly [code: RegExp, found: string, expected: string][] = [
  [/^(SQLITE_FULL|53100|ENOSPC|EDQUOT)/, 'a disk without room', `room on it, then the same again; ${NOTHING_KEPT}`],
  [/^SQLITE_(BUSY|LOCKED)/, 'a file that another program holds', `the same again in a moment; ${NOTHING_KEPT}`],
  [/^SQLITE_READONLY/, 'a file that can only be read', `a file that this user may write to; ${NOTHING_KEPT}`],
  [/^SQLITE_(CORRUPT|NOTADB)/, 'a file that is damaged', 'the latest backup, restored into an empty folder'],
  [/^SQLITE_(IOERR|CANTOPEN)/, 'a disk that does not read or write', 'a disk that does; see the log for what was kept'],
  [
    /^(53|57P|08|ECONN|EPIPE|ETIMEDOUT|ENOTFOUND|EHOSTUNREACH)/,
    'a database that does not answer',
    'the same again once it does',
  ],
]

/** The fault of the store behind an error; undefined where there is none and the error is this program's own. */
export function storeFault(error: unknown): StoreFault | undefined {
  const { code = '' } = (error ?? {}) as { code?: unknown }
  const fault = FAULTS.find(([codes]) => codes.test(String(code)))
  if (fault === undefined) return undefined
  const [, found, expected] = fault
  return { problem: { pointer: 'store', found, expected }, isFull: fault === FAULTS[0] }
}
