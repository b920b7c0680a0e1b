import { z } from 'zod'
import { digest, name } from './field.ts'

/** Of one record. */
const MOST = 40

/** Photographs and other files that show what a record says; the bytes lie in the store, or beside the project file. */
export const attached = z
  .array(
    z.strictObject({
      hash: digest.describe('SHA-256 of the bytes of a file in the store'),
      /** What is to be seen on it. */
      caption: name.optional(),
    }),
  )
  .max(MOST)
  .optional()
