import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'

type Minimise = (
  f: (x: number[]) => number,
  start: readonly number[],
  limits: { maxIterations: number; minErrorDelta: number; minTolerance: number },
) => { x: number[]; fx: number }

/** Nelder and Mead's simplex of a general library, for tests: it knows values alone. The package loads in no module system. */
export function simplexOfLibrary(): Minimise {
  const text = readFileSync(createRequire(import.meta.url).resolve('fmin'), 'utf8')
  const library: { nelderMead?: Minimise } = {}
  // it assigns to a variable that it never declares
  new Function('exports', 'module', `var i;${text}`)(library, {})
  return library.nelderMead as Minimise
}
