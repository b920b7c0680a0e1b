import type { Model, Part } from '../model/index.ts'
import { type Answer, found, given, knownOr } from '../working/answer.ts'
import { type Check, check, type Subject } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { expanded, massDifference } from './check.formulas.ts'
import { massRecord, partAgainstSolids } from './kinds.ts'
import type { PartMass } from './part.ts'

/** Each entry's stated mass against its solids, and whether it says how it is known. */
export function partChecks(
  { project, near }: Model,
  parts: Readonly<Record<string, PartMass>>,
  memory: Memory,
): Check[] {
  const { coverage } = project.settings
  return Object.entries(project.parts).flatMap(([id, part]) => {
    const mass = parts[id] as PartMass
    return memory.once(`mass-part-checks/${id}`, [mass, part.mass, part.name, coverage, near], () => {
      const subject: Subject = { pointer: pointerOf('parts', id, 'mass'), id, name: part.name }
      const record = recordCheck(subject, part.mass, mass, near)
      return part.mass === undefined ? [record] : [solidsCheck(subject, mass, coverage, near), record]
    })
  })
}

function solidsCheck(subject: Subject, part: PartMass, coverage: Answer<'1'> | undefined, near: number): Check {
  return check({
    kind: partAgainstSolids,
    subject,
    demand: massDifference.show({ m1: part.mass, m2: part.computed }),
    capacity: expanded.show({ k: knownOr(coverage, '1', '/settings/coverage'), u: part.uncertainty }),
    near,
    found: ['the shape and the mass do not belong together: one of them is of another part, revision or unit'],
  })
}

function recordCheck(subject: Subject, stated: Part['mass'], part: PartMass, near: number): Check {
  const at = (field: string): string => `${subject.pointer}/${field}`
  const faults = stated === undefined ? [] : recordFaults(stated)
  return check({
    kind: massRecord,
    subject,
    demand: found({
      unit: '1',
      value: faults.length,
      method: 'faults in how the mass is known: basis, uncertainty, date and source are given, and none is empty',
      inputs: {
        mass: knownOr(stated?.value, 'kg', at('value')),
        uncertainty: part.share,
        date: recorded(at('date'), stated?.date),
        source: recorded(at('source'), stated?.source),
      },
      residuals: [],
    }),
    capacity: NONE_ALLOWED,
    near,
    found: faults,
  })
}

function recordFaults({ uncertainty, source }: NonNullable<Part['mass']>): string[] {
  return [
    ...(uncertainty?.value === 0 ? ['an uncertainty of zero: no mass is known exactly'] : []),
    ...(source !== undefined && source.trim() === '' ? ['a source without words'] : []),
  ]
}

export const NONE_ALLOWED: Answer<'1'> = { kind: 'stated', unit: '1', value: 0, text: 'none allowed' }

/** A record in words: known when it is there. Its value counts it, for words have none. */
const recorded = (pointer: string, words: string | undefined): Answer<'1'> =>
  given('1', pointer, words === undefined ? undefined : 1)
