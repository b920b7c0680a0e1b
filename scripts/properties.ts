import fc from 'fast-check'

/**
 * Properties are tried on the same inputs at every run, so that a failure is the change's and not the day's.
 * `PROPERTY_SEED=N npm test` tries others; a property must hold for every N.
 */
const stated = process.env.PROPERTY_SEED
const seed = Number(stated ?? 1)
if (!Number.isSafeInteger(seed))
  throw new Error(`PROPERTY_SEED is "${stated}"; a whole number is due, e.g. PROPERTY_SEED=7`)
fc.configureGlobal({ seed })
