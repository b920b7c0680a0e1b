import { type Answer, found, given, knownOr, stated, sumOf } from '../working/answer.ts'
import { type Check, check } from '../working/check.ts'
import { pointerOf } from '../working/pointer.ts'
import { LIFT_CAUTIONS, READING_CAUTIONS } from './caution.ts'
import type { Criterion } from './classification.ts'
import { loadCure, tooMuch, words } from './cure.ts'
import { gearOf, type HookLoad } from './hook.ts'
import {
  bothHooksUse,
  breakOut,
  classDemands,
  hookUse,
  loadComplete,
  looseParts,
  pieceStress,
  ratingBasis,
} from './kinds.ts'
import type { Hooked, Pick } from './pick.ts'
import { breakOutCeiling } from './reading.formulas.ts'
import { isCrane } from './swept.ts'

/** No faults are allowed: the capacity of a yes-or-no check. */
export const NONE_ALLOWED = stated('1', 0, 'none allowed')

/** Number of faults found, open where an input is. */
export const faults = (value: number, method: string, inputs: Readonly<Record<string, Answer>>): Answer<'1'> =>
  found({ unit: '1', value, method, inputs, residuals: [] })

/** Each line of the hook load is there once and weighs something. */
export function loadCompleteCheck(pick: Pick, hooked: Hooked, load: HookLoad): Check {
  const weightless = load.lines.filter((line) => isThing(line.label) && line.answer.value === 0)
  return check({
    kind: loadComplete,
    subject: pick.subject,
    of: hooked.key,
    demand: faults(weightless.length, 'lines of the hook load that weigh nothing: piece, rigging, gear and block', {
      ...Object.fromEntries(load.lines.map((line) => [line.label, line.answer])),
      ...Object.fromEntries(boltedUnplaced(pick, hooked)),
    }),
    capacity: NONE_ALLOWED,
    near: pick.near,
    assumptions: ['Hoses, lifting eyes and braces welded on count where the piece or its retained matter says so.'],
    cautions: LIFT_CAUTIONS,
    found: weightless.map((line) => `${line.label}: 0 kg; give its mass, or take it out of the arrangement`),
  })
}

/** Frames bolted to the piece whose centre of gravity nobody gives: they weigh on one hook alone, and move nothing. */
function boltedUnplaced({ gear }: Pick, { rigging }: Hooked): [string, Answer][] {
  return (rigging === undefined ? [] : gearOf(rigging)).flatMap((id): [string, Answer][] => {
    const frame = gear[id]
    const isBolted = frame !== undefined && (frame.kind === 'turning frame' || frame.boltedTo.length > 0)
    if (!isBolted || frame.cog !== undefined) return []
    return [[`centre of gravity of ${frame.name}`, given('m', pointerOf('gear', id, 'cog'), undefined)]]
  })
}

/** Nothing retained, and no allowance on a mass that is certain, may well be zero; a thing may not. */
const isThing = (label: string): boolean => !/^(allowance|retained)/.test(label)

/** Demand on a hook against what the plan may put on it. */
export function hookUseCheck(pick: Pick, hooked: Hooked, demand: Answer<'kg'>, allowed: Answer<'kg'>): Check {
  return check({
    kind: hookUse,
    subject: pick.subject,
    of: hooked.key,
    title: `${hookUse.title}: ${hooked.hook.name}`,
    demand,
    capacity: allowed,
    near: pick.near,
    found: loadCure(demand, allowed, isCrane(hooked.system)),
    assumptions: ratingAssumptions(hooked),
    cautions: [...LIFT_CAUTIONS, ...READING_CAUTIONS],
  })
}

function ratingAssumptions({ hook, system }: Hooked): string[] {
  const { dynamics, point, configuration, source } = hook.basis
  const isOneFigure = isCrane(system) && hook.chart === undefined && Object.keys(hook.charts).length === 0
  return [
    ...(isOneFigure
      ? ['One rating, whatever the radius: it must be that of the chart at the largest radius passed, as fitted.']
      : []),
    ...(dynamics === undefined ? [] : [`Dynamics: ${dynamics}.`]),
    ...(point === undefined ? [] : [`The rating is that ${point}.`]),
    ...(configuration === undefined ? [] : [`Configuration: ${configuration}.`]),
    ...(source === undefined ? [] : [`Source of the rating: ${source}.`]),
  ]
}

