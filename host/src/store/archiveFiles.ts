import { foundText, type Problem } from '@shieldwright/engine/working/problem.ts'
import { unzipped, type ZipBounds, type ZipFault } from '../exchange/zip.ts'
import { sha256 } from '../sha256.ts'
import { FORM, MESH_NAME } from './archive.ts'
import { type Files, jsonIn, type Table, utf8 } from './archiveLines.ts'

/** Files of an archive, each as its hash says, and the revision that it ends with. */
export interface ArchiveFiles {
  files: Files
  revision: number
}

const FAULTS: Readonly<Record<ZipFault, string>> = {
  'no archive': 'no ZIP archive, or the first part of one',
  'too many files': 'more files than an archive has',
  'too large unpacked': 'more than an archive unpacks to',
  broken: 'a ZIP archive that is broken, or cut short',
}

const due = { expected: 'an archive that "backup" wrote', example: 'backup recovery.zip' }

/** Unpacks an archive within bounds and holds each of its files against its hash; every fault found. */
export function filesIn(archive: Uint8Array, bounds: ZipBounds): ArchiveFiles | { problems: Problem[] } {
  const read = unzipped(archive, bounds)
  if ('fault' in read) return { problems: [{ pointer: '', found: FAULTS[read.fault], ...due }] }
  const files = new Map(read.entries.map(({ name, bytes }) => [name, bytes]))
  const about = jsonIn(utf8(files.get(ABOUT)))
  const { form, revision, files: hashes } = (about ?? {}) as Readonly<Record<string, unknown>>
  if (form !== FORM || !isRevision(revision) || typeof hashes !== 'object' || hashes === null)
    return { problems: [aboutProblem(files.has(ABOUT), about, form)] }
  const names = read.entries.map(({ name }) => name)
  const twice = names.filter((name, i) => names.indexOf(name) < i)
  const problems = [
    ...twice.map((pointer) => ({ pointer, found: 'two files of this name', expected: 'one' })),
    ...Object.entries(hashes).flatMap(([name, hash]) => hashProblem(name, files.get(name), hash)),
    ...names.flatMap((name) => nameProblem(name, files.get(name) as Uint8Array, Object.hasOwn(hashes, name))),
  ]
  return problems.length > 0 ? { problems } : { files, revision }
}

const isRevision = (value: unknown): value is number => Number.isSafeInteger(value) && (value as number) >= 1

const ABOUT = 'archive.json'

const TABLE_FILES: ReadonlySet<string> = new Set(
  (['change', 'baseline', 'signature', 'audit', 'attachment'] satisfies Table[]).map((table) => `${table}.jsonl`),
)

function aboutProblem(isThere: boolean, about: unknown, form: unknown): Problem {
  const found = !isThere ? 'nothing' : about === undefined ? 'no JSON' : `form ${foundText(form)}`
  const example = `{"form":${FORM},"revision":12,"files":{"change.jsonl":"(SHA-256)"}}`
  return {
    pointer: ABOUT,
    found,
    expected: `form ${FORM} of this archive, its revision and the hash of each file`,
    example,
  }
}

function hashProblem(pointer: string, bytes: Uint8Array | undefined, hash: unknown): Problem[] {
  if (bytes !== undefined && sha256(bytes) === hash) return []
  const found = bytes === undefined ? 'nothing' : `bytes with the hash ${sha256(bytes)}`
  return [{ pointer, found, expected: `the bytes whose hash ${ABOUT} says, ${foundText(hash)}` }]
}

/** A file has a name that archives have, is named with its hash, and is what its own name says. */
function nameProblem(name: string, bytes: Uint8Array, isNamed: boolean): Problem[] {
  if (name === ABOUT) return []
  const mesh = name.startsWith('meshes/') && MESH_NAME.test(name.slice(7)) ? name.slice(7, 71) : undefined
  const content = mesh ?? /^attachments\/([0-9a-f]{64})$/.exec(name)?.[1]
  const pointer = name.slice(0, 200)
  if (content === undefined && !TABLE_FILES.has(name))
    return [{ pointer, found: 'a file that no archive has', expected: 'none beside those of "backup"' }]
  if (!isNamed) return [{ pointer, found: `a file that ${ABOUT} does not name`, expected: 'none beside those' }]
  if (content !== undefined && sha256(bytes) !== content)
    return [{ pointer, found: `bytes with the hash ${sha256(bytes)}`, expected: 'the bytes that its name says' }]
  return []
}
