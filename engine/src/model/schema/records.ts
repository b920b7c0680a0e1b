import { z } from 'zod'
import { attached } from './attached.ts'
import { date, digest, duration, expectation, id, moment, name, note, speed, temperature, timeOfDay } from './field.ts'
import { activityId } from './programme.ts'

const act = z.strictObject({ by: name, on: date })

/** Something that somebody is to do by a day. */
const action = z.strictObject({
  what: z.string().min(1),
  /** The role that answers for it. */
  owner: name,
  due: date,
  done: act.optional(),
})

/** What one shift leaves on record, written when it ends. */
export const diaryEntry = z.strictObject({
  on: date,
  /** From and to, clock time; one that ends before it starts runs past midnight. */
  shift: z.tuple([timeOfDay, timeOfDay]).refine(([from, to]) => from !== to, {
    error: () => expectation('a shift that ends at another time than it starts', '["06:00", "15:00"]'),
  }),
  /** Who writes it, by role. */
  by: name,
  /** What was done, and on which activity, typed or derived. */
  done: z.array(z.strictObject({ activity: activityId, what: z.string().min(1) })).default([]),
  /** Time lost, with its cause. */
  lost: z
    .array(
      z.strictObject({
        time: duration('time lost in the shift'),
        cause: z.string().min(1),
        activity: activityId.optional(),
      }),
    )
    .default([]),
  /** Heads, by crew or trade. */
  people: z.record(name, z.int().min(0)).default({}),
  plant: z
    .array(z.strictObject({ what: name, state: z.enum(['worked', 'stood by', 'broken down']), note }))
    .default([]),
  weather: z
    .strictObject({
      words: z.string().optional(),
      gust: speed('highest gust read in the shift').optional(),
      lowest: temperature('lowest in the shift').optional(),
      highest: temperature('highest in the shift').optional(),
    })
    .optional(),
  actions: z.array(action).default([]),
  note,
})

/** Something found that is not as it should be: on what, who saw it, and what may not go on before it is closed. */
export const punchItem = z.strictObject({
  what: name,
  parts: z.array(id).default([]),
  services: z.array(id).default([]),
  /** Tests that it holds: none of their readings after it was found counts before it is closed. */
  tests: z.array(id).default([]),
  found: act,
  blocks: z.enum(['energising', 'restart', 'nothing']),
  owner: name.optional(),
  due: date.optional(),
  closed: act.extend({ evidence: z.string().optional() }).optional(),
  attachments: attached,
  note,
})

/** A step of a lift's sheet that was done on the day. Its words are those that were read then: the sheet may have changed since. */
export const liftLogEntry = z.strictObject({
  lift: id,
  /** Its number on the sheet that was read. */
  step: z.int().min(1),
  what: z.string().min(1).max(2000),
  by: name,
  on: moment,
  note,
})

/** A campaign book that went out. Its id is the letter of the issue. */
export const issuedBook = z.strictObject({
  /** The day that stands on its sheets. */
  on: date,
  by: name,
  /** Revision of the project that it shows. */
  revision: z.int().min(1),
  /** SHA-256 of the project at that revision, of its canonical text: says whether a log still holds what went out. */
  content: digest,
  /** What it was compared with, such as "issue A"; absent for a first issue. */
  since: name.optional(),
  sheets: z.int().min(1),
  /** SHA-256 of the file that went out. */
  file: digest,
  note,
})
