import { model } from '@shieldwright/engine/model/index.ts'
import { readText } from '@shieldwright/engine/model/text.ts'
import { freshMemory } from '@shieldwright/engine/working/memory.ts'
import type { FileRead } from './protocol.ts'

/** What a project file holds, or everything that keeps it from being one. */
export function fileRead(text: string): FileRead {
  const { document, problems } = readText(text)
  if (problems.length > 0) return { problems }
  const read = model(document, freshMemory())
  if (read.model === undefined) return { problems: read.problems }
  const { parts, services, pieces, lifts } = read.model.project
  const counts = Object.entries({ parts, services, pieces, lifts }).map(
    ([name, collection]) => `${Object.keys(collection).length} ${name}`,
  )
  return { document, counts: counts.join(', '), problems: [] }
}
