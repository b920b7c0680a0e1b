import { applyBack, multiply, rotationAbout, scale, subtract, unit, type Vec3 } from '../numeric/vector.ts'
import { legEnds } from './legResult.ts'
import type { TurnStage } from './lift.ts'
import type { Attitude, LoadedLeg, LoadedRig } from './loadedRig.ts'
import { foundPose } from './path.ts'
import type { Pick } from './pick.ts'
import type { LegAnswer, Suspension } from './suspension.ts'

/** A leg as it hangs: its direction in the machine frame, the tilt by plan left out. */
export function hangingAttitude(answer: LegAnswer, suspension: Suspension): Attitude[] {
  const ends = legEnds(suspension.legs.indexOf(answer), suspension)
  if (ends === undefined) return []
  return [{ label: 'as it hangs', up: applyBack(suspension.rig.turn, unit(subtract(ends[1], ends[0]))), share: 1 }]
}

/**
 * A rig with its directions over a turn beside those of the hang: lines plumb in the plane of the turn, each leg as far out
 * of that plane as it hangs, and of its tension the hook's share at the stage over the largest that the hook has.
 */
export function overTheTurn(
  pick: Pick,
  rig: LoadedRig,
  stages: readonly TurnStage[],
  hook: 'main' | 'tail',
): LoadedRig {
  const shares = stages.map((stage) => stage[hook].value ?? 0)
  const most = Math.max(...shares, rig.load.value ?? 0)
  return {
    ...rig,
    legs: rig.legs.map((loaded) => ({
      ...loaded,
      attitudes: [
        ...(loaded.attitudes ?? []),
        ...stages.map((stage, i) => atStage(pick, rig, loaded, stage, most > 0 ? (shares[i] as number) / most : 1)),
      ],
    })),
  }
}

function atStage(pick: Pick, rig: LoadedRig, loaded: LoadedLeg, { angle, held }: TurnStage, share: number): Attitude {
  const lies = foundPose(pick)?.turn ?? rotationAbout('y', 0)
  const turn = multiply(rotationAbout('y', angle), lies)
  const across = acrossOf(pick, rig, loaded)
  const up: Vec3 = [0, across, Math.sqrt(1 - across * across)]
  const degrees = Math.round((angle * 180) / Math.PI)
  return { label: `turned ${degrees}°`, up: applyBack(turn, up), share: held ? share : 1 }
}

/** How far a leg leans across the turn, as a sine: as it hangs, or towards the middle of its points where it hangs nowhere. */
function acrossOf(pick: Pick, { legs }: LoadedRig, { leg, attitudes }: LoadedLeg): number {
  const lies = foundPose(pick)?.turn ?? rotationAbout('y', 0)
  const hung = attitudes?.[0]
  if (hung !== undefined) return lies[1].reduce((sum, k, i) => sum + k * (hung.up[i] as number), 0)
  const [at, length] = [leg.lower?.at[1], leg.length.value]
  if (leg.node !== undefined || at === undefined || length === undefined) return 0
  const all = legs.flatMap((l) => (l.leg.lower === undefined ? [] : [l.leg.lower.at[1]]))
  const middle = all.reduce((sum, y) => sum + y, 0) / all.length
  return Math.max(-1, Math.min(1, (middle - at) / length))
}

/** A direction of three plain numbers as a unit; undefined where it is missing or has no length. */
export function unitOf(direction: readonly { value: number | undefined }[] | undefined): Vec3 | undefined {
  if (direction === undefined) return undefined
  const [x = 0, y = 0, z = 0] = direction.map((k) => k.value ?? 0)
  const length = Math.hypot(x, y, z)
  return length > 0 ? scale([x, y, z], 1 / length) : undefined
}
