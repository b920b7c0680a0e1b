import { fuzzed } from '../host/src/server/description/fuzz.fixture.ts'
import { type Line, reported } from './line.ts'

/** The API asked what its own description has made up; an answer that is not described, as a fault of the server is not, breaks it. */
export async function fuzzLines(requests = 3000): Promise<Line[]> {
  const answered = Object.entries(await fuzzed(requests))
  return [
    reported('requests made up from the API’s description', requests, ''),
    ...answered.map(([status, times]) => reported(`  answered with ${status}`, times, '')),
  ]
}
