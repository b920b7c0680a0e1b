import { z } from 'zod'

/** An answer: JSON of a form, or media types of bytes. */
export type Answer = z.ZodType | { types: readonly string[] }

/** One request that the API answers: what it does, what it takes, what comes back. */
export interface Operation {
  method: 'get' | 'post' | 'delete'
  /** As OpenAPI writes it, from the server's root. */
  path: string
  does: string
  /** Each name in braces in the path. */
  params?: Readonly<Record<string, z.ZodType>>
  query?: Readonly<Record<string, z.ZodType>>
  /** JSON of a form, or bytes of a type; fields of a web form have one too. */
  body?: z.ZodType | { type: string; form?: z.ZodType }
  /** By status; those that any request may get stand in `COMMON`. */
  answers: Readonly<Record<number, Answer>>
}

/** What was found wrong: where, what was found, what is due. */
export const problemsForm = z.looseObject({
  problems: z.array(
    z.looseObject({
      pointer: z.string(),
      found: z.string(),
      expected: z.string(),
      example: z.string().optional(),
    }),
  ),
})

/** Answers of every operation: beyond these and its own there is none. */
export const COMMON: Operation['answers'] = {
  400: problemsForm,
  401: problemsForm,
  403: problemsForm,
  404: problemsForm,
  413: problemsForm,
  429: problemsForm,
  503: problemsForm,
  507: problemsForm,
}

/** The JSON form of an answer, undefined for bytes. */
export const formOf = (answer: Answer): z.ZodType | undefined => (answer instanceof z.ZodType ? answer : undefined)
