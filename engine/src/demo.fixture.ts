import { readFileSync } from 'node:fs'
import { parse } from 'yaml'

/** The demo recovery's document; for journeys through the whole line only. A fresh copy each time. */
export function demoDocument(): Record<string, never> & Demo {
  return parse(readFileSync(new URL('../../examples/recovery/project.yaml', import.meta.url), 'utf8'))
}

type Entities = Record<string, Record<string, unknown>>

/** As much of the document's shape as tests reach into. */
export interface Demo {
  parts: Entities
  joints: Entities
  services: Entities
  pieces: Entities
  lifts: Entities
  steps: Entities
  stock: Entities
  bays: Entities
  gear: Entities
  weighings: Entities
  order: string[]
}
