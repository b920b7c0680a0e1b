import type { Preview } from './protocol.ts'

/** What is shown before a preview has come: nothing moves. */
export const NO_PREVIEW: Preview = {
  problems: [],
  moved: [],
  gone: [],
  restartBefore: undefined,
  restartAfter: undefined,
  figures: [],
  starts: [],
  read: [],
  results: 0,
  reach: {},
  origin: undefined,
  milliseconds: 0,
}
