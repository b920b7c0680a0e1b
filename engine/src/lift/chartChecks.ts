import { type Answer, sumOf, type Term } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { netCapacity } from './chart.formulas.ts'
import { loadShare } from './hook.formulas.ts'
import { blockLines, chartLines } from './hook.ts'
import { faults, NONE_ALLOWED } from './hookChecks.ts'
import type { Hooked, Pick } from './pick.ts'
import { chartReading } from './rated.ts'
import { chartRange } from './systemKinds.ts'

/** How the charts of a hook were read for a lift, and what of the rating is left for load and rigging. */
export interface ChartRead {
  hook: string
  how: string
  radius: Answer<'m'>
  gross: Answer<'kg'>
  /** What the chart counts as load beside rigging: block, jib stowed, auxiliary head. */
  deductions: readonly Term<'kg'>[]
  net: Answer<'kg'>
  /** Load that the chart counts over the gross rated load: percent of capacity. */
  share: Answer<'1'>
}

/** The charts of a hook as read; undefined where it has none. */
export function chartRead(pick: Pick, hooked: Hooked, demand: Answer<'kg'>): ChartRead | undefined {
  const reading = chartReading(pick, hooked)
  if (reading === undefined) return undefined
  const { hook } = hooked
  const block = hook.basis.point === 'above the block' ? blockLines(hooked) : []
  const deductions = [...block, ...chartLines(hooked)]
  return {
    hook: pick.main.hook.name === pick.tail?.hook.name ? `${hook.name} of ${hooked.system.name}` : hook.name,
    how: reading.how,
    radius: reading.radius,
    gross: reading.rated,
    deductions,
    net: netCapacity.show({ G: reading.rated, D: sumOf('Counted by the chart', 'kg', deductions) }),
    share: loadShare.show({ m: demand, R: reading.rated }),
  }
}

/** The charts are read within their range: boom, counterweight, slew and radius. */
export function chartRangeCheck(pick: Pick, hooked: Hooked): Check[] {
  const reading = chartReading(pick, hooked)
  if (reading === undefined) return []
  return [
    check({
      kind: chartRange,
      subject: pick.subject,
      of: hooked.id === pick.main.id && hooked !== pick.tail ? 'main' : 'tail',
      title: `${chartRange.title}: ${hooked.hook.name}`,
      demand: faults(reading.outside.length, 'readings outside the range of the charts', reading.inputs),
      capacity: NONE_ALLOWED,
      near: pick.near,
      assumptions: [`Read: ${reading.how}.`],
      cautions: [
        'The radius grows as boom and ropes give under load: the largest radius is measured with the load on.',
      ],
      found: reading.outside,
    }),
  ]
}
