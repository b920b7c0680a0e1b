import type { z } from 'zod'
import type { Operation } from '../working/patch.ts'
import { pointerOf } from '../working/pointer.ts'
import { foundText, nearestId, type Problem } from '../working/problem.ts'
import { knownFields } from './knownField.ts'
import { EXAMPLE_MARK } from './schema/field.ts'

/** A problem, and what to put in its place so that the rest of the entity can be looked at. */
export interface Fault {
  problem: Problem
  /** On the entity itself. */
  instead?: Operation
}

type Issue = z.core.$ZodIssue

interface Place {
  schema: z.ZodType
  raw: unknown
  /** Where the entity stands in the file. */
  base: string
  path: readonly PropertyKey[]
}

/** What a schema has to say of an entity, with its place in the file. */
export const faultsOf = (issues: readonly Issue[], place: Omit<Place, 'path'>): Fault[] =>
  issues.flatMap((issue) => faultsOfIssue(issue, { ...place, path: [] }))

function faultsOfIssue(issue: Issue, outer: Place): Fault[] {
  const place = { ...outer, path: [...outer.path, ...issue.path] }
  switch (issue.code) {
    case 'unrecognized_keys':
      return issue.keys.map((key) => unknownKey(key, place))
    case 'invalid_union':
      return isSaid(issue.message) || issue.errors.length === 0
        ? [faultAt(place, ...saidOf(issue))]
        : nearestMember(issue.errors).flatMap((inner) => faultsOfIssue(inner, place))
    case 'invalid_key':
      return issue.issues.slice(0, 1).map((inner) => badKey(String(place.path.at(-1)), saidOf(inner), place))
    default:
      return [faultAt(place, ...saidOf(issue))]
  }
}

/** The member of a union that came nearest says what is wrong. */
const nearestMember = (errors: readonly (readonly Issue[])[]): readonly Issue[] =>
  [...errors].sort((a, b) => depth(b) - depth(a) || a.length - b.length)[0] as readonly Issue[]

const depth = (issues: readonly Issue[]): number => Math.max(0, ...issues.map((i) => i.path.length))

type Said = readonly [expected: string, example: string | undefined, instead: unknown]

function faultAt({ raw, base, path }: Place, expected: string, example: string | undefined, instead: unknown): Fault {
  const at = pointerOf(...path.map(String))
  const value = valueAt(raw, path)
  const problem = { pointer: base + at, found: foundText(value), expected }
  return {
    problem: example === undefined ? problem : { ...problem, example },
    ...(instead === undefined
      ? {}
      : { instead: { op: value === undefined ? 'add' : 'replace', path: at, value: instead } }),
  }
}

function valueAt(raw: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (at, key) =>
      typeof at === 'object' && at !== null && Object.hasOwn(at, key) ? at[key as keyof typeof at] : undefined,
    raw,
  )
}

function unknownKey(key: string, { schema, base, path }: Place): Fault {
  const at = pointerOf(...path.map(String), key)
  return { problem: unknownField(base + at, key, knownFields(schema, path)), instead: { op: 'remove', path: at } }
}

function badKey(key: string, [expected, example]: Said, { base, path }: Place): Fault {
  const at = pointerOf(...path.map(String))
  const problem = { pointer: base + at, found: foundText(key), expected }
  return { problem: example === undefined ? problem : { ...problem, example }, instead: { op: 'remove', path: at } }
}

/** A name that no field has, with the nearest that one has. */
export function unknownField(pointer: string, key: string, known: Iterable<string>): Problem {
  const near = nearestId(key, known)
  return {
    pointer,
    found: `a field ${foundText(key)}`,
    expected: near === undefined ? 'only known fields' : `only known fields; did you mean "${near}"?`,
  }
}

const isSaid = (message: string): boolean => message.includes(EXAMPLE_MARK)

/** What is due, an example of it, and a value that would do. */
function saidOf(issue: Issue): Said {
  if (isSaid(issue.message)) {
    const [expected, example] = issue.message.split(EXAMPLE_MARK) as [string, string]
    return [expected, example, example]
  }
  switch (issue.code) {
    case 'invalid_value':
      return [oneOf(issue.values), undefined, issue.values[0]]
    case 'invalid_union':
      return [oneOf((issue as { options?: readonly unknown[] }).options ?? []), undefined, undefined]
    case 'too_small':
      return [`at least ${issue.minimum}${countedIn(issue.origin)}`, undefined, bound(issue.origin, issue.minimum)]
    case 'too_big':
      return [`at most ${issue.maximum}${countedIn(issue.origin)}`, undefined, bound(issue.origin, issue.maximum)]
    case 'invalid_format':
      return [`a text that fits ${issue.pattern ?? issue.format}`, undefined, undefined]
    case 'invalid_type':
      return KINDS[issue.expected] ?? [`a ${issue.expected}`, undefined, undefined]
    default:
      return [issue.message, undefined, undefined]
  }
}

const oneOf = (values: readonly unknown[]): string => `one of ${values.map((v) => JSON.stringify(v)).join(', ')}`
const countedIn = (origin: string): string =>
  origin === 'array' ? ' entries' : origin === 'string' ? ' characters' : ''
const bound = (origin: string, limit: number | bigint): unknown =>
  origin === 'number' || origin === 'int' ? Number(limit) : undefined

const KINDS: Readonly<Record<string, Said>> = {
  object: ['an object', undefined, {}],
  record: ['entities by their id', undefined, {}],
  array: ['a list', undefined, []],
  tuple: ['a list', undefined, undefined],
  string: ['a text', undefined, 'x'],
  number: ['a number', undefined, 1],
  int: ['a whole number', undefined, 1],
  boolean: ['true or false', undefined, false],
}
