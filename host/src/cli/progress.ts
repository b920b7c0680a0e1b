import { Presets, SingleBar } from 'cli-progress'
import type { JobOutcome, Progress, Running } from '../jobs/job.ts'

/**
 * Runs a job with a bar on standard error; Ctrl-C cancels it.
 *
 * @param what the work, in a word or two
 * @param start begins the job, with the bar's own listener for its progress
 * @returns its outcome; after Ctrl-C, that it was cancelled
 */
export async function watched<R>(
  what: string,
  start: (progress: (at: Progress) => void) => Running<R>,
): Promise<JobOutcome<R>> {
  const bar = barOf(what)
  const job = start(bar.show)
  const release = onInterrupt(what, job.cancel)
  try {
    return await job.outcome
  } finally {
    release()
    bar.stop()
  }
}

/** Does something with each item in turn, with a bar on standard error; false when Ctrl-C ended it between two of them. */
export async function eachWatched<T>(
  what: string,
  items: readonly T[],
  act: (item: T) => Promise<void>,
): Promise<boolean> {
  const bar = barOf(what)
  let goesOn = true
  const release = onInterrupt(what, () => {
    goesOn = false
  })
  for (const [done, item] of items.entries()) {
    bar.show({ done, of: items.length })
    await breath()
    if (!goesOn) break
    await act(item)
  }
  release()
  bar.stop()
  return goesOn
}

/** Lets signals in between two pieces of work. */
const breath = (): Promise<void> => new Promise((resolve) => setImmediate(resolve))

function barOf(what: string): { show: (at: Progress) => void; stop: () => void } {
  const format = `${what} [{bar}] {percentage} %  {eta_formatted} left`
  const bar = new SingleBar({ format, stream: process.stderr }, Presets.legacy)
  let isShown = false
  return {
    show: ({ done, of }) => {
      if (isShown) bar.update(done)
      else bar.start(of, done)
      isShown = true
    },
    stop: () => {
      if (isShown) bar.stop()
    },
  }
}

/** Says that the work is being cancelled, once; the way back takes the listener off. */
function onInterrupt(what: string, cancel: () => void): () => void {
  const told = (): void => {
    process.stderr.write(`\ncancelling: ${what}\n`)
    cancel()
  }
  process.once('SIGINT', told)
  return () => void process.off('SIGINT', told)
}
