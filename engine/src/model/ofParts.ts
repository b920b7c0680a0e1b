import type { Memory } from '../working/memory.ts'
import type { Part, ReadProject } from './schema/project.ts'

/**
 * Names, patterns and some fields of all parts: the very same list as last time as long as none of them changed, whatever else
 * of a part did, so that it can stand for the parts where a result is remembered.
 *
 * @param of name of the choice of fields, under which it is remembered
 */
export function ofParts(
  parts: ReadProject['parts'],
  memory: Memory,
  of: string,
  fields: (part: Part) => readonly unknown[],
): readonly unknown[] {
  return memory.each(`model/parts/${of}`, parts, [], (id, part) => {
    const chosen = [id, part.pattern, ...fields(part)]
    return memory.once(`model/parts/${of}/${id}`, chosen, () => chosen)
  })
}
