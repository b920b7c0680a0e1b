import type { Shaft } from '../model/index.ts'
import { type Answer, found, stated, sumOf, type Term } from '../working/answer.ts'
import { thicknessOf } from './base.formulas.ts'
import { NEAREST } from './charts.ts'
import type { OtherForm } from './forms.ts'
import type { GroundLoad } from './step.ts'
import { pointChart } from './surcharge.formulas.ts'
import type { WallRing } from './wall.ts'
import type { StepLoads, WallLoad } from './wallLoad.ts'

/**
 * What stands around the shaft at one step by the common chart for point loads, where the elastic form presses most. Each load as a
 * point at its middle, the wall as the plane that touches the ring there; open where one of them stands nearer than the chart goes.
 */
export function chartForm(shaft: Shaft, ring: WallRing, { step, loads }: StepLoads, wall: WallLoad): OtherForm {
  const { when, peak } = wall
  const H = thicknessOf.show({ top: shaft.collar, bottom: shaft.excavation })
  const standing = loads.filter((l) => l.kind !== 'machine' && l.when.includes(when))
  const terms = standing.flatMap((load): Term<'Pa'>[] => {
    const [x, y] = besideWall(load, ring, peak.bearing)
    const z = load.at[2] - peak.level
    if (x <= 0 || z <= 0) return []
    return [{ label: `${load.what}, ${load.id}`, answer: byChart(load, H, { x, y, z }) }]
  })
  return {
    of: 'ground.wall.surcharge',
    title: `Chart for point loads on a straight wall that does not yield (Terzaghi): ${step}, ${when}, at z ${peak.level.toFixed(1)} m`,
    answer: sumOf('pressure by the chart, where the elastic form presses most', 'Pa', terms),
  }
}

/** Distance of a load from the plane that touches the ring at a bearing, and along that plane, m. */
function besideWall({ at: [x, y] }: GroundLoad, ring: WallRing, bearing: number): readonly [number, number] {
  const [c, s] = [Math.cos(bearing), Math.sin(bearing)]
  return [x * c + y * s - (ring.outerRadius.value as number), Math.abs(y * c - x * s)]
}

function byChart({ force: Q }: GroundLoad, H: Answer<'m'>, at: { x: number; y: number; z: number }): Answer<'Pa'> {
  if (at.x < NEAREST * (H.value as number))
    return found({
      unit: 'Pa',
      value: undefined,
      method: `stands ${at.x.toFixed(1)} m from the wall, nearer than a tenth of its height: outside the chart`,
      inputs: { Q, H },
      residuals: [],
    })
  return pointChart.show({
    Q,
    H,
    x: stated('m', at.x, 'from the plane that touches the ring'),
    y: stated('m', at.y, 'along that plane'),
    z: stated('m', at.z, 'below where it reaches the ground'),
  })
}
