import { type Answer, given, leastOf, stated, type Term } from '../working/answer.ts'
import { chartsOf, type Fitted, type Reading, readCharts } from './chart.ts'
import { allowedLoad, reserveShare } from './hook.formulas.ts'
import { leastRadius, radiusOf, slewPassed } from './passed.ts'
import type { Hooked, Pick } from './pick.ts'
import { isWhole } from './sector.ts'

/** Rated load of a hook for this lift: one figure, the charts over the radii passed, or the lower of both. */
export function ratedOf(pick: Pick, hooked: Hooked): Answer<'kg'> {
  const { rated } = hooked.hook
  const charted = chartReading(pick, hooked)?.rated
  if (rated !== undefined && charted !== undefined)
    return leastOf('Rated load, the lower of both', 'kg', [
      { label: 'of the hook', answer: rated },
      { label: 'by its charts', answer: charted },
    ])
  return rated ?? charted ?? given('kg', `${hooked.hookAt}/rated`, undefined)
}

/** The charts of a hook read for this lift; undefined where the hook has none. */
export function chartReading(pick: Pick, hooked: Hooked): Reading | undefined {
  const charts = chartsOf(hooked.hook, hooked.hookAt)
  if (charts.length === 0) return undefined
  const fitted = fittedOf(pick, hooked)
  // over a chart for the whole circle it may swing wherever it does
  const isBound = charts.some(({ sector }) => sector !== undefined && !isWhole(sector))
  return readCharts(charts, {
    fitted: fitted.slew === undefined || !isBound ? fitted : { ...fitted, slew: slewPassed(pick, hooked, fitted.slew) },
    radius: radiusOf(pick, hooked),
    nearest: leastRadius(pick, hooked),
    at: `${hooked.systemAt}/setUp`,
  })
}

/** What is fitted in this lift, and where the lift does not say, on the crane; a second hook of one crane has what its first has. */
export const fittedOf = ({ main, tail, lift }: Pick, hooked: Hooked): Fitted => ({
  ...hooked.system.setUp,
  ...(hooked.systemId === main.systemId ? lift.setUp : {}),
  ...(hooked === tail ? lift.tail?.setUp : {}),
})

/** Where the project sets no share of its own for lifts of several machines. */
const RESERVE_OF_TWO = stated(
  '1',
  0.2,
  'Mobile Crane Code of Practice (Queensland), 14.3.2: 20 % with two cranes (read)',
)

/** Load of the plan: the rating times the lowest share that applies. */
export function allowedOf(
  pick: Pick,
  hooked: Hooked,
  rated: Answer<'kg'>,
  critical: boolean | undefined,
): Answer<'kg'> {
  const shares = sharesOf(pick, hooked, critical)
  return shares.length === 0 ? rated : allowedLoad.show({ R: rated, s: leastOf('Share that may be used', '1', shares) })
}

const PERSONS_SHARE = stated(
  '1',
  0.5,
  '29 CFR 1926.1431: half of the rated load; Directive 2006/42/EC, annex I 6.1.1: twice the factors for goods (both from memory)',
)

function sharesOf(pick: Pick, { system }: Hooked, critical: boolean | undefined): Term<'1'>[] {
  const shares: Term<'1'>[] = []
  if (system.planned !== undefined) shares.push({ label: 'a planned lift', answer: system.planned })
  if (pick.tail !== undefined && system.tandem !== undefined)
    shares.push({ label: 'a shared lift', answer: system.tandem })
  else if (pick.tail !== undefined && pick.tail.systemId !== pick.main.systemId)
    shares.push({ label: 'two machines share the load', answer: reserveShare.show({ r: RESERVE_OF_TWO }) })
  if (pick.lift.facts.persons === true) shares.push({ label: 'persons are hoisted', answer: PERSONS_SHARE })
  if (critical !== false && pick.settings.criticalUse !== undefined)
    shares.push({ label: 'a critical lift', answer: pick.settings.criticalUse })
  return shares
}
