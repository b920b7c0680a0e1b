import type { LiftResult } from '../lift/index.ts'
import type { Climate, Lift, Model } from '../model/index.ts'
import { mixed, uniformAt } from '../numeric/random.ts'
import { normalQuantile } from '../numeric/statistics.ts'
import { offsetAt, type Zone } from '../programme/index.ts'
import { type Answer, given, knownOr, stated } from '../working/answer.ts'
import { pointerOf } from '../working/pointer.ts'
import { meanLimit, shareBelow } from './wind.formulas.ts'

const HOURS = 24
const MONTHS = 12

/** Hourly mean at the mast above which a lift does not start or go on. */
export function stoppingMean({ project }: Model, lifts: LiftResult['lifts'], id: string): Answer<'m/s'> {
  const { climate } = project
  const lift = project.lifts[id]
  if (climate === undefined || lift === undefined) return given('m/s', '/climate', undefined)
  return meanLimit.show({
    g: knownOr(lifts[id]?.allowableWind, 'm/s', pointerOf('lifts', id)),
    G: knownOr(climate.gustFactor, '1', '/climate/gustFactor'),
    z: hookHeight(project, lift),
    h: climate.height,
    z0: knownOr(climate.roughness, 'm', '/climate/roughness'),
  })
}

/** Highest hook position above the ground; the height of the mast where it is higher. */
function hookHeight({ systems, shaft, ground, climate }: Model['project'], { system, hook }: Lift): Answer<'m'> {
  const at = pointerOf('systems', system, 'hooks', hook, 'highest')
  const highest = systems[system]?.hooks[hook]?.highest
  const floor = shaft?.collar ?? ground?.surface
  if (highest?.value === undefined) return given('m', at, undefined)
  return stated(
    'm',
    Math.max(climate?.height.value ?? 0, highest.value - (floor?.value ?? 0)),
    `${at} above the collar`,
  )
}

/** Speed at an hour of the day over the day's mean: half cosines from the calmest hour up to the windiest and down again. */
export function diurnalFactor({ diurnal }: Pick<Climate, 'diurnal'>, hour: number): number {
  if (diurnal === undefined) return 1
  const { calmest, windiest, amplitude } = diurnal
  const rise = (windiest - calmest + HOURS) % HOURS
  const past = (hour - calmest + HOURS) % HOURS
  const phase = past <= rise ? past / Math.max(1, rise) : 1 - (past - rise) / (HOURS - rise)
  return 1 - (amplitude.value as number) * Math.cos(Math.PI * phase)
}

/**
 * Levels of a standard normal that stand for a wind limit, by month and hour of the day (month × 24 + hour): the wind is
 * below the limit while the level is below.
 */
export function levelsOf(climate: Climate, limit: number): Float64Array {
  const levels = new Float64Array(MONTHS * HOURS)
  for (const [m, { scale, shape }] of climate.months.entries()) {
    for (let hour = 0; hour < HOURS; hour++) {
      const v = limit / diurnalFactor(climate, hour)
      const share = shareBelow.value({ v, c: scale.value as number, k: shape.value as number })
      levels[m * HOURS + hour] =
        share >= 1 ? Number.POSITIVE_INFINITY : share <= 0 ? Number.NEGATIVE_INFINITY : normalQuantile(share)
    }
  }
  return levels
}

/** For each elapsed hour its place in the levels: month × 24 + hour of the local day. */
export function hourPlaces(zone: Zone, hours: number): Uint16Array {
  const places = new Uint16Array(hours)
  for (let day = 0; day * HOURS < hours; day++) {
    const second = day * HOURS * 3600
    const local = second + offsetAt(zone, second)
    // a day's month is that of its first hour; clocks that change within it shift an hour, not a month
    const month = new Date((zone.firstDay * HOURS * 3600 + local) * 1000).getUTCMonth()
    const hour = Math.floor(local / 3600) % HOURS
    for (let h = 0; h < HOURS && day * HOURS + h < hours; h++) {
      places[day * HOURS + h] = month * HOURS + ((hour + h) % HOURS)
    }
  }
  return places
}

/** Wind of one run as a standard normal level by the hour. */
export interface WindSeries {
  /** Begins another run. */
  begin(run: number): void
  level(hour: number): number
}

/**
 * Level by the hour with the hour-to-hour correlation ρ of the climate. The hours of a coarse grid, so wide that ρ to its step
 * is below 0.5 %, have levels of their own; between two hours a and b of which h is the middle, s from each,
 * z(h) = (z(a) + z(b)) ρˢ/(1 + ρ²ˢ) + e(h) √((1 − ρ²ˢ)/(1 + ρ²ˢ)): the exact law of a first-order process between two known
 * levels (derived). The noise e belongs to seed, run and hour, so the wind of an hour is the same whatever a plan asks of it,
 * what-ifs meet the same weather, and only hours that are asked for are drawn.
 */
export function windSeries(seed: number, rho: number, hours: number): WindSeries {
  const coarse = coarseStep(rho)
  const size = Math.ceil(hours / coarse + 2) * coarse
  const levels = new Float64Array(size)
  const drawn = new Int32Array(size).fill(-1)
  const weight = new Float64Array(coarse + 1)
  const spread = new Float64Array(coarse + 1)
  for (let s = 1; s < coarse; s *= 2) {
    const far = rho ** (2 * s)
    weight[s] = rho ** s / (1 + far)
    spread[s] = Math.sqrt((1 - far) / (1 + far))
  }
  let [current, key] = [-1, 0]
  const levelAt = (hour: number): number => {
    if (drawn[hour] === current) return levels[hour] as number
    let z = normalQuantile(uniformAt(key, hour))
    if (hour % coarse !== 0) {
      // the largest power of two in the hour: how far the hours are between which it is the middle
      const s = hour & -hour
      z = (weight[s] as number) * (levelAt(hour - s) + levelAt(hour + s)) + (spread[s] as number) * z
    }
    levels[hour] = z
    drawn[hour] = current
    return z
  }
  return {
    begin(run) {
      current = run
      key = mixed(mixed(seed ^ 0x5bd1e995) + run)
    },
    level: levelAt,
  }
}

const NO_LONGER_TOGETHER = 0.005
const WIDEST = 4096

/** Least power of two, in hours, over which the wind forgets. */
function coarseStep(rho: number): number {
  let step = 1
  while (step < WIDEST && rho ** step > NO_LONGER_TOGETHER) step *= 2
  return step
}