/** Both hooks of one machine together. */
export function bothHooksCheck(pick: Pick, loads: readonly { label: string; answer: Answer<'kg'> }[]): Check {
  const { system, systemAt } = pick.main
  const demand = sumOf('On both hooks', 'kg', loads)
  const capacity = knownOr(system.bothHooks?.rated, 'kg', `${systemAt}/bothHooks/rated`)
  return check({
    kind: bothHooksUse,
    subject: pick.subject,
    demand,
    capacity,
    found: tooMuch(demand, capacity, 'a lighter piece or rigging, or a machine whose hooks carry it together'),
    near: pick.near,
    cautions: LIFT_CAUTIONS,
  })
}

/** Dynamics and block stand on the side that the rating says, each once. */
export function ratingBasisCheck(pick: Pick, hooked: Hooked): Check {
  const { hook, hookAt, system, systemAt } = hooked
  const recorded = (pointer: string, there: boolean): Answer<'1'> => given('1', pointer, there ? 1 : undefined)
  const notIncluded = hook.basis.dynamics === 'not included'
  const factor = system.dynamicFactor?.value
  const leftOut = notIncluded && factor !== undefined && factor <= 1
  return check({
    kind: ratingBasis,
    subject: pick.subject,
    of: hooked.key,
    demand: faults(
      Number(leftOut),
      'dynamics counted nowhere: the rating does not hold them, and no factor above 1 is given',
      {
        dynamics: recorded(`${hookAt}/basis/dynamics`, hook.basis.dynamics !== undefined),
        block: recorded(`${hookAt}/basis/point`, hook.basis.point !== undefined),
        ...(notIncluded ? { 'hoist factor': knownOr(system.dynamicFactor, '1', `${systemAt}/dynamicFactor`) } : {}),
      },
    ),
    capacity: NONE_ALLOWED,
    near: pick.near,
    assumptions: ['Rated loads of slings and shackles are static; their design factor covers hoisting at slow speed.'],
    found: leftOut
      ? [
          'the hoist factor is 1 or less, and the rating does not include dynamics: give the factor above 1 that its maker states, or a rating that includes it',
        ]
      : [],
  })
}

const share = (ratio: number | undefined): string =>
  ratio === undefined ? 'open' : `${(ratio * 100).toFixed(1)}\u00a0%`

/** The reading at which break-out stops still lies within the rating. */
export function breakOutCheck(pick: Pick, hooked: Hooked, demand: Answer<'kg'>, rated: Answer<'kg'>): Check {
  const ceiling = breakOutCeiling.show({ m: demand, b: knownOr(pick.settings.weightBand, '1', '/settings/weightBand') })
  return check({
    kind: breakOut,
    subject: pick.subject,
    of: hooked.key,
    demand: ceiling,
    capacity: rated,
    found: [
      `break-out would stop at a reading of ${words(ceiling)}, above the rating of ${words(rated)}: a narrower band about the planned load, a lighter load, or a hook rated for it`,
    ],
    near: 1,
    assumptions: [
      'The limiter is set to this lift, not to the machine.',
      'Jacks free the piece before the hook takes it.',
    ],
    cautions: READING_CAUTIONS,
  })
}

/** What the class demands: every criterion answered, and for a critical lift what the trade asks of one. */
export function classCheck(pick: Pick, criteria: readonly Criterion[], critical: boolean | undefined): Check {
  const demands = critical === true ? demandsOf(pick) : []
  const unmet = demands.filter((d) => !d.met)
  return check({
    kind: classDemands,
    subject: pick.subject,
    title: `${classDemands.title}: ${critical === undefined ? 'class not known' : critical ? 'critical lift' : 'standard lift'}`,
    demand: faults(unmet.length, 'demands of the class that are not met', {
      ...Object.fromEntries(criteria.map((c) => [c.text, c.answer])),
      ...(critical === true
        ? { 'limit for critical lifts': knownOr(pick.settings.criticalUse, '1', '/settings/criticalUse') }
        : {}),
    }),
    capacity: NONE_ALLOWED,
    near: pick.near,
    assumptions: criteria.filter((c) => c.met === true).map((c) => `Critical because: ${c.text}.`),
    cautions: critical === true ? ['A critical lift has a written plan, signed before it, and a meeting of all.'] : [],
    found: unmet.map((d) => d.text),
  })
}

