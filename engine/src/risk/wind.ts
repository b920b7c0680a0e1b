import type { LiftResult } from '../lift/index.ts'
import type { Climate, Lift, Model } from '../model/index.ts'
import { mixed, uniformAt } from '../numeric/random.ts'
import { normalQuantile } from '../numeric/statistics.ts'
import { localAt, type Zone } from '../programme/index.ts'
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
    const { hour, month } = localAt(zone, day * HOURS * 3600)
    for (let h = 0; h < HOURS && day * HOURS + h < hours; h++) {
      // a day's month is that of its first hour; clocks that change within it shift an hour, not a month
      places[day * HOURS + h] = (month - 1) * HOURS + ((hour + h) % HOURS)
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

const BLOCK = 128

/**
 * Level by the hour with the hour-to-hour correlation of the climate: z(t) = ρ z(t−1) + √(1−ρ²) e(t), where e belongs to seed,
 * run and hour. So the wind of an hour is the same whatever a plan asks of it, and what-ifs meet the same weather. Blocks of
 * 128 hours start from a run-up long enough that ρ to its power is below 0.5 %.
 */
export function windSeries(seed: number, rho: number, hours: number): WindSeries {
  const kick = Math.sqrt(1 - rho * rho)
  const runUp = rho <= 0 ? 0 : Math.min(1000, Math.ceil(Math.log(0.005) / Math.log(rho)))
  const levels = new Float64Array(Math.ceil(hours / BLOCK + 1) * BLOCK)
  const drawn = new Int32Array(levels.length / BLOCK).fill(-1)
  let [current, key] = [-1, 0]
  const noise = (hour: number): number => normalQuantile(uniformAt(key, hour + runUp))
  const draw = (block: number): void => {
    const first = block * BLOCK
    let z = noise(first - runUp)
    for (let h = first - runUp + 1; h < first + BLOCK; h++) {
      z = rho * z + kick * noise(h)
      if (h >= first) levels[h] = z
    }
    if (runUp === 0) levels[first] = noise(first)
    drawn[block] = current
  }
  return {
    begin(run) {
      current = run
      key = mixed(mixed(seed ^ 0x5bd1e995) + run)
    },
    level(hour) {
      const block = Math.floor(hour / BLOCK)
      if (drawn[block] !== current) draw(block)
      return levels[hour] as number
    },
  }
}
