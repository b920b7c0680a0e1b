import { Presets, SingleBar } from 'cli-progress'
import type { JobOutcome, Running } from '../jobs/job.ts'

/** A job's progress on standard error while it runs; Ctrl-C cancels it and says so. */
export interface Watched {
  progress: (at: { done: number; of: number }) => void
}

/**
 * Runs a job with a bar on standard error.
 *
 * @param what the work, in a word or two
 * @param start begins the job, with the bar's own listener for its progress
 * @returns its outcome; after Ctrl-C, that it was cancelled
 */
export async function watched<R>(
  what: string,
  start: (progress: Watched['progress']) => Running<R>,
): Promise<JobOutcome<R>> {
  const bar = new SingleBar(
    { format: `${what} [{bar}] {percentage} %  {eta_formatted} left`, stream: process.stderr, noTTYOutput: false },
    Presets.legacy,
  )
  let begun = false
  const job = start(({ done, of }) => {
    if (begun) bar.update(done)
    else bar.start(of, done)
    begun = true
  })
  const cancel = (): void => {
    process.stderr.write(`\ncancelling: ${what}\n`)
    job.cancel()
  }
  process.once('SIGINT', cancel)
  try {
    return await job.outcome
  } finally {
    process.off('SIGINT', cancel)
    if (begun) bar.stop()
  }
}
