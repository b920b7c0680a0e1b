import { z } from 'zod'
import { attached } from './attached.ts'
import { collection, date, duration, id, moment, name, note, quantity, share, temperature } from './field.ts'
import { testLimit, testReading } from './programme.ts'

const act = z.strictObject({ by: name, on: date })

/** Something measured on an opened part or a weld: what is accepted, where that stands, and what was read. */
const measure = z.strictObject({
  what: name,
  unit: z.string().max(40).optional(),
  /** The value that is accepted; absent, whatever is read stays open. */
  limit: testLimit.optional(),
  /** Where the limit stands: a drawing, the maker's instruction, a standard. */
  from: z.string().max(200).optional(),
  readings: collection(testReading),
})

/** A part that was opened and looked at: bearing, seals, gears and the like, with what is accepted and what was decided. */
export const inspection = z.strictObject({
  what: name,
  kind: z.enum(['bearing', 'seals', 'gears', 'structure', 'other']),
  parts: z.array(id).default([]),
  opened: act.optional(),
  measures: collection(measure),
  /** What becomes of it. Readings up to the day of a rework or a replacement are of what was there before. */
  decided: act
    .extend({ as: z.enum(['reused', 'reworked', 'replaced']), reason: z.string().max(500).optional() })
    .optional(),
  attachments: attached,
  note,
})

/** Examination of a weld without destroying it. The latest by a method stands for the earlier. */
const weldTest = z.strictObject({
  method: z.enum(['VT', 'PT', 'MT', 'UT', 'RT']),
  /** Quality level that it is held against, such as B of ISO 5817. */
  level: name.optional(),
  /** Shares of the length: asked for, and done. */
  asked: share('share of the length that is to be tested'),
  done: share('share of the length that was tested').optional(),
  on: moment.optional(),
  by: name.optional(),
  qualification: name.optional(),
  result: z.enum(['accepted', 'rejected']).optional(),
  indications: z.string().max(500).optional(),
})

/** A weld that is laid: a joint closed again, a repair, a stiffener; with all that has to be known to accept it. */
export const weld = z.strictObject({
  what: name,
  /** The joint that it closes. */
  joint: id.optional(),
  parts: z.array(id).default([]),
  /** The change that it belongs to. */
  change: id.optional(),
  /** Laid for the first time, or again over what was gouged out. */
  state: z.enum(['new', 'repaired']).default('new'),
  /** Welding procedure, and the record that qualifies it. */
  procedure: z.strictObject({ id: name, qualifiedBy: name.optional() }).optional(),
  welders: collection(z.strictObject({ mark: name, qualification: name.optional(), until: date.optional() })),
  /** What the procedure asks for, and the lowest that was read. */
  preheat: z
    .strictObject({
      atLeast: temperature('least preheat'),
      lowest: temperature('lowest read before a pass').optional(),
    })
    .optional(),
  /** Between passes. */
  interpass: z
    .strictObject({
      atMost: temperature('hottest between passes'),
      highest: temperature('highest read before a pass').optional(),
    })
    .optional(),
  /** When the last pass was laid. */
  finished: moment.optional(),
  /** Between the last pass and any examination but the visual: cracks by hydrogen come late. */
  wait: duration('least wait before it is examined').optional(),
  tests: collection(weldTest),
  measures: collection(measure),
  attachments: attached,
  note,
})

/** Bolts of a joint as they were tightened. */
export const boltRecord = z.strictObject({
  joint: id,
  by: name,
  on: date,
  checkedBy: name.optional(),
  /** Bolts that were tightened. */
  bolts: z.int().min(0),
  lot: name.optional(),
  lubricant: name.optional(),
  tool: z.strictObject({ what: name, calibratedUntil: date.optional() }).optional(),
  /** Preload of single bolts, as measured: by elongation, by a load cell, by a second pull. */
  samples: collection(
    z.strictObject({ bolt: z.int().min(1), preload: quantity('N', 'preload as measured', { least: 0 }) }),
  ),
  /** Every bolt looked at again after it has settled. */
  rechecked: act.optional(),
  attachments: attached,
  note,
})
