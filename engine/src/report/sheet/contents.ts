import type { Verdict } from '../../working/check.ts'
import { OPEN } from './figures.ts'
import type { LiftSheet } from './liftSheet.ts'
import type { SheetCheck } from './sheetChecks.ts'
import type { SheetSubject } from './subject.ts'

/** One thing that a plan for a lift is to hold: where it stands, or what is missing. */
export interface PlanItem {
  group: string
  what: string
  /** Where on this sheet, or what is to be attached. */
  where: string
  state: 'here' | 'open' | 'by hand'
}

/** Where the list comes from, and how that is known. */
export const CONTENTS_SOURCE =
  'after ASME P30.1 chapter 5 and DOE-STD-1090 for critical lifts (excerpts read), 29 CFR 1926.1417 to .1432 (from memory), in own words'

type Said = Pick<
  LiftSheet,
  | 'mass'
  | 'demand'
  | 'legs'
  | 'tailLegs'
  | 'wind'
  | 'day'
  | 'arranged'
  | 'checks'
  | 'refs'
  | 'duration'
  | 'turning'
  | 'pivot'
>

type Line = readonly [what: string, where: string, state: PlanItem['state']]

/** What public rules ask of a plan, each with where this sheet says it; what no model can say is left to be attached. */
export function contentsOf({ outcome, set, main }: SheetSubject, sheet: Said): PlanItem[] {
  const kinds = kindsIn(sheet.checks)
  const groups: readonly (readonly [string, readonly Line[]])[] = [
    ['Load', loadLines(sheet, kinds, set.cogMachine.length > 0)],
    ['Equipment', equipmentLines(sheet, kinds, main.hook.basis.configuration)],
    ['Rigging', riggingLines(sheet, kinds)],
    ['Movement', movementLines(sheet, kinds)],
    ['People and talk', peopleLines(sheet)],
    ['Site', siteLines(sheet, kinds, outcome.zone.margin.value !== undefined)],
    ['If it goes wrong', contingencyLines(sheet, kinds)],
    ['Before, during, after', reviewLines(sheet)],
  ]
  return groups.flatMap(([group, lines]) =>
    lines.map(([what, where, state]): PlanItem => ({ group, what, where, state })),
  )
}

type Kinds = (beginning: string) => { refs: string; verdict: Verdict | undefined }

/** Checks whose kind begins so: the numbers by which the sheet names them, and the worst verdict. */
const kindsIn =
  (checks: readonly SheetCheck[]): Kinds =>
  (beginning) => {
    const own = checks.filter((c) => c.id.startsWith(beginning))
    const first = own[0]
    return {
      refs:
        first === undefined
          ? ''
          : own.length === 1
            ? `[${first.number}]`
            : `[${first.number}] and ${own.length - 1} more`,
      verdict: own.find((c) => c.verdict === 'open')?.verdict ?? first?.verdict,
    }
  }

const here = (what: string, where: string, known = true): Line => [
  what,
  known ? where : `${where}: ${OPEN}`,
  known ? 'here' : 'open',
]

const byHand = (what: string, attach: string): Line => [what, attach, 'by hand']

function judged(what: string, where: string, { refs, verdict }: ReturnType<Kinds>): Line {
  if (verdict === undefined) return [what, `${where}: ${OPEN}, nothing to judge it by`, 'open']
  return [what, `${where} ${refs}${verdict === 'open' ? `: ${OPEN}` : ''}`, verdict === 'open' ? 'open' : 'here']
}

function loadLines({ mass }: Said, kinds: Kinds, hasCog: boolean): Line[] {
  return [
    here('mass, with how it is known', `${mass.basis}; table of the load`, mass.net.si !== undefined),
    here('centre of gravity and how far it may lie off', 'C and allowances', hasCog),
    judged('what could shift on it', 'checks', kinds('lift.piece.loose')),
    judged('strength of the lifting points', 'what carries the load', kinds('lift.lug.')),
    judged('the piece itself bears being lifted', 'checks', kinds('lift.piece.stress')),
    here('how it lies when released', 'last step and hold point'),
  ]
}

function equipmentLines({ demand }: Said, kinds: Kinds, configuration: string | undefined): Line[] {
  return [
    here('machine and its configuration', configuration ?? 'rating', configuration !== undefined),
    judged(
      `capacity against the load with all that hangs, ${demand.si === undefined ? OPEN : 'as summed'}`,
      'load on the hook',
      kinds('lift.hook.use'),
    ),
    judged('load test and inspection', 'checks', kinds('lift.system.')),
    judged('supports and ground under the machine', 'what carries the load', kinds('ground.')),
    byHand('how it is set up and taken down', 'instruction of its maker'),
  ]
}

function riggingLines({ legs, tailLegs }: Said, kinds: Kinds): Line[] {
  return [
    here(
      'sketch with lengths, tensions, angles',
      tailLegs.length === 0 ? 'C' : 'C, and G of the tail hook',
      legs.length > 0,
    ),
    judged('every item against its rating', 'what carries the load', kinds('lift.component.use')),
    judged('certificates, in date on the day stated or by the plan', 'checks', kinds('lift.stock.certificate')),
    ...(kinds('lift.gear.proof').verdict === undefined
      ? []
      : [judged('proof test of spreaders and frames', 'checks', kinds('lift.gear.proof'))]),
  ]
}

function movementLines({ turning, pivot, day }: Said, kinds: Kinds): Line[] {
  return [
    here('way of load and machine, stage by stage', 'the way in time', day.stages.length > 0),
    judged('clearances along it', 'A, B, D', kinds('lift.path.')),
    ...(turning.length === 0 && pivot === undefined ? [] : [here('turn, shares and critical angles', 'E')]),
  ]
}

function peopleLines({ arranged }: Said): Line[] {
  return [
    ...arranged.map(({ text, what }): Line => [text, what, what === OPEN ? 'open' : 'here']),
    byHand('operator, rigger, signaller: qualified, and fit on the day', 'names and records'),
    byHand('means of signal, channel, language; what is done when it is lost', 'channel and hand signals agreed'),
  ]
}

function siteLines({ wind }: Said, kinds: Kinds, zoned: boolean): Line[] {
  return [
    here('weather: gust that stops it, and where it is read', 'wind', wind.limit.si !== undefined),
    judged('live lines near the way', 'checks', kinds('lift.path.live-line')),
    here('zone that is closed, on the ground and on the shaft floor', 'B', zoned),
    byHand('voids and services under the supports', 'survey of the site'),
    byHand('traffic, neighbours and the public', 'plan of routes and guards'),
  ]
}

function contingencyLines({ day }: Said, kinds: Kinds): Line[] {
  return [
    judged('failure of power, hoist or machine', 'the way in time', kinds('lift.failure.holds')),
    judged('weather that turns', 'point of no return', kinds('lift.time.shelter')),
    here('load not as planned', 'band of the reading, steps', day.stages.length > 0),
    here('site not as planned: stop, plan anew', 'go or stop, last line'),
    byHand('emergency: rescue from shaft, height and machine; first aid; who is called', 'rescue plan'),
  ]
}

function reviewLines({ duration }: Said): Line[] {
  return [
    here('go or stop immediately before', 'list on this sheet'),
    here('hold points, each with what it waits for', 'steps', duration.si !== undefined),
    here('who signs', 'signatures; a change in the field goes the same way'),
    byHand('record: readings, deviations, what was learnt', 'written after it'),
  ]
}
