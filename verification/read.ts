import { parseDocument } from 'yaml'
import { z } from 'zod'
import type { Problem } from '../engine/src/working/problem.ts'
import { foundText } from '../engine/src/working/problem.ts'
import type { Case } from './types.ts'
import { readWritten } from './value.ts'

const limit = z.union([z.number().min(0), z.string()]).refine((v) => readWritten(v) !== undefined, {
  message: 'a number, or a number with a known unit',
})
const tolerance = z.strictObject({ relative: limit.optional(), absolute: limit.optional() })
const values = z.record(z.string(), z.unknown())
const hasSomething = (record: Readonly<Record<string, unknown>> | undefined): boolean =>
  Object.keys(record ?? {}).length > 0

const caseShape = z
  .strictObject({
    id: z.string().min(1),
    title: z.string().optional(),
    source: z.strictObject({
      title: z.string().min(1),
      edition: z.union([z.string(), z.number()]).transform(String).optional(),
      place: z.union([z.string(), z.number()]).transform(String),
    }),
    basis: z.enum(['read', 'memory', 'derived', 'common practice']),
    function: z.string().min(1),
    inputs: values,
    expected: values.optional(),
    notExpected: values.optional(),
    tolerance: tolerance.extend({ of: z.record(z.string(), tolerance).optional() }).optional(),
    note: z.string().optional(),
  })
  .refine((c) => hasSomething(c.expected) || hasSomething(c.notExpected), { message: 'something that is expected' })

const fileShape = z.looseObject({ cases: z.array(z.unknown()).min(1) })

/** Cases of a file, and everything that keeps others of it from being run. */
export interface CasesRead {
  cases: readonly Case[]
  problems: readonly Problem[]
}

/** Reads a case file's text. One broken case does not hide the others. */
export function readCases(text: string): CasesRead {
  const document = parseDocument(text, { uniqueKeys: true })
  const [fault] = document.errors
  if (fault !== undefined)
    return { cases: [], problems: [problem('', fault.message.split('\n', 1)[0] as string, 'YAML')] }
  const file = fileShape.safeParse(document.toJS({ maxAliasCount: 100 }))
  if (!file.success) return { cases: [], problems: problemsOf(file.error, '', document.toJS()) }
  const read = file.data.cases.map((raw, i) => ({ raw, pointer: `/cases/${i}`, result: caseShape.safeParse(raw) }))
  const cases = read.flatMap(({ result }) => (result.success ? [result.data as Case] : []))
  const broken = read.flatMap(({ raw, pointer, result }) =>
    result.success ? [] : problemsOf(result.error, pointer, raw),
  )
  return { cases, problems: [...broken, ...repeated(cases)] }
}

const problem = (pointer: string, found: string, expected: string): Problem => ({ pointer, found, expected })

function repeated(cases: readonly Case[]): Problem[] {
  const ids = cases.map((c) => c.id)
  return [...new Set(ids.filter((id, i) => ids.indexOf(id) !== i))].map((id) =>
    problem('/cases', `"${id}" more than once`, 'each id once in a file'),
  )
}

function problemsOf(error: z.ZodError, base: string, raw: unknown): Problem[] {
  return error.issues.map((issue) => {
    const value = issue.path.reduce<unknown>((at, key) => (at as Record<PropertyKey, unknown> | undefined)?.[key], raw)
    const names = issue.code === 'unrecognized_keys' ? issue.keys.join(', ') : foundText(value)
    const expected = issue.code === 'unrecognized_keys' ? 'only the fields of a case' : issue.message
    return problem([base, ...issue.path.map((key) => `/${String(key)}`)].join(''), names, expected)
  })
}
