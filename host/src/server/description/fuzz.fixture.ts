import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { blockOnTwoLegs } from '@shieldwright/engine/report/sheet/sheet.fixture.ts'
import fc from 'fast-check'
import type { Hono } from 'hono'
import { smallPlan } from '../../exchange/exchange.fixture.ts'
import type { JobDesk, JobState } from '../../jobs/desk.ts'
import type { Place } from '../../store/place.ts'
import { openStore } from '../../store/store.ts'
import { api } from '../api.ts'
import { gate } from '../gate.ts'
import { liveProject } from '../live.ts'
import { server } from '../server.ts'
import { COMMON, formOf } from './operation.ts'
import { operations } from './operations.ts'

/**
 * Requests made up from what the API says of itself, sent one after the other to a small project.
 *
 * @param place where its store lies; a new SQLite file where none is named
 * @returns how many were answered with each status
 * @throws with the request, where one is answered otherwise than described: a fault of the server never is
 */
export async function fuzzed(runs: number, place?: Place): Promise<Readonly<Record<number, number>>> {
  const document = { ...smallPlan(), ...blockOnTwoLegs() }
  const app = await describedApp(document, place)
  const description = (await (await app.request('/api/openapi.json')).json()) as Description
  const words = [...wordsOf(document), 'plan.pdf', 'block-out.pdf', 'order.svg', 'programme.csv', 'job-1', 'now']
  const answered: Record<number, number> = {}
  const property = fc.asyncProperty(madeUp(description, words), async (request) => {
    const { status, fault } = await answerTo(app, request)
    answered[status] = (answered[status] ?? 0) + 1
    if (fault !== undefined) throw new Error(fault)
  })
  await fc.assert(property, { numRuns: runs })
  return answered
}

/** One request made up from the description, and what it is a request of. */
export interface MadeUp {
  method: string
  path: string
  url: string
  type?: string | undefined
  body?: string | undefined
}

type Schema = Readonly<Record<string, unknown>>

interface Parameter {
  name: string
  in: 'path' | 'query'
  required: boolean
  schema: Schema
}

interface Described {
  parameters: readonly Parameter[]
  requestBody?: { content: Readonly<Record<string, { schema: Schema }>> }
}

/** The document that the fuzz reads: what `/api/openapi.json` answers. */
export interface Description {
  paths: Readonly<Record<string, Readonly<Record<string, Described>>>>
}

/** Texts that have made other programs fall: ways out of a folder, names of machinery, formulas, markup, control characters. */
const HOSTILE = [
  '',
  '..',
  '../../../etc/passwd',
  '..%2f..%2fetc%2fpasswd',
  '\0',
  '__proto__',
  '/__proto__/polluted',
  'constructor',
  '/constructor/prototype',
  "'; drop table change; --",
  '=1+1',
  '<script>alert(1)</script>',
  '\ud800',
  '%',
  '-0',
  '1e999',
  'x'.repeat(3000),
]

/** Requests by an API's own description: most as it asks for them, some with a value of any kind in one place. */
export function madeUp({ paths }: Description, words: readonly string[]): fc.Arbitrary<MadeUp> {
  const text = fc.oneof(
    { weight: 6, arbitrary: fc.constantFrom(...(words.length > 0 ? words : [''])) },
    { weight: 2, arbitrary: fc.constantFrom(...HOSTILE) },
    { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 40 }) },
  )
  const all = Object.entries(paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, described]) => requestOf(method, path, described, text)),
  )
  return fc.oneof(...all)
}

function requestOf(
  method: string,
  path: string,
  described: Described,
  text: fc.Arbitrary<string>,
): fc.Arbitrary<MadeUp> {
  const one = (parameter: Parameter): fc.Arbitrary<readonly [Parameter, string | undefined]> => {
    const value = fc.oneof(
      { weight: 4, arbitrary: valueFor(parameter.schema, text).map(String) },
      { weight: 1, arbitrary: text },
    )
    return (parameter.required ? value : fc.option(value, { nil: undefined })).map((v) => [parameter, v])
  }
  const given = fc.tuple(...described.parameters.map(one))
  return fc.tuple(given, bodyOf(described, text)).map(([parameters, sent]) => {
    const query = new URLSearchParams()
    let url = path
    for (const [{ name, in: where }, value] of parameters) {
      if (value === undefined) continue
      if (where === 'path') url = url.replace(`{${name}}`, encoded(value))
      else query.append(name, value)
    }
    const asked = query.size > 0 ? `${url}?${query}` : url
    return { method: method.toUpperCase(), path, url: asked, ...sent }
  })
}

/** Half of a pair of surrogates cannot stand in an address. */
const encoded = (value: string): string => encodeURIComponent(value.replace(/\p{Surrogate}/gu, '?'))

function bodyOf(
  { requestBody }: Described,
  text: fc.Arbitrary<string>,
): fc.Arbitrary<{ type?: string; body?: string }> {
  const [[type, { schema }] = [undefined, { schema: {} }]] = Object.entries(requestBody?.content ?? {})
  if (type === undefined) return fc.constant({})
  if (type === FORM_TYPE) return valueFor(schema, text).map((fields) => ({ type, body: fieldsText(fields) }))
  if (type !== 'application/json') return text.map((body) => ({ type, body }))
  const json = fc.oneof(
    { weight: 6, arbitrary: valueFor(schema, text) },
    { weight: 3, arbitrary: fc.tuple(valueFor(schema, text), fc.nat(), fc.jsonValue()).map(spoilt) },
    { weight: 1, arbitrary: fc.jsonValue() },
  )
  const broken = text.map((body) => ({ type, body }))
  return fc.oneof(
    { weight: 9, arbitrary: json.map((v) => ({ type, body: JSON.stringify(v) ?? '' })) },
    { weight: 1, arbitrary: broken },
  )
}

