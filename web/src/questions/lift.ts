import { showNumber } from '@shieldwright/engine/working/quantity.ts'
import type { CheckView, LiftView } from '../engine/protocol.ts'
import { dateText, degrees, hoursText, textOfUse } from '../parts/figures.ts'
import { routeTo } from '../state.ts'
import { checksOf, counted, type Facts, liftAsked, text, toCome, turnAsked, worst } from './facts.ts'
import type { Place } from './questions.ts'

const NONE = 'No lift is planned yet.'

/** Place on the page of the lift that is asked about. */
export const place =
  (under: string) =>
  (facts: Facts): Place =>
    placeOn(liftAsked(facts), under)

export const turnPlace = (facts: Facts): Place => placeOn(turnAsked(facts), 'Turning: share on each hook')

export const nextPlace =
  (under: string) =>
  (facts: Facts): Place =>
    placeOn(next(facts)?.lift, under)

const placeOn = (lift: LiftView | undefined, under: string): Place =>
  lift === undefined ? { href: routeTo('lift') } : { href: routeTo('lift', lift.id), under }

/** The next lift of the plan, and when it begins. */
function next({ summary }: Facts): { lift: LiftView; at: number } | undefined {
  const activity = toCome(summary).find((a) => summary.lifts.some((l) => l.id === a.lift))
  const lift = summary.lifts.find((l) => l.id === activity?.lift)
  return lift === undefined || activity === undefined ? undefined : { lift, at: activity.start }
}

const nameOf = ({ name, kind }: LiftView): string => `${name}, ${kind}`

export function onHook(facts: Facts): string {
  const lift = liftAsked(facts)
  if (lift === undefined) return NONE
  const [net] = lift.chain
  const of = `${text(lift.hookLoad, 'kg', facts.system)} of ${text(lift.rated, 'kg', facts.system)}`
  return `${nameOf(lift)}: ${of}${net === undefined ? '' : `; net ${text(net.value, 'kg', facts.system)}${net.basis === undefined ? '' : `, ${net.basis}`}`}; every line with its basis here.`
}

export function nearest(facts: Facts): string {
  const lift = liftAsked(facts)
  if (lift === undefined) return NONE
  const gap = lift.clearance
  const tight = worst(checksOf(facts.summary, 'lift.path.clearance').filter((c) => c.pointer === `/lifts/${lift.id}`))
  const least = gap === undefined ? 'the gap is open' : `least gap ${text(gap.gap, 'm', facts.system)} to ${gap.to}`
  return `${nameOf(lift)}: ${least}, tilt ${degrees(lift.tilt)}${tight === undefined ? '' : `; tightest check uses ${textOfUse(tight.utilisation)}`}.`
}

const CARRIES = [
  'component.use',
  'leg.tension',
  'hook.use',
  'lug.',
  'beam.',
  'bolts.',
  'shackle.',
  'units.use',
  'units.strand',
  'units.lost',
  'tower.leg',
]

export function governs(facts: Facts): string {
  const lift = liftAsked(facts)
  if (lift === undefined) return NONE
  const carries = (c: CheckView): boolean => CARRIES.some((k) => c.kind.startsWith(`lift.${k}`))
  const most = worst(facts.summary.checks.filter((c) => c.pointer === `/lifts/${lift.id}` && carries(c)))
  return most === undefined
    ? `${nameOf(lift)}: nothing that carries is known.`
    : `${nameOf(lift)}: ${most.title}, used ${textOfUse(most.utilisation)}.`
}

export const wind = (facts: Facts): string => windOf(facts, liftAsked(facts))

export function nextWind(facts: Facts): string {
  const coming = next(facts)
  return coming === undefined ? NONE : `${dateText(coming.at)}. ${windOf(facts, coming.lift)}`
}

