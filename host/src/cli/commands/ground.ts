import type { Stages } from '@shieldwright/engine'
import {
  type GroundStep,
  groundRanges,
  type InstrumentState,
  type Move,
  type RangedCheck,
  type Standing,
} from '@shieldwright/engine/ground/index.ts'
import { countVerdicts } from '@shieldwright/engine/working/check.ts'
import { showQuantity, type UnitSystem } from '@shieldwright/engine/working/quantity.ts'
import type { Command } from 'commander'
import type { Answer, Common } from '../answer.ts'
import { checkJson, checksTable, countsText, reasonsText } from '../checkView.ts'
import { onDerivation, projectCommand } from '../command.ts'
import { table } from '../table.ts'

/** `ground FILE`: what every step puts on wall, base, bays and footings. */
export const groundCommand = (): Command =>
  projectCommand('ground', 'wall, base, bays and footings at every step')
    .option('--ranges', 'how the checks move with the soil values and water levels that have a lowest and a highest')
    .action(
      onDerivation<Options>((derivation, stages, options) =>
        options.ranges
          ? rangesAnswer(groundRanges(stages.model, stages, derivation.memory))
          : groundAnswer(stages, options),
      ),
    )

interface Options extends Common {
  ranges?: boolean
}

function rangesAnswer(ranges: readonly RangedCheck[]): Answer {
  return {
    json: {
      ranges: ranges.map(({ moves, ...check }) => ({
        ...check,
        moves: moves.map(({ pointer, low, high }) => ({ pointer, low: endJson(low), high: endJson(high) })),
      })),
    },
    text: () =>
      ranges.length === 0
        ? 'no soil value and no water level has a lowest and a highest\n'
        : `${rangesTable(ranges)}\nOne value at an end of its range, the rest as estimated; "worst" is all of them at once.\n`,
  }
}

const endJson = ({ value, ...standing }: Move['low']) => ({ ...standing, value: value.value ?? null })

function rangesTable(ranges: readonly RangedCheck[]): string {
  const columns = [
    { title: 'check' },
    { title: 'best', align: 'decimal' },
    { title: '' },
    { title: 'worst', align: 'decimal' },
    { title: '' },
    { title: 'moved most by' },
    { title: 'low', align: 'decimal' },
    { title: 'high', align: 'decimal' },
  ] as const
  return table(
    columns,
    ranges.flatMap(({ title, best, worst, moves }) =>
      moves
        .slice(0, MOST_SHOWN)
        .map(({ pointer, low, high }, i) => [
          ...(i === 0 ? [title, useText(best), best.verdict, useText(worst), worst.verdict] : ['', '', '', '', '']),
          pointer,
          useText(low),
          useText(high),
        ]),
    ),
  )
}

/** A check hangs from few values in earnest. */
const MOST_SHOWN = 3

const useText = ({ use }: Standing): string => use?.toFixed(3) ?? ''

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
