import { z } from 'zod'
import { text } from './request.ts'

const MOST_RUNS = 1_000_000
const MOST_EFFORT = 10_000_000
const MOST_SEED = 2 ** 31 - 1

function whole(least: number, most: number) {
  const said = `a whole number from ${least} to ${most}`
  return z.int(said).min(least, said).max(most, said)
}

const runs = whole(2, MOST_RUNS)
const seed = whole(0, MOST_SEED).default(1)
const effort = whole(1, MOST_EFFORT)

/** A revision that is kept, as whoever asks calls it. */
const revision = text(1, 80).describe('A revision, its name, or "now"')

/** What is sent to start a long computation. */
export const jobRequest = z.discriminatedUnion(
  'kind',
  [
    z.object({ kind: z.literal('simulate'), runs: runs.default(10_000), seed, measures: z.boolean().default(false) }),
    z.object({ kind: z.literal('scenarios'), runs: runs.default(2000), seed }),
    z.object({ kind: z.literal('plan'), effort: effort.default(2000), seed }),
    z.object({
      kind: z.literal('order'),
      targets: z.array(z.string('an id of a part'), 'a list of ids of parts').optional(),
      effort: effort.optional(),
    }),
    z.object({
      kind: z.literal('book'),
      of: revision.default('now'),
      since: revision
        .nullable()
        .optional()
        .describe(
          'The letter of an issue, or a revision; the last issue where none is named, nothing where it is null',
        ),
      units: z.enum(['SI', 'US']).default('SI'),
      runs: runs.default(5000),
      seed,
    }),
  ],
  'one of "simulate", "order", "plan", "scenarios", "book"',
)

/** A campaign book asked for: the revisions are still as whoever asks calls them. */
export type BookAsked = Extract<z.infer<typeof jobRequest>, { kind: 'book' }>
