import { join } from 'node:path'

/** Where a store lies: a SQLite file, or a schema of a PostgreSQL database that is this project's alone. */
export type Place = { file: string } | { url: string; project: string }

/** Name of a project in a database where none is said. */
const ONLY_PROJECT = 'project'

/**
 * Where the store of a data folder lies: on PostgreSQL when the environment's `DATABASE_URL` says so, else in the folder.
 *
 * @param data folder that keeps the project
 * @param environment `DATABASE_URL`, and `DATABASE_PROJECT` where one database holds several projects
 * @throws for a project name that is no plain name
 */
export function placeIn(data: string, environment: NodeJS.ProcessEnv = process.env): Place {
  const { DATABASE_URL: url, DATABASE_PROJECT: project = ONLY_PROJECT } = environment
  if (url === undefined || url === '') return { file: join(data, 'project.sqlite') }
  // The name becomes that of a schema and stands in a connection's options: letters, digits and _ mean themselves in both.
  if (!/^[a-z][a-z0-9_]{0,40}$/.test(project))
    throw new Error(`DATABASE_PROJECT: found "${project}", expected small letters, digits and _, such as "north_shaft"`)
  return { url, project }
}
