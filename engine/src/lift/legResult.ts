import { apply, type Mat3, place, rotationBy, subtract, type Vec3 } from '../numeric/vector.ts'
import { turnOnto } from './hull.ts'
import type { LegResult } from './lift.ts'
import type { LegAnswer, Suspension } from './suspension.ts'

/** A leg for the sheet, with its ends as the piece hangs. */
export function legResult(answer: LegAnswer, index: number, suspension: Suspension): LegResult {
  const { leg, tension, worst, angle, slack } = answer
  const link = suspension.links.find((l) => l.leg === leg.id)
  const ends = legEnds(index, suspension)
  return {
    id: leg.id,
    tension,
    worst,
    angle,
    slack,
    item: leg.itemId,
    ...(link === undefined ? {} : { link: { item: link.item, setting: link.setting } }),
    to: leg.above ? (leg.node ?? '') : (leg.lower?.id ?? ''),
    ...(leg.above || leg.node === undefined ? {} : { from: leg.node }),
    ...(ends === undefined ? {} : { ends }),
  }
}

/** Lower and upper end of a leg as the piece hangs, from the hook, site axes, m. */
export function legEnds(index: number, { hang, load, ends }: Suspension): readonly [Vec3, Vec3] | undefined {
  if (ends !== undefined) return ends[index]
  if (hang === undefined || load === undefined) return undefined
  const { pose, up } = hang
  const level: Mat3 = rotationBy(turnOnto(up, [0, 0, 1]))
  const fromHook = (p: Vec3): Vec3 => apply(level, subtract(p, pose.hook))
  const leg = load.legs[index]
  if (leg !== undefined) {
    const upper = leg.from === undefined ? pose.hook : place(pose.spreader, leg.from)
    return [fromHook(leg.to), fromHook(upper)]
  }
  const top = load.spreader?.top[index - load.legs.length]
  return top === undefined ? undefined : [fromHook(place(pose.spreader, top.to)), fromHook(pose.hook)]
}
