import { model } from '../../model/index.ts'
import type { Check } from '../../working/check.ts'
import { freshMemory } from '../../working/memory.ts'
import { problemText } from '../../working/problem.ts'
import { testChecks } from './checks.ts'

type Raw = Readonly<Record<string, unknown>>

const BY = { by: 'fitter', on: '2033-02-01', witness: 'inspector' }

/** Checks of tests alone, by id. */
export function checksOfTests(tests: Readonly<Record<string, Raw>>): ReadonlyMap<string, Check> {
  const whole = Object.fromEntries(
    Object.entries(tests).map(([id, test]) => [id, { system: 'drive', test: `Test ${id}`, duration: '2 h', ...test }]),
  )
  const memory = freshMemory()
  const read = model({ schemaVersion: 1, about: { title: 'Small' }, tests: whole }, memory)
  if (read.model === undefined) throw new Error(read.problems.map(problemText).join('\n'))
  return new Map(testChecks(read.model, memory).map((c) => [c.id, c]))
}

/** Readings of one day, witnessed, one of each place. */
export const read = (...values: readonly (number | string)[]): Raw => ({
  readings: Object.fromEntries(
    values.map((v, i) => [
      `r${i + 1}`,
      { of: `place ${i + 1}`, ...(typeof v === 'number' ? { value: v } : { code: v }), ...BY },
    ]),
  ),
})

const one = (test: Raw, id: string) => (): Check => checksOfTests({ T1: test }).get(`programme.test.${id}`) as Check

const banded = (proves: string) => ({
  pass: one({ proves, limit: { atMost: 0.6 }, ...read(0.5, 0.6) }, `${proves}/T1/most`),
  fail: one({ proves, limit: { atMost: 0.6 }, ...read(0.5, 0.61) }, `${proves}/T1/most`),
  open: one({ proves, limit: { atMost: 0.6 } }, `${proves}/T1/most`),
})

const seen = (witness: string | undefined) =>
  one(
    { holdPoint: true, readings: { r1: { value: 1, by: 'fitter', on: '2033-02-01', ...(witness && { witness }) } } },
    'witnessed/T1',
  )

const twoOf = (first: Raw) => () =>
  checksOfTests({ T1: { limit: { atMost: 1 }, ...first }, T2: { after: ['T1'], ...read(1) } }).get(
    'programme.test.order/T2',
  ) as Check

export const testFixtures = {
  ...Object.fromEntries(
    ['seals', 'lock', 'functions', 'run', 'other'].map((proves) => [`programme.test.${proves}`, banded(proves)]),
  ),
  'programme.test.electrical': {
    pass: one({ proves: 'electrical', limit: { atLeast: 5 }, ...read(7, 5) }, 'electrical/T1/least'),
    fail: one({ proves: 'electrical', limit: { atLeast: 5 }, ...read(7, 4.9) }, 'electrical/T1/least'),
    open: one({ proves: 'electrical', limit: { atLeast: 5 } }, 'electrical/T1/least'),
  },
  'programme.test.oil': {
    pass: one({ proves: 'oil', limit: { code: '17/15/12' }, ...read('16/15/12') }, 'oil/T1/code'),
    fail: one({ proves: 'oil', limit: { code: '17/15/12' }, ...read('16/16/11') }, 'oil/T1/code'),
    open: one({ proves: 'oil', limit: { code: '17/15/12' } }, 'oil/T1/code'),
  },
  'programme.test.witnessed': { pass: seen('inspector'), fail: seen('fitter'), open: seen(undefined) },
  'programme.test.order': {
    pass: twoOf(read(0.5)),
    fail: twoOf(read(1.5)),
    open: twoOf({ limit: undefined, ...read(0.5) }),
  },
}
