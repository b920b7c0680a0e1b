import type { Stages } from '@shieldwright/engine'
import type { Move } from '@shieldwright/engine/model/index.ts'
import type { StepFailure, StripStep } from '@shieldwright/engine/strip/index.ts'
import { countVerdicts } from '@shieldwright/engine/working/check.ts'
import { showQuantity, type UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import type { Command } from 'commander'
import type { Answer, Common } from '../answer.ts'
import { checkJson, countsText, reasonsText } from '../checkView.ts'
import { onStages, projectCommand } from '../command.ts'
import { table } from '../table.ts'

/** `strip FILE`: the adopted order, verified step by step. */
export const stripCommand = (): Command =>
  projectCommand('strip', 'the order of taking apart, verified step by step').action(onStages(adoptedAnswer))

export function adoptedAnswer({ strip }: Pick<Stages, 'strip'>, { units = 'SI' }: Common): Answer {
  const counts = countVerdicts(strip.checks)
  return {
    json: {
      feasible: strip.feasible,
      order: strip.steps.map(stepJson),
      failures: strip.failures,
      checks: strip.checks.map((c) => checkJson(c, units)),
    },
    text: () =>
      `${stepsTable(strip.steps, units)}\n${failuresText(strip.failures)}${reasonsText(strip.checks)}\n${countsText(counts)}`,
    counts,
    failed: !strip.feasible,
  }
}

/** A step as JSON tells it; moves in metres and radians, site frame. */
export function stepJson(step: StripStep) {
  return {
    step: step.step,
    piece: step.piece,
    parts: step.parts,
    moves: step.moves.map(moveJson),
    joints: step.joints,
    services: step.services,
    lift: step.lift,
    clearance: step.clearance,
    failures: step.failures,
  }
}

function moveJson(move: Move) {
  return 'by' in move
    ? { kind: 'translate', by: move.by.map((c) => c.value) }
    : { kind: 'rotate', turn: move.turn.value, axis: move.axis, about: move.about.map((c) => c.value) }
}

export function stepsTable(steps: readonly StripStep[], units: UnitSystem): string {
  const decimal = { align: 'decimal' } as const
  const columns = [
    { title: 'step' },
    { title: 'piece' },
    { title: 'parts', ...decimal },
    { title: 'moves', ...decimal },
    { title: 'joints', ...decimal },
    { title: 'services', ...decimal },
    { title: 'least gap', ...decimal },
    { title: 'to' },
    { title: '' },
  ]
  const rows = steps.map((s) => [
    s.step,
    s.piece,
    String(s.parts.length),
    String(s.moves.length),
    String(s.joints.length),
    String(s.services.length),
    s.clearance === undefined ? '' : showQuantity(s.clearance.gap, 'm', units),
    s.clearance?.to ?? '',
    s.failures.length === 0 ? '' : 'cannot be done',
  ])
  return table(columns, rows)
}

/** `step S06, piece "ring-left": …; in the way: …` */
export function failuresText(failures: readonly StepFailure[]): string {
  return failures
    .map(({ step, piece, reason, blockers }) => {
      const way = blockers.length === 0 ? '' : `; in the way: ${blockers.join(', ')}`
      return `step ${step}, piece "${piece}": ${reason}${way}\n`
    })
    .join('')
}