const FORM_TYPE = 'application/x-www-form-urlencoded'

const fieldsText = (fields: unknown): string => new URLSearchParams(fields as Record<string, string>).toString()

/** A value with one of its fields replaced. */
function spoilt([value, which, by]: readonly [unknown, number, unknown]): unknown {
  if (typeof value !== 'object' || value === null) return by
  const names = Object.keys(value)
  const name = names[which % Math.max(1, names.length)]
  return name === undefined ? by : { ...value, [name]: by }
}

/** Values that a JSON Schema allows; of its words those that this API uses. */
function valueFor(schema: Schema, text: fc.Arbitrary<string>): fc.Arbitrary<unknown> {
  const { type, anyOf, oneOf, properties = {}, required = [], items = {}, pattern } = schema
  const either = (anyOf ?? oneOf) as readonly Schema[] | undefined
  if (either !== undefined) return fc.oneof(...either.map((s) => valueFor(s, text)))
  if ('const' in schema) return fc.constant(schema.const)
  if (Array.isArray(schema.enum)) return fc.constantFrom(...(schema.enum as unknown[]))
  const { minimum = -1e9, maximum = 1e9, maxLength = 10_000 } = schema as Readonly<Record<string, number | undefined>>
  switch (type) {
    case 'object': {
      const model = Object.entries(properties as Record<string, Schema>).map(([name, s]) => [name, valueFor(s, text)])
      return fc.record(Object.fromEntries(model), { requiredKeys: required as never[] })
    }
    case 'array':
      return fc.array(valueFor(items as Schema, text), { maxLength: 4 })
    case 'string':
      return typeof pattern === 'string'
        ? fc.stringMatching(new RegExp(pattern))
        : text.map((value) => value.slice(0, maxLength))
    case 'integer':
      return fc.oneof(
        fc.integer({ min: Math.max(minimum, -5), max: Math.min(maximum, Math.max(5, minimum)) }),
        fc.maxSafeInteger(),
      )
    case 'number':
      return fc.double()
    case 'boolean':
      return fc.boolean()
    default:
      return fc.oneof(fc.jsonValue({ maxDepth: 2 }), text)
  }
}

/** The status of an answer, and what is wrong with it: a fault of the server, or what the description does not have. */
export async function answerTo(app: Hono, request: MadeUp): Promise<{ status: number; fault?: string | undefined }> {
  const { method, url, type, body } = request
  const headers: Record<string, string> =
    type === undefined ? {} : { 'content-type': type, 'content-length': String(Buffer.byteLength(body ?? '')) }
  const answer = await app.request(url, { method, headers, ...(body !== undefined && { body }) })
  return { status: answer.status, fault: await faultOf(answer, request) }
}

async function faultOf(answer: Response, { method, path }: MadeUp): Promise<string | undefined> {
  const [type = ''] = (answer.headers.get('content-type') ?? '').split(';')
  const isEvents = type === 'text/event-stream'
  const text = isEvents ? '' : await answer.text()
  if (isEvents) await answer.body?.cancel()
  const operation = operations.find((o) => o.path === path && o.method === method.toLowerCase())
  const described = operation?.answers[answer.status] ?? COMMON[answer.status]
  if (answer.status >= 500) return `status ${answer.status}, a fault of the server: ${text.slice(0, 300)}`
  if (described === undefined) return `status ${answer.status}, which is not described: ${text.slice(0, 300)}`
  const form = formOf(described)
  if (form !== undefined) return form.safeParse(JSON.parse(text)).error?.message
  const { types } = described as { types: readonly string[] }
  const isDescribed = types.length === 0 || types.some((t) => t.split(';')[0] === type)
  return isDescribed ? undefined : `type ${type}, which is not described`
}

/** Every address in a document, and every name in it: what a request can hit. */
export function wordsOf(document: unknown, at = ''): string[] {
  if (typeof document !== 'object' || document === null) return [at]
  return [at, ...Object.entries(document).flatMap(([name, inner]) => [name, ...wordsOf(inner, `${at}/${name}`)])]
}

/** The whole server on a project, its page apart; jobs are only asked for. An hour passes with each look at the clock. */
export async function describedApp(value: unknown, place?: Place): Promise<Hono> {
  let now = Date.parse('2031-11-03T07:00:00Z')
  const clock = () => {
    now += 3_600_000
    return new Date(now)
  }
  const folder = mkdtempSync(join(tmpdir(), 'described-'))
  const store = await openStore(place ?? join(folder, 'project.sqlite'))
  await store.append({ on: 0, patch: [{ op: 'add', path: '', value }], by: 'x', why: 'x', at: 'x' })
  const routes = api(liveProject(store, folder), { user: 'tester', clock }, idleDesk())
  return server({ page: folder, api: routes, gate: gate({ database: store.database, clock, secure: false }) })
}

/** A desk at which every job is done as soon as it is asked for: what is looked at here is how it is asked for. */
function idleDesk(): JobDesk {
  const states = new Map<string, JobState>()
  return {
    start: async (_, revision, request) => {
      const state: JobState = { id: `job-${states.size + 1}`, request, revision, state: 'done', result: {} }
      states.set(state.id, state)
      return state
    },
    stateOf: async (id) => states.get(id),
    cancel: async (id) => states.has(id),
    watch: () => () => undefined,
    close: async () => undefined,
  }
}
