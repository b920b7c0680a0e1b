import { z } from 'zod'
import { project } from './schema/project.ts'

/**
 * The published JSON Schema (draft 2020-12) of a project file, from the same schema that reads it: what a file may hold,
 * before it is read. Ids that must name something, and what two fields say together, are beyond it; the reader tells those.
 */
export function projectJsonSchema(): Readonly<Record<string, unknown>> {
  return z.toJSONSchema(project, { io: 'input', target: 'draft-2020-12' }) as Record<string, unknown>
}
