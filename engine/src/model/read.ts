import type { z } from 'zod'
import type { Memory } from '../working/memory.ts'
import { applyPatch } from '../working/patch.ts'
import { pointerOf } from '../working/pointer.ts'
import { foundText, type Problem } from '../working/problem.ts'
import { type Fault, faultsOf, unknownField } from './issue.ts'
import { addressInputs, id as idSchema } from './schema/field.ts'
import { collections, project as projectSchema, type ReadProject, SCHEMA_VERSION, singles } from './schema/project.ts'

export interface ReadResult {
  /** What could be read as it stands; the whole project where there are no problems. */
  sound: ReadProject
  /** The same with the faults replaced by examples: only to follow the ids that stand in faulty entities. */
  mended: ReadProject
  /** Pointers of entities that could not be read even so; their ids are there all the same. */
  unread: ReadonlySet<string>
  problems: readonly Problem[]
}

type Raw = Record<string, unknown>

const isObject = (value: unknown): value is Raw => typeof value === 'object' && value !== null && !Array.isArray(value)

const SECTIONS = new Set(['schemaVersion', 'order', ...Object.keys(singles), ...Object.keys(collections)])

/**
 * A project read from plain data, entity by entity, so that one edit reads one entity again. All faults in one pass.
 *
 * @param document what the file holds, already parsed from JSON or YAML
 * @returns the project in SI with every input addressed, and the problems that keep it from being one
 */
export function readProject(document: unknown, memory: Memory): ReadResult {
  const raw = isObject(document) ? document : {}
  const reads: [section: string, Read][] = [
    ...Object.entries(singles).map(([s, schema]): [string, Read] => [s, readSingle(memory, s, raw[s], schema)]),
    ...Object.entries(collections).map(([s, schema]): [string, Read] => [s, readCollection(memory, s, raw[s], schema)]),
    ['order', readEntity(memory, '/order', raw.order ?? NO_ORDER, projectSchema.shape.order)],
  ]
  return {
    sound: gathered(reads, (r) => r.value),
    mended: gathered(reads, (r) => r.mended),
    unread: new Set(reads.flatMap(([, r]) => r.unread)),
    problems: isObject(document)
      ? [...versionProblems(raw), ...sectionProblems(raw), ...reads.flatMap(([, r]) => r.problems)]
      : [{ pointer: '', found: foundText(document), expected: 'a project: an object with schemaVersion and about' }],
  }
}

const gathered = (reads: readonly [string, Read][], pick: (read: Read) => unknown): ReadProject =>
  Object.fromEntries(
    reads.map(([section, read]) => [section, pick(read) ?? nothingIn(section)]),
  ) as unknown as ReadProject

const NOTHING = Object.freeze({})
const NO_ORDER = Object.freeze([])
const nothingIn = (section: string): unknown =>
  section in singles ? undefined : section === 'order' ? NO_ORDER : NOTHING

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

interface Read {
  value: unknown
  mended: unknown
  unread: readonly string[]
  problems: readonly Problem[]
}

const ABSENT: Read = { value: undefined, mended: undefined, unread: [], problems: [] }

function readSingle(memory: Memory, section: string, raw: unknown, schema: z.ZodType): Read {
  if (raw === undefined && section !== 'about' && section !== 'settings') return ABSENT
  return readEntity(memory, pointerOf(section), raw ?? (section === 'settings' ? NOTHING : undefined), schema)
}

function readCollection(memory: Memory, section: string, raw: unknown, schema: z.ZodType): Read {
  if (raw === undefined) return { ...ABSENT, value: NOTHING, mended: NOTHING }
  if (!isObject(raw))
    return {
      ...ABSENT,
      problems: [{ pointer: pointerOf(section), found: foundText(raw), expected: 'entities by their id' }],
    }
  const reads = memory.each(`model/entities/${section}`, raw, [], (id, entity) =>
    readNamed(memory, section, id, entity, schema),
  )
  return memory.once(`model/collection/${section}`, [reads], () => {
    const ids = Object.keys(raw)
    const all = (pick: (read: Read) => unknown) =>
      Object.fromEntries(ids.map((id, i) => [id, pick(reads[i] as Read)]).filter(([, v]) => v !== undefined))
    const value = all((r) => r.value)
    const problems = reads.flatMap((r) => r.problems)
    // Where nothing had to be mended it is one and the same, so that what hangs from it is worked out once.
    const mended = problems.length === 0 ? value : all((r) => r.mended)
    return { value, mended, unread: reads.flatMap((r) => r.unread), problems }
  })
}

function readNamed(memory: Memory, section: string, id: string, entity: unknown, schema: z.ZodType): Read {
  const pointer = pointerOf(section, id)
  const read = entityRead(memory, pointer, entity, schema)
  if (idSchema.safeParse(id).success) return read
  const expected = 'an id of letters, digits, ".", "-" and "_"'
  const fault: Problem = { pointer, found: foundText(id), expected, example: 'drive-03' }
  return { ...ABSENT, unread: [pointer], problems: [fault, ...read.problems] }
}

const readEntity = (memory: Memory, pointer: string, raw: unknown, schema: z.ZodType): Read =>
  memory.once(`model/entity${pointer}`, [raw], () => entityRead(memory, pointer, raw, schema))

function entityRead(memory: Memory, pointer: string, raw: unknown, schema: z.ZodType): Read {
  const result = schema.safeParse(raw)
  if (!result.success)
    return faulty(schema, raw, pointer, faultsOf(result.error.issues, { schema, raw, base: pointer }))
  const value = settleFields(memory, pointer, addressInputs(result.data, pointer))
  return { value, mended: value, unread: [], problems: [] }
}

/** Rounds of mending: a field put in place may show what is missing inside it. */
const ROUNDS = 3

function faulty(schema: z.ZodType, raw: unknown, pointer: string, faults: readonly Fault[]): Read {
  const problems = faults.map((f) => f.problem)
  let [copy, open] = [raw, faults]
  for (let round = 0; round < ROUNDS; round++) {
    copy = withInstead(copy, open)
    const result = schema.safeParse(copy)
    if (result.success) return { value: undefined, mended: addressInputs(result.data, pointer), unread: [], problems }
    open = faultsOf(result.error.issues, { schema, raw: copy, base: pointer })
  }
  return { value: undefined, mended: undefined, unread: [pointer], problems }
}

function withInstead(raw: unknown, faults: readonly Fault[]): unknown {
  return faults.reduce((copy, { instead }) => {
    const patched = instead === undefined ? undefined : applyPatch(copy, [instead])
    return patched === undefined || 'problems' in patched ? copy : patched.document
  }, raw)
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
