import type { z } from 'zod'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { foundText, nearestId, type Problem } from '../working/problem.ts'
import { addressInputs, EXAMPLE_MARK, id as idSchema } from './schema/field.ts'
import { collections, project as projectSchema, type ReadProject, SCHEMA_VERSION, singles } from './schema/project.ts'

export type ReadResult =
  | { project: ReadProject; problems: readonly Problem[] }
  | { project?: undefined; problems: readonly Problem[] }

type Raw = Record<string, unknown>

const isObject = (value: unknown): value is Raw => typeof value === 'object' && value !== null && !Array.isArray(value)

const SECTIONS = new Set(['schemaVersion', 'order', ...Object.keys(singles), ...Object.keys(collections)])

/**
 * A project read from plain data, entity by entity, so that one edit reads one entity again. All faults in one pass.
 *
 * @param document what the file holds, already parsed from JSON or YAML
 * @returns the project in SI with every input addressed, or the problems that keep it from being read
 */
export function readProject(document: unknown, memory: Memory): ReadResult {
  if (!isObject(document))
    return {
      problems: [
        { pointer: '', found: foundText(document), expected: 'a project: an object with schemaVersion and about' },
      ],
    }
  const problems: Problem[] = [...versionProblems(document), ...sectionProblems(document)]
  const read: Raw = {}
  for (const [section, schema] of Object.entries(singles)) {
    if (document[section] === undefined && section !== 'about' && section !== 'settings') continue
    const result = readEntity(
      memory,
      pointerOf(section),
      document[section] ?? (section === 'settings' ? NOTHING : undefined),
      schema,
    )
    problems.push(...result.problems)
    read[section] = result.value
  }
  for (const [section, schema] of Object.entries(collections)) {
    const result = readCollection(memory, section, document[section], schema)
    problems.push(...result.problems)
    read[section] = result.value
  }
  const order = readEntity(memory, '/order', document.order ?? NO_ORDER, projectSchema.shape.order)
  problems.push(...order.problems)
  read.order = order.value
  return problems.length > 0 ? { problems } : { project: read as unknown as ReadProject, problems }
}

const NOTHING = Object.freeze({})
const NO_ORDER = Object.freeze([])

function versionProblems({ schemaVersion }: Raw): Problem[] {
  if (schemaVersion === SCHEMA_VERSION) return []
  return [
    {
      pointer: '/schemaVersion',
      found: foundText(schemaVersion),
      expected: `the version this program reads: ${SCHEMA_VERSION}`,
      example: String(SCHEMA_VERSION),
    },
  ]
}

function sectionProblems(document: Raw): Problem[] {
  return Object.keys(document)
    .filter((key) => !SECTIONS.has(key))
    .map((key) => unknownField(pointerOf(key), key, SECTIONS))
}

function unknownField(pointer: string, key: string, known: Iterable<string>): Problem {
  const near = nearestId(key, known)
  return {
    pointer,
    found: `a field "${foundText(key).slice(1, -1)}"`,
    expected: near === undefined ? 'only known fields' : `only known fields; did you mean "${near}"?`,
  }
}

interface Read {
  value: unknown
  problems: readonly Problem[]
}

function readCollection(memory: Memory, section: string, raw: unknown, schema: z.ZodType): Read {
  if (raw === undefined) return { value: NOTHING, problems: [] }
  if (!isObject(raw))
    return {
      value: undefined,
      problems: [{ pointer: pointerOf(section), found: foundText(raw), expected: 'entities by their id' }],
    }
  const entries = Object.entries(raw)
  const reads = entries.map(([id, entity]) => readNamed(memory, section, id, entity, schema))
  return memory.once(`model/collection/${section}`, reads, () => ({
    value: Object.fromEntries(entries.map(([id], i) => [id, (reads[i] as Read).value])),
    problems: reads.flatMap((r) => r.problems),
  }))
}

function readNamed(memory: Memory, section: string, id: string, entity: unknown, schema: z.ZodType): Read {
  const pointer = pointerOf(section, id)
  if (!idSchema.safeParse(id).success) {
    return {
      value: undefined,
      problems: [
        { pointer, found: foundText(id), expected: 'an id of letters, digits, ".", "-" and "_"', example: 'drive-03' },
      ],
    }
  }
  return readEntity(memory, pointer, entity, schema)
}

function readEntity(memory: Memory, pointer: string, raw: unknown, schema: z.ZodType): Read {
  return memory.once(`model/entity${pointer}`, [raw], () => {
    const result = schema.safeParse(raw)
    if (result.success)
      return { value: settleFields(memory, pointer, addressInputs(result.data, pointer)), problems: [] }
    return { value: undefined, problems: result.error.issues.flatMap((issue) => problemsOf(issue, raw, pointer)) }
  })
}

/** Fields whose content did not change keep their identity, so that a new mass leaves the shape's results alone. */
function settleFields(memory: Memory, pointer: string, entity: unknown): unknown {
  if (!isObject(entity)) return entity
  return Object.fromEntries(
    Object.entries(entity).map(([key, value]) => [
      key,
      typeof value === 'object' ? memory.settled(`model/field${pointer}/${key}`, value) : value,
    ]),
  )
}

type Issue = z.core.$ZodIssue

function problemsOf(issue: Issue, raw: unknown, base: string): Problem[] {
  const pointer = base + pointerOf(...issue.path.map(String))
  const value = issue.path.reduce<unknown>(
    (at, key) => (typeof at === 'object' && at !== null ? (at as Raw)[String(key)] : undefined),
    raw,
  )
  if (issue.code === 'unrecognized_keys')
    return issue.keys.map((key) => unknownField(`${pointer}${pointerOf(key)}`, key, knownKeys(issue)))
  if (issue.code === 'invalid_union' && issue.errors.length > 0) return unionProblems(issue, value, pointer)
  const [expected, example] = issue.message.split(EXAMPLE_MARK) as [string, string | undefined]
  return [
    {
      pointer,
      found: foundText(value),
      expected: plainExpectation(issue, expected),
      ...(example === undefined ? {} : { example }),
    },
  ]
}

/** The member of a union that came nearest says what is wrong. */
function unionProblems(issue: Extract<Issue, { code: 'invalid_union' }>, value: unknown, pointer: string): Problem[] {
  const nearest = [...issue.errors].sort((a, b) => depth(b) - depth(a) || a.length - b.length)[0] as Issue[]
  return nearest.flatMap((inner) => problemsOf(inner, value, pointer))
}

const depth = (issues: readonly Issue[]): number => Math.max(0, ...issues.map((i) => i.path.length))

function knownKeys(_issue: Issue): string[] {
  return []
}

function plainExpectation(issue: Issue, message: string): string {
  if (issue.code === 'invalid_value') return `one of ${issue.values.map((v) => JSON.stringify(v)).join(', ')}`
  if (issue.code === 'too_small') return `at least ${issue.minimum}${issue.origin === 'array' ? ' entries' : ''}`
  if (issue.code === 'too_big') return `at most ${issue.maximum}${issue.origin === 'array' ? ' entries' : ''}`
  if (issue.code === 'invalid_type')
    return message.startsWith('Invalid input')
      ? `${issue.expected === 'tuple' ? 'a list' : `a ${issue.expected}`}`
      : message
  return message
}
