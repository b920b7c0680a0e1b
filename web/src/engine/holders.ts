import type { Stages } from '@shieldwright/engine'
import type { HolderLine, HolderView } from '../lift/pageView.ts'

type LiftOutcome = Stages['lift']['lifts'][string]

/** What holds the load: the chart of the crane as read, its strand units or winches, and the feet of the machine. */
export const holdersOf = (outcome: LiftOutcome): HolderView[] => [
  ...outcome.charts.map(chartOf),
  ...outcome.units.map(unitsOf),
  ...feetOf(outcome),
]

const chartOf = ({ hook, how, radius, gross, deductions, net, share }: LiftOutcome['charts'][number]): HolderView => ({
  title: `Chart of the ${hook}`,
  words: `Read: ${how}.`,
  lines: [
    { label: 'largest radius', value: radius.value, unit: 'm' },
    { label: 'rated by the chart', value: gross.value, unit: 'kg' },
    ...deductions.map((d): HolderLine => ({ label: `less ${d.label}`, value: d.answer.value, unit: 'kg' })),
    { label: 'left for load and rigging', value: net.value, unit: 'kg' },
    { label: 'share of the chart used', value: share.value, unit: '1' },
  ],
})

const unitsOf = ({
  hook,
  kind,
  units,
  level,
  lost,
  rated,
  length,
  strokes,
}: LiftOutcome['units'][number]): HolderView => ({
  title: `${units.length} ${kind}s on the ${hook}`,
  words:
    'Block rigid, lines elastic and at their shortest in this lift; with one lost the load is taken as laid over gently.',
  lines: [
    ...units
      .slice(0, 1)
      .map((u): HolderLine => ({ label: 'strokes even', value: u.load.value, unit: 'N', limit: rated.value })),
    { label: 'strokes apart, the worst', value: level.value, unit: 'N', limit: rated.value },
    { label: 'any one lost, the worst', value: lost.value, unit: 'N', limit: rated.value },
    { label: 'line left', value: length.value, unit: 'm' },
    ...(strokes === undefined ? [] : [{ label: 'strokes', value: strokes.value, unit: '1' } as const]),
  ],
})

function feetOf({ feet }: LiftOutcome): HolderView[] {
  if (feet === undefined) return []
  const lines = feet.feet.map(({ label, largest }): HolderLine => ({ label, value: largest.value, unit: 'N' }))
  const anywhere: HolderLine[] =
    feet.anywhere === undefined
      ? []
      : [{ label: 'any, hook anywhere, with travel and wind', value: feet.anywhere.value, unit: 'N' }]
  const words =
    feet.anywhere === undefined ? 'The worst slew, loaded or empty.' : 'At rest, the hook at its planned places.'
  return [{ title: 'Feet of the machine', words, lines: [...lines, ...anywhere] }]
}
