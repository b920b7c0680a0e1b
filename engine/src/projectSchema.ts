import { z } from 'zod'
import { project } from './model/schema/project.ts'

/** JSON Schema (draft 2020-12) of the project file, made from the schema that reads it; plain data. */
export function projectSchema(): Readonly<Record<string, unknown>> {
  return z.toJSONSchema(project, { io: 'input' }) as Record<string, unknown>
}
