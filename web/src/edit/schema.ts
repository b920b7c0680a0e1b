import { readPointer } from '@shieldwright/engine/working/pointer.ts'
import { useEffect, useState } from 'react'
import type { EngineClient } from '../engine/client.ts'
import { useShown } from '../state.ts'
import { type Field, fieldBelow, fieldOf, type SchemaNode } from './field.ts'

const asked = new WeakMap<EngineClient, Promise<Field>>()
const come = new WeakMap<EngineClient, Field>()

/** The fields of a project file, from the published schema; the engine makes it once, when the first table wants it. */
export function useProjectField(): Field | undefined {
  const { client } = useShown()
  const [field, setField] = useState(() => come.get(client))
  useEffect(() => {
    let here = true
    if (field === undefined) schemaOf(client).then((got) => here && setField(got))
    return () => {
      here = false
    }
  }, [client, field])
  return field
}

/** The fields of a project file; asked for once. */
export function schemaOf(client: EngineClient): Promise<Field> {
  const earlier = asked.get(client)
  if (earlier !== undefined) return earlier
  const asking = client.ask('schema', {}).then((schema) => {
    const field = fieldOf(schema as SchemaNode)
    come.set(client, field)
    return field
  })
  asked.set(client, asking)
  return asking
}

/** The field at a place of the document; what stands there decides between shapes. */
export function fieldAt(project: Field | undefined, document: unknown, pointer: string): Field | undefined {
  const path = readPointer(pointer)
  return project === undefined || path === undefined ? undefined : fieldBelow(project, path, document)
}
