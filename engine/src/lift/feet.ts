import { type Answer, largestOf, leastOf, stated, sumOf, type Term } from '../working/answer.ts'
import { type CraneFeet, largestFloat, largestTrack } from './crane.ts'
import { riggingLines } from './hook.ts'
import { blockOf } from './machines.ts'
import { radiusOf } from './passed.ts'
import { hookPlaces } from './path.ts'
import type { Hooked, Pick } from './pick.ts'
import { isCrane } from './swept.ts'
import { hookPositions, largestLeg, legReactions, type TowerCase } from './tower.ts'

/** One foot of a lifting machine in one lift: a leg, or the worst of the floats or tracks. */
export interface Foot {
  label: string
  /** At rest with the load at its planned places; of a crane over the whole slew. */
  least?: Answer<'N'>
  largest: Answer<'N'>
}

/** Loads at the feet of the machine, where they end in this stage. */
export interface Feet {
  feet: readonly Foot[]
  /** Of a tower: any leg, the hook anywhere in its travel, with travel and wind in service. */
  anywhere?: Answer<'N'>
}

/** Everything that a machine carries below its head: hook load, blocks, and what hangs the piece from a tail hook. */
export function underHead(pick: Pick, load: Answer<'kg'>): Answer<'kg'> {
  const { main, tail } = pick
  return sumOf('under the head', 'kg', [
    { label: 'hook load', answer: load },
    blockOf(main),
    ...(tail === undefined ? [] : [blockOf(tail), ...riggingLines(pick, tail).filter(notCounted(pick))]),
  ])
}

/** Gear that both hooks name hangs once. */
function notCounted(pick: Pick): (line: Term<'kg'>) => boolean {
  const counted = new Set(riggingLines(pick, pick.main).map((line) => line.label))
  const gear = new Set(Object.entries(pick.gear).map(([id, { name }]) => name ?? id))
  return ({ label }) => !(gear.has(label) && counted.has(label))
}

/** A crane in this lift, on its tracks or floats; undefined where the machine is no crane with feet. */
export function craneFeet(pick: Pick, hooked: Hooked, load: Answer<'kg'>): CraneFeet | undefined {
  const { system, systemId } = hooked
  if (!isCrane(system)) return undefined
  if (system.tracks === undefined && system.outriggers === undefined) return undefined
  return { id: systemId, system, load, radius: radiusOf(pick, hooked) }
}

/** A tower or gantry on its legs; undefined where the file gives it none. */
export const towerCase = ({ settings, climate, shaft }: Pick, { system, systemId }: Hooked): TowerCase | undefined =>
  Object.keys(system.legs).length === 0 ? undefined : { id: systemId, system, settings, climate, collar: shaft?.collar }

/** What each foot of a machine bears in this lift; undefined for a machine without feet in the file. */
export function feetOf(pick: Pick, hooked: Hooked, load: Answer<'kg'>): Feet | undefined {
  const tower = towerCase(pick, hooked)
  if (tower !== undefined)
    return { feet: legFeet(pick, hooked, tower, load), anywhere: largestLeg(tower, hooked.id, load) }
  const crane = craneFeet(pick, hooked, load)
  if (crane === undefined) return undefined
  const { tracks, outriggers } = crane.system
  if (tracks !== undefined) return { feet: [{ label: 'nearer track', largest: largestTrack(crane, tracks) }] }
  return outriggers === undefined
    ? undefined
    : { feet: [{ label: 'worst float', largest: largestFloat(crane, outriggers) }] }
}

/** Each leg at rest while the hook stands over the piece after each of its moves, and over its bay. */
function legFeet(pick: Pick, hooked: Hooked, tower: TowerCase, load: Answer<'kg'>): Foot[] {
  const places = plannedHook(pick, hooked)
  const byPlace = places.map(({ label, answer }) => ({
    label,
    legs: legReactions(tower.id, tower.system, load, answer),
  }))
  return Object.keys(tower.system.legs).map((leg) => {
    const terms = byPlace.flatMap(({ label, legs }) =>
      legs.filter((l) => l.leg === leg).map((l): Term<'N'> => ({ label, answer: l.vertical })),
    )
    return {
      label: leg,
      least: leastOf(`Leg ${leg}, planned places`, 'N', terms),
      largest: largestOf(`Leg ${leg}, planned places`, 'N', terms),
    }
  })
}

/** Site x of the hook at its planned places; the ends of its travel where nothing is planned, as of a second machine. */
function plannedHook(pick: Pick, hooked: Hooked): Term<'m'>[] {
  const ends = hookPositions(hooked.systemId, hooked.system, hooked.id).map((answer) => ({
    label: 'at an end of its travel',
    answer,
  }))
  if (hooked.systemId !== pick.main.systemId) return ends
  const places = hookPlaces(pick).map(
    ({ label, at }): Term<'m'> => ({ label, answer: stated('m', at[0], `hook over the piece ${label}, site x`) }),
  )
  const bay = pick.bay === undefined ? [] : [{ label: 'over the bay', answer: pick.bay.centre[0] }]
  return places.length + bay.length > 0 ? [...places, ...bay] : ends
}
