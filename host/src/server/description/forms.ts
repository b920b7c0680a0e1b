import { z } from 'zod'
import { problemsForm } from './operation.ts'

/** Number of a change in the log. */
export const revision = z.int().min(0)

const moment = z.string().describe('ISO 8601, UTC')
const said = { at: moment, by: z.string(), why: z.string() }
const path = z.string().describe('JSON Pointer (RFC 6901)')

const operationForm = z.union([
  z.object({ op: z.enum(['add', 'replace', 'test']), path, value: z.unknown() }),
  z.object({ op: z.literal('remove'), path }),
  z.object({ op: z.enum(['move', 'copy']), path, from: path }),
])
const patchForm = z.array(operationForm).max(5000).describe('JSON Patch (RFC 6902)')

export const patchBody = z.object({ patch: patchForm })
export const changeBody = z.object({ patch: patchForm, revision, why: z.string().max(500).optional() })

const entryForm = z.looseObject({ revision, ...said })

export const behindForm = z.object({
  revision,
  changed: z.array(entryForm).describe('What others changed since'),
  problems: problemsForm.shape.problems,
})

export const logForm = z.object({ changes: z.array(entryForm), you: z.string().optional() })

const standingForm = z.looseObject({ counts: z.record(z.string(), z.int()) })
export const whatIfForm = z.looseObject({
  before: standingForm,
  after: standingForm,
  changes: z.array(z.looseObject({})),
})

export const derivedForm = z.looseObject({
  revision,
  problems: z.array(z.unknown()),
  checks: z
    .array(
      z.looseObject({
        id: z.string(),
        stage: z.string(),
        title: z.string(),
        verdict: z.enum(['pass', 'near', 'fail', 'open']),
        demand: z.number().nullable(),
        capacity: z.number().nullable(),
      }),
    )
    .optional(),
})

export const comparedForm = whatIfForm.extend({
  from: revision,
  to: revision,
  patch: z.array(operationForm),
  log: z.array(entryForm),
})

export const baselinesForm = z.object({ baselines: z.array(z.object({ name: z.string(), revision, ...said })) })

export const auditForm = z.object({
  audit: z.array(z.object({ at: moment, by: z.string(), what: z.string(), about: z.string() })),
})

export const takenForm = z.looseObject({
  revision,
  patch: z.array(operationForm),
  taken: z.int(),
  same: z.int(),
  refused: z.array(z.looseObject({})),
})

const tickForm = z.looseObject({ at: z.string(), says: z.string(), by: z.string(), on: z.string() })

export const ticksForm = z.looseObject({
  revision,
  patch: z.array(operationForm),
  taken: z.array(tickForm),
  same: z.array(tickForm),
  listed: z.array(tickForm.extend({ why: z.string(), canBeTaken: z.boolean() })),
  noted: z.array(tickForm),
})

export const jobForm = z.looseObject({
  id: z.string(),
  revision,
  state: z.enum(['waiting', 'running', 'done', 'refused', 'cancelled', 'broken']),
  progress: z.object({ done: z.number(), of: z.number() }).optional(),
})

export const signatureForm = z.looseObject({
  id: z.string(),
  kind: z.string(),
  subject: z.string(),
  revision,
  state: z.enum(['stands', 'overtaken', 'withdrawn']),
})
