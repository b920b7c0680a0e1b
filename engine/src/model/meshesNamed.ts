import { freshMemory, type Memory } from '../working/memory.ts'

const NONE = Object.freeze([])

/**
 * Content hashes of the meshes that the parts and changes of a document name, each once, sound document or not. What is not
 * of a hash's form names no mesh. With a memory it is the very same list as last time while the same ones are named.
 */
export function meshesNamed(document: unknown, memory: Memory = freshMemory()): readonly string[] {
  const ofEach = (section: string, solidsOf: (holder: unknown) => object | undefined): readonly (readonly string[])[] =>
    memory.each(`meshes/${section}`, entriesOf(document, section), [], (id, holder) => {
      const files = filesOf(solidsOf(holder))
      return memory.once(`meshes/${section}/${id}`, files, () => files)
    })
  const parts = ofEach('parts', (part) => fieldOf(part, 'solids'))
  const changes = ofEach('changes', (change) => fieldOf(fieldOf(change, 'added'), 'solids'))
  return memory.once('meshes', [parts, changes], () => [...new Set([...parts, ...changes].flat())])
}

const filesOf = (solids: object | undefined): string[] =>
  Object.values(solids ?? NONE)
    .map((solid: unknown) => fieldOf(solid, 'file') as unknown)
    .filter((file): file is string => typeof file === 'string' && /^[0-9a-f]{64}$/.test(file))

const entriesOf = (document: unknown, section: string): Readonly<Record<string, unknown>> =>
  (fieldOf(document, section) ?? NONE) as Readonly<Record<string, unknown>>

function fieldOf(value: unknown, name: string): object | undefined {
  if (typeof value !== 'object' || value === null || !Object.hasOwn(value, name)) return undefined
  return (value as Record<string, object>)[name]
}
