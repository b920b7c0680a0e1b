import {
  type CheckChange,
  type Derivation,
  instantOf,
  type Standing,
  settingPatch,
  type WhatIf,
  whatIf,
} from '@shieldwright/engine'
import type { Operation, Patch } from '@shieldwright/engine/working/patch.ts'
import { showNumber, showQuantity, type UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import type { SiUnit } from '@shieldwright/engine/working/unit.ts'
import type { Command } from 'commander'
import { type Answer, type Cancelled, type Common, type Refusal, usageProblem } from '../answer.ts'
import { countsText } from '../checkView.ts'
import { onDerivation, projectCommand } from '../command.ts'
import { table } from '../table.ts'
import { runsOption, seedOption, simulated } from './risk.ts'

interface Options extends Common {
  set?: readonly string[]
  remove?: readonly string[]
  runs?: number
  seed?: number
}

/** `whatif FILE --set POINTER VALUE`: what a change would do, without keeping it. */
export const whatifCommand = (): Command =>
  projectCommand('whatif', 'what a change would do, check by check, without keeping it')
    .option('--set <words...>', 'pointer and value, such as /parts/head/mass/value "605 t"; may be repeated')
    .option('--remove <pointers...>', 'pointer of what is taken out')
    .option('--runs <n>', 'simulate both as well, for P50 and P80 of the restart', runsOption)
    .option('--seed <n>', 'seed of the simulation', seedOption, 1)
    .action(onDerivation((derivation, _, options: Options) => whatifAnswer(derivation, options)))

async function whatifAnswer(derivation: Derivation, options: Options): Promise<Answer> {
  const { set = [], remove = [], units = 'SI' } = options
  const patch = patchOf(derivation.document, set, remove)
  if ('problems' in patch) return patch
  const result = whatIf(derivation, patch.patch)
  if (result.whatIf === undefined) return { problems: result.problems }
  const chances = await chancesOf([derivation, result.derivation], options)
  if ('problems' in chances || 'cancelled' in chances) return chances
  const [before, after] = [result.whatIf.before, result.whatIf.after].map((standing, i) => ({
    ...standing,
    restart: { ...standing.restart, ...chances.of[i] },
  })) as [Told, Told]
  const { changes } = result.whatIf
  return {
    json: { before, after, changes, patch: patch.patch },
    text: () => whatIfText({ before, after, changes }, units),
    counts: after.counts,
  }
}

/** Likely dates of the restart, where they were simulated. */
interface Chances {
  p50?: string | null
  p80?: string | null
}

type Told = Standing & { restart: Chances }

/** Simulates each with the same seed, so that they differ by the change and by nothing else. */
async function chancesOf(
  derivations: readonly Derivation[],
  { runs, seed = 1 }: Options,
): Promise<{ of: readonly Chances[] } | Refusal | Cancelled> {
  const of: Chances[] = []
  for (const derivation of runs === undefined ? [] : derivations) {
    const outcome = await simulated(derivation, { runs: runs as number, seed })
    if (!('result' in outcome)) return outcome
    const { simulation, origin } = outcome.result
    of.push({ p50: instantOf(origin, simulation.restart.p50), p80: instantOf(origin, simulation.restart.p80) })
  }
  return { of }
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
    moved.flatMap(reasonsText).join(''),
    others === 0 ? '' : `${others} more changed in their figures, not in their verdict.\n`,
  ].join('\n')
}

/** Under the table: why a check fails or is open after the change. */
const reasonsText = ({ check, reasons }: CheckChange): string[] =>
  reasons.length === 0 ? [] : [`${check}: ${reasons.join('; ')}\n`]

function standingText({ counts, restart }: Told): string {
  const { planned, p50, p80 } = restart
  const chances = p50 === undefined ? '' : `, P50 ${p50?.slice(0, 10)}, P80 ${p80?.slice(0, 10)}`
  return `${countsText(counts).trimEnd()}; restart planned ${planned?.slice(0, 10) ?? 'open'}${chances}`
}

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
