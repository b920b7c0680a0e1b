import { z } from 'zod'
import { collection, date, id, name, note, ratio, share } from './field.ts'

const person = z.strictObject({ name, organisation: name })
const act = z.strictObject({ by: name, on: date })

/**
 * A temporary work of the register: cradle, foundation of a tower, platform, mats of a bay. It has a brief, a design, a check by
 * its category, and permits to load and to unload.
 *
 * Source: BS 5975:2019 6.2.3 for what a register holds; BS 5975-1:2024 Table 2 for the categories (excerpts read).
 */
export const temporaryWork = z.strictObject({
  name,
  note,
  /** What rests on it. A lift rests on it that is named, or whose machine or bay is. */
  carries: z
    .strictObject({
      systems: z.array(id).default([]),
      bays: z.array(id).default([]),
      lifts: z.array(id).default([]),
    })
    .prefault({}),
  /** 0 a standard solution; 1 simple; 2 more complex; 3 complex or innovative, deep excavations and tunnels. */
  category: z.int().min(0).max(3).optional(),
  brief: date.optional(),
  required: date.optional(),
  designer: person.optional(),
  checker: person.optional(),
  /** Certificates of design and of its check. */
  designed: act.optional(),
  checked: act.optional(),
  /** May be loaded from this day, once it was seen as built; until the day given, where it ends. */
  permitToLoad: act.extend({ until: date.optional() }).optional(),
  permitToUnload: act.optional(),
  /** Approvals by others that it needs. */
  approvals: collection(z.strictObject({ of: name, given: act.optional() })),
  /** Uses of its governing checks, by the designer and, independently, by the checker. */
  figures: collection(
    z.strictObject({
      what: name,
      designed: ratio("Demand over capacity by the designer's figures"),
      checked: ratio("Demand over capacity by the checker's own figures").optional(),
    }),
  ),
  agreeWithin: share('Difference of the two figures that needs no reason, as a share of the designer’s').optional(),
})
