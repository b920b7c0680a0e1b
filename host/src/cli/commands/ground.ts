import type { Stages } from '@shieldwright/engine'
import type { GroundStep, InstrumentState } from '@shieldwright/engine/ground/index.ts'
import { countVerdicts } from '@shieldwright/engine/working/check.ts'
import { showQuantity, type UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import type { Command } from 'commander'
import type { Answer, Common } from '../answer.ts'
import { checkJson, checksTable, countsText, reasonsText } from '../checkView.ts'
import { onStages, projectCommand } from '../command.ts'
import { table } from '../table.ts'

/** `ground FILE`: what every step puts on wall, base, bays and footings. */
export const groundCommand = (): Command =>
  projectCommand('ground', 'wall, base, bays and footings at every step').action(onStages(groundAnswer))

export function groundAnswer({ ground }: Pick<Stages, 'ground'>, { units = 'SI' }: Common): Answer {
  const { checks, steps, governing } = ground
  const counts = countVerdicts(checks)
  return {
    json: {
      checks: checks.map((c) => checkJson(c, units)),
      steps: steps.map(stepJson),
      governing,
      decisions: ground.decisions,
      instruments: ground.instruments.map(instrumentJson),
    },
    text: () =>
      `${loadsTable(steps, units)}\n${checksTable(checks, units)}\n${reasonsText(checks)}\n${countsText(counts)}`,
    counts,
  }
}

const stepJson = ({ step, piece, lift, loads }: GroundStep) => ({
  step,
  piece,
  lift,
  loads: loads.map(({ force, ...load }) => ({ ...load, force: force.value })),
})

const instrumentJson = ({ id, readings, trend, at, demands, reached, step, every }: InstrumentState) => ({
  id,
  reading: readings.at(-1)?.answer.value ?? null,
  on: readings.at(-1)?.on ?? null,
  passed: at ?? null,
  demands: demands ?? null,
  perSecond: trend?.speed ?? null,
  reached,
  every: every.value ?? null,
  step: step ?? null,
})

function loadsTable(steps: readonly GroundStep[], units: UnitSystem): string {
  const columns = [
    { title: 'step' },
    { title: 'what stands' },
    { title: 'on' },
    { title: 'force', align: 'decimal' },
  ] as const
  const rows = steps.flatMap(({ step, loads }) =>
    loads.map((load) => [step, load.what, load.on, showQuantity(load.force.value, 'N', units)]),
  )
  return table(columns, rows)
}
