import { z } from 'zod'
import { angle, level, name, note, point, quantity } from './field.ts'

/** What can be left out of a picture in three dimensions. */
const layer = z.enum(['ground', 'water', 'shaft', 'machine', 'services', 'lifting', 'bays', 'obstructions'])

/** A picture in three dimensions that somebody wants to come back to: from where, and what it shows. No result hangs from it. */
export const savedView = z.strictObject({
  name,
  target: point('what is looked at, site frame'),
  around: angle('where the eye is about the target, from site x towards y'),
  up: angle('where the eye is over the horizon'),
  distance: quantity('m', 'from the target to the eye', { above: 0 }),
  /** As a drawing, without what is far being smaller. */
  parallel: z.boolean().default(false),
  hidden: z.array(layer).default([]),
  /** What stands before the selection is seen through; all but it is. */
  through: z.boolean().default(false),
  ghost: z.boolean().default(false),
  section: z
    .strictObject({
      axis: z.enum(['x', 'y', 'z']),
      at: level('place of the section'),
      flipped: z.boolean().default(false),
    })
    .optional(),
  /** Address of what is selected. */
  selected: z.string().max(400).optional(),
  /** Place along the order, in steps. */
  along: z.number().min(0).optional(),
  note,
})
