import { type Answer, found, knownOr, stated } from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import { loadShare } from './hook.formulas.ts'
import type { Pick } from './pick.ts'

/** A criterion that makes a lift critical. */
export interface Criterion {
  text: string
  /** Undefined where the fact is not given. */
  met: boolean | undefined
  /** 1 where met, 0 where not; open where not known. */
  answer: Answer<'1'>
}

/**
 * Criteria of a critical lift: any yes makes it one; a fact that is missing leaves the class open unless another says yes.
 *
 * Source: EM 385-1-1 (2014) 16.H.01, read as quoted in a training page; consequence of loss, common practice.
 */
export function criteriaOf(pick: Pick, load: Answer<'kg'>, rated: Answer<'kg'>): Criterion[] {
  return [
    shareCriterion(pick, load, rated),
    factual('two hooks or machines share the load', pick.tail !== undefined),
    factual('the piece is turned', pick.lift.kind === 'turn'),
    fact(pick, 'persons', 'persons are hoisted'),
    fact(pick, 'hazardous', 'hazardous matter is lifted'),
    fact(pick, 'cogCouldChange', 'the centre of gravity could change'),
    fact(pick, 'outOfView', "part of the lift is out of the operator's view"),
    fact(pick, 'nonRoutineRigging', 'the rigging is not routine'),
    fact(
      pick,
      'otherReason',
      'it is lifted on tyres, submerged, from a floating machine or as a load test, or operator or director hold it critical',
    ),
    replacementCriterion(pick),
  ]
}

/** Critical, standard, or not known. */
export function classOf(criteria: readonly Criterion[]): boolean | undefined {
  if (criteria.some((c) => c.met === true)) return true
  return criteria.some((c) => c.met === undefined) ? undefined : false
}

const yesOrNo = (met: boolean | undefined): number | undefined => (met === undefined ? undefined : Number(met))

const factual = (text: string, met: boolean): Criterion => ({ text, met, answer: stated('1', Number(met), text) })

type Fact = 'persons' | 'cogCouldChange' | 'hazardous' | 'outOfView' | 'nonRoutineRigging' | 'otherReason'

function fact({ lift, at }: Pick, name: Fact, text: string): Criterion {
  const met = lift.facts[name]
  return { text, met, answer: recorded(at + pointerOf('facts', name), met) }
}

/** A fact of the file as an input, so that what is missing is named. */
const recorded = (pointer: string, met: boolean | undefined): Answer<'1'> => ({
  kind: 'given',
  unit: '1',
  pointer,
  value: yesOrNo(met),
})

function shareCriterion({ settings }: Pick, load: Answer<'kg'>, rated: Answer<'kg'>): Criterion {
  const limit = knownOr(settings.criticalShare, '1', '/settings/criticalShare')
  const share = loadShare.show({ m: load, R: rated })
  return compared('the load is a large share of the rating', share, limit, 'share of the rating at or above the limit')
}

function replacementCriterion({ lift, at, settings }: Pick): Criterion {
  const time = knownOr(lift.facts.replaceWithin, 's', `${at}/facts/replaceWithin`)
  const limit = knownOr(settings.criticalReplacement, 's', '/settings/criticalReplacement')
  return compared('the piece cannot soon be replaced', time, limit, 'time to replace above the limit')
}

function compared(text: string, value: Answer, limit: Answer, method: string): Criterion {
  const met = value.value === undefined || limit.value === undefined ? undefined : value.value >= limit.value
  return {
    text,
    met,
    answer: found({ unit: '1', value: yesOrNo(met), method, inputs: { value, limit }, residuals: [] }),
  }
}
