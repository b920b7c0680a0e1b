import { model } from '../model/index.ts'
import type { Check } from '../working/check.ts'
import { freshMemory } from '../working/memory.ts'
import { problemText } from '../working/problem.ts'
import { punchChecks } from './punchList.ts'

/** Checks of one item found on 1 February that holds a test, read on the days given. */
export function punchOf(item: object, ...readOn: readonly string[]): readonly Check[] {
  const readings = Object.fromEntries(readOn.map((on, i) => [`r${i}`, { value: 1, by: 'fitter', on }]))
  const memory = freshMemory()
  const document = {
    schemaVersion: 1,
    about: { title: 'Small' },
    tests: { T1: { system: 'drive', test: 'Insulation', duration: '2 h', readings } },
    punchList: {
      P1: {
        what: 'Gland of motor 3 is loose',
        tests: ['T1'],
        found: { by: 'inspector', on: '2033-02-01' },
        blocks: 'energising',
        ...item,
      },
    },
  }
  const read = model(document, memory)
  if (read.model === undefined) throw new Error(read.problems.map(problemText).join('\n'))
  return punchChecks(read.model, memory)
}

const closed = { closed: { by: 'inspector', on: '2033-02-03' } }

export const punchFixtures = {
  pass: () => punchOf(closed, '2033-02-03')[0] as Check,
  fail: () => punchOf(closed, '2033-02-02')[0] as Check,
  open: () => punchOf({})[0] as Check,
}
