import { z } from 'zod'
import type { Problem } from '../../working/problem.ts'
import { faultsOf } from '../issue.ts'
import { isMoment } from '../moment.ts'
import { date, expectation } from '../schema/field.ts'
import { tickPlace } from './tickPlace.ts'

/** What every file of ticks says first. */
export const TICKS_FORM = 'shieldwright on-site ticks'
const MOST_TICKS = 20_000
const MOST_TOLD = 20

const line = (most: number) =>
  z
    .string()
    .max(most)
    // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is refused
    .regex(/^[^\u0000-\u001f\u007f\u202a-\u202e\u2066-\u2069]*$/, {
      error: () => expectation('one line of plain text'),
    })

/** Who ticked: it is printed and shown wherever names are. */
const person = line(200).refine((name) => name.trim() !== '' && !/[<>]/.test(name), {
  error: () => expectation('the name of who ticked, without < and >', 'A. Fitter'),
})

const withOffset = z.string().refine((text) => isMoment(text) && /T.*(Z|[+-]\d{2}:\d{2})$/.test(text), {
  error: () => expectation('a time with its offset from UTC (ISO 8601)', '2032-10-19T07:41+02:00'),
})

const tick = z.strictObject({
  at: z.string().refine((at) => tickPlace(at) !== undefined, {
    error: () => expectation('the address of a line of an on-site file', '/services/W-MM01I/parted'),
  }),
  says: line(2000),
  by: person,
  on: withOffset,
})

const ticksFile = z.strictObject({
  form: z.literal(TICKS_FORM, { error: () => expectation(`"${TICKS_FORM}"`) }),
  version: z.literal(1, { error: () => expectation('1, the version that this program reads') }),
  project: z.string().max(200),
  revision: line(40).optional(),
  content: z.string().regex(/^[0-9a-f]{64}$/, { error: () => expectation('a SHA-256, hexadecimal') }),
  scope: line(4000),
  issued: date,
  exported: withOffset,
  ticks: z.array(tick).max(MOST_TICKS),
})

/** What an on-site file gives out. */
export type TicksFile = z.output<typeof ticksFile>
export type Tick = TicksFile['ticks'][number]

/** Plain data as a file of ticks of this project, or what is wrong with it. A file is taken whole or not at all. */
export function readTicks(raw: unknown, project: string): { file: TicksFile } | { problems: readonly Problem[] } {
  const read = ticksFile.safeParse(raw)
  if (!read.success)
    return {
      problems: faultsOf(read.error.issues.slice(0, MOST_TOLD), { schema: ticksFile, raw, base: '' }).map(
        (f) => f.problem,
      ),
    }
  const { data } = read
  if (data.project !== project)
    return {
      problems: [
        {
          pointer: '/project',
          found: `ticks of "${data.project.slice(0, 80)}"`,
          expected: `ticks of this project, "${project}"; where it was renamed since, write its new name there`,
        },
      ],
    }
  const seen = new Set<string>()
  const twice = data.ticks.findIndex(({ at }) => seen.has(at) || !seen.add(at))
  if (twice >= 0)
    return {
      problems: [
        { pointer: `/ticks/${twice}/at`, found: `"${data.ticks[twice]?.at}" again`, expected: 'each line once' },
      ],
    }
  return { file: data }
}
