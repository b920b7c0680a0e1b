import { projectJsonSchema } from '@shieldwright/engine/model/jsonSchema.ts'
import type { Command } from 'commander'
import { type Common, printAnswer } from '../answer.ts'
import { command } from '../command.ts'
import { jsonText } from '../json.ts'

/** `schema`: the JSON Schema of the project file; the same text with and without --json. */
export const schemaCommand = (): Command =>
  command('schema', "the project file's JSON Schema").action((options: Common) => {
    const json = projectJsonSchema()
    printAnswer({ json, text: () => jsonText(json) }, options)
  })
