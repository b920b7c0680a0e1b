import { SCHEMA_VERSION } from './schema/version.ts'

/** Stands in for the name of a project until it has one. */
export const UNNAMED = 'New recovery'

/** A project in which nothing is known yet: it derives, and everything that it lacks is said. */
export const emptyProject = (): { schemaVersion: number; about: { title: string } } => ({
  schemaVersion: SCHEMA_VERSION,
  about: { title: UNNAMED },
})
