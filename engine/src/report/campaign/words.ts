import { showNumber, shownScale, showQuantity, type UnitSystem } from '../../working/quantity.ts'
import { civilDay, dayText } from '../civil.ts'
import { lengthScale, lengthUnit } from '../sheet/figures.ts'
import type { BayWork } from './bayWork.ts'
import type { Campaign } from './campaign.ts'
import type { LiftDay, LiftRun } from './liftDays.ts'
import type { Supply } from './supply.ts'
import { spareText } from './supplyMarks.ts'
import type { Track } from './trackOf.ts'

const WEEKDAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun']

/** "Thu 9 Dec 2032". */
export function dateWords(origin: string, seconds: number, withYear = true): string {
  return `${weekdayText(origin, seconds)} ${dayText(origin, seconds, withYear)}`
}

/** Day of the week from the civil date (Zeller's congruence, from memory; held against the platform's calendar in a test). */
export function weekdayText(origin: string, seconds: number): string {
  const { year, month, day } = civilDay(origin, seconds)
  const [m, y] = month < 3 ? [month + 12, year - 1] : [month, year]
  const h =
    (day + Math.floor((13 * (m + 1)) / 5) + y + Math.floor(y / 4) - Math.floor(y / 100) + Math.floor(y / 400)) % 7
  return WEEKDAYS[(h + 5) % 7] as string
}

export const massText = (mass: number | undefined, units: UnitSystem): string =>
  mass === undefined ? 'mass open' : showQuantity(mass, 'kg', units)

/** "53.1 of 660 t": the limit as it is written, without a decimal that says nothing. */
export function hookText(run: Pick<LiftRun, 'demand' | 'allowed'>, units: UnitSystem): string {
  if (run.demand === undefined || run.allowed === undefined) return 'hook load open'
  const { factor, label, decimals } = shownScale(run.allowed, 'kg', units)
  const allowed = showNumber(run.allowed / factor, decimals).replace(/\.0+$/, '')
  return `${showNumber(run.demand / factor, decimals)} of ${allowed} ${label}`
}

/** A length in whole metres or feet. */
export function wholeLength(length: number, units: UnitSystem): string {
  return `${showNumber(length / lengthScale(units), 0)} ${lengthUnit(units)}`
}

export const useText = (use: number | undefined): string => (use === undefined ? 'use open' : `use ${use.toFixed(3)}`)

/** The whole way of a piece as a sentence. */
export function trackWords(track: Track, campaign: Campaign, units: UnitSystem): string {
  const { origin, tracks } = campaign
  const off = track.off === undefined ? 'out of the shaft' : `off ${tracks.find((t) => t.piece === track.off)?.name}`
  const slips = slipsText(track, campaign)
  const out = `${track.name}: ${off} ${dateWords(origin, track.out)}${slips.out} to bay ${track.bay}, ${massText(track.mass, units)} ${track.basis}`
  const hook = `${hookText(track, units)} at the hook, ${useText(track.use)}${track.wind === undefined ? '' : `, stops at gusts of ${showQuantity(track.wind, 'm/s', units)}`}`
  const turns = track.events.filter((e) => e.kind === 'turn').map((e) => `turned ${dayText(origin, e.at)}`)
  const back =
    track.back === undefined
      ? 'does not come back'
      : `back ${dateWords(origin, track.back)}${slips.back}${heavierText(track, units)}${track.useBack === undefined ? '' : `, ${useText(track.useBack)}`}`
  return `${[out, hook, ...turns, back].join('; ')}.`
}

/** How many days later or sooner than agreed it goes out, and comes back; half a day or less is none. */
export function slipsText({ step, out, back }: Track, { agreed }: Campaign): { out: string; back: string } {
  const told = (now: number | undefined, was: number | undefined): string => {
    const days = now === undefined || was === undefined ? 0 : Math.round((now - was) / 86_400)
    return days === 0 ? '' : `, ${Math.abs(days)} d ${days > 0 ? 'later' : 'sooner'} than agreed`
  }
  return {
    out: told(out, agreed?.activities[`${step}.out`]?.finish),
    back: told(back, agreed?.activities[`${step}.back`]?.start),
  }
}

/** What it returns heavier or lighter by, kg; less than half a part in a hundred counts as nothing. */
export function moreOf({ mass, massBack }: Track): number {
  const more = mass === undefined || massBack === undefined ? 0 : massBack - mass
  return Math.abs(more) < 0.005 * (mass ?? 0) ? 0 : more
}

function heavierText(track: Track, units: UnitSystem): string {
  const more = moreOf(track)
  if (more === 0) return ''
  return `, ${massText(Math.abs(more), units)} ${more > 0 ? 'heavier' : 'lighter'}`
}

export function workWords(work: BayWork, { origin }: Campaign): string {
  const days = `${dateWords(origin, work.start, false)} to ${dateWords(origin, work.finish)}`
  const float = work.driving ? 'drives the restart' : `${(work.float / 86_400).toFixed(1)} d float`
  return `${work.name}: ${days} on ${work.where}${work.needs === '' ? '' : `, needs ${work.needs}`}; ${float}.`
}

export function supplyWords(supply: Supply, { origin }: Campaign): string {
  const need =
    supply.needed === undefined ? '' : `, needed ${dateWords(origin, supply.needed)}: ${spareText(supply).words}`
  return `${supply.what}: ordered ${dateWords(origin, supply.ordered)}, on site ${dateWords(origin, supply.arrives)}${need}.`
}

export function dayWords({ runs, day }: LiftDay, { origin }: Campaign, units: UnitSystem): string {
  const lifts = runs.map((r) => `${r.name}, ${KIND_WORDS[r.kind]}, ${hookText(r, units)}, ${useText(r.use)}`)
  return `${dateWords(origin, day * 86_400)}: ${lifts.join('; ')}.`
}

export const KIND_WORDS: Readonly<Record<LiftRun['kind'], string>> = {
  out: 'out',
  back: 'back in',
  turn: 'turned',
  move: 'moved',
}