function demandsOf({ main, tail, lift, settings }: Pick): { text: string; met: boolean }[] {
  const band = settings.weightBand?.value
  const hooks = tail === undefined ? [main] : [main, tail]
  return [
    ...hooks.map(({ hook }) => ({
      text: `${hook.name} has no load reading: the weight is not verified by a second means; fit a load cell and state its accuracy`,
      met: hook.accuracy !== undefined,
    })),
    ...hooks.map(({ hook }) => ({
      text: `${hook.name} reads its load no finer than ${share(hook.accuracy?.value)}: a load outside the band of ${share(band)} would not be seen`,
      met: hook.accuracy?.value === undefined || band === undefined || hook.accuracy.value <= band,
    })),
    ...(lift.facts.persons === true
      ? hooks.map(({ system }) => ({
          text: `${system.name} is not for persons: take one that is, or lift without them`,
          met: system.forPersons,
        }))
      : []),
  ]
}

/** Parts that could shift are blocked or pinned. */
export function looseCheck(pick: Pick): Check {
  const could = pick.lift.facts.cogCouldChange
  return check({
    kind: looseParts,
    subject: pick.subject,
    demand: given('1', `${pick.at}/facts/cogCouldChange`, could === undefined ? undefined : Number(could)),
    capacity: NONE_ALLOWED,
    near: pick.near,
    assumptions: retainedText(pick),
    cautions: pick.lift.kind === 'turn' && (retainedOf(pick) ?? 0) > 0 ? [RUNS] : [],
    found: could === true ? ['the lift says that its centre of gravity could change: block or pin what is loose'] : [],
  })
}

const RUNS =
  'Oil, grease and water run as the piece turns: drained, or closed off and looked at, before the hooks take load.'

const retainedOf = ({ set }: Pick): number | undefined => set.retained.value

/** What is left in the piece counts as fixed: what its box bears of a shift is said beside. */
function retainedText(pick: Pick): string[] {
  const [left, all] = [retainedOf(pick), pick.set.design.value]
  const box = pick.settings.cogShift?.value
  if (left === undefined || all === undefined || left <= 0 || box === undefined) return []
  const room = (box * all) / left
  return [
    `${(left / 1000).toFixed(1)}\u00a0t left in the piece count as fixed: the box of the centre of gravity, ${(box * 1000).toFixed(0)}\u00a0mm, covers a shift of them by ${room.toFixed(1)}\u00a0m, if by nothing else.`,
  ]
}

/** The piece itself, where lifting strains it in ways it was not made for: a signed report, or it stays open. */
export function stressCheck(pick: Pick, criteria: readonly Criterion[]): Check | undefined {
  const strained = pick.lift.kind === 'turn' || pick.lift.facts.nonRoutineRigging === true || criteria[0]?.met === true
  if (!strained) return undefined
  const { stress } = pick.piece
  return check({
    kind: pieceStress,
    subject: pick.subject,
    demand: stressUse(pick),
    capacity: stated('1', 1, 'full use of the strength'),
    near: pick.near,
    found: [
      `${stress?.report} finds ${share(stress?.use?.value)} of its strength used: stiffen it, hold it at other points, and have the report done again`,
    ],
    assumptions: stress === undefined ? [] : [`${stress.report}, signed by ${stress.signedBy}.`],
  })
}

/** Use of the strength in this lift: a heavier piece than the report counts takes more of it, in proportion. */
function stressUse({ piece, pieceAt, set, state }: Pick): Answer<'1'> {
  const { stress } = piece
  const use = knownOr(stress?.use, '1', `${pieceAt}/stress/use`)
  const counted = knownOr(stress?.mass, 'kg', `${pieceAt}/stress/mass`)
  // a report on the piece as found may say nothing of its mass; of what comes back heavier it has to
  if (use.value === undefined || (stress?.mass === undefined && state !== 'returned')) return use
  const times =
    set.design.value === undefined || counted.value === undefined ? undefined : set.design.value / counted.value
  return found({
    unit: '1',
    value: times === undefined ? undefined : use.value * Math.max(1, times),
    method: 'use in the report, times the mass of this lift over the mass that the report counts where this is larger',
    inputs: { 'use in the report': use, 'mass in the report': counted, 'mass of this lift': set.design },
    residuals: [],
  })
}
