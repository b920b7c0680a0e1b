import type { Inspection } from '../../model/index.ts'
import { given } from '../../working/answer.ts'
import { type Check, check, type Subject } from '../../working/check.ts'
import { faultsFound, NONE } from '../../working/fault.ts'
import { pointerOf } from '../../working/pointer.ts'
import { limitChecks } from '../tests/limits.ts'
import { measureWithin, partDecided } from './kinds.ts'

const CAUTION = 'What was not measured is not known; the maker says what has to be measured on this part.'

/** Checks of one opened part: each measure against its limit, and what was decided on it. */
export function openedChecks(id: string, inspection: Inspection, near: number): Check[] {
  const subject: Subject = { pointer: pointerOf('inspections', id), id, name: inspection.what }
  const measures = measureChecks(subject, standingMeasures(inspection), near)
  return [...measures, decidedCheck(subject, inspection, measures, near)]
}

type Measures = Inspection['measures']

/** Each measure of an opened part or a weld against its limit. */
export function measureChecks(subject: Subject, measures: Measures, near: number): Check[] {
  return Object.entries(measures).flatMap(([m, measure]) =>
    limitChecks({
      kind: measureWithin,
      subject,
      title: `${measure.what} is accepted`,
      at: `${subject.pointer}/measures/${m}`,
      measured: measure,
      of: m,
      assumptions: [
        ...(measure.unit === undefined ? [] : [`read in ${measure.unit}`]),
        measure.from === undefined ? 'where the limit stands is not said' : `limit by ${measure.from}`,
      ],
      cautions: [CAUTION],
      near,
    }),
  )
}

/** Measures without readings of what is no longer there: those up to the day on which it was reworked or replaced. */
export function standingMeasures({ measures, decided }: Inspection): Measures {
  if (decided === undefined || decided.as === 'reused') return measures
  return Object.fromEntries(
    Object.entries(measures).map(([m, measure]) => [
      m,
      {
        ...measure,
        readings: Object.fromEntries(Object.entries(measure.readings).filter(([, r]) => r.on > decided.on)),
      },
    ]),
  )
}

/** A part is reused on what was measured by then; outside a limit it goes back only with a reason. */
function decidedCheck(subject: Subject, { decided }: Inspection, measures: readonly Check[], near: number): Check {
  const outside =
    decided?.as === 'reused' && decided.reason === undefined ? measures.filter((c) => c.verdict === 'fail') : []
  return check({
    kind: partDecided,
    subject,
    demand: faultsFound(
      outside.length,
      'measures outside their limit on a part that is reused without a reason',
      decided === undefined ? { decided: given('1', `${subject.pointer}/decided`, undefined) } : {},
    ),
    capacity: NONE,
    near,
    assumptions:
      decided === undefined
        ? []
        : [
            `${decided.as} by ${decided.by} on ${decided.on}${decided.reason === undefined ? '' : `: ${decided.reason}`}`,
            ...(decided.as === 'reused' ? [] : ['readings up to that day are of what was there before']),
          ],
    cautions: [CAUTION],
    found: outside.map((c) => `reused, though ${c.title.replace(/ is accepted$/, '')} is outside its limit`),
  })
}
