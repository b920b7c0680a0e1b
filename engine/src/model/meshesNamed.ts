/**
 * Content hashes of the meshes that the parts and changes of a document name, each once, sound document or not. What is not
 * of a hash's form names no mesh.
 */
export function meshesNamed(document: unknown): string[] {
  const parts = Object.values(fieldOf(document, 'parts') ?? {})
  const changes = Object.values(fieldOf(document, 'changes') ?? {}).map((change) => fieldOf(change, 'added'))
  const solids = [...parts, ...changes].flatMap((holder) => Object.values(fieldOf(holder, 'solids') ?? {}))
  const files = solids.map((solid) => (fieldOf(solid, 'file') as unknown) ?? '')
  return [...new Set(files.filter((file): file is string => typeof file === 'string' && /^[0-9a-f]{64}$/.test(file)))]
}

function fieldOf(value: unknown, name: string): object | undefined {
  if (typeof value !== 'object' || value === null || !Object.hasOwn(value, name)) return undefined
  return (value as Record<string, object>)[name]
}
