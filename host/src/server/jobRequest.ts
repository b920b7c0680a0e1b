import { z } from 'zod'

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
  ],
  'one of "simulate", "order", "plan", "scenarios"',
)
