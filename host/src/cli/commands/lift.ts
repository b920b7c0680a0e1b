import type { Stages } from '@shieldwright/engine'
import type { LiftOutcome } from '@shieldwright/engine/lift/index.ts'
import { countVerdicts } from '@shieldwright/engine/working/check.ts'
import { nearestId } from '@shieldwright/engine/working/problem.ts'
import { showNumber, showQuantity, type UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import type { Command } from 'commander'
import { type Answer, type Common, usageProblem } from '../answer.ts'
import { checkJson, checksTable, countsText, reasonsText, workingJson } from '../checkView.ts'
import { onStages, projectCommand } from '../command.ts'
import { table } from '../table.ts'

interface Options extends Common {
  lift?: string
}

/** `lift FILE`: hook loads, legs, tilt, height, clearance, turning, wind and checks of every lift or of one. */
export const liftCommand = (): Command =>
  projectCommand('lift', 'hook load, rigging, clearance, turning and wind of every lift')
    .option('--lift <id>', 'one lift')
    .action(onStages(liftAnswer))

export function liftAnswer({ lift: { lifts } }: Pick<Stages, 'lift'>, { lift, units = 'SI' }: Options): Answer {
  if (lift !== undefined && !Object.hasOwn(lifts, lift)) {
    return usageProblem('--lift', `"${lift}"`, 'the id of a lift', nearestId(lift, Object.keys(lifts)))
  }
  const wanted = lift === undefined ? Object.values(lifts) : [lifts[lift] as LiftOutcome]
  const checks = wanted.flatMap((l) => l.checks)
  const counts = countVerdicts(checks)
  return {
    json: { lifts: wanted.map((l) => liftJson(l, units)) },
    text: () =>
      `${liftsTable(wanted, units)}\n${lift === undefined ? '' : `${checksTable(checks, units)}\n`}${reasonsText(checks)}\n${countsText(counts)}`,
    counts,
  }
}

function liftJson(l: LiftOutcome, units: UnitSystem) {
  const { needed, available } = l.height
  const known = needed.value !== undefined && available.value !== undefined
  return {
    id: l.id,
    piece: l.piece,
    kind: l.kind,
    system: l.system,
    hook: l.hook,
    mass: massOf(l),
    hookLoad: l.hookLoad.value,
    rated: l.rated.value,
    legs: l.legs.map((leg) => ({
      id: leg.id,
      tension: leg.tension.value,
      worst: leg.worst.value,
      angle: leg.angle.value,
      slack: leg.slack,
    })),
    tilt: l.tilt.value,
    height: {
      needed: needed.value,
      available: available.value,
      margin: known ? (available.value as number) - (needed.value as number) : null,
    },
    clearance:
      l.clearance === undefined ? null : { gap: l.clearance.gap.value, to: l.clearance.to, at: l.clearance.at },
    turning: l.turning.map(({ angle, main, tail, mainLean, tailLean }) => ({
      angle,
      main: main.value,
      tail: tail.value,
      mainLean,
      tailLean,
    })),
    allowableWind: l.allowableWind.value,
    duration: l.duration.value,
    critical: l.critical,
    criteria: l.criteria,
    working: {
      hookLoad: workingJson(l.hookLoad, units),
      allowableWind: workingJson(l.allowableWind, units),
      tilt: workingJson(l.tilt, units),
    },
    checks: l.checks.map((c) => checkJson(c, units)),
  }
}

/** The piece's own line of the hook load's chain. */
function massOf({ hookLoad }: LiftOutcome): number | undefined {
  return hookLoad.kind === 'sum' ? hookLoad.terms[0]?.answer.value : undefined
}

function liftsTable(lifts: readonly LiftOutcome[], units: UnitSystem): string {
  const decimal = { align: 'decimal' } as const
  const columns = [
    { title: 'lift' },
    { title: 'piece' },
    { title: 'kind' },
    { title: 'hook load', ...decimal },
    { title: 'rated', ...decimal },
    { title: 'use', ...decimal },
    { title: 'tilt', ...decimal },
    { title: 'clearance', ...decimal },
    { title: 'wind', ...decimal },
    { title: 'class' },
  ]
  const rows = lifts.map((l) => [
    l.id,
    l.piece,
    l.kind,
    showQuantity(l.hookLoad.value, 'kg', units),
    showQuantity(l.rated.value, 'kg', units),
    l.hookLoad.value === undefined || l.rated.value === undefined
      ? ''
      : showNumber(l.hookLoad.value / l.rated.value, 3),
    showQuantity(l.tilt.value, 'rad', units),
    l.clearance === undefined ? '' : showQuantity(l.clearance.gap.value, 'm', units),
    showQuantity(l.allowableWind.value, 'm/s', units),
    l.critical === undefined ? 'open' : l.critical ? 'critical' : 'standard',
  ])
  return table(columns, rows)
}
