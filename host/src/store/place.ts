import { join } from 'node:path'
import type { Problem } from '@shieldwright/engine/working/problem.ts'

/** Where a store lies: a SQLite file, or a schema of a PostgreSQL database that is this project's alone. */
export type Place = { file: string } | { url: string; project: string }

/** A place that was named for a store or a file is none, cannot be written to, or nothing answers there: the user's to mend. */
export class PlaceFault extends Error {
  readonly problem: Problem
  constructor(problem: Problem) {
    super(`${problem.pointer}: found ${problem.found}, expected ${problem.expected}`)
    this.problem = problem
  }
}

/** Name of a project in a database where none is said. */
const ONLY_PROJECT = 'project'

/**
 * Where the store of a data folder lies: on PostgreSQL when the environment's `DATABASE_URL` says so, else in the folder.
 *
 * @param data folder that keeps the project
 * @param environment `DATABASE_URL`, and `DATABASE_PROJECT` where one database holds several projects
 * @throws PlaceFault for a project name that is no plain name, and for an address that is not of PostgreSQL
 */
export function placeIn(data: string, environment: NodeJS.ProcessEnv = process.env): Place {
  const { DATABASE_URL: url, DATABASE_PROJECT: project = ONLY_PROJECT } = environment
  if (url === undefined || url === '') return { file: join(data, 'project.sqlite') }
  // The name becomes that of a schema and stands in a connection's options: letters, digits and _ mean themselves in both.
  if (!/^[a-z][a-z0-9_]{0,40}$/.test(project))
    throw new PlaceFault({
      pointer: 'DATABASE_PROJECT',
      found: `"${project}"`,
      expected: 'small letters, digits and _',
      example: 'north_shaft',
    })
  // What was found is not repeated: it may hold a password.
  if (!/^postgres(ql)?:\/\/./.test(url) || !URL.canParse(url))
    throw new PlaceFault({ ...DATABASE, found: 'something else' })
  return { url, project }
}

const DATABASE = {
  pointer: 'DATABASE_URL',
  expected: 'the address of a PostgreSQL database that answers',
  example: 'postgres://user@db.example:5432/recovery',
}

/** What is wrong where no connection could be made, without user and password. */
export function unreachable(url: string, error: unknown): PlaceFault {
  const { hostname, port, pathname } = new URL(url)
  const where = `${hostname}${port === '' ? '' : `:${port}`}${pathname}`
  const { code, message } = error as { code?: unknown; message?: unknown }
  return new PlaceFault({ ...DATABASE, found: `${where}, which says ${message || code}` })
}
