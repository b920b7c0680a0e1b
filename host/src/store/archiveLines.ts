import { brokenText } from '@shieldwright/engine/working/plain.ts'
import { foundText, type Problem } from '@shieldwright/engine/working/problem.ts'
import { z } from 'zod'

/** Files of an archive by their names. */
export type Files = ReadonlyMap<string, Uint8Array>

/** A line of a table's file, with its number for messages. */
export interface Line<T> {
  line: number
  row: T
}

const text = z.string().refine((words) => !words.includes('\0'), 'a text without the character NUL')
const number = z
  .int()
  .min(0)
  .max(2 ** 31 - 1)
const hash = z.string().regex(/^[0-9a-f]{64}$/, 'a SHA-256, 64 small letters and digits')
const json = text.refine((words) => jsonIn(words) !== undefined, 'a text of JSON')
const said = { at: text, by: text, why: text }

/** What a line of each table is: the columns of its row, and of a change its patch as a list. */
const forms = {
  change: z.strictObject({ revision: number, ...said, patch: z.array(z.unknown()) }),
  baseline: z.strictObject({ name: text, revision: number, ...said }),
  attachment: z.strictObject({ hash, name: text, type: text, size: number, at: text, by: text }),
  audit: z.strictObject({ id: text, at: text, by: text, what: text, about: text }),
  signature: z.strictObject({
    ...{ id: text, kind: text, subject: text, role: text, revision: number, at: text, by: text, statement: text },
    ...{ basis: json, figures: json, document: z.union([hash, z.literal('')]), withdraws: text },
  }),
}

const EXAMPLES: Readonly<Record<Table, string>> = {
  change:
    '{"at":"2031-11-03T07:00:00Z","by":"planner","patch":[{"op":"add","path":"/about","value":{}}],"revision":1,"why":""}',
  baseline: '{"at":"2031-11-03T07:00:00Z","by":"planner","name":"tender","revision":1,"why":""}',
  attachment:
    '{"at":"2031-11-03T07:00:00Z","by":"planner","hash":"(64 digits)","name":"photo.jpg","size":9,"type":"image/jpeg"}',
  audit: '{"about":"from 127.0.0.1","at":"2031-11-03T07:00:00Z","by":"planner","id":"a1","what":"signed in"}',
  signature: '{"at":"2031-11-03T07:00:00Z","basis":"{}","by":"engineer","document":"","figures":"{}","id":"s1", …}',
}

type Forms = typeof forms
export type Table = keyof Forms
export type Row<T extends Table> = z.infer<Forms[T]>

/** Faults that are told of one table at most: who has mended so many tries again. */
const MOST_TOLD = 20

/** The rows of a table's file, and every line that is none, up to so many. */
export function linesOf<T extends Table>(files: Files, table: T): { lines: Line<Row<T>>[]; problems: Problem[] } {
  const name = `${table}.jsonl`
  const bytes = files.get(name)
  const due = { expected: `lines of ${table}, one JSON object each`, example: EXAMPLES[table] }
  if (bytes === undefined) return { lines: [], problems: [{ pointer: name, found: 'nothing', ...due }] }
  const words = utf8(bytes)
  if (words === undefined) return { lines: [], problems: [{ pointer: name, found: 'bytes that are no UTF-8', ...due }] }
  const lines: Line<Row<T>>[] = []
  const problems: Problem[] = []
  for (const [i, written] of words.split('\n').entries()) {
    if (written === '' || problems.length >= MOST_TOLD) continue
    const read = rowIn(table, written)
    if ('row' in read) lines.push({ line: i + 1, row: read.row })
    else problems.push({ ...due, ...read, pointer: `${name}, line ${i + 1}${read.pointer}` })
  }
  return { lines, problems }
}

function rowIn<T extends Table>(table: T, written: string): { row: Row<T> } | Pick<Problem, 'pointer' | 'found'> {
  const raw = jsonIn(written)
  if (raw === undefined) return { pointer: '', found: `no JSON: ${foundText(written)}` }
  const read = forms[table].safeParse(raw)
  if (!read.success) {
    const [issue] = read.error.issues
    const at = (issue?.path ?? []).reduce<unknown>((v, key) => (v as Record<PropertyKey, unknown>)?.[key], raw)
    const pointer = (issue?.path ?? []).map((key) => `/${String(key)}`).join('')
    return { pointer, found: `${foundText(at)}: ${issue?.message}` }
  }
  const broken = brokenText(raw)
  if (broken !== undefined) return broken
  return { row: read.data as Row<T> }
}

/** The value of a JSON text; undefined when it is none. */
export function jsonIn(words: string | undefined): unknown {
  try {
    return words === undefined ? undefined : JSON.parse(words)
  } catch {
    return undefined
  }
}

/** Bytes as text; undefined when they are none. */
export function utf8(bytes: Uint8Array | undefined): string | undefined {
  try {
    return bytes && new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    return undefined
  }
}

/** A line whose key an earlier one has. */
export function twiceNamed<T>(file: string, lines: readonly Line<T>[], keyOf: (row: T) => string): Problem[] {
  const first = new Map<string, number>()
  return lines.flatMap(({ line, row }) => {
    const earlier = first.get(keyOf(row))
    if (earlier === undefined) first.set(keyOf(row), line)
    if (earlier === undefined) return []
    const found = `${foundText(keyOf(row))}, which line ${earlier} has`
    return [{ pointer: `${file}, line ${line}`, found, expected: 'each once' }]
  })
}
