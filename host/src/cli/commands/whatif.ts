import {
  type CheckChange,
  type Derivation,
  type Standing,
  settingPatch,
  type WhatIf,
  whatIf,
} from '@shieldwright/engine'
import type { Operation, Patch } from '@shieldwright/engine/working/patch.ts'
import { showNumber, showQuantity, type UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import type { SiUnit } from '@shieldwright/engine/working/unit.ts'
import type { Command } from 'commander'
import { type Answer, type Common, type Refusal, usageProblem } from '../answer.ts'
import { countsText } from '../checkView.ts'
import { onDerivation, projectCommand } from '../command.ts'
import { table } from '../table.ts'

interface Options extends Common {
  set?: readonly string[]
  remove?: readonly string[]
}

/** `whatif FILE --set POINTER VALUE`: what a change would do, without keeping it. */
export const whatifCommand = (): Command =>
  projectCommand('whatif', 'what a change would do, check by check, without keeping it')
    .option('--set <words...>', 'pointer and value, such as /parts/head/mass/value "605 t"; may be repeated')
    .option('--remove <pointers...>', 'pointer of what is taken out')
    .action(onDerivation((derivation, _, options: Options) => whatifAnswer(derivation, options)))

export function whatifAnswer(derivation: Derivation, { set = [], remove = [], units = 'SI' }: Options): Answer {
  const patch = patchOf(derivation.document, set, remove)
  if ('problems' in patch) return patch
  const result = whatIf(derivation, patch.patch)
  if (result.whatIf === undefined) return { problems: result.problems }
  const { before, after, changes } = result.whatIf
  return {
    json: { before, after, changes, patch: patch.patch },
    text: () => whatIfText(result.whatIf, units),
    counts: after.counts,
  }
}

function patchOf(document: unknown, set: readonly string[], remove: readonly string[]): { patch: Patch } | Refusal {
  if (set.length === 0 && remove.length === 0) {
    return usageProblem('--set', 'nothing', 'a pointer and a value', '--set /parts/head/mass/value "605 t"')
  }
  if (set.length % 2 !== 0) {
    return usageProblem(
      '--set',
      `${set.length} words`,
      'pairs of a pointer and a value',
      '--set /parts/head/mass/value "605 t"',
    )
  }
  const pairs = set.flatMap((pointer, i) => (i % 2 === 0 ? [[pointer, set[i + 1] as string] as const] : []))
  const removals = remove.map((path): Operation => ({ op: 'remove', path }))
  return { patch: [...settingPatch(document, pairs), ...removals] }
}

/** Counts and restart before and after, then the checks that changed. */
export function whatIfText({ before, after, changes }: WhatIf, units: UnitSystem): string {
  const moved = changes.filter((c) => c.moved)
  const others = changes.length - moved.length
  return [
    `before  ${standingText(before)}`,
    `after   ${standingText(after)}`,
    moved.length === 0 ? 'No verdict changes.\n' : changesTable(moved, units),
    others === 0 ? '' : `${others} more changed in their figures, not in their verdict.\n`,
  ].join('\n')
}

const standingText = ({ counts, restart }: Standing): string =>
  `${countsText(counts).trimEnd()}; restart planned ${restart.planned ?? 'open'}`

function changesTable(changes: readonly CheckChange[], units: UnitSystem): string {
  const decimal = { align: 'decimal' } as const
  const columns = [
    { title: 'check' },
    { title: 'was' },
    { title: 'is' },
    { title: 'demand', ...decimal },
    { title: 'capacity', ...decimal },
    { title: 'use was', ...decimal },
    { title: 'use is', ...decimal },
  ]
  const rows = changes.map(({ check, before, after, unit }) => [
    check,
    before?.verdict ?? '',
    after?.verdict ?? 'gone',
    after === undefined ? '' : showQuantity(after.demand, unit as SiUnit, units),
    after === undefined ? '' : showQuantity(after.capacity, unit as SiUnit, units),
    before?.utilisation === undefined ? '' : showNumber(before.utilisation, 3),
    after?.utilisation === undefined ? '' : showNumber(after.utilisation, 3),
  ])
  return table(columns, rows)
}
