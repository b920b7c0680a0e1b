import { type Stages, standing } from '@shieldwright/engine'
import { type Answer, inputsOf } from '@shieldwright/engine/working/answer.ts'
import type { Check } from '@shieldwright/engine/working/check.ts'
import type { UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import { type Working, workingOf } from '@shieldwright/engine/working/show.ts'
import type { LogEntry } from '../store/store.ts'

/** What the API tells of a derivation: every check with its figures, and where its working is. */
export function derivedView(stages: Stages) {
  return { ...standing(stages), checks: stages.checks.map(checkView) }
}

function checkView(check: Check) {
  const { demand, capacity, ...plain } = check
  const known = demand.value !== undefined && capacity.value !== undefined
  return {
    ...plain,
    demand: demand.value ?? null,
    capacity: capacity.value ?? null,
    utilisation: check.utilisation ?? null,
    left: known ? (capacity.value as number) - (demand.value as number) : null,
    working: { demand: workingAddress(check, 'demand'), capacity: workingAddress(check, 'capacity') },
  }
}

export type Side = 'demand' | 'capacity'

const workingAddress = (check: Check, side: Side): string =>
  `/api/working?check=${encodeURIComponent(check.id)}&side=${side}`

/** A working, and the names under which its own inputs have workings. */
export interface WorkingView {
  working: Working
  below: readonly string[]
}

/** The working of the answer found by walking these names down from one side of a check; undefined when there is none. */
export function workingView(
  check: Check,
  side: Side,
  path: readonly string[],
  system: UnitSystem,
): WorkingView | undefined {
  const answer = path.reduce<Answer | undefined>((at, name) => at && inputNamed(at, name), check[side])
  if (answer === undefined) return undefined
  const below = inputsOf(answer).filter(([, input]) => inputsOf(input).length > 0)
  return { working: workingOf(answer, system), below: below.map(([name]) => name) }
}

const inputNamed = (answer: Answer, name: string): Answer | undefined =>
  inputsOf(answer).find(([of]) => of === name)?.[1]

/** An entry of the log without the values it wrote: a first import is as large as the project. */
export function logView({ patch, ...entry }: LogEntry) {
  return { ...entry, operations: patch.map(({ op, path }) => ({ op, path })) }
}