function windOf({ summary, system }: Facts, lift: LiftView | undefined): string {
  if (lift === undefined) return NONE
  const window = checksOf(summary, 'risk.wind.window').find((c) => c.id.includes(`/${lift.id}/`))
  const chance =
    window?.capacity === undefined
      ? 'how likely that is, is open'
      : `a window on ${showNumber(100 * window.capacity, 0)} % of working days of its month`
  return `${nameOf(lift)}: stops at a gust of ${text(lift.wind, 'm/s', system)}; ${chance}.`
}

const ASKED = (37 * Math.PI) / 180

export function shares(facts: Facts): string {
  const lift = turnAsked(facts)
  const stage = lift?.turning.reduce((a, b) => (Math.abs(b.angle - ASKED) < Math.abs(a.angle - ASKED) ? b : a))
  if (lift === undefined || stage === undefined) return 'No piece is turned on two hooks.'
  const pull = (newton: number | undefined): string => text(newton, 'N', facts.system)
  return `${nameOf(lift)}, nearest stage ${degrees(stage.angle)}: main ${pull(stage.main)}, tail ${pull(stage.tail)}; its cursor reads any angle.`
}

export function weighed({ summary }: Facts): string {
  const checks = checksOf(summary, 'mass.weighed.band', 'mass.weighed.normalised')
  if (checks.length === 0) return 'Nothing has been weighed yet; a reading typed here says at once what it moves.'
  const out = checks.filter((c) => c.verdict === 'fail')
  const said =
    out.length === 0 ? 'every reading lies in its band' : `${counted(out.length, 'reading')} outside its band`
  return `${said}; a reading typed here says at once which lifts change their verdict.`
}

/** Lifts whose hook would be above what the plan may use, were all that hangs heavier by a share. */
export function heavier({ summary }: Facts, share: number): string {
  const over = checksOf(summary, 'lift.hook.use').filter(
    (c) => (c.utilisation ?? 0) <= 1 && (c.utilisation ?? 0) * (1 + share) > 1,
  )
  const names = [...new Set(over.map((c) => c.subjectName))]
  if (names.length === 0) return 'By the hook loads alone, none; try it to see everything that moves.'
  const few = names.slice(0, 3).join('; ')
  return `By the hook loads alone, about ${counted(new Set(over.map((c) => c.pointer)).size, 'lift')}: ${few}${names.length > 3 ? ' …' : ''}. Try it to see everything that moves, and the date.`
}

export function clear(facts: Facts): string {
  const coming = next(facts)
  if (coming === undefined) return NONE
  const { lift, at } = coming
  const closed = checksOf(facts.summary, 'programme.floor.empty', 'programme.zone.closed').filter((c) =>
    c.id.includes(`/${lift.id}/`),
  )
  const bad = closed.filter((c) => c.verdict !== 'pass')
  return `${nameOf(lift)}, from ${dateText(at)} ${new Date(at).toISOString().slice(11, 16)} UTC for ${hoursText(lift.duration)}: nobody on the shaft floor or in the zone under the load; ${bad.length === 0 ? 'the plan keeps both empty' : `the plan does not keep it: ${bad[0]?.title}`}.`
}

export function arranged(facts: Facts): string {
  const lift = liftAsked(facts)
  if (lift === undefined) return NONE
  const check = checksOf(facts.summary, 'lift.class.arranged').find((c) => c.pointer === `/lifts/${lift.id}`)
  const missing = check?.reasons ?? []
  return `${nameOf(lift)}: ${check?.verdict === 'pass' ? 'everything its class demands is arranged' : `not yet arranged${missing.length > 0 ? `: ${missing[0]}` : ''}`}.`
}

export function failures({ summary }: Facts): string {
  const checks = checksOf(summary, 'lift.failure.holds')
  if (checks.length === 0) return NONE
  const holds = checks.filter((c) => c.verdict === 'pass').length
  return `The load stays up in ${holds} of ${counted(checks.length, 'lift')} when power, a jack or a winch fails, and the time to safety is known; here for one of them, stage by stage.`
}
