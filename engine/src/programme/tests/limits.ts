import { type Answer, found, given } from '../../working/answer.ts'
import { type Check, type CheckKind, check, type Subject } from '../../working/check.ts'
import { NONE } from '../../working/fault.ts'
import { scaleNumbers, standing, type Test } from './readings.ts'
import { codeExcess } from './tests.formulas.ts'

/** What is read, with the limit that it is held against: a test, or a measure of an opened part. */
export type Measured = Pick<Test, 'limit' | 'readings'>

export interface LimitText {
  kind: CheckKind
  subject: Subject
  title: string
  /** Address of what is measured: its limit and its readings lie below. */
  at: string
  measured: Measured
  /** Before "most", "least" and "code" in the id, where one subject has several. */
  of?: string
  assumptions: readonly string[]
  cautions: readonly string[]
  near: number
}

/** Readings against each bound of their limit; the worst that stands decides. Nothing read, or no limit, is open. */
export function limitChecks({
  kind,
  subject,
  title,
  at,
  measured,
  of,
  assumptions,
  cautions,
  near,
}: LimitText): Check[] {
  const { limit } = measured
  const common = { kind, subject, title, assumptions, cautions }
  const named = (bound: string) => ({ of: of === undefined ? bound : `${of}/${bound}` })
  if (limit === undefined) {
    const capacity = given('1', `${at}/limit`, undefined)
    return [check({ ...common, ...(of && { of }), demand: worstOf(at, measured, 'largest'), capacity, near })]
  }
  const { atMost, atLeast, code } = limit
  // a reading just within its limit is within it
  const exactly = { near: 1 }
  return [
    ...(atMost === undefined
      ? []
      : [
          check({
            ...common,
            ...named('most'),
            demand: worstOf(at, measured, 'largest'),
            capacity: atMost,
            ...exactly,
          }),
        ]),
    ...(atLeast === undefined
      ? []
      : [
          check({
            ...common,
            ...named('least'),
            demand: atLeast,
            capacity: worstOf(at, measured, 'smallest'),
            ...exactly,
          }),
        ]),
    ...(code === undefined
      ? []
      : [check({ ...common, ...named('code'), demand: dirtiest(at, measured, code), capacity: NONE, near })]),
  ]
}

/** The reading that decides, in the unit of what is measured. */
function worstOf(at: string, measured: Measured, which: 'largest' | 'smallest'): Answer<'1'> {
  const read = standing(measured).map(([r, { of, value }]) => [labelOf(r, of), value ?? valueAt(at, r)] as const)
  const values = read.flatMap(([, { value }]) => value ?? [])
  return found({
    unit: '1',
    value: values.length === 0 ? 0 : which === 'largest' ? Math.max(...values) : Math.min(...values),
    method: `the ${which} of the readings that stand`,
    inputs: read.length === 0 ? noReading(at) : Object.fromEntries(read),
    residuals: [],
  })
}

/** The sample that is farthest above the code asked for. */
function dirtiest(at: string, measured: Measured, limit: string): Answer<'1'> {
  const [A, B, C] = scaleNumbers(limit).map((n) => given('1', `${at}/limit/code`, n)) as Three
  const samples = standing(measured).map(([r, { of, code }]): readonly [string, Answer<'1'>] => {
    const [a, b, c] = (code === undefined ? [undefined, undefined, undefined] : scaleNumbers(code)).map((n) =>
      given('1', `${at}/readings/${r}/code`, n),
    ) as Three
    return [labelOf(r, of), codeExcess.show({ a, b, c, A, B, C })]
  })
  const values = samples.flatMap(([, { value }]) => value ?? [])
  return found({
    unit: '1',
    value: values.length === 0 ? 0 : Math.max(...values),
    method: 'the sample farthest above the code',
    inputs: samples.length === 0 ? noReading(at) : Object.fromEntries(samples),
    residuals: [],
  })
}

type Three = [Answer<'1'>, Answer<'1'>, Answer<'1'>]

const labelOf = (id: string, of: string | undefined): string => (of === undefined ? id : `${of} (${id})`)
const valueAt = (at: string, reading: string): Answer<'1'> => given('1', `${at}/readings/${reading}/value`, undefined)

/** The open place where a reading should stand. */
export const noReading = (at: string): Record<string, Answer<'1'>> => ({
  reading: given('1', `${at}/readings`, undefined),
})
