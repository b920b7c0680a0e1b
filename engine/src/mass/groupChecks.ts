import type { Machine, Model } from '../model/index.ts'
import { knownOr, sumOf } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import type { Memory } from '../working/memory.ts'
import { pointerOf } from '../working/pointer.ts'
import { expanded, massDifference, together } from './check.formulas.ts'
import { groupTotal } from './kinds.ts'
import { type Lump, lumpOf } from './lump.ts'
import type { PartMass } from './part.ts'
import { standardUncertainty } from './set.formulas.ts'
import { type Combine, termsOf, uncertaintiesOf } from './uncertainty.ts'

type Total = Machine['groupTotals'][string]

/** Each group that the maker gives a total for, against the sum of its parts. */
export function groupChecks(model: Model, parts: Readonly<Record<string, PartMass>>, memory: Memory): Check[] {
  const { project, instances, near } = model
  const { coverage, uncertainty } = project.settings
  return Object.entries(project.machine?.groupTotals ?? {}).map(([group, total]) => {
    const entries = Object.entries(project.parts).filter(([, part]) => part.group === group)
    const reads = entries.flatMap(([id, part]) => [parts[id], part.pattern])
    return memory.once(`mass-group-check/${group}`, [total, coverage, uncertainty, near, ...reads], () => {
      const lumps = entries.map(([id]) =>
        lumpOf({ part: parts[id] as PartMass, instances: instances.ofEntry.get(id) ?? [] }),
      )
      return groupCheck({ group, total, lumps, combine: uncertainty, coverage, near })
    })
  })
}

interface GroupCheck {
  group: string
  total: Total
  lumps: readonly Lump[]
  combine: Combine
  coverage: Model['project']['settings']['coverage']
  near: number
}

function groupCheck({ group, total, lumps, combine, coverage, near }: GroupCheck): Check {
  const sum = sumOf(`parts of the group "${group}"`, 'kg', termsOf(lumps, 'mass'))
  const u = together.show({
    u1: uncertaintiesOf(lumps)[combine],
    u2: standardUncertainty.show({ m: total.mass, s: total.uncertainty }),
  })
  return check({
    kind: groupTotal,
    subject: { pointer: pointerOf('machine', 'groupTotals', group), id: group, name: group },
    demand: massDifference.show({ m1: sum, m2: total.mass }),
    capacity: expanded.show({ k: knownOr(coverage, '1', '/settings/coverage'), u }),
    near,
    found: [
      'parts are missing, counted twice or drawn of another machine, or the total includes what the parts do not',
    ],
  })
}
