import { ENGINE_VERSION } from '@shieldwright/engine/version.ts'
import { z } from 'zod'
import { type Answer, COMMON, formOf, type Operation } from './operation.ts'
import { operations } from './operations.ts'

type Json = Readonly<Record<string, unknown>>

/** The API as an OpenAPI 3.1 document, from the same forms that its bodies are read with. */
export function openApi(): Json {
  const paths: Record<string, Record<string, Json>> = {}
  for (const operation of operations)
    paths[operation.path] = { ...paths[operation.path], [operation.method]: operationJson(operation) }
  return {
    openapi: '3.1.0',
    info: {
      title: 'Shieldwright',
      version: ENGINE_VERSION,
      description: 'Project, changes, what follows, documents, jobs, signatures. Numbers are SI.',
    },
    paths,
  }
}

function operationJson({ method, path, does, params = {}, query = {}, body, answers }: Operation): Json {
  return {
    operationId: `${method} ${path}`.replace(/\W+/g, '-').replace(/^-|-$/g, ''),
    summary: does,
    parameters: [...parametersJson('path', params), ...parametersJson('query', query)],
    ...(body && { requestBody: { required: true, content: contentOf(body) } }),
    responses: Object.fromEntries(
      Object.entries({ ...COMMON, ...answers }).map(([status, answer]) => [status, answerJson(Number(status), answer)]),
    ),
  }
}

const parametersJson = (where: 'path' | 'query', fields: Readonly<Record<string, z.ZodType>>): Json[] =>
  Object.entries(fields).map(([name, form]) => ({
    name,
    in: where,
    required: where === 'path' || !form.safeParse(undefined).success,
    schema: schemaOf(form, 'input'),
  }))

const contentOf = (body: NonNullable<Operation['body']>): Json =>
  body instanceof z.ZodType
    ? { 'application/json': { schema: schemaOf(body, 'input') } }
    : { [body.type]: { schema: body.form === undefined ? {} : schemaOf(body.form, 'input') } }

function answerJson(status: number, answer: Answer): Json {
  const form = formOf(answer)
  const types = form === undefined ? (answer as { types: readonly string[] }).types : []
  const content =
    form === undefined
      ? Object.fromEntries(types.map((type) => [type, { schema: {} }]))
      : { 'application/json': { schema: schemaOf(form, 'output') } }
  return { description: MEANINGS[status] ?? 'Done', ...(Object.keys(content).length > 0 && { content }) }
}

const MEANINGS: Readonly<Record<number, string>> = {
  202: 'Begun',
  303: 'Go on there',
  400: 'What was asked is not as it should be',
  401: 'Nobody has signed in',
  403: 'This account, or this origin, may not',
  404: 'There is no such thing',
  409: 'Others came first, or there is nothing to derive from',
  411: 'A request that does not say how long it is',
  413: 'A larger request than is taken',
  415: 'Another type than is taken',
  429: 'Too many at once',
  503: 'The store does not answer at this moment',
  507: 'The disk of the store has no room',
}

function schemaOf(form: z.ZodType, io: 'input' | 'output'): Json {
  const { $schema: _dialect, ...schema } = z.toJSONSchema(form, { io })
  return schema
}
